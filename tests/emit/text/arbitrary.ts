/** Random tunes: values, accidentals, ties, syllables of every width, chord symbols, bar lines. */

import fc from 'fast-check';
import { PLAIN_BARLINE } from '../../../src/score/model/barline.ts';
import { type MeasureSpec, tuneOf } from './tunes.ts';

const note = fc
  .record({
    pitch: fc.constantFrom('C4', 'C#4', 'D4', 'Eb4', 'E4', 'F#4', 'G4', 'Bb4', 'B4', 'C5', 'F5', 'A5', 'C6'),
    value: fc.constantFrom('w', 'h', 'q', 'e', 's', 'q.', 'h.', 'e3', 't'),
    syllable: fc.constantFrom('', '/a', '/long-', '/through_', '/crème', '/日本', '/e\u0301t\u00e9'),
    tied: fc.boolean(),
  })
  .map(({ pitch, value, syllable, tied }) =>
    tied ? [`${pitch}${value}~${syllable}`, `${pitch}q`] : [`${pitch}${value}${syllable}`],
  );
const event = fc.oneof({ weight: 6, arbitrary: note }, { weight: 1, arbitrary: fc.constant(['rq']) });
const measure: fc.Arbitrary<MeasureSpec> = fc.record({
  notes: fc.array(event, { minLength: 1, maxLength: 6 }).map(events => events.flat().join(' ')),
  chords: fc.constantFrom({}, { 0: 'G7' }),
  left: fc.constantFrom(PLAIN_BARLINE, { ...PLAIN_BARLINE, repeat: true }),
  right: fc.constantFrom(
    PLAIN_BARLINE,
    { ...PLAIN_BARLINE, repeat: true },
    { ...PLAIN_BARLINE, style: 'double' as const },
  ),
});
export const tunes = fc.array(measure, { minLength: 1, maxLength: 12 }).map(specs => tuneOf(specs));
/** Columns of a terminal. */
export const widths = fc.integer({ min: 30, max: 140 });
