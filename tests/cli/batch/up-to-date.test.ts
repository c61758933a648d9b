/** What is up to date: left, listed, made again, verified. */
import { readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { GRACE, TUNES, terminal } from '../terminal.ts';
import { BUILD, withTunes } from './tunes.ts';

describe('what is up to date', () => {
  it('is left, until the tune changes', async () => {
    const term = withTunes();
    expect((await term.run(BUILD)).stdout.split('\n')).toHaveLength(4);
    expect(await term.run(BUILD)).toEqual({ stdout: '', stderr: '3 tunes: 3 up to date\n', status: 0 });
    term.write('tunes/01.musicxml', term.read('tunes/01.musicxml').replace('Amazing', 'Amazed'));
    expect((await term.run(BUILD)).stdout).toBe('out/01.ukulele.tab.txt\n');
    expect(term.read('out/01.ukulele.tab.txt')).toContain('Amazed Grace');
  });

  it('is left when only the time of a file has changed, or the way to it', async () => {
    const term = withTunes();
    await term.run(BUILD);
    const { stdout } = await term.run('touch tunes/*; cd tunes; fretward arrange . -s tab --out ../out');
    expect(stdout).toBe('');
  });

  it('is not, when options change, or a sheet is gone', async () => {
    const term = withTunes();
    await term.run(BUILD);
    expect(
      (await term.run(`${BUILD} --ascii -q; fretward arrange tunes -s tab --out out --ascii`)).stdout,
    ).toBe('');
    expect((await term.run(BUILD)).stdout.split('\n')).toHaveLength(4);
    rmSync(term.path('out/02.ukulele.tab.txt'));
    expect((await term.run(BUILD)).stdout).toBe('out/02.ukulele.tab.txt\n');
  });

  it('is made again with --force, to the same bytes', async () => {
    const term = withTunes(1);
    await term.run(BUILD);
    const before = term.read('out/00.ukulele.tab.txt');
    expect((await term.run(`${BUILD} --force`)).stdout).toBe('out/00.ukulele.tab.txt\n');
    expect(term.read('out/00.ukulele.tab.txt')).toBe(before);
  });

  it('is only made again where its memory is damaged', async () => {
    const term = withTunes(1);
    await term.run(BUILD);
    for (const damage of [
      '',
      'x',
      term.read('out/.fretward-made.json').replace('00.ukulele', '01.ukulele'),
    ]) {
      term.write('out/.fretward-made.json', damage);
      expect(await term.run(BUILD)).toMatchObject({ stdout: 'out/00.ukulele.tab.txt\n', status: 0 });
    }
  });

  it('still tells of a tune that is refused', async () => {
    const term = withTunes(1);
    term.write('tunes/bad.xml', 'x');
    const first = await term.run(BUILD);
    const second = await term.run(BUILD);
    expect([first.status, second.status]).toEqual([1, 1]);
    expect(second.stderr).toContain('tunes/bad.xml, line 1');
    expect(second.stderr).toContain('2 tunes: 1 refused, 1 up to date');
  });

  it('is listed beforehand with --dry-run, which writes nothing', async () => {
    const term = withTunes();
    expect((await term.run(`${BUILD} --dry-run`)).stdout.split('\n')).toHaveLength(4);
    expect(term.has('out')).toBe(false);
    await term.run(BUILD);
    expect((await term.run(`${BUILD} --dry-run`)).stdout).toBe('');
  });

  it('holds a page fewer when the tune is shorter', async () => {
    const term = terminal();
    const long = readFileSync(join(TUNES, `${GRACE}.musicxml`), 'utf8');
    const measures = long.slice(long.indexOf('<measure'), long.lastIndexOf('</measure>') + 10);
    term.write('tunes/a.musicxml', long.replace(measures, measures.repeat(12)));
    const line = 'fretward arrange tunes -s tab --to svg --out out';
    await term.run(line);
    expect(term.files('out')).toContain('a.ukulele.tab.2.svg');
    term.write('tunes/a.musicxml', long);
    await term.run(line);
    expect(term.files('out')).toEqual(['a.ukulele.tab.svg']);
  });
});

describe('--verify', () => {
  it('is content with what was built, with its memory and without', async () => {
    const term = withTunes();
    await term.run(BUILD);
    expect((await term.run(`${BUILD} --verify`)).status).toBe(0);
    rmSync(term.path('out/.fretward-made.json'));
    expect(await term.run(`${BUILD} --verify`)).toMatchObject({ status: 0, stdout: '' });
    expect(term.has('out/.fretward-made.json')).toBe(false);
  });

  it('names what is missing and what is out of date, and writes nothing', async () => {
    const term = withTunes();
    await term.run(BUILD);
    const sheet = term.read('out/00.ukulele.tab.txt');
    term.write('out/00.ukulele.tab.txt', sheet.replace('Row', 'Now'));
    rmSync(term.path('out/01.ukulele.tab.txt'));
    term.write('tunes/02.musicxml', term.read('tunes/02.musicxml').replace('Michael', 'Michel'));
    const { stderr, status } = await term.run(`${BUILD} --verify`);
    expect(status).toBe(1);
    expect(stderr).toContain(
      'out/00.ukulele.tab.txt: error: the file is not what this command makes now (output-stale)',
    );
    expect(stderr).toContain('out/01.ukulele.tab.txt: error: the file is not there (output-missing)');
    expect(stderr).toContain('out/02.ukulele.tab.txt: error: the file is not what');
    expect(term.has('out/01.ukulele.tab.txt')).toBe(false);
  });
});
