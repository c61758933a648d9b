/** What paths say without a look at the disk. */
import { describe, expect, it, test } from 'vitest';
import { isInstrumentFile, isLessonFile, isTuneFile, isWithin } from '../../src/batch/paths.ts';

test('the kind of a file is in its ending, in capitals too', () => {
  const kinds = (name: string): readonly boolean[] => [isTuneFile(name), isLessonFile(name)];
  for (const tune of ['a.musicxml', 'b/c.MXL', 'd.e.xml']) expect(kinds(tune), tune).toEqual([true, false]);
  for (const lesson of ['a.yaml', 'b/c.YML']) expect(kinds(lesson), lesson).toEqual([false, true]);
  for (const other of ['xml', '.mxl', 'a.mxl.txt', 'a/yaml'])
    expect(kinds(other), other).toEqual([false, false]);
});

test('an instrument is a name of the catalogue, or a file of JSON', () => {
  expect(['ukulele', 'instruments/ours.json'].map(isInstrumentFile)).toEqual([false, true]);
});

describe('isWithin', () => {
  it('is true of the folder itself, and of all below it', () => {
    for (const path of ['out', 'out/', 'out/a', './out/a/b', 'in/../out/a', 'out/..a']) {
      expect(isWithin(path, 'out'), path).toBe(true);
    }
    expect(isWithin('/a', '/')).toBe(true);
  });

  it('is false of what lies beside it or above it, however alike the names are', () => {
    for (const path of ['.', 'out2/a', '..', '../out/a', 'out/../a', '/out/a']) {
      expect(isWithin(path, 'out'), path).toBe(false);
    }
  });
});
