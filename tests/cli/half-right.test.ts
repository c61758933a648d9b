/** Half-right command lines, as they are typed in haste: each says what is wrong, in which file, and the way out. */
import { existsSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { GRACE, ROW, terminal } from './terminal.ts';

const TENOR = (strings: string): string =>
  `{ "id": "tenor", "name": "Tenor", "strings": ${strings}, "frets": 18, "scaleLength": 431.8 }`;

it.each([
  [`arrange ${ROW}`, 1, 'there is no such file or folder', `is ${ROW}.musicxml meant?`],
  [`-f 4-8 arrange ${ROW}.musicxml`, 2, 'there is no option -f here', 'options stand after a command'],
  ['help arange', 2, 'there is no command "arange"', 'is arrange meant?'],
  ['schema', 2, 'no document is named', 'use one of lesson, arrangement'],
  ['completion', 2, 'no shell is named', 'use one of bash, zsh, fish'],
  ['chords am7', 1, '"am7" is not a chord symbol', 'is Am7 meant?'],
  [
    `arrange ${ROW}.musicxml --max-bytes 10`,
    1,
    'more than 10 bytes of XML',
    'raise the limit with --max-bytes',
  ],
  [`arrange ${ROW}.musicxml ${GRACE}.musicxml --out -`, 2, '2 tunes are named', 'use --out <folder>'],
  [`arrange ${ROW}.musicxml -i tenor.json`, 2, '"tenor.json": "H4" is not a note', 'write the open strings'],
  [`arrange ${ROW}.musicxml -i capo.json`, 2, '"capo.json": a capo at fret 17', 'use a fret'],
])('fretward %s', async (line, status, message, hint) => {
  const term = terminal(ROW, GRACE);
  term.write('tenor.json', TENOR('["G3", "C4", "E4", "H4"]'));
  term.write('capo.json', TENOR('["G3", "C4", "E4", "A4"]').replace('18', '17, "capo": 17'));
  const answer = await term.run(`fretward ${line}`);
  expect([answer.stdout, answer.status]).toEqual(['', status]);
  expect(answer.stderr).toContain(message);
  expect(answer.stderr).toContain(hint);
});

describe.skipIf(!existsSync('/proc/self'))('a system that makes no folders', () => {
  it('is told, and does not keep the program busy for ever', async () => {
    const { stderr, status } = await terminal(ROW).run(
      `timeout -s KILL 20 fretward arrange ${ROW}.musicxml --to svg --out /proc/sheets/deeper`,
    );
    expect([stderr, status]).toEqual([expect.stringContaining('(cannot-write)'), 1]);
  });
});

describe('a file where the folder for the output should be', () => {
  it.each([
    `arrange ${ROW}.musicxml --to svg`,
    `cues ${ROW}.musicxml`,
    `survey ${ROW}.musicxml --to svg`,
    `chords ${ROW}.musicxml --to svg`,
    `neck ${ROW}.musicxml --to svg`,
    'scale C major --to svg',
    'drill -f 4-8 --to midi',
    'lesson l.yaml',
  ])('is named, and nothing else is done: fretward %s', async line => {
    const term = terminal(ROW);
    term.write('note', 'a file');
    term.write('l.yaml', `tune: ${ROW}.musicxml\nparts: tab\n`);
    const before = term.files('.');
    const { stdout, stderr, status } = await term.run(`fretward ${line} --out note`);
    expect([stdout, status]).toEqual(['', 1]);
    expect(stderr).toContain('note: error: a file is in the way where a folder should be (cannot-write)');
    expect(term.files('.')).toEqual(before);
  });

  it.each(['arrange "note/*.mxl"', 'arrange note/a.mxl', 'chords note/a.mxl'])(
    'holds no tunes: fretward %s',
    async line => {
      const term = terminal();
      term.write('note', 'a file');
      const { stderr, status } = await term.run(`fretward ${line}`);
      expect([stderr, status]).toEqual([expect.stringMatching(/cannot-read|no-match/), 1]);
    },
  );
});

it('words are taken in capitals too: paper is called A4', async () => {
  const term = terminal(ROW);
  const line = `fretward arrange ${ROW}.musicxml --out`;
  await term.run(`${line} small --paper letter --to svg --sheets tab,quiz`);
  await term.run(`${line} large --paper Letter --to SVG --sheets Tab,QUIZ`);
  expect(term.files('large')).toEqual(term.files('small'));
  term.write('fretward.yaml', 'paper: A4\nfingers: All\n');
  expect((await term.run(`${line} other --to svg`)).status).toBe(0);
});
