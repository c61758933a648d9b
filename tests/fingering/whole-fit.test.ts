/** The fewest frets that hold a tune, against enumeration; and what is said where there are none. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { fits } from '../../src/fingering/fit.ts';
import { wholeFit, wholeFitData, wholeFitText } from '../../src/fingering/whole-fit.ts';
import { INSTRUMENTS } from '../../src/instrument/catalogue.ts';
import { findInstrument } from '../../src/instrument/define.ts';
import { topFret } from '../../src/instrument/places.ts';
import { midi } from '../../src/score/pitch.ts';
import { pitchOf, sharpened } from '../support/melody.ts';

const melodies = fc.array(fc.integer({ min: 55, max: 84 }).map(sharpened), { minLength: 1, maxLength: 6 });

describe('the narrowest window of a whole tune', () => {
  test('holds every note, and none has fewer frets; else it says which note is in the way', () => {
    fc.assert(
      fc.property(fc.constantFrom(...INSTRUMENTS), melodies, (instrument, pitches) => {
        const sounds = pitches.map(pitch => midi(pitch));
        const { narrowest, openOnly, missing } = wholeFit(instrument, pitches);
        const top = topFret(instrument);
        expect(missing.every(pitch => !fits(instrument, [midi(pitch)], undefined))).toBe(true);
        expect(missing.length === 0).toBe(fits(instrument, sounds, undefined));
        expect(narrowest === undefined).toBe(missing.length > 0);
        if (!narrowest) return;
        expect(openOnly.length === 0).toBe(fits(instrument, sounds, { low: 1, high: top }));
        expect(fits(instrument, sounds, narrowest)).toBe(true);
        const width = narrowest.high - narrowest.low;
        const lows = openOnly.length > 0 ? [0] : Array.from({ length: top }, (_, fret) => fret + 1);
        const narrower = lows.filter(
          low =>
            width > 0 && low + width - 1 <= top && fits(instrument, sounds, { low, high: low + width - 1 }),
        );
        expect(narrower).toEqual([]);
      }),
    );
  });

  test('is said in a sentence', () => {
    const said = (names: string, id = 'ukulele') =>
      wholeFitText(wholeFit(findInstrument(id), names.split(' ').map(pitchOf)));
    // On the third string (C4) D4 is fret 2, E4 fret 4; F4 is fret 1 of the second (E4).
    expect(said('D4 E4 F4')).toBe('every note fits in frets 1-4');
    expect(said('C4 E4 D4 C4')).toBe('every note fits in frets 0-2, C4 on an open string only');
    expect(said('C4 A3 G3 C4')).toBe('G3, A3 cannot be played');
    expect(said('G3 A3', 'ukulele-low-g')).toBe('every note fits in frets 0-2, G3 on an open string only');
    expect(said('C2 D2 E2 F2 G2 A2 B2 C3 D3 E3')).toBe(
      'C2, D2, E2, F2, G2, A2, B2, C3 and 2 more cannot be played',
    );
    expect(wholeFitData(wholeFit(findInstrument('ukulele'), [pitchOf('C4')]))).toEqual({
      narrowest: { low: 0, high: 0 },
      openOnly: ['C4'],
      missing: [],
    });
  });
});
