/** Many tunes in a build: up to date, verified, reported, shared out, interrupted, configured. */
import { spawn } from 'node:child_process';
import { chmodSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { GRACE, MICHAEL, ROW, type Terminal, terminal, waitFor } from './terminal.ts';

const BUILD = 'fretward arrange tunes -s tab --out out';

const withTunes = (count = 3): Terminal => {
  const term = terminal();
  for (let index = 0; index < count; index++) {
    term.tune([ROW, GRACE, MICHAEL][index % 3]!, `tunes/${String(index).padStart(2, '0')}.musicxml`);
  }
  return term;
};

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
    const long = readFileSync(
      new URL('../../examples/tunes/amazing-grace.musicxml', import.meta.url),
      'utf8',
    );
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

describe('the number of jobs', () => {
  it('changes neither bytes nor order', async () => {
    const term = withTunes(20);
    term.write('tunes/07.musicxml', 'broken');
    const line = (jobs: number): string =>
      `TZ=Asia/Tokyo LC_ALL=tr_TR.UTF-8 fretward arrange tunes -s tab --to svg,musicxml --out out${jobs} -j ${jobs}`;
    const [one, three] = [await term.run(line(1)), await term.run(line(3))];
    expect(three.stdout).toBe(one.stdout.replaceAll('out1/', 'out3/'));
    expect(three.stderr).toBe(one.stderr);
    expect((await term.run('umask 077; diff -r -x ".fret*" out1 out3')).stdout).toBe('');
    expect(term.files('out3')).toHaveLength(38);
  });
});

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

  it('of shards add up to the report of the whole, and no tune is in two', async () => {
    const term = withTunes(7);
    await term.run(`${BUILD} -q --report jsonl > whole.jsonl`);
    const { status } = await term.run(
      'for i in 1 2 3; do fretward arrange tunes -s tab --out s$i -q --shard $i/3 --report jsonl > s$i.jsonl; done',
    );
    expect(status).toBe(0);
    expect([1, 2, 3].map(index => term.files(`s${index}`).length)).toEqual([3, 2, 2]);
    const sum = async (files: string) => {
      const { tunes, summary } = JSON.parse(
        (await term.run(`fretward report ${files} --report json`)).stdout,
      );
      return { files: tunes.map((each: { file: string }) => each.file), ...summary, milliseconds: 0 };
    };
    expect(await sum('s3.jsonl s1.jsonl s2.jsonl')).toEqual(await sum('whole.jsonl'));
    await term.run('fretward report s1.jsonl s2.jsonl --report json > s12.json');
    expect(await sum('s12.json s3.jsonl')).toEqual(await sum('whole.jsonl'));
    const { stdout } = await term.run('fretward report whole.jsonl');
    expect(stdout).toMatch(/^tune +result +edition +notes/);
    expect(stdout).toMatch(/^ *7 tunes$/m);
  });
});

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
      expect(await shown()).toMatch(/^all +frets +4-8 +tunes\/fretward\.yaml, line 1$/m);
      expect(await shown()).toMatch(/^tunes\/set\/01\.musicxml +frets +5-9 +tunes\/fretward\.yaml, line 4$/m);
      const { stdout } = await term.run('fretward arrange tunes/set/01.musicxml');
      expect(stdout).toContain('frets 5–9');
      if (named.includes('*')) return;
      term.write('tunes/set/fretward.yaml', 'frets: 6-10\n');
      expect(await shown()).toMatch(/^all +frets +6-10 +tunes\/set\/fretward\.yaml, line 1$/m);
    },
  );

  it('outside the working folder holds beside the tunes alone', async () => {
    const term = withTunes(1);
    term.write('fretward.yaml', 'frets: 4-8\n');
    term.write('here/fretward.yaml', 'frets: 5-9\n');
    const shown = async (): Promise<string> =>
      (await term.run('cd here && fretward config ../tunes/00.musicxml')).stdout;
    expect(await shown()).toMatch(/^all +frets +5-9 +fretward\.yaml, line 1$/m);
    term.write('tunes/fretward.yaml', 'frets: 6-10\n');
    expect(await shown()).toMatch(/^all +frets +6-10 +\.\.\/tunes\/fretward\.yaml, line 1$/m);
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
        '    write its path from the folder of this file\n',
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

describe('make', () => {
  it('understands --depfile: nothing to do, then one tune to do', async () => {
    const term = withTunes(2);
    term.tune(ROW, 'tunes/a b$c#d.musicxml');
    await term.run(`${BUILD} --depfile out.d`);
    term.write(
      'Makefile',
      `SHEETS := out/00.ukulele.tab.txt out/01.ukulele.tab.txt\nall: $(SHEETS)\n$(SHEETS):\n\techo make $@\n-include out.d\n`,
    );
    const make = await term.run('command -v make > /dev/null && make -s || echo none');
    if (make.stdout === 'none\n') return;
    expect(make.stdout).toBe('');
    expect((await term.run('sleep 1.1; touch tunes/01.musicxml; make -s')).stdout).toBe(
      'make out/01.ukulele.tab.txt\n',
    );
    expect(term.read('out.d')).toContain('out/a\\ b$$c\\#d.ukulele.tab.txt: tunes/a\\ b$$c\\#d.musicxml');
  });

  it('takes the sheets of a tune that is broken for out of date, run after run', async () => {
    const term = withTunes(2);
    await term.run(`${BUILD} --depfile out.d`);
    const whole = term.read('out.d');
    const tune = term.read('tunes/01.musicxml');
    term.write('tunes/01.musicxml', '<broken');
    for (let run = 0; run < 2; run++) {
      expect((await term.run(`${BUILD} --depfile out.d`)).status).toBe(1);
      expect(term.read('out.d')).toBe(whole);
    }
    term.write('tunes/01.musicxml', tune);
    expect((await term.run(`${BUILD} --depfile out.d`)).status).toBe(0);
    expect(term.read('out.d')).toBe(whole);
  });
});

describe('a folder of many tunes', () => {
  it.each([
    ['SIGINT', 130, 1],
    ['SIGTERM', 143, 2],
  ] as const)(
    'is interrupted by %s (status %i, %i jobs) with nothing half-written, resumed, verified, and made again where it changed',
    async (signal, wanted, jobs) => {
      const term = withTunes(30);
      const line = `fretward arrange tunes --to svg --out out -j ${jobs}`;
      const child = spawn('bash', ['-c', `exec ${line}`], {
        cwd: term.folder,
        env: { ...process.env, PATH: term.searchPath },
      });
      const ended = new Promise<number | null>(done => child.on('close', done));
      await waitFor(() => term.files('out').length > 2);
      child.kill(signal);
      expect(await ended).toBe(wanted);
      expect(readdirSync(term.path('out')).filter(name => name.endsWith('.part'))).toEqual([]);
      const done = term.files('out');
      expect(done.length).toBeLessThan(60);
      for (const name of done) expect(term.read(`out/${name}`)).toMatch(/<\/svg>\s*$/);

      const verified = `${line} --verify -q`;
      expect((await term.run(verified)).status).toBe(1);
      const { stdout, status } = await term.run(line);
      expect(status).toBe(0);
      expect(stdout.trim().split('\n')).toHaveLength(60 - done.length);
      expect((await term.run(verified)).status).toBe(0);

      term.write('tunes/17.musicxml', term.read('tunes/17.musicxml').replace('Michael', 'Michel'));
      expect((await term.run(verified)).status).toBe(1);
      expect(await term.run(line)).toMatchObject({
        stdout: 'out/17.ukulele.tab.svg\nout/17.ukulele.quiz.svg\n',
        stderr: '30 tunes: 29 up to date, 1 written\n',
      });
      expect((await term.run(verified)).status).toBe(0);
    },
  );
});

describe('--watch', () => {
  it('makes what changes, survives a broken file, and ends with Ctrl-C', async () => {
    const term = withTunes(1);
    const args = ['arrange', 'tunes', '-s', 'tab', '--out', 'out', '--watch'];
    const child = spawn('fretward', args, {
      cwd: term.folder,
      env: { ...process.env, PATH: term.searchPath },
    });
    let said = '';
    for (const stream of [child.stdout, child.stderr])
      stream.on('data', chunk => {
        said += chunk;
      });
    const ended = new Promise<number | null>(done => child.on('close', done));
    await waitFor(() => said.includes('watching'));
    const tune = term.read('tunes/00.musicxml');
    term.write('tunes/00.musicxml', tune.slice(0, 1000));
    await waitFor(() => said.includes('broken-xml'));
    expect(term.read('out/00.ukulele.tab.txt')).toContain('Row, Row');
    term.write('tunes/00.musicxml', tune.replace('Row, Row', 'Pull, Pull'));
    await waitFor(() => term.read('out/00.ukulele.tab.txt').includes('Pull, Pull'));
    term.tune(GRACE, 'tunes/new.musicxml');
    await waitFor(() => term.has('out/new.ukulele.tab.txt'));
    child.kill('SIGINT');
    expect(await ended).toBe(0);
  });
});

describe('a terminal', () => {
  it('shows how far it is, and only the sum in the end', async () => {
    const term = withTunes(12);
    const { stdout } = await term.run(
      'script -qec "fretward arrange tunes -s tab --out out -j 1" /dev/null',
      {
        env: { TERM: 'xterm', COLUMNS: '100' },
      },
    );
    expect(stdout).toMatch(/\[#+ +\] +\d+\/12/);
    expect(stdout).toContain('12 tunes: 12 written');
    expect(stdout).not.toContain('out/03');
  });
});

it('a folder that may not be written to is told for each tune, and none is half there', async () => {
  const term = withTunes(2);
  term.write('out/keep', '');
  chmodSync(term.path('out'), 0o777);
  term.write('out/00.ukulele.tab.txt/x', 'a folder is in the way');
  const { stderr, stdout, status } = await term.run(BUILD);
  expect(status).toBe(1);
  expect(stderr).toContain(
    'out/00.ukulele.tab.txt: error: a folder is in the way where a file should be (cannot-write)',
  );
  expect(stdout).toBe('out/01.ukulele.tab.txt\n');
});
