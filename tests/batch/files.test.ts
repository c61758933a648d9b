/** Files are written whole, and what a killed program had begun goes. */
import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { hostname, tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { writeFiles } from '../../src/batch/files.ts';
import { refused } from '../support/musicxml.ts';

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'fretward-files-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const host = hostname().replace(/[^A-Za-z0-9]/g, '_');
const part = (machine: string, process: number): string => `.fretward-${machine}-${process}-0.part`;

it('removes what programs had begun that run no more, and leaves that of others', () => {
  const ended = spawnSync(process.execPath, ['--version']).pid;
  const left = [part(host, process.ppid), part(`${host}2`, ended), '.fretward-made.json', 'my.part'];
  for (const name of [...left, part(host, ended), part(host, process.pid)]) {
    writeFileSync(join(folder, name), 'half');
  }
  writeFiles([{ path: join(folder, 'sheet.svg'), content: 'whole' }]);
  expect(readdirSync(folder)).toEqual([...left, 'sheet.svg'].sort());
});

it('writes none of several files where one cannot be written', () => {
  mkdirSync(join(folder, 'b'));
  const files = ['a', 'b', 'c'].map(name => ({ path: join(folder, name), content: name }));
  expect(refused(() => writeFiles(files))).toMatchObject([{ code: 'cannot-write' }]);
  expect(readdirSync(folder)).toEqual(['b']);
});
