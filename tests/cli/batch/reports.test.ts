/** Reports of many tunes, and the report of several reports. */
import { describe, expect, it } from 'vitest';
import { BUILD, withTunes } from './tunes.ts';

describe('reports', () => {
  it('tell of each tune as it is done, and of all, as lines of JSON', async () => {
    const term = withTunes();
    term.write('tunes/bad.xml', 'x');
    const { stdout, stderr, status } = await term.run(`${BUILD} -f 4-8 --open never --report jsonl`);
    expect(status).toBe(1);
    expect(stderr).toContain('1/4 tunes/00.musicxml: written');
    const lines = stdout
      .trim()
      .split('\n')
      .map(line => JSON.parse(line));
    expect(lines.map(each => each.result)).toEqual(['written', 'written', 'written', 'refused', undefined]);
    expect(lines[0]).toMatchObject({
      kind: 'tune',
      file: 'tunes/00.musicxml',
      outputs: ['out/00.ukulele.tab.txt'],
    });
    expect(lines[0].editions[0]).toMatchObject({ instrument: 'ukulele', notes: 27, outside: 0 });
    expect(lines[0].milliseconds).toBeGreaterThan(0);
    expect(lines[2].diagnostics[0].code).toBe('note-outside-window');
    expect(lines[4]).toMatchObject({
      kind: 'summary',
      tunes: 4,
      fit: lines.filter(each => each.fits === true).length,
      doNotFit: lines.filter(each => each.fits === false).length,
      refused: 1,
      filesWritten: 3,
      codes: { 'broken-xml': 1 },
    });
  });

  it('say the same of what is up to date', async () => {
    const term = withTunes();
    const line = `${BUILD} -f 4-8 -q --report json`;
    const first = JSON.parse((await term.run(line)).stdout);
    const second = JSON.parse((await term.run(line)).stdout);
    const facts = ({ diagnostics, editions, fits, outputs }: Record<string, unknown>) => ({
      diagnostics,
      editions,
      fits,
      outputs,
    });
    expect(second.tunes.map(facts)).toEqual(first.tunes.map(facts));
    expect(second.summary.results).toEqual({ 'up-to-date': 3 });
  });

  it('of shares add up to the report of the whole, and no tune is in two', async () => {
    const term = withTunes(7);
    await term.run(`${BUILD} -q --report jsonl > whole.jsonl`);
    const { status } = await term.run(
      'for i in 1 2 3; do fretward arrange tunes -s tab --out s$i -q --share $i/3 --report jsonl > s$i.jsonl; done',
    );
    expect(status).toBe(0);
    expect([1, 2, 3].map(index => term.files(`s${index}`).length)).toEqual([3, 2, 2]);
    const sum = async (files: string) => {
      const { tunes, summary } = JSON.parse(
        (await term.run(`fretward report ${files} --report json`)).stdout,
      );
      return {
        files: tunes.map((each: { file: string }) => each.file),
        ...summary,
        milliseconds: 0,
        shares: [],
      };
    };
    expect(await sum('s3.jsonl s1.jsonl s2.jsonl')).toEqual(await sum('whole.jsonl'));
    await term.run('fretward report s1.jsonl s2.jsonl --report json > s12.json');
    expect(await sum('s12.json s3.jsonl')).toEqual(await sum('whole.jsonl'));
    const { stdout } = await term.run('fretward report whole.jsonl');
    expect(stdout).toMatch(/^tune +result +edition +notes/);
    expect(stdout).toMatch(/^ *7 tunes$/m);
  });
});
