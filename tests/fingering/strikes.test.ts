/** What is struck: ties joined, slurs, beats, and the time between. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { strikesOf, timingBefore } from '../../src/fingering/strikes.ts';
import { bars, DIVISION, pitchOf, tuneOf, tuneOfMeasures } from '../support/melody.ts';
import { attributes, note, tuneFrom } from '../support/musicxml.ts';

const pitches = (names: string) => names.split(' ').map(pitchOf);

describe('tied notes', () => {
  test('are struck once and sound as long as all of them', () => {
    const chord = pitches('C4 E4');
    const { strikes, struckBy } = strikesOf(
      tuneOfMeasures([
        { number: '1', events: [{ pitches: chord, duration: 12 }] },
        {
          number: '2',
          events: [
            { pitches: chord, duration: 12, tied: true },
            { pitches: chord, duration: 6, tied: true },
            { pitches: pitches('D4'), duration: 12 },
          ],
        },
      ]),
    );
    expect(strikes.map(({ at, duration, measure }) => ({ at, duration, measure }))).toEqual([
      { at: 0, duration: 30, measure: 0 },
      { at: 30, duration: 12, measure: 1 },
    ]);
    // Heads are numbered by event, from 10,000 and 20,000 on.
    expect([...struckBy]).toEqual([
      [10_002, 10_001],
      [20_002, 20_001],
      [10_003, 10_001],
      [20_003, 20_001],
    ]);
  });

  test('hold in a chord while others are struck anew', () => {
    const { strikes } = strikesOf(
      tuneOfMeasures([
        {
          number: '1',
          events: [
            { pitches: pitches('C4'), duration: 24 },
            { pitches: pitches('C4 E4'), duration: 24, tied: true },
          ],
        },
      ]),
    );
    // The head of C4 is tied from the event before; there is no E4 before to be tied from.
    expect(strikes.map(({ sounds, duration }) => [sounds, duration])).toEqual([
      [[60], 48],
      [[64], 24],
    ]);
  });
});

describe('slurs', () => {
  test('hold from note to note as far as some slur that has begun reaches', () => {
    const slurs = fc.array(
      fc
        .tuple(fc.integer({ min: 1, max: 12 }), fc.integer({ min: 1, max: 6 }))
        .map(([from, length]): readonly [number, number] => [from, from + length]),
      { maxLength: 4 },
    );
    const events = fc.array(fc.boolean(), { minLength: 1, maxLength: 12 });
    fc.assert(
      fc.property(slurs, events, (drawn, sounding) => {
        const notes = sounding.map(sounds => ({ pitch: sounds ? pitchOf('C4') : undefined, duration: 12 }));
        // Event ids count from 1 in a tune of this kind.
        const ids = sounding.flatMap((sounds, n) => (sounds ? [n + 1] : []));
        const expected = ids.map(
          (id, k) => k > 0 && drawn.some(([from, to]) => from <= ids[k - 1]! && to >= id),
        );
        expect(strikesOf(tuneOf(notes, drawn)).strikes.map(({ slurred }) => slurred)).toEqual(expected);
      }),
    );
  });
});

describe('beats', () => {
  test('count the lower number of the time signature from 1, quarters where there is none', () => {
    const beats = (time: string) =>
      strikesOf(
        tuneFrom(`${attributes(time)}${note('C4', 6)}${note('C4', 12)}${note('C4', 12)}`),
      ).strikes.map(({ beat }) => beat);
    expect(beats('<time><beats>4</beats><beat-type>4</beat-type></time>')).toEqual([1, 1.5, 2.5]);
    expect(beats('<time><beats>6</beats><beat-type>8</beat-type></time>')).toEqual([1, 2, 4]);
    expect(beats('<time><beats>2</beats><beat-type>2</beat-type></time>')).toEqual([1, 1.25, 1.75]);
    expect(beats('<time><senza-misura/></time>')).toEqual([1, 1.5, 2.5]);
    expect(strikesOf(bars('C4 D4', 'E4')).strikes.map(({ beat, at }) => [beat, at])).toEqual([
      [1, 0],
      [2, 12],
      [1, 24],
    ]);
  });
});

test('between two strikes there is sound, at most till the next, and silence', () => {
  const { strikes } = strikesOf(
    tuneOf([
      { pitch: pitchOf('C4'), duration: 18 },
      { pitch: undefined, duration: 6 },
      { pitch: pitchOf('D4'), duration: 12 },
      { pitch: pitchOf('E4'), duration: 12 },
    ]),
  );
  const [c, d, e] = strikes;
  expect(timingBefore(DIVISION, c!, d!)).toEqual({ sounding: 1.5, silence: 0.5 });
  expect(timingBefore(DIVISION, d!, e!)).toEqual({ sounding: 1, silence: 0 });
  // A note that is held over the next sounds till then; one out of order leaves no time.
  expect(timingBefore(DIVISION, { ...d!, duration: 48 }, e!)).toEqual({ sounding: 1, silence: 0 });
  expect(timingBefore(DIVISION, e!, c!)).toEqual({ sounding: 0, silence: 0 });
});
