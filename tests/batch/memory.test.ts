/** What an output folder remembers, and what it does not believe. */
import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { MEMORY_FILE, openMemory } from '../../src/batch/memory.ts';
import type { Memo } from '../../src/batch/shelf.ts';

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'fretward-memory-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const memo = (...names: readonly string[]): Memo => ({
  file: 'tune.mxl',
  source: undefined,
  asked: names,
  input: 'abc',
  kind: 'arranged',
  outputs: names.map(name => ({ name, size: 1, hash: 'h' })),
  diagnostics: [],
  editions: [],
  leftOut: [],
});

const saved = (): void => {
  const memory = openMemory(folder, 'one');
  memory.remember('tune', 'job', memo('tune.tab.svg'));
  memory.save();
};

it('makes no folder of its own', () => {
  const nowhere = join(folder, 'none');
  const memory = openMemory(nowhere, 'one');
  memory.remember('tune', 'job', { ...memo(), kind: 'refused' });
  memory.save();
  expect(existsSync(nowhere)).toBe(false);
  // Once something is written there, it remembers.
  mkdirSync(nowhere);
  memory.save();
  expect(openMemory(nowhere, 'one').recall('tune', 'job')?.kind).toBe('refused');
});

describe('the memory of an output folder', () => {
  it('recalls what was saved, by tune and job', () => {
    saved();
    const memory = openMemory(folder, 'one');
    expect(memory.recall('tune', 'job')).toEqual(memo('tune.tab.svg'));
    expect(memory.recall('tune', 'other')).toBeUndefined();
    expect(memory.recall('__proto__', 'job')).toBeUndefined();
  });

  it('believes nothing that another build made', () => {
    saved();
    expect(openMemory(folder, 'two').recall('tune', 'job')).toBeUndefined();
  });

  it('believes nothing that was changed in any byte', () => {
    saved();
    const path = join(folder, MEMORY_FILE);
    const bytes = readFileSync(path);
    fc.assert(
      fc.property(fc.nat(bytes.length - 1), fc.integer({ min: 1, max: 255 }), (at, change) => {
        const damaged = Buffer.from(bytes);
        damaged[at] = damaged[at]! ^ change;
        writeFileSync(path, damaged);
        expect(openMemory(folder, 'one').recall('tune', 'job')).toBeUndefined();
      }),
      { seed: 6, numRuns: 200 },
    );
  });

  it('forgets a job whose files another job has overwritten, and keeps one that has its own', () => {
    const memory = openMemory(folder, 'one');
    const letter = { name: 'tune.tab.svg', size: 1, hash: 'another' };
    memory.remember('tune', 'svg', memo('tune.tab.svg'));
    memory.remember('tune', 'pdf', memo('tune.tab.pdf'));
    memory.remember('tune', 'svg-letter', { ...memo('tune.tab.svg'), outputs: [letter] });
    expect(memory.recall('tune', 'svg')).toBeUndefined();
    expect(memory.recall('tune', 'pdf')).toBeDefined();
  });

  it('names pages that are no longer made, and no other files', () => {
    const memory = openMemory(folder, 'one');
    memory.remember('tune', 'a', memo('tune.tab.svg', 'tune.tab.2.svg', 'tune.tab.3.svg', 'tune.quiz.svg'));
    const { surplus } = memory.remember('tune', 'b', memo('tune.tab.svg', 'tune.tab.2.svg'));
    expect(surplus).toEqual(['tune.tab.3.svg']);
  });

  it('keeps what another run has saved meanwhile', () => {
    const [first, second] = [openMemory(folder, 'one'), openMemory(folder, 'one')];
    first.remember('a', 'job', memo('a.svg'));
    second.remember('b', 'job', memo('b.svg'));
    first.save();
    second.save();
    const memory = openMemory(folder, 'one');
    expect([memory.recall('a', 'job'), memory.recall('b', 'job')]).toEqual([memo('a.svg'), memo('b.svg')]);
  });
});
