/** `--watch`: sheets made again as tunes change. */
import { spawn } from 'node:child_process';
import { existsSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { GRACE, waitFor } from '../terminal.ts';
import { withTunes } from './tunes.ts';

/** Starts a run that stays, and gathers what it says. */
const watching = (folder: string, searchPath: string, args: readonly string[]) => {
  const child = spawn('fretward', [...args, '--watch'], {
    cwd: folder,
    env: { ...process.env, PATH: searchPath },
  });
  let said = '';
  for (const stream of [child.stdout, child.stderr])
    stream.on('data', chunk => {
      said += chunk;
    });
  const ended = new Promise<number | null>(done => child.on('close', done));
  return { child, ended, hasSaid: (words: string): boolean => said.includes(words) };
};

describe('--watch', () => {
  it('makes what changes, survives a broken file, and ends with Ctrl-C', async () => {
    const term = withTunes(1);
    const args = ['arrange', 'tunes', '-s', 'tab', '--out', 'out'];
    const { child, ended, hasSaid } = watching(term.folder, term.searchPath, args);
    await waitFor(() => hasSaid('watching'));
    const tune = term.read('tunes/00.musicxml');
    term.write('tunes/00.musicxml', tune.slice(0, 1000));
    await waitFor(() => hasSaid('broken-xml'));
    expect(term.read('out/00.ukulele.tab.txt')).toContain('Row, Row');
    term.write('tunes/00.musicxml', tune.replace('Row, Row', 'Pull, Pull'));
    await waitFor(() => term.read('out/00.ukulele.tab.txt').includes('Pull, Pull'));
    term.tune(GRACE, 'tunes/new.musicxml');
    await waitFor(() => term.has('out/new.ukulele.tab.txt'));
    child.kill('SIGINT');
    expect(await ended).toBe(0);
  });

  it.skipIf(!existsSync('/proc/self/stat'))('rests when the folder it was started in is gone', async () => {
    const term = withTunes(1);
    const folder = join(term.folder, 'tunes');
    const { child, ended, hasSaid } = watching(folder, term.searchPath, [
      'arrange',
      '00.musicxml',
      '--out',
      'out',
    ]);
    await waitFor(() => hasSaid('watching'));
    rmSync(folder, { recursive: true });
    await waitFor(() => hasSaid('cannot-read'));
    // It may have to end what it is at; after that it has nothing to do.
    await resting(child.pid!);
    child.kill('SIGINT');
    expect(await ended).toBe(0);
  });
});

/** Waits until a process takes no processor time for half a second. */
const resting = async (pid: number): Promise<void> => {
  for (let before = -1; before !== ticksOf(pid); ) {
    before = ticksOf(pid);
    await new Promise(done => setTimeout(done, 500));
  }
};

/** Processor time of a process, in ticks (proc(5), fields utime and stime). */
const ticksOf = (pid: number): number => {
  const [, fields = ''] = readFileSync(`/proc/${pid}/stat`, 'utf8').split(') ');
  const [user, system] = fields.split(' ').slice(11, 13).map(Number);
  return user! + system!;
};
