/** Folders and files that may not be read or written: said, and nothing left behind. */
import { chmodSync, mkdirSync, statSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { isRoot, NOBODY, ROW, terminal } from '../terminal.ts';

describe('where nothing can be written', () => {
  const asNobody = isRoot ? { uid: NOBODY } : {};

  it('says so, and leaves nothing', async () => {
    const term = terminal(ROW);
    mkdirSync(term.path('locked'));
    chmodSync(term.path('locked'), 0o555);
    const { stderr, status } = await term.run(`fretward arrange ${ROW}.musicxml --out locked`, asNobody);
    expect(status).toBe(1);
    expect(stderr).toContain(
      `locked/${ROW}.ukulele.tab.txt: error: the file may not be written (cannot-write)`,
    );
    expect(term.files('locked')).toEqual([]);
  });

  it('says that a folder may not be read', async () => {
    const term = terminal(ROW);
    mkdirSync(term.path('secret'));
    chmodSync(term.path('secret'), 0o000);
    const { stderr, status } = await term.run(
      `fretward arrange secret ${ROW}.musicxml -q > out.txt; exit $?`,
      {},
    );
    if (isRoot) {
      const nobody = await term.run(`fretward arrange secret`, asNobody);
      expect(nobody.status).toBe(1);
      expect(nobody.stderr).toContain('secret: error: it may not be read (cannot-read)');
    } else {
      expect(status).toBe(1);
      expect(stderr).toContain('secret: error: it may not be read (cannot-read)');
    }
  });

  it('writes none of the sheets of a tune where one cannot be', async () => {
    const term = terminal(ROW);
    mkdirSync(term.path(`out/${ROW}.ukulele.quiz.txt`), { recursive: true });
    const { stderr, status } = await term.run(`fretward arrange ${ROW}.musicxml --out out`);
    expect(status).toBe(1);
    expect(stderr).toContain('a folder is in the way where a file should be');
    expect(await term.run('find out -type f')).toMatchObject({ stdout: '' });
  });

  it('says that a file is in the way of a folder', async () => {
    const term = terminal(ROW);
    term.write('out', 'a file');
    const { stderr, status } = await term.run(`fretward arrange ${ROW}.musicxml --out out`);
    expect(status).toBe(1);
    expect(stderr).toContain('out: error: a file is in the way where a folder should be');
  });

  it.runIf(statSync('/dev/full', { throwIfNoEntry: false }))('says that the disk is full', async () => {
    const { stderr, status } = await terminal(ROW).run(`fretward arrange ${ROW}.musicxml > /dev/full`);
    expect(status).toBe(1);
    expect(stderr).toContain('standard output: error: the disk is full (cannot-write)');
  });

  it('ends quietly when nobody reads on', async () => {
    const { stdout, stderr } = await terminal(ROW).run(
      `fretward arrange ${ROW}.musicxml --width 1000 | head -1`,
    );
    expect(stdout).toContain('Row, Row, Row Your Boat');
    expect(stderr).toBe('');
  });
});
