/**
 * How far the fingering agrees with what players write: notes in the same place (string and fret), and notes with
 * the same finger, counted apart; the first also over the notes alone that have more than one place.
 *
 * The table is what teachers' method pages and handbooks give for short passages; no openly licensed set of
 * fingered melodies was to be had. The same passages are reference cases that the weights had to meet, so the
 * share is no measurement on unseen material: it is printed to show what changes when a weight does.
 * Places follow from the stringing by arithmetic.
 */
import { expect, test } from 'vitest';
import { findInstrument } from '../../src/instrument/define.ts';
import { placesOf } from '../../src/instrument/places.ts';
import { midi } from '../../src/score/pitch.ts';
import { type Asked, placed } from '../support/fingered.ts';
import { pitchOf } from '../support/melody.ts';

interface Passage {
  readonly source: string;
  readonly instrument: string;
  readonly names: string;
  readonly asked?: Asked;
  /** string/fret[finger]; a finger that the source does not give is left out, as on open strings. */
  readonly written: string;
}

const PASSAGES: readonly Passage[] = [
  {
    source: 'ukulele teachers: C major in open position; fingers of D, G and C',
    instrument: 'ukulele',
    names: 'C4 D4 E4 F4 G4 A4 B4 C5',
    written: '3/0 3/2[2] 2/0 2/1 2/3[3] 1/0 1/2 1/3[3]',
  },
  {
    source: 'the same on the linear ukulele',
    instrument: 'ukulele-low-g',
    names: 'C4 D4 E4 F4 G4 A4 B4 C5',
    written: '3/0 3/2[2] 2/0 2/1 2/3[3] 1/0 1/2 1/3[3]',
  },
  {
    source: 'players’ questions and answers: F major in frets 5-8, two notes on each of four strings',
    instrument: 'ukulele',
    names: 'F4 G4 A4 Bb4 C5 D5 E5 F5',
    asked: { frets: [5, 8] },
    written: '3/5[1] 3/7[3] 2/5[1] 2/6[2] 4/5[1] 4/7[3] 1/7[3] 1/8[4]',
  },
  {
    source: 'one finger a fret: F major in frets 5-8 of the linear ukulele',
    instrument: 'ukulele-low-g',
    names: 'F4 G4 A4 Bb4 C5 D5 E5 F5',
    asked: { frets: [5, 8] },
    written: '3/5[1] 3/7[3] 2/5[1] 2/6[2] 2/8[4] 1/5[1] 1/7[3] 1/8[4]',
  },
  {
    source: 'a guitar teacher’s note: one fret, two strings, two fingers',
    instrument: 'guitar',
    names: 'C4 D4 G4',
    asked: { frets: [1, 4] },
    written: '2/1[1] 2/3[3] 1/3[4]',
  },
  {
    source: 'the same',
    instrument: 'guitar',
    names: 'C4 F4',
    asked: { frets: [1, 4] },
    written: '2/1[1] 1/1[2]',
  },
  {
    source: 'common practice: C major in position II',
    instrument: 'guitar',
    names: 'C3 D3 E3 F3 G3 A3 B3 C4',
    asked: { frets: [2, 5] },
    written: '5/3[2] 5/5[4] 4/2[1] 4/3[2] 4/5[4] 3/2[1] 3/4[3] 3/5[4]',
  },
  {
    source: 'a mandolin lesson page: D major',
    instrument: 'mandolin',
    names: 'D4 E4 F#4 G4 A4 B4 C#5 D5',
    written: '3/0 3/2[1] 3/4[2] 3/5[3] 2/0 2/2[1] 2/4[2] 2/5[3]',
  },
];

test('agreement with passages that players have fingered', () => {
  const count = { notes: 0, places: 0, choices: 0, chosen: 0, fingers: 0, fingered: 0 };
  for (const { instrument, names, asked, written } of PASSAGES) {
    const answer = placed(names, instrument, asked);
    const pitches = names.split(' ').map(name => midi(pitchOf(name)));
    written.split(' ').forEach((word, n) => {
      const [, string, fret, finger] = /^(\d+)\/(\d+)(?:\[(\d)\])?$/.exec(word)!;
      const { string: s, fret: f, finger: x } = answer[n]!;
      const agrees = s === Number(string) && f === Number(fret);
      const open = placesOf(findInstrument(instrument), pitches[n]!).length > 1;
      count.notes++;
      if (agrees) count.places++;
      if (open) count.choices++;
      if (open && agrees) count.chosen++;
      // A finger is only compared where the place is the same.
      if (finger === undefined || !agrees) return;
      count.fingers++;
      if (x === Number(finger)) count.fingered++;
    });
  }
  const share = (part: number, of: number): string =>
    `${part} of ${of} (${((100 * part) / of).toFixed(1)} %)`;
  console.log(
    [
      `strings and frets: ${share(count.places, count.notes)}`,
      `where there was a choice: ${share(count.chosen, count.choices)}`,
      `fingers on the same place: ${share(count.fingered, count.fingers)}`,
    ].join('\n'),
  );
  // The one known difference: C5 and D5 on the re-entrant fourth string.
  expect(count.notes - count.places).toBeLessThanOrEqual(2);
  expect(count.fingered).toBe(count.fingers);
});
