/** `fretward.yaml`: options for a folder of tunes and for single ones, and what is wrong with them. */
import { describe, expect, it } from 'vitest';
import { ROW } from '../terminal.ts';
import { BUILD, withTunes } from './tunes.ts';

describe('fretward.yaml', () => {
  const CONFIG = `# the evening class
frets: 4-8
to: [text]
sheets: tab
out: ../sheets
tunes:
  "01":
    frets: 5-9
    instrument: [guitar]
  02.musicxml:
    transpose: 2
`;

  it('gives options for a folder of tunes and for single ones; what is typed wins', async () => {
    const term = withTunes();
    term.write('tunes/fretward.yaml', CONFIG);
    expect((await term.run('fretward arrange tunes')).stdout).toBe(
      'sheets/00.ukulele.tab.txt\nsheets/01.guitar.tab.txt\nsheets/02.ukulele.tab.txt\n',
    );
    expect(term.files('sheets')).toEqual(['00.ukulele.tab.txt', '01.guitar.tab.txt', '02.ukulele.tab.txt']);
    expect(term.read('sheets/00.ukulele.tab.txt')).toContain('frets 4–8');
    expect(term.read('sheets/01.guitar.tab.txt')).toContain('frets 5–9');
    await term.run('fretward arrange tunes -q -f 6-11 --out typed');
    expect(term.read('typed/01.guitar.tab.txt')).toContain('frets 6–11');
    expect((await term.run('fretward arrange tunes --no-config -s tab --out bare')).stdout).toContain(
      'bare/01.ukulele.tab.txt',
    );
  });

  it.each(['tunes/set/01.musicxml', 'tunes/set', '"tunes/**/*.musicxml"'])(
    'holds for %s below its folder, unless one is nearer',
    async named => {
      const term = withTunes(1);
      term.tune(ROW, 'tunes/set/01.musicxml');
      term.write('tunes/fretward.yaml', 'frets: 4-8\ntunes:\n  set/01:\n    frets: 5-9\n');
      const shown = async (): Promise<string> => (await term.run(`fretward config ${named}`)).stdout;
      const isOne = named.endsWith('/01.musicxml');
      expect(/^all +frets +4-8 +tunes\/fretward\.yaml, line 1$/m.test(await shown())).toBe(!isOne);
      expect(await shown()).toMatch(/^tunes\/set\/01\.musicxml +frets +5-9 +tunes\/fretward\.yaml, line 4$/m);
      const { stdout } = await term.run('fretward arrange tunes/set/01.musicxml');
      expect(stdout).toContain('frets 5–9');
      if (named.includes('*')) return;
      term.write('tunes/set/fretward.yaml', 'frets: 6-10\n');
      expect(await shown()).toMatch(/^\S+ +frets +6-10 +tunes\/set\/fretward\.yaml, line 1$/m);
    },
  );

  it('outside the working folder holds beside the tunes alone', async () => {
    const term = withTunes(1);
    term.write('fretward.yaml', 'frets: 4-8\n');
    term.write('here/fretward.yaml', 'frets: 5-9\n');
    const shown = async (): Promise<string> =>
      (await term.run('cd here && fretward config ../tunes/00.musicxml')).stdout;
    expect(await shown()).toMatch(/^\S+ +frets +5-9 +fretward\.yaml, line 1$/m);
    term.write('tunes/fretward.yaml', 'frets: 6-10\n');
    expect(await shown()).toMatch(/^\S+ +frets +6-10 +\.\.\/tunes\/fretward\.yaml, line 1$/m);
  });

  it('is shown, with where each value comes from', async () => {
    const term = withTunes();
    term.write('tunes/fretward.yaml', CONFIG);
    const { stdout } = await term.run('fretward config tunes --paper letter');
    expect(stdout).toContain('options from tunes/fretward.yaml');
    expect(stdout).toMatch(/^all +frets +4-8 +tunes\/fretward\.yaml, line 2$/m);
    expect(stdout).toMatch(/^all +out +sheets +tunes\/fretward\.yaml, line 5$/m);
    expect(stdout).toMatch(/^all +paper +letter +command line$/m);
    expect(stdout).toMatch(/^tunes\/01\.musicxml +frets +5-9 +tunes\/fretward\.yaml, line 8$/m);
    expect(stdout).toMatch(/^tunes\/02\.musicxml +transpose +2 +tunes\/fretward\.yaml, line 11$/m);
    const { stderr, status } = await term.run('fretward config tunes/03.musicxml');
    expect([status, stderr]).toEqual([2, expect.stringContaining('there is no such file or folder')]);
  });

  it('says where it names a format that has no folder to go to', async () => {
    const term = withTunes(1);
    const line = 'fretward arrange tunes';
    const hint = 'say where with --out <folder>, or write --to text';
    term.write('tunes/fretward.yaml', 'frets: 4-8\nto: svg\n');
    const said = (at: number) => ({
      stdout: '',
      stderr: `tunes/fretward.yaml, line ${at}: error: to: svg writes files (usage)\n    ${hint}\n`,
      status: 2,
    });
    expect(await term.run(line)).toEqual(said(2));
    expect((await term.run(`${line} --to text`)).status).toBe(0);
    term.write('tunes/fretward.yaml', 'tunes:\n  "00":\n    to: svg\n');
    expect(await term.run(line)).toEqual(said(3));
    expect((await term.run(`${line} --out out`)).status).toBe(0);
  });

  it('is refused where it speaks of a tune that there is not', async () => {
    const term = withTunes(1);
    term.write('tunes/set/good.mxl', '');
    const config = (...names: readonly string[]) =>
      term.write(
        'tunes/fretward.yaml',
        `tunes:\n${names.map(name => `  ${name}:\n    frets: 4-8\n`).join('')}`,
      );
    config('./00.musicxml', 'set/good');
    expect((await term.run('fretward config tunes')).stdout).toMatch(/^tunes\/00\.musicxml +frets/m);
    config('set/god', 'sets/good');
    expect(await term.run('fretward config tunes')).toMatchObject({
      stderr: [
        'tunes/fretward.yaml, line 2, column 3: error: there is no tune "set/god" here (config-unknown-key)',
        '    | set/god:',
        '    is "set/good" meant?',
        'tunes/fretward.yaml, line 4, column 3: error: there is no tune "sets/good" here (config-unknown-key)',
        '    | sets/good:',
        '    write its path from the folder of this file, or take it out where the tune is gone\n',
      ].join('\n'),
      status: 2,
    });
  });

  it('is refused with every fault, its line and column, and what may be meant', async () => {
    const term = withTunes(1);
    term.write('wrong.yaml', 'fretts: 4-8\npaper: a5\ntunes:\n  "00": 3\n');
    const { stderr, status } = await term.run(`${BUILD} --config wrong.yaml`);
    expect(status).toBe(2);
    expect(stderr).toContain(
      'wrong.yaml, line 1, column 1: error: there is no key "fretts" here (config-unknown-key)',
    );
    expect(stderr).toContain('    | fretts: 4-8\n    is "frets" meant?\n');
    expect(stderr).toContain(
      'wrong.yaml, line 2, column 8: error: "paper" does not take "a5" (config-bad-value)',
    );
    expect(stderr).toContain('wrong.yaml, line 4, column 3: error: "00" has no options (config-bad-value)');
    term.write('wrong.yaml', 'frets: [4\n');
    expect((await term.run(`${BUILD} --config wrong.yaml`)).stderr).toContain('this is not YAML');
    expect(term.has('out')).toBe(false);
  });
});

describe('what fretward.yaml says and a tune shows to be wrong', () => {
  it('is told with its line in the file, in a folder and on the screen, each time', async () => {
    const term = withTunes(1);
    term.write('wrong.yaml', 'capo: 2\nfrets: 4-18\n');
    const message =
      'wrong.yaml, line 2: error: frets 4-18 are no window on Ukulele, high G (window-off-the-neck)\n    the neck has frets 0 to 16: write 4-16\n';
    for (const out of ['--out out', '--out out', '']) {
      const line = `fretward arrange tunes --config wrong.yaml ${out}`;
      expect(await term.run(line)).toEqual({ stdout: '', stderr: message, status: 1 });
    }
    // What is typed is not the file's fault.
    const { stderr } = await term.run('fretward arrange tunes --config wrong.yaml -f 4-19');
    expect(stderr).toMatch(/^tunes\/00\.musicxml: error: frets 4-19 are no window/);
  });
});
