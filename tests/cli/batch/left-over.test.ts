/** Sheets of an earlier run that nothing makes any more are named, and never taken away. */
import { rmSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { GRACE, ROW, terminal } from '../terminal.ts';
import { BUILD, withTunes } from './tunes.ts';

const HINT = '    delete what is no longer wanted, lest it is handed out\n';

const warning = (...names: readonly string[]): string =>
  `warning: ${names.length === 1 ? '1 file of earlier runs belongs' : `${names.length} files of earlier runs belong`} to nothing that is made now: ${names.map(name => `out/${name}`).join(', ')} (left-over)\n${HINT}`;

describe('what is left over', () => {
  it('of a tune that is gone is named each time, until it is deleted or the tune is back', async () => {
    const term = withTunes(2);
    await term.run(BUILD);
    const tune = term.read('tunes/01.musicxml');
    rmSync(term.path('tunes/01.musicxml'));
    for (let run = 0; run < 2; run++) {
      const { stderr, status } = await term.run(BUILD);
      expect([stderr, status]).toEqual([`${warning('01.ukulele.tab.txt')}1 tune: 1 up to date\n`, 0]);
    }
    expect(term.has('out/01.ukulele.tab.txt')).toBe(true);
    term.write('tunes/01.musicxml', tune);
    expect((await term.run(BUILD)).stderr).toBe('2 tunes: 2 up to date\n');
    rmSync(term.path('tunes/01.musicxml'));
    rmSync(term.path('out/01.ukulele.tab.txt'));
    expect((await term.run(BUILD)).stderr).toBe('1 tune: 1 up to date\n');
  });

  it('of an edition, or a kind of sheet, that is no longer asked for', async () => {
    const term = withTunes(1);
    const line = 'fretward arrange tunes --out out';
    await term.run(`${line} -i ukulele,guitar`);
    expect((await term.run(`${line} -i ukulele`)).stderr).toBe(
      warning('00.guitar.quiz.txt', '00.guitar.tab.txt'),
    );
    await term.run('rm out/*guitar*');
    expect((await term.run(`${line} -i ukulele -s tab`)).stderr).toBe(warning('00.ukulele.quiz.txt'));
    expect((await term.run(`${line} -i ukulele -s tab`)).stderr).toBe(
      `${warning('00.ukulele.quiz.txt')}1 tune: 1 up to date\n`,
    );
  });

  it('of an edition, or a tune, that is refused now', async () => {
    const term = withTunes(1);
    const line = 'fretward arrange tunes -s tab -i ukulele-low-g,ukulele --outside refuse --out out';
    await term.run(`${line} -f 0-8`);
    const { stderr, status } = await term.run(`${line} -f 9-10 --open never`);
    expect(status).toBe(1);
    expect(stderr).toContain('(left-over)');
    const back = await term.run(`${line} -f 0-8`);
    expect([back.stderr, back.status]).toEqual(['1 tune: 1 up to date\n', 0]);
  });

  it('is nothing of a tune for which something is asked that there is not', async () => {
    const term = withTunes(1);
    await term.run(BUILD);
    for (const wrong of ['-f 40-48', '-f 90-99:4-8', '--part Flut', '--place A4=9:9', '--place C9=1:1']) {
      for (const verify of ['', ' --verify']) {
        const { stderr, status } = await term.run(`${BUILD} ${wrong}${verify}`);
        expect([status, stderr]).toEqual([1, expect.not.stringContaining('left-over')]);
      }
    }
    expect((await term.run(BUILD)).stderr).toBe('1 tune: 1 up to date\n');
  });

  it('says where all of it is listed, where it is too much to name', async () => {
    const term = withTunes(7);
    await term.run(BUILD);
    await term.run('rm tunes/*');
    term.tune(ROW, 'tunes/new.musicxml');
    const { stdout, stderr } = await term.run(`${BUILD} --report json`);
    expect(stderr).toContain(
      `out/04.ukulele.tab.txt and 2 more (left-over)\n${HINT.trimEnd()}; --report json lists all\n`,
    );
    expect(JSON.parse(stdout).summary.leftOver).toHaveLength(7);
  });

  it('is listed beforehand, and is a fault where sheets are verified', async () => {
    const term = withTunes(1);
    await term.run(`${BUILD} -i ukulele,guitar`);
    const dry = await term.run(`${BUILD} --dry-run`);
    expect(dry.stderr).toContain(warning('00.guitar.tab.txt'));
    expect(dry.status).toBe(0);
    await term.run(BUILD);
    const { stderr, status } = await term.run(`${BUILD} --verify -q`);
    expect([stderr, status]).toEqual([
      `${warning('00.guitar.tab.txt').replace('warning', 'error').replace('left-over', 'output-left-over')}`,
      1,
    ]);
    rmSync(term.path('out/00.guitar.tab.txt'));
    expect((await term.run(`${BUILD} --verify -q`)).status).toBe(0);
  });

  it('is named in short, and in full in a report', async () => {
    const term = withTunes(8);
    await term.run(BUILD);
    await term.run('rm tunes/0[1-7]*');
    const { stderr, stdout } = await term.run(`${BUILD} --report json`);
    expect(stderr).toContain('out/05.ukulele.tab.txt and 2 more (left-over)');
    expect(JSON.parse(stdout).summary.leftOver).toHaveLength(7);
  });

  it('is told of folders that were moved together, and not of one that tunes are read from elsewhere', async () => {
    const term = terminal();
    term.tune(ROW, 'term one/tunes/Für Élise.musicxml');
    term.tune(GRACE, 'term one/tunes/b.musicxml');
    const line = 'fretward arrange tunes -s tab --out out';
    await term.run(line, { cwd: 'term one' });
    await term.run('mv "term one" two');
    expect((await term.run(line, { cwd: 'two' })).stderr).toBe('2 tunes: 2 up to date\n');
    await term.run('rm two/tunes/F*');
    expect((await term.run(line, { cwd: 'two' })).stderr).toContain(
      'out/Für Élise.ukulele.tab.txt (left-over)',
    );
  });
});

describe('a folder that two commands fill', () => {
  it.each([
    ['-s tab', '-s quiz'],
    ['-s tab --to svg', '-s tab --to musicxml'],
    ['-s tab -i ukulele -f 4-8', '-s tab -i guitar -f 0-4'],
  ])('holds what %s and %s make, up to date, and nothing is left over', async (one, other) => {
    const term = withTunes(2);
    for (const options of [one, other]) await term.run(`fretward arrange tunes --out out ${options}`);
    const names = term.files('out');
    for (const options of [one, other, one]) {
      const { stdout, stderr } = await term.run(`fretward arrange tunes --out out ${options}`);
      expect(stdout).toBe('');
      expect(stderr).not.toContain('left-over');
    }
    expect(term.files('out')).toEqual(names);
  });

  it('with the same names is told when they are written over again, in one warning', async () => {
    const term = withTunes(2);
    const said = async (frets: string): Promise<string> => (await term.run(`${BUILD} -f ${frets}`)).stderr;
    expect(await said('4-8')).not.toContain('output-shared');
    expect(await said('0-4')).not.toContain('output-shared');
    for (const frets of ['4-8', '0-4']) {
      expect(
        (await said(frets)).match(/^warning: 2 files are written over.*\(output-shared\)$/gm),
      ).toHaveLength(1);
    }
    // Nothing else in between, nothing to tell.
    expect(await said('0-4')).not.toContain('output-shared');
  });

  it('is told at once where tunes of the same name lie in two folders', async () => {
    const term = terminal();
    term.tune(ROW, 'one/a.musicxml');
    term.tune(GRACE, 'two/a.musicxml');
    await term.run('fretward arrange one -s tab --out out');
    const { stderr } = await term.run('fretward arrange two -s tab --out out');
    expect(stderr).toContain(
      'warning: 1 file is written over, made of another tune or with other options: out/a',
    );
    // A tune that only got another name is no other one.
    await term.run('mv two/a.musicxml two/a.xml; sed -i s/Amazing/Amazed/ two/a.xml');
    expect((await term.run('fretward arrange two -s tab --out out')).stderr).toBe('');
  });

  it('at the same time remembers what both have made', async () => {
    const term = withTunes(4);
    const line = (to: string): string => `fretward arrange tunes -s tab --to ${to} --out out`;
    await term.run(`${line('svg')} & ${line('musicxml')} & wait`);
    for (const to of ['svg', 'musicxml']) {
      expect((await term.run(line(to))).stderr).toBe('4 tunes: 4 up to date\n');
    }
  });
});

it.each(['tunes', '.'])('what a run made in %s, among the tunes, is no tune of the next one', async out => {
  const term = withTunes(2);
  const line = `fretward arrange ${out} --to musicxml --out ${out}`;
  await term.run(`${line} -q`);
  expect((await term.run(line)).stderr).toBe('2 tunes: 2 up to date\n');
  const glob = await term.run(`fretward arrange "${out}/**" -s tab --out ${out}`);
  expect(glob.stdout.trim().split('\n')).toHaveLength(2);
  // What is named is meant.
  const [made] = term.files().filter(name => name.endsWith('00.ukulele.musicxml'));
  const named = await term.run(`fretward arrange ${made} -s tab --out ${out} --keep-marked`);
  expect(named.stdout).toMatch(/00\.ukulele\.ukulele\.tab\.txt\n$/);
});
