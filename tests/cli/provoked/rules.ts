/** Instruments, windows, chosen places and marks that do not go together with the tune. */
import { findInstrument, parseInstrument, parseTuning, withCapo } from '../../../src/index.ts';
import { diceFrom } from '../../fuzz/mutate.ts';
import { note } from '../../support/musicxml.ts';
import { IN_FIRST, marked, measures, type Provocations, tune, whole } from './provocation.ts';

const PLAIN = measures(whole('C4'));
type Marked = readonly [string, Parameters<typeof note>[2]];

/** Notes struck together, each with its marks. */
const chord = (...notes: readonly Marked[]): string =>
  measures(
    notes
      .map(([name, parts], index) => whole(name, { ...parts, before: index > 0 ? '<chord/>' : '' }))
      .join(''),
  );
const check = { command: 'check', on: '<note>', at: { ...IN_FIRST, beat: 1 } } as const;

/** Two halves, each with its marks. */
const halves = (...notes: readonly Marked[]): string =>
  measures(notes.map(([name, parts]) => note(name, 24, parts)).join(''));

/** A tune that leaps about at random, so that much has to be tried before the best way is known. */
const wandering = (seed: number): string => {
  const dice = diceFrom(seed);
  const passages = Array.from({ length: 5 }, () =>
    Array.from({ length: 12 }, () => note(`${'CDEFGAB'[dice(7)]}${3 + dice(3)}`, 3)).join(''),
  );
  const [first, ...others] = Array.from({ length: 12 }, () => passages[dice(5)]!);
  return measures(first!, ...others);
};

export const RULES: Provocations = {
  'bad-capo': { call: () => withCapo(findInstrument('ukulele'), 30) },
  'bad-instrument-file': { call: () => parseInstrument('{"id": "mine"}') },
  'bad-tuning': { call: () => parseTuning('G C E A') },
  'unknown-instrument': { call: () => findInstrument('zither') },
  'window-without-measures': tune(PLAIN, { options: '-f 90-99:4-8' }),
  'window-off-the-neck': tune(PLAIN, { options: '-f 30-34' }),

  'best-key': tune(PLAIN, { options: '--transpose best' }),
  'cannot-reach-key': tune(PLAIN, { options: '--transpose G#' }),
  'editions-differ': tune(PLAIN, { options: '-i ukulele -i ukulele-low-g --match' }),
  'impossible-place': tune(PLAIN, { options: '--place C4=1:1', on: '<note>', at: { ...IN_FIRST, beat: 1 } }),
  'no-note-to-place': tune(PLAIN, { options: '--place A4=1:0' }),
  'no-shape': tune(chord(['C4', {}], ['C#4', {}]), {
    options: '--chords all --tuning C4',
    on: '<note>',
    at: { ...IN_FIRST, beat: 1 },
  }),
  'not-proven-cheapest': tune(wandering(226), {
    options: '-i guitar --one-place --level least',
    status: 0,
  }),
  'note-off-the-instrument': tune(measures(whole('C2')), { on: '<note>', at: { ...IN_FIRST, beat: 1 } }),
  'note-outside-window': tune(measures(whole('D4')), {
    options: '-f 4-5 --open never',
    on: '<note>',
    at: { ...IN_FIRST, beat: 1 },
  }),
  'open-string-in-window': tune(PLAIN, { options: '-f 4-8', on: '<note>', at: { ...IN_FIRST, beat: 1 } }),
  'rules-contradict': tune(halves(['C5', {}], ['C5', {}]), {
    options: '--one-place --place m1.1=1:3 --place m1.3=2:8',
  }),

  'no-places-marked': tune(PLAIN, { command: 'check', at: {} }),
  'place-changes-under-tie': tune(
    halves(
      ['C5', { ...marked(1, 3), after: '<tie type="start"/>' }],
      ['C5', { ...marked(2, 8), after: '<tie type="stop"/>' }],
    ),
    { ...check, at: { ...IN_FIRST, beat: 3 } },
  ),
  'place-missing': tune(halves(['C5', marked(1, 3)], ['E4', {}]), { ...check, at: { ...IN_FIRST, beat: 3 } }),
  'place-not-the-same': tune(halves(['C5', marked(1, 3)], ['C5', marked(2, 8)]), {
    ...check,
    options: '--one-place',
    at: { ...IN_FIRST, beat: 3 },
  }),
  'place-off-the-neck': tune(halves(['C5', marked(5, 3)]), check),
  'place-out-of-reach': tune(chord(['C4', marked(3, 0)], ['F5', marked(1, 8)], ['F4', marked(2, 1)]), {
    ...check,
    options: '--chords all',
  }),
  'place-outside-window': tune(halves(['C5', marked(1, 3)]), { ...check, options: '-f 4-8' }),
  'place-sounds-another-note': tune(halves(['C5', marked(1, 4)]), check),
  'string-used-twice': tune(chord(['C5', marked(1, 3)], ['E5', marked(1, 7)]), {
    ...check,
    options: '--chords all',
  }),
};
