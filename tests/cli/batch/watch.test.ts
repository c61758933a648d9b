/** `--watch`: sheets made again as tunes change. */
import { spawn } from 'node:child_process';
import { describe, expect, it } from 'vitest';
import { GRACE, waitFor } from '../terminal.ts';
import { withTunes } from './tunes.ts';

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
