/** Random tunes with everything on them: chords, grace notes, slurs, marks, verses, keys, metres, endings. */
import fc from 'fast-check';
import type { Barline } from '../../src/score/model/barline.ts';
import type { Direction } from '../../src/score/model/direction.ts';
import type { Articulation, Head, Lyric, MusicEvent, NoteEvent } from '../../src/score/model/event.ts';
import type { Step } from '../../src/score/pitch.ts';
import type { Tune, TuneMeasure } from '../../src/score/tune.ts';
import { tunes } from '../emit/text/arbitrary.ts';

const SOURCE = { line: 1, part: 'P1', measure: '1' };

const ornament = fc.record({
  graces: fc.constantFrom(0, 0, 0, 0, 0, 1, 2, 3),
  slashed: fc.boolean(),
  chord: fc.constantFrom(0, 0, 0, 0, 1, 2, 3),
  fermata: fc.constantFrom(false, false, false, true),
  articulations: fc.constantFrom<readonly Articulation[]>(
    [],
    [],
    [],
    ['staccato'],
    ['accent', 'staccato'],
    ['tenuto'],
    ['breath'],
  ),
  second: fc.constantFrom('', '', 'oh', 'glo-', 'A‿men'),
  slur: fc.constantFrom(0, 0, 0, 1, 2, 5),
});

type Ornament = typeof ornament extends fc.Arbitrary<infer T> ? T : never;

const furniture = fc.record({
  key: fc.constantFrom(undefined, undefined, -4, 0, 3),
  direction: fc.constantFrom<Direction | undefined>(
    undefined,
    undefined,
    { kind: 'words', text: 'softly', placement: 'above', at: 0, source: SOURCE },
    { kind: 'words', text: 'rall.', placement: 'below', at: 0, source: SOURCE },
    { kind: 'dynamic', text: 'mf', at: 0, source: SOURCE },
    { kind: 'sign', sign: 'segno', at: 0, source: SOURCE },
    { kind: 'rehearsal', text: 'B', at: 0, source: SOURCE },
    { kind: 'jump', jump: 'dacapo', text: 'D.C. al Fine', at: 0, source: SOURCE },
    {
      kind: 'tempo',
      perMinute: 88,
      beat: { base: 8, dots: 1, ratio: undefined },
      text: 'Lento',
      printed: true,
      at: 0,
      source: SOURCE,
    },
  ),
  ending: fc.constantFrom(false, false, false, true),
});

type Furniture = typeof furniture extends fc.Arbitrary<infer T> ? T : never;

const STEPS: readonly Step[] = ['C', 'D', 'E', 'F', 'G', 'A', 'B'];

/** A head some steps above another. */
function above(head: Head, steps: number, id: number): Head {
  const index = STEPS.indexOf(head.pitch.step) + steps;
  const octave = head.pitch.octave + Math.floor(index / 7);
  return { ...head, id, pitch: { step: STEPS[index % 7]!, alter: 0, octave } };
}

class Ids {
  #next = 1;
  next = (): number => this.#next++;
}

/** Events of one note: its grace notes, then itself, with ids that ascend. */
function adorned(
  event: NoteEvent,
  { graces, slashed, chord, fermata, articulations, second }: Ornament,
  ids: Ids,
): NoteEvent[] {
  const before = Array.from(
    { length: graces },
    (_, i): NoteEvent => ({
      ...event,
      id: ids.next(),
      duration: 0,
      value: { base: graces === 1 ? 8 : 16, dots: 0, ratio: undefined },
      grace: slashed ? 'slashed' : 'plain',
      lyrics: [],
      heads: [{ ...above(event.heads[0]!, i % 3, ids.next()), tieTo: undefined, tieFrom: undefined }],
    }),
  );
  const id = ids.next();
  const tied = event.heads.some(head => head.tieTo !== undefined || head.tieFrom !== undefined);
  const first: Head = { ...event.heads[0]!, id: ids.next(), tieTo: undefined, tieFrom: undefined };
  const others = tied ? [] : Array.from({ length: chord }, (_, i) => above(first, i + 1, ids.next()));
  const syllabic = second.endsWith('-') ? 'begin' : 'single';
  const verse: Lyric[] = second
    ? [{ verse: '2', text: second.replace('-', ''), syllabic, extend: false }]
    : [];
  return [
    ...before,
    { ...event, id, heads: [first, ...others], fermata, articulations, lyrics: [...event.lyrics, ...verse] },
  ];
}

function furnished(measure: TuneMeasure, { key, direction, ending }: Furniture): TuneMeasure {
  const signature = key === undefined ? undefined : { fifths: key, mode: undefined };
  const one = { numbers: [1], text: '1', close: 'closed' as const };
  const left: Barline = ending ? { ...measure.left, ending: one } : measure.left;
  const right: Barline = ending ? { ...measure.right, ending: one } : measure.right;
  return {
    ...measure,
    left,
    right,
    key: signature ?? measure.key,
    changes: signature ? [{ at: 0, key: signature }] : [],
    directions: direction ? [direction] : [],
  };
}

export const richTunes: fc.Arbitrary<Tune> = fc
  .tuple(tunes, fc.infiniteStream(ornament), fc.infiniteStream(furniture))
  .map(([tune, ornaments, extras]) => {
    const ids = new Ids();
    const slurs: { from: number; length: number }[] = [];
    const measures = tune.measures.map(measure => {
      const events = measure.events.flatMap((event): MusicEvent[] => {
        if (event.kind === 'rest') return [{ ...event, id: ids.next() }];
        const one = ornaments.next().value;
        const made = adorned(event, one, ids);
        if (one.slur > 0) slurs.push({ from: made.at(-1)!.id, length: one.slur });
        return made;
      });
      return furnished({ ...measure, events }, extras.next().value);
    });
    const notes = measures
      .flatMap(({ events }) => events)
      .filter(event => event.kind === 'note' && !event.grace);
    const ends = slurs.flatMap(({ from, length }) => {
      const to = notes[notes.findIndex(({ id }) => id === from) + length];
      return to ? [{ from, to: to.id, placement: undefined }] : [];
    });
    return { ...tune, measures, slurs: ends };
  });
