/** Runs of lessons: reported, shared out, watched; what is left over. */
import { spawn } from 'node:child_process';
import { rmSync } from 'node:fs';
import { expect, it } from 'vitest';
import { GRACE, isRoot, NOBODY, ROW, type Terminal, terminal, waitFor } from '../terminal.ts';

const lesson = (tune: string, more = ''): string => `tune: ${tune}.musicxml\nparts: [quiz]\nto: svg\n${more}`;

const withLessons = (...names: readonly string[]): Terminal => {
  const term = terminal(ROW, GRACE);
  for (const name of names) term.write(`${name}.yaml`, lesson(ROW));
  return term;
};

it('reports of lessons are as those of tunes are', async () => {
  const term = withLessons('a', 'b', 'c');
  const report = JSON.parse((await term.run('fretward lesson *.yaml -q --report json')).stdout);
  expect(report.tunes).toMatchObject(['a', 'b', 'c'].map(name => ({ kind: 'lesson', file: `${name}.yaml` })));
  expect(report.summary).toMatchObject({
    tunes: 3,
    filesWritten: 9,
    shares: [{ index: 1, count: 1, all: 3 }],
  });
  for (const index of [1, 2]) {
    await term.run(`fretward lesson *.yaml -q --share ${index}/2 --report jsonl > ${index}.jsonl`);
  }
  const both = await term.run('fretward report 1.jsonl 2.jsonl');
  expect([both.status, both.stdout]).toEqual([
    0,
    expect.stringMatching(/^lesson +result[\s\S]*^ *3 lessons$/m),
  ]);
  const text = await term.run('fretward lesson a.yaml --out out -q --report text');
  expect(text.stdout).toMatch(/^lesson +result[\s\S]*^ *1 lesson$/m);
  const none = await term.run('fretward lesson a.yaml --out out -q --report text --share 2/2');
  expect(none.stdout).toMatch(/^ *0 lessons$/m);
  // Reports of both kinds add up, too.
  await term.run(`fretward arrange ${ROW}.musicxml -s tab --out out -q --report jsonl > tunes.jsonl`);
  const mixed = await term.run('fretward report tunes.jsonl 1.jsonl 2.jsonl');
  expect(mixed.stdout).toMatch(/^lesson or tune +result[\s\S]*^ *3 lessons\n *1 tune$/m);
  expect((await term.run('fretward report 2.jsonl')).status).toBe(1);
});

it('the sheets of a lesson that is gone are left over, and those of one that is made elsewhere are not', async () => {
  const term = withLessons('a', 'b');
  await term.run('fretward lesson a.yaml b.yaml --out out -q');
  expect((await term.run('fretward lesson a.yaml --out out')).stderr).toBe('1 lesson: 1 up to date\n');
  rmSync(term.path('b.yaml'));
  const { stderr } = await term.run('fretward lesson a.yaml --out out');
  expect(stderr).toMatch(
    /^warning: 3 files .*out\/b\/b\.ukulele\.booklet\.pdf.*out\/b\/index\.html \(left-over\)$/m,
  );
  const verified = await term.run('fretward lesson a.yaml --out out --verify -q');
  expect([verified.status, verified.stderr]).toEqual([1, expect.stringContaining('(output-left-over)')]);
});

it('the sheets of a lesson whose file is wrong are left over, until it is right again', async () => {
  const term = withLessons('a', 'b');
  const line = 'fretward lesson a.yaml b.yaml --out out';
  await term.run(`${line} -q`);
  const right = term.read('b.yaml');
  for (const wrong of ['tune: [', 'tune: none.mxl', `${right}fret: 4-8`, `${right}frets: 40-48`]) {
    term.write('b.yaml', wrong);
    const { stderr, status } = await term.run(line);
    expect(status).toBe(1);
    expect(stderr).toMatch(
      /^warning: 3 files .*: out\/b\/b\.ukulele\.booklet\.pdf, .*, out\/b\/index\.html \(left-over\)$/m,
    );
  }
  term.write('b.yaml', right);
  expect((await term.run(line)).stderr).toBe('2 lessons: 2 up to date\n');
  // It lies beside its file where nothing else is said.
  await term.run('fretward lesson b.yaml -q');
  term.write('b.yaml', 'tune: [');
  expect((await term.run('fretward lesson b.yaml')).stderr).toContain(': b/b.ukulele.booklet.pdf, ');
});

it('--watch follows lesson files, and the tunes that they come to name', async () => {
  const term = withLessons('a');
  const child = spawn('fretward', ['lesson', 'a.yaml', '--watch'], {
    cwd: term.folder,
    env: { ...process.env, PATH: term.searchPath },
  });
  let said = '';
  for (const stream of [child.stdout, child.stderr])
    stream.on('data', chunk => {
      said += chunk;
    });
  const ended = new Promise<number | null>(done => child.on('close', done));
  const shows = (words: string) => waitFor(() => term.read('a/a.ukulele.quiz.svg').includes(words));
  await waitFor(() => said.includes('watching'));
  term.write(`${ROW}.musicxml`, term.read(`${ROW}.musicxml`).replace('Row, Row', 'Pull, Pull'));
  await shows('Pull, Pull');
  term.write('a.yaml', 'tune: [');
  await waitFor(() => said.includes('lesson-broken'));
  // As editors save: beside it, and then into its place.
  term.write('new', lesson(GRACE));
  await term.run('mv new a.yaml');
  await shows('Amazing Grace');
  term.write(`${GRACE}.musicxml`, term.read(`${GRACE}.musicxml`).replace('Amazing', 'Amazed'));
  await shows('Amazed Grace');
  child.kill('SIGINT');
  expect(await ended).toBe(0);
});

it('a folder that may not be read is refused like any other that holds no lesson', async () => {
  const term = withLessons('a');
  await term.run('mkdir -p lessons/closed; chmod 0 lessons/closed; chmod a+rwx .');
  const { stderr, status } = await term.run('fretward lesson a.yaml lessons', isRoot ? { uid: NOBODY } : {});
  expect([status, stderr]).toEqual([1, expect.stringContaining('lessons: error: this is a folder')]);
  expect(term.has('a/index.html')).toBe(true);
  await term.run('chmod 700 lessons/closed');
});

it('takes a folder of lessons, or a glob, each lesson once', async () => {
  const term = terminal(ROW);
  for (const name of ['lessons/b', 'lessons/spring/a']) {
    term.write(`${name}.yaml`, lesson(`../${name.includes('spring') ? '../' : ''}${ROW}`, 'within: ../..\n'));
  }
  term.write('lessons/fretward.yaml', 'frets: 4-8\n');
  const { stdout, status } = await term.run(
    'fretward lesson lessons lessons/b.yaml "lessons/*/a.y*ml" --out out',
  );
  expect(status).toBe(0);
  expect(stdout.match(/index\.html/g)).toHaveLength(2);
  const none = await term.run('mkdir none; fretward lesson none');
  expect([none.status, none.stderr]).toEqual([
    1,
    expect.stringContaining('there is no lesson file (.yaml) in it'),
  ]);
  const glob = await term.run('fretward lesson "x*.yaml"');
  expect([glob.status, glob.stderr]).toEqual([
    1,
    expect.stringContaining('x*.yaml: error: no lesson file has a name like this (no-match)'),
  ]);
  const options = await term.run('fretward lesson lessons/fretward.yaml');
  expect([options.status, options.stderr]).toEqual([1, expect.stringContaining('holds options for tunes')]);
});
