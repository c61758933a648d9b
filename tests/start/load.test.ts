/** The built program is loaded with the code that V8 made of it; a Node that cannot use that goes without. */
import { execFileSync } from 'node:child_process';
import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { Script } from 'node:vm';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';

const root = fileURLToPath(new URL('../../', import.meta.url));
const PACKS = join(root, 'dist', 'code', `${process.version}-${process.platform}-${process.arch}`);

test('V8 takes the code that the build has left for each pack', () => {
  const packs = readdirSync(PACKS).filter(name => name.endsWith('.code'));
  expect(packs).toContain('0.code');
  const rejected = packs.filter(name => {
    const filename = join(PACKS, name.replace('.code', '.cjs'));
    const cachedData = readFileSync(join(PACKS, name));
    return new Script(readFileSync(filename, 'latin1'), { filename, cachedData }).cachedDataRejected;
  });
  expect(rejected).toEqual([]);
});

test('each script lies in one pack', () => {
  const contents = JSON.parse(readFileSync(join(PACKS, 'contents.json'), 'utf8')) as Record<string, string>;
  const scripts = readdirSync(join(root, 'dist')).filter(
    name => name.endsWith('.cjs') && name !== 'load.cjs',
  );
  expect(Object.keys(contents).sort()).toEqual(scripts.sort());
});

describe('without packs for its Node', () => {
  const copy = mkdtempSync(join(tmpdir(), 'fretward-start-'));
  beforeAll(() => {
    for (const folder of ['bin', 'dist']) cpSync(join(root, folder), join(copy, folder), { recursive: true });
    cpSync(join(root, 'package.json'), join(copy, 'package.json'));
    rmSync(join(copy, 'dist', 'code'), { recursive: true });
  });
  afterAll(() => rmSync(copy, { recursive: true }));

  test.each(['text', 'svg', 'pdf', 'musicxml', 'midi', 'json'])('it writes the same %s', format => {
    const tune = join(root, 'examples', 'tunes', 'row-row-row-your-boat.musicxml');
    const argv = ['arrange', tune, '-i', 'ukulele-low-g', '--no-config', '--to', format, '--out', '-'];
    const [packed, plain] = [root, copy].map(folder =>
      execFileSync(process.execPath, [join(folder, 'bin', 'fretward.js'), ...argv], { encoding: 'buffer' }),
    );
    expect(plain!.length).toBeGreaterThan(100);
    expect(plain!.equals(packed!)).toBe(true);
  });
});
