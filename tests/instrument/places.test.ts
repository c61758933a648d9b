/** Pitch and place, both ways; the neck's lengths against what makers publish. */
import fc from 'fast-check';
import { Note } from 'tonal';
import { describe, expect, test } from 'vitest';
import { INSTRUMENTS } from '../../src/instrument/catalogue.ts';
import {
  findInstrument,
  parseInstrument,
  parseTuning,
  withCapo,
  withTuning,
} from '../../src/instrument/define.ts';
import { fretDistance } from '../../src/instrument/neck.ts';
import { placesOf, reentrantStrings, soundAt, topFret } from '../../src/instrument/places.ts';
import { Refusal } from '../../src/score/diagnostic.ts';
import { midi, pitchName } from '../../src/score/pitch.ts';

const anyPlace = fc
  .record({
    instrument: fc.constantFrom(...INSTRUMENTS),
    string: fc.nat(5),
    fret: fc.nat(20),
    capo: fc.nat(5),
  })
  .map(({ instrument, string, fret, capo }) => {
    const fretted = withCapo(instrument, capo);
    return {
      instrument: fretted,
      place: { string: 1 + (string % instrument.strings.length), fret: Math.min(fret, topFret(fretted)) },
    };
  });

describe('pitch and place', () => {
  test('a place sounds its string raised by its fret (reference: tonal)', () => {
    fc.assert(
      fc.property(anyPlace, ({ instrument, place }) => {
        const open = pitchName(instrument.strings[place.string - 1]!);
        const sound = Note.transpose(open, 'P1');
        expect(soundAt(instrument, place)).toBe(Note.midi(sound)! + instrument.capo + place.fret);
      }),
    );
  });

  test('agrees with 12·log2 of the sounding length that the fret leaves', () => {
    fc.assert(
      fc.property(anyPlace, ({ instrument, place }) => {
        const { scaleLength, capo } = instrument;
        const left = scaleLength - fretDistance(scaleLength, capo + place.fret);
        const semitones = 12 * Math.log2(scaleLength / left);
        expect(soundAt(instrument, place) - midi(instrument.strings[place.string - 1]!)).toBeCloseTo(
          semitones,
          9,
        );
      }),
    );
  });

  test('placesOf finds every place that sounds a pitch, and no other', () => {
    fc.assert(
      fc.property(anyPlace, ({ instrument, place }) => {
        const sound = soundAt(instrument, place);
        const all = placesOf(instrument, sound);
        expect(all).toContainEqual(place);
        for (const each of all) expect(soundAt(instrument, each)).toBe(sound);
        expect(new Set(all.map(each => each.string)).size).toBe(all.length);
      }),
    );
  });

  test('a place off the neck is an error', () => {
    const ukulele = findInstrument('ukulele');
    expect(() => soundAt(ukulele, { string: 5, fret: 0 })).toThrow(RangeError);
    expect(() => soundAt(ukulele, { string: 1, fret: 19 })).toThrow(RangeError);
    expect(() => soundAt(ukulele, { string: 1, fret: -1 })).toThrow(RangeError);
    expect(() => soundAt(ukulele, { string: 0, fret: 1 })).toThrow(RangeError);
  });

  test('only the fourth string of the high-G ukulele is re-entrant', () => {
    const found = INSTRUMENTS.flatMap(each => reentrantStrings(each).map(string => `${each.id} ${string}`));
    expect(found).toEqual(['ukulele 4']);
  });
});

describe('the neck (published: fret 12 of a 650 mm scale lies at 325 mm; each fret takes 1/17.817 of what is left)', () => {
  test('fret 12 halves the scale', () => expect(fretDistance(650, 12)).toBeCloseTo(325, 9));

  test('each fret takes 1/17.817 of the rest', () => {
    for (let fret = 1; fret <= 24; fret++) {
      const rest = 650 - fretDistance(650, fret - 1);
      const step = fretDistance(650, fret) - fretDistance(650, fret - 1);
      expect(rest / step).toBeCloseTo(17.817, 3);
    }
  });

  test.each([
    // Published fret tables of makers' handbooks for these scale lengths, nut to fret, mm.
    [381, 1, 21.38],
    [381, 5, 95.57],
    [508, 7, 168.95],
    [352.4, 3, 56.07],
  ])('scale %d mm, fret %d lies at %d mm', (scaleLength, fret, expected) => {
    expect(fretDistance(scaleLength, fret)).toBeCloseTo(expected, 2);
  });
});

describe('instruments from outside', () => {
  test('a tuning is read as players say it, string 1 last', () => {
    expect(parseTuning('G4 C4 E4 A4').map(pitch => pitchName(pitch))).toEqual(['A4', 'E4', 'C4', 'G4']);
    expect(parseTuning('Bb3 F#4').map(midi)).toEqual([66, 58]);
    expect(withTuning(findInstrument('guitar'), 'D2 A2 D3 G3 B3 E4').strings).toHaveLength(6);
  });

  test.each(['', 'G', 'H4 C4', 'G4 C4 x'])('tuning "%s" is refused', tuning => {
    expect(() => parseTuning(tuning)).toThrow(Refusal);
  });

  test('a file defines an instrument', () => {
    const file = { id: 'lute', name: 'Lute', strings: ['D3', 'G3'], frets: 10, scaleLength: 600 };
    const lute = parseInstrument(JSON.stringify(file));
    expect(lute).toMatchObject({ id: 'lute', hand: 'one-fret-a-finger', clef: 'treble', capo: 0 });
    expect(lute.strings.map(pitch => pitchName(pitch))).toEqual(['G3', 'D3']);
    for (const wrong of [
      '{',
      '{}',
      '[]',
      JSON.stringify({ ...file, frets: 0 }),
      JSON.stringify({ ...file, colour: 1 }),
    ]) {
      expect(() => parseInstrument(wrong)).toThrow(Refusal);
    }
  });

  test('an unknown name and a capo off the neck are refused', () => {
    expect(() => findInstrument('kazoo')).toThrow(/no instrument "kazoo"/);
    expect(() => withCapo(findInstrument('ukulele'), 18)).toThrow(Refusal);
  });
});
