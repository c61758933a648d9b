/** The archive as the standard asks for it, byte by byte where it says so. */
import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, describe, expect, test } from 'vitest';
import { toMxl } from '../../../src/emit/musicxml/mxl.ts';
import { toMusicXml } from '../../../src/emit/musicxml.ts';
import { arrange } from '../../../src/fingering/arrange.ts';
import { rulesFrom } from '../../../src/fingering/rules.ts';
import { findInstrument } from '../../../src/instrument/define.ts';
import { readScore } from '../../../src/read/read.ts';
import { bytesOf } from '../../support/musicxml.ts';
import { exampleTunes } from '../../support/tunes.ts';

const { tune } = exampleTunes()[0]!;
const { arrangement } = arrange(tune, findInstrument('ukulele'), rulesFrom());

/** Without a Python there is no other reader of archives here. */
const hasPython = !spawnSync('python3', ['--version']).error;

describe('a compressed file', () => {
  const zone = process.env.TZ;
  afterEach(() => {
    if (zone === undefined) delete process.env.TZ;
    else process.env.TZ = zone;
  });

  test('begins with its media type, stored as it is', () => {
    // ZIP, 4.3.7: method at byte 8, name from byte 30 on; the contents follow it where there are no extra fields.
    const bytes = toMxl(tune, arrangement);
    const text = (from: number, to: number) => String.fromCharCode(...bytes.subarray(from, to));
    const type = 'application/vnd.recordare.musicxml';
    expect(text(0, 4)).toBe('PK\u0003\u0004');
    expect([bytes[8], bytes[9]]).toEqual([0, 0]);
    expect(text(30, 38 + type.length)).toBe(`mimetype${type}`);
  });

  test.each([1, 2] as const)('holds the same score as the plain file, staves: %i', staves => {
    const plain = readScore(bytesOf(toMusicXml(tune, arrangement, { staves })));
    expect(readScore(toMxl(tune, arrangement, { staves }))).toEqual(plain);
  });

  test('is the same in every time zone', () => {
    const zones = ['UTC', 'Pacific/Kiritimati', 'America/Adak'].map(each => {
      process.env.TZ = each;
      return toMxl(tune, arrangement);
    });
    expect(zones[1]).toEqual(zones[0]);
    expect(zones[2]).toEqual(zones[0]);
  });

  test.skipIf(!hasPython)('is sound to another reader of archives (skipped without python3)', () => {
    const folder = mkdtempSync(join(tmpdir(), 'fretward-'));
    try {
      const file = join(folder, 'tune.mxl');
      writeFileSync(file, toMxl(tune, arrangement));
      const code =
        'import sys, zipfile; z = zipfile.ZipFile(sys.argv[1]); print(z.testzip(), *z.namelist(), {i.date_time for i in z.infolist()})';
      expect(execFileSync('python3', ['-c', code, file], { encoding: 'utf8' }).trim()).toBe(
        'None mimetype META-INF/container.xml score.musicxml {(1980, 1, 1, 12, 0, 0)}',
      );
    } finally {
      rmSync(folder, { recursive: true });
    }
  });
});
