/** Lessons in a build: up to date, forced, listed, verified, and what depends on what. */
import { spawn } from 'node:child_process';
import { readdirSync, rmSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { MICHAEL, ROW, type Terminal, terminal, waitFor } from '../terminal.ts';

const LESSON = `tune: ${ROW}.musicxml\nparts: [quiz]\nto: svg\nfrets: 4-8\n`;
const BUILD = 'fretward lesson a.yaml';
const ALL = ['a/a.ukulele.quiz.svg', 'a/a.ukulele.booklet.pdf', 'a/index.html'];
const LISTED = ALL.map(path => `${path}\n`).join('');
const NOTHING = { stdout: '', stderr: '1 lesson: 1 up to date\n', status: 0 };

/** A terminal with a lesson that has been made. */
const made = async (lesson = LESSON): Promise<Terminal> => {
  const term = terminal(ROW, MICHAEL);
  term.write('a.yaml', lesson);
  const { stdout, stderr, status } = await term.run(BUILD);
  expect([stdout, stderr, status]).toEqual([LISTED, '', 0]);
  return term;
};

describe('a lesson that is up to date', () => {
  it('is left, whatever the times of its files and the way to it', async () => {
    const term = await made();
    expect(await term.run(BUILD)).toEqual(NOTHING);
    expect(await term.run(`touch a.yaml ${ROW}.musicxml a/*; ${BUILD}`)).toEqual(NOTHING);
    expect(await term.run(`mkdir b; cd b; fretward lesson ../a.yaml`)).toEqual(NOTHING);
  });

  it.each([
    ['its tune', `sed -i 's/Row, Row/Pull, Pull/' ${ROW}.musicxml`],
    ['its lesson file', "sed -i 's/4-8/4-9/' a.yaml"],
    ['the words on its cover', "echo 'lesson: Monday' >> a.yaml"],
    ['the limits', 'true', '--max-notes 1000'],
    ['a file that is gone', 'rm a/index.html'],
    ['a file that is longer', "echo '<!-- mine -->' >> a/index.html"],
    ['a file that is as long as before', "sed -i 's/To the sheets/To my sheets:/; s/<p>/<P>/' a/index.html"],
    ['its memory', 'echo x >> a/.fretward-made.json'],
  ])('is made anew for a change of %s', async (_, change, option = '') => {
    const term = await made();
    await term.run(change);
    expect(await term.run(`${BUILD} ${option}`)).toMatchObject({ stdout: LISTED, status: 0 });
    expect(await term.run(`${BUILD} ${option}`)).toEqual(NOTHING);
  });

  it('is made anew when the file of its instrument has changed', async () => {
    const term = await made(`${LESSON}instrument: ukulele\n`);
    const tenor = (frets: number): string =>
      JSON.stringify({
        id: 'ukulele',
        name: 'Tenor',
        strings: ['G3', 'C4', 'E4', 'A4'],
        frets,
        scaleLength: 430,
      });
    term.write('tenor.json', tenor(18));
    await term.run("sed -i 's/instrument.*/instrument: tenor.json/' a.yaml");
    expect((await term.run(BUILD)).stdout).toBe(LISTED);
    expect(await term.run(BUILD)).toEqual(NOTHING);
    term.write('tenor.json', tenor(17));
    expect((await term.run(BUILD)).stdout).toBe(LISTED);
  });

  it('is made again with --force, to the same bytes', async () => {
    const term = await made();
    await term.run('cp -r a before');
    expect((await term.run(`${BUILD} --force`)).stdout).toBe(LISTED);
    expect((await term.run('diff -r a before')).status).toBe(0);
  });

  it('keeps the sheets of parts that it no longer has, and names them', async () => {
    const term = await made();
    await term.run("sed -i 's/quiz/tab/' a.yaml");
    await term.run(BUILD);
    expect(term.files('a')).toEqual([
      'a.ukulele.booklet.pdf',
      'a.ukulele.quiz.svg',
      'a.ukulele.tab.svg',
      'index.html',
    ]);
    expect(await term.run(BUILD)).toMatchObject({
      stdout: '',
      stderr: expect.stringContaining('made now: a/a.ukulele.quiz.svg (left-over)'),
      status: 0,
    });
  });

  it('is told beside one that is not, and one that is refused', async () => {
    const term = await made();
    term.write('b.yaml', LESSON);
    term.write('bad.yaml', 'tune: none.musicxml\n');
    const { stdout, stderr, status } = await term.run('fretward lesson a.yaml bad.yaml b.yaml');
    expect([stdout, status]).toEqual([LISTED.replace(/\ba\b/g, 'b'), 1]);
    expect(stderr).toMatch(/^bad\.yaml, line 1, column 7: error: there is no file none\.musicxml/);
    expect(stderr).toContain('3 lessons: 1 refused, 1 up to date, 1 written\n');
  });
});

describe('--dry-run', () => {
  it('lists what would be written, and writes nothing', async () => {
    const term = terminal(ROW);
    term.write('a.yaml', LESSON);
    expect(await term.run(`${BUILD} --dry-run`)).toMatchObject({ stdout: LISTED, status: 0 });
    expect(term.has('a')).toBe(false);
    await term.run(BUILD);
    expect(await term.run(`${BUILD} --dry-run`)).toEqual(NOTHING);
  });
});

describe('--verify', () => {
  it('is content with what was made, with its memory and without', async () => {
    const term = await made();
    expect(await term.run(`${BUILD} --verify`)).toEqual(NOTHING);
    rmSync(term.path('a/.fretward-made.json'));
    expect(await term.run(`${BUILD} --verify`)).toEqual(NOTHING);
    expect(term.has('a/.fretward-made.json')).toBe(false);
  });

  it('names what is missing and what is out of date, and writes nothing', async () => {
    const term = await made();
    const page = term.read('a/index.html').replace('Row', 'Now');
    term.write('a/index.html', page);
    rmSync(term.path('a/a.ukulele.quiz.svg'));
    const { stdout, stderr, status } = await term.run(`${BUILD} --verify`);
    expect([stdout, status]).toEqual(['', 1]);
    expect(stderr).toBe(`a/a.ukulele.quiz.svg: error: the file is not there (output-missing)
a/index.html: error: the file is not what this command makes now (output-stale)
    the same command without --verify writes it
`);
    expect(term.files('a')).toEqual(['a.ukulele.booklet.pdf', 'index.html']);
    expect(term.read('a/index.html')).toBe(page);
  });

  it.each(['--dry-run', '--depfile x.d', '--force', '--init'])('does not go with %s', async other => {
    const { stderr, status } = await terminal().run(`${BUILD} --verify ${other}`);
    expect(status).toBe(2);
    expect(stderr).toMatch(/^error: --\S+ and --\S+ do not go together \(usage\)/);
  });
});

it('--depfile names the lesson file, the tune and what else the sheets are made of', async () => {
  const term = await made();
  term.write(
    'my uke.json',
    JSON.stringify({
      id: 'uke',
      name: 'Uke',
      strings: ['G4', 'C4', 'E4', 'A4'],
      frets: 12,
      scaleLength: 381,
    }),
  );
  term.write('b.yaml', `${LESSON}instrument: my uke.json\n`);
  const { status } = await term.run('fretward lesson a.yaml b.yaml --depfile all.d -q');
  expect(status).toBe(0);
  const [first, second] = term.read('all.d').split('\n');
  expect(first).toBe(`${ALL.join(' ')}: a.yaml ${ROW}.musicxml`);
  expect(second).toMatch(new RegExp(`b/index.html: b.yaml ${ROW}.musicxml my\\\\ uke.json$`));
});

it('two lessons that would write the same files are not written over each other', async () => {
  const term = terminal(ROW);
  for (const folder of ['one', 'two']) {
    term.tune(ROW, `${folder}/${ROW}.musicxml`);
    term.write(`${folder}/a.yaml`, LESSON);
  }
  const { stderr, status } = await term.run('fretward lesson one/a.yaml two/a.yaml --out out');
  expect(status).toBe(1);
  expect(stderr).toContain('two/a.yaml: error: its sheets would overwrite those of one/a.yaml (same-output)');
});

describe('lessons that are being made', () => {
  const NAMES = ['a', 'b', 'c'];
  const line = `fretward lesson ${NAMES.map(name => `${name}.yaml`).join(' ')} --out out`;

  const hidden = (term: Terminal): readonly string[] =>
    term.has('out')
      ? readdirSync(term.path('out'), { recursive: true, encoding: 'utf8' }).filter(name =>
          name.endsWith('.part'),
        )
      : [];

  it.each([
    ['SIGINT', 130, 0],
    ['SIGTERM', 143, 0],
    ['SIGTERM', 143, 120],
    ['SIGTERM', 143, 333],
    // Nothing can be done against this one, but to put it in order afterwards.
    ['SIGKILL', null, 0],
    ['SIGKILL', null, 210],
  ] as const)(
    'are whole or not there after %s (status %j, %i ms after the first files)',
    async (signal, wanted, later) => {
      const term = terminal(ROW);
      for (const name of NAMES)
        term.write(`${name}.yaml`, `${LESSON}to: [svg, png]\n`.replace('to: svg\n', ''));
      await term.run(`${line} -q && mv out whole`);
      const child = spawn('bash', ['-c', `exec ${line}`], {
        cwd: term.folder,
        env: { ...process.env, PATH: term.searchPath },
      });
      const ended = new Promise<number | null>(done => child.on('close', done));
      await waitFor(() => term.has('out'));
      await new Promise(resolve => setTimeout(resolve, later));
      child.kill(signal);
      const status = await ended;
      // It may have been done just before.
      expect([wanted, 0]).toContain(status);
      if (signal !== 'SIGKILL') {
        expect(hidden(term)).toEqual([]);
        for (const name of NAMES) {
          const there = term.files(`out/${name}`);
          expect(there.length === 0 || there).toEqual(there.length === 0 || term.files(`whole/${name}`));
        }
      }
      for (const name of term.files('out')) {
        expect((await term.run(`cmp "out/${name}" "whole/${name}"`)).stdout).toBe('');
      }
      expect((await term.run(`${line} -q`)).status).toBe(0);
      expect(hidden(term)).toEqual([]);
      expect((await term.run('diff -r out whole')).stdout).toBe('');
    },
  );
});
