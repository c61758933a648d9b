/**
 * Every code is provoked: the smallest input or command that brings it up, run by the built program, which
 * then reports that code and nothing else.
 */
import { describe, expect, it } from 'vitest';
import { CODES } from '../../src/cli/codes.ts';
import type { Diagnostic } from '../../src/score/diagnostic.ts';
import { refused } from '../support/musicxml.ts';
import { FILES } from './provoked/files.ts';
import { LESSONS } from './provoked/lessons.ts';
import { MUSIC } from './provoked/music.ts';
import type { Provocation, Provocations } from './provoked/provocation.ts';
import { RULES } from './provoked/rules.ts';
import { RUNS } from './provoked/runs.ts';
import { type Terminal, terminal } from './terminal.ts';

const PROVOCATIONS: Provocations = { ...FILES, ...MUSIC, ...RULES, ...LESSONS, ...RUNS };

it('every code of the table is provoked, and no other', () => {
  expect(Object.keys(PROVOCATIONS).sort()).toEqual(CODES.map(each => each.code));
});

const inFolder = ({ files = {} }: Provocation): Terminal => {
  const here = terminal();
  for (const [name, content] of Object.entries(files)) here.write(name, content);
  return here;
};

/** The line of a file that a diagnostic names. */
const lineOf = (here: Terminal, { place }: Diagnostic): string | undefined =>
  place?.line === undefined ? undefined : here.read(place.file!).split('\n')[place.line - 1];

describe.each(CODES)('$code', ({ code, severity }) => {
  it('is reported alone, where it is', async () => {
    const provocation = PROVOCATIONS[code]!;
    if ('call' in provocation) {
      expect(refused(provocation.call)).toMatchObject([{ code, severity }]);
      return;
    }
    const here = inFolder(provocation);
    const { line, env, at, on, status = severity === 'error' ? 1 : 0 } = provocation;
    const answer = await here.run(`${line} --json-errors`, env && { env });
    expect(answer.stderr.trim()).not.toBe('');
    const said = answer.stderr
      .trim()
      .split('\n')
      .map(each => JSON.parse(each) as Diagnostic);
    expect(said.map(each => each.code)).toEqual([code]);
    const [only] = said as [Diagnostic];
    const { line: _, ...place } = only.place ?? {};
    expect({ severity: only.severity, status: answer.status, place }).toEqual({
      severity,
      status,
      place: at ?? {},
    });
    expect(lineOf(here, only)?.slice(0, on?.length)).toBe(on);
  });
});
