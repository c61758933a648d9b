/**
 * Fingerings that players agree on. Source of every case: common practice, as teachers' method pages
 * and handbooks give it; places follow from the stringing by arithmetic. Written string/fret[finger].
 */
import { describe, expect, test } from 'vitest';
import { arrange } from '../../src/fingering/arrange.ts';
import { rulesFrom } from '../../src/fingering/rules.ts';
import { findInstrument } from '../../src/instrument/define.ts';
import { placesOf } from '../../src/instrument/places.ts';
import { type Asked, placed, positions, written } from '../support/fingered.ts';
import { quarters } from '../support/melody.ts';

const up = 'C4 D4 E4 F4 G4 A4 B4 C5 D5 E5 F5';
const reverse = (words: string): string => words.split(' ').reverse().join(' ');

describe('C major on the ukulele in frets 4-8', () => {
  const frets = [4, 8] as const;
  const low = '4/5[2] 4/7[4] 3/4[1] 3/5[2] 3/7[4] 2/5[1] 2/7[3] 2/8[4] 1/5[1] 1/7[3] 1/8[4]';

  test('linear: one shift, from position IV to V', () => {
    const answer = placed(up, 'ukulele-low-g', { frets });
    expect(written(answer)).toBe(low);
    expect(positions(answer)).toEqual([4, 5]);
  });

  test('downwards the same places and fingers', () => {
    expect(written(placed(reverse(up), 'ukulele-low-g', { frets }))).toBe(reverse(low));
  });

  test('up and down again', () => {
    const answer = placed(`${up} ${reverse(up).split(' ').slice(1).join(' ')}`, 'ukulele-low-g', { frets });
    expect(written(answer)).toBe(`${low} ${reverse(low).split(' ').slice(1).join(' ')}`);
    expect(positions(answer)).toEqual([4, 5, 4]);
  });

  test('going on in frets 10-15 with one finger a note', () => {
    expect(written(placed('G5 A5 B5 C6', 'ukulele-low-g', { frets: [10, 15] }))).toBe(
      '1/10[1] 1/12[2] 1/14[3] 1/15[4]',
    );
  });

  test('re-entrant: only the two lowest notes change, and finger 1 slides into the window', () => {
    const answer = placed(up, 'ukulele', { frets });
    expect(written(answer)).toBe(`3/0 3/2[1] ${low.split(' ').slice(2).join(' ')}`);
    expect(answer.slice(0, 3).map(each => each.fit)).toEqual(['open', 'outside', 'inside']);
  });
});

describe('cases of melodic fingering', () => {
  test('A: E4 lies in four places below fret 14 of a guitar, and in one more above', () => {
    const guitar = findInstrument('guitar');
    const places = (frets: number) =>
      placesOf({ ...guitar, frets }, 64).map(({ string, fret }) => [string, fret]);
    const low = [
      [1, 0],
      [2, 5],
      [3, 9],
      [4, 14],
    ];
    expect(places(14)).toEqual(low);
    expect(places(19)).toEqual([...low, [5, 19]]);
    expect(places(24)).toEqual([...low, [5, 19], [6, 24]]);
  });

  test.each(['ukulele', 'ukulele-low-g'])('B: C major in open position on %s', instrument => {
    const answer = placed('C4 D4 E4 F4 G4 A4 B4 C5', instrument);
    expect(written(answer)).toBe('3/0 3/2[2] 2/0 2/1[1] 2/3[3] 1/0 1/2[2] 1/3[3]');
    expect(positions(answer)).toEqual([1]);
  });

  test('C: F major in frets 5-8', () => {
    const scale = 'F4 G4 A4 Bb4 C5 D5 E5 F5';
    const linear = '3/5[1] 3/7[3] 2/5[1] 2/6[2] 2/8[4] 1/5[1] 1/7[3] 1/8[4]';
    expect(written(placed(scale, 'ukulele-low-g', { frets: [5, 8] }))).toBe(linear);
    // The re-entrant ukulele has a second answer with C5 and D5 on its fourth string; we keep to the
    // three melody strings.
    expect(written(placed(scale, 'ukulele', { frets: [5, 8] }))).toBe(linear);
    const first = (asked: Asked) => placed('E4 F4', 'ukulele', { frets: [5, 8], ...asked })[0]!;
    expect(first({})).toMatchObject({ string: 2, fret: 0, fit: 'open' });
    expect(first({ open: 'never' })).toMatchObject({ string: 3, fret: 4, fit: 'outside' });
    expect(() => first({ open: 'never', outside: 'refuse' })).toThrow(/E4/);
  });

  test('D: notes at one fret of neighbouring strings take two fingers', () => {
    const frets = [1, 4] as const;
    expect(written(placed('C4 D4 G4', 'guitar', { frets }))).toBe('2/1[1] 2/3[3] 1/3[4]');
    expect(written(placed('C4 F4', 'guitar', { frets }))).toBe('2/1[1] 1/1[2]');
  });

  test('E: C major on the guitar in position II', () => {
    const frets = [2, 5] as const;
    const scale = 'C3 D3 E3 F3 G3 A3 B3 C4';
    const answer = placed(scale, 'guitar', { frets });
    expect(written(answer)).toBe('5/3[2] 5/5[4] 4/2[1] 4/3[2] 4/5[4] 3/2[1] 3/4[3] 3/5[4]');
    expect(positions(answer)).toEqual([2]);
    // The index finger is drawn back for F4 and the hand stays: the scale's one first-finger stretch.
    const around = placed(`${scale} D4 E4 F4 E4 D4`, 'guitar', { frets });
    expect(written(around.slice(10, 11))).toBe('1/1[1]');
    expect(positions(around)).toEqual([2]);
  });

  test('F: the little finger guides the hand up its string', () => {
    const guitar = findInstrument('guitar');
    const oneString = { ...guitar, strings: guitar.strings.slice(0, 1) };
    const { arrangement } = arrange(quarters('F4 G4 G#4 C#5'), oneString, rulesFrom());
    expect(written([...arrangement.placements.values()])).toBe('1/1[1] 1/3[3] 1/4[4] 1/9[4]');
  });

  test('G: the mandolin’s fingers stand two frets apart', () => {
    const answer = placed('D4 E4 F#4 G4 A4 B4 C#5 D5', 'mandolin');
    expect(written(answer)).toBe('3/0 3/2[1] 3/4[2] 3/5[3] 2/0 2/2[1] 2/4[2] 2/5[3]');
  });

  test('H: a tune below middle C needs the low G, or another key', () => {
    expect(written(placed('G3 C4', 'ukulele-low-g'))).toBe('4/0 3/0');
    expect(() => placed('G3 C4', 'ukulele')).toThrow(/G3 cannot be played/);
    for (const instrument of ['ukulele', 'ukulele-low-g']) {
      expect(written(placed('C4 F4', instrument))).toBe('3/0 2/1[1]');
    }
  });
});
