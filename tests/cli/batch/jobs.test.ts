/** Many tunes at once: the same bytes however many jobs, interrupted, resumed, told as they go. */
import { spawn } from 'node:child_process';
import { chmodSync, readdirSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { waitFor } from '../terminal.ts';
import { BUILD, withTunes } from './tunes.ts';

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
