/** Which tunes a run has, in which order, and what their sheets are called. */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { findTunes } from '../../src/batch/tunes.ts';
import { Refusal } from '../../src/score/diagnostic.ts';
import { refused } from '../support/musicxml.ts';

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'fretward-tunes-'));
  for (const name of ['b.mxl', 'a/Z.xml', 'a/c.MUSICXML', 'a/notes.txt', 'out/made.musicxml']) {
    mkdirSync(dirname(join(folder, name)), { recursive: true });
    writeFileSync(join(folder, name), 'x');
  }
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const stems = async (...args: Parameters<typeof findTunes>) =>
  (await findTunes(...args)).map(input => input.stem);

describe('findTunes', () => {
  it('searches folders, in the order of code units whatever the locale', async () => {
    expect(await stems([folder])).toEqual(['a/Z', 'a/c', 'b', 'out/made']);
  });

  it('leaves the folder that outputs go to, unless the tunes lie in it', async () => {
    expect(await stems([folder], { except: join(folder, 'out') })).toEqual(['a/Z', 'a/c', 'b']);
    expect(await stems([folder], { except: folder })).toHaveLength(4);
    expect(await stems([join(folder, 'out')], { except: folder })).toEqual(['made']);
    expect(await stems([`${folder}/**/*`], { except: join(folder, 'out') })).toEqual(['a/Z', 'a/c', 'b']);
  });

  it('keeps the order typed, and refuses in its turn what is not there', async () => {
    const found = await findTunes([join(folder, 'b.mxl'), join(folder, 'none.mxl'), join(folder, 'a')]);
    expect(found.map(each => each.stem)).toEqual(['b', 'none', 'Z', 'c']);
    expect(() => found[1]!.load()).toThrow(Refusal);
  });

  it('takes once what is named twice, unless its outputs go to two places', async () => {
    const [b, z] = [join(folder, 'b.mxl'), join(folder, 'a', 'Z.xml')];
    expect(await stems([b, join(folder, 'a', '..', 'b.mxl'), folder])).toEqual([
      'b',
      'a/Z',
      'a/c',
      'out/made',
    ]);
    expect(await stems([z, folder])).toEqual(['Z', 'a/Z', 'a/c', 'b', 'out/made']);
  });

  it('names the file that was meant', async () => {
    const hintOf = async (name: string) => {
      const [input] = await findTunes([join(folder, name)]);
      return refused(() => input!.load())[0]!.hint;
    };
    expect(await hintOf('a/c.MUSICKXML')).toBe(`is ${join(folder, 'a/c.MUSICXML')} meant?`);
    expect(await hintOf('xyz.pdf')).toBe('check the path and its permissions');
  });
});
