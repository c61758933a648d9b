/** Random small cases: instruments, tunes of a few strikes in measures that may return, and rules. */
import fc from 'fast-check';
import type { WindowRule } from '../../src/fingering/arrangement.ts';
import type { Targets } from '../../src/fingering/demand.ts';
import { type Pin, type Rules, rulesFrom } from '../../src/fingering/rules.ts';
import { INSTRUMENTS } from '../../src/instrument/catalogue.ts';
import type { Instrument } from '../../src/instrument/instrument.ts';
import { placesOf, soundAt, topFret } from '../../src/instrument/places.ts';
import { midi } from '../../src/score/pitch.ts';
import type { Tune } from '../../src/score/tune.ts';
import { type MeasureOf, sharpened, tuneOfMeasures } from '../support/melody.ts';
import { sizeOf } from './trial/paths.ts';
import { type Trial, trialOf } from './trial/trial.ts';

export interface Case {
  readonly tune: Tune;
  readonly instrument: Instrument;
  readonly rules: Rules;
  readonly targets: Targets | undefined;
}

export const instruments: fc.Arbitrary<Instrument> = fc
  .record({
    base: fc.constantFrom(...INSTRUMENTS),
    strings: fc.option(fc.array(fc.integer({ min: 40, max: 76 }), { minLength: 1, maxLength: 6 }), {
      nil: undefined,
      freq: 4,
    }),
    capo: fc.constantFrom(0, 0, 0, 1, 3),
  })
  .map(({ base, strings, capo }) => ({
    ...base,
    capo,
    strings: strings ? strings.map(sharpened) : base.strings,
  }));

/** A strike as it is drawn: places are made from numbers, so that every draw is on the neck. */
const strikes = fc.record({
  places: fc.array(fc.record({ string: fc.nat(5), fret: fc.nat(9) }), { minLength: 1, maxLength: 3 }),
  chord: fc.boolean(),
  duration: fc.constantFrom(0, 3, 6, 12, 12, 24, 48),
  restAfter: fc.constantFrom(0, 0, 0, 12, 48),
  held: fc.integer({ min: 0, max: 5 }),
  mark: fc.integer({ min: 0, max: 40 }),
});

/** A tune: measures drawn from few patterns, so that they return; frets lie above `from`. */
export const tunes = (instrument: Instrument, from: number, mostMeasures = 3): fc.Arbitrary<Tune> =>
  fc
    .record({
      patterns: fc.array(fc.array(strikes, { minLength: 1, maxLength: 3 }), { minLength: 1, maxLength: 2 }),
      order: fc.array(fc.nat(1), { minLength: 1, maxLength: mostMeasures }),
      numbers: fc.constantFrom(['1', '2', '3', '4'], ['1', 'X1', '2', '3'], ['X1', '1', '2a', '3']),
      slur: fc.option(fc.tuple(fc.integer({ min: 1, max: 4 }), fc.integer({ min: 1, max: 3 })), {
        nil: undefined,
      }),
    })
    .map(({ patterns, order, numbers, slur }) => {
      const measures = order.map(
        (pattern, n): MeasureOf => ({
          number: numbers[n % 4]!,
          events: patterns[pattern % patterns.length]!.flatMap(strike => eventsOf(instrument, from, strike)),
        }),
      );
      return tuneOfMeasures(measures, slur ? [[slur[0], slur[0] + slur[1]]] : []);
    });

type StrikeDrawn = typeof strikes extends fc.Arbitrary<infer T> ? T : never;

const eventsOf = (
  instrument: Instrument,
  from: number,
  { places, chord, duration, restAfter, held, mark }: StrikeDrawn,
): MeasureOf['events'] => {
  const drawn = places.slice(0, chord ? 3 : 1).map(({ string, fret }) => ({
    string: 1 + (string % instrument.strings.length),
    fret: Math.min(fret + from, topFret(instrument)),
  }));
  // A place for each of a chord's strings; no pitch twice.
  const bySound = new Map(
    drawn
      .filter(({ string }, n) => drawn.findIndex(each => each.string === string) === n)
      .map(place => [soundAt(instrument, place), place]),
  );
  const sorted = [...bySound].sort(([a], [b]) => a - b);
  const pitches = sorted.map(([sound]) => sharpened(sound));
  const marked = sorted.map(([, place]) => ({
    string: mark % 3 === 1 ? place.string : undefined,
    fret: mark % 4 === 1 ? place.fret : undefined,
    finger: mark % 9 === 1 ? 1 + (mark % 4) : mark === 7 ? 0 : undefined,
  }));
  return [
    { pitches, duration, marked },
    ...(held === 0 && duration > 0 ? [{ pitches, duration: 12, tied: true }] : []),
    ...(restAfter > 0 ? [{ pitches: [], duration: restAfter }] : []),
  ];
};

const windowsAbove = (instrument: Instrument, from: number): fc.Arbitrary<readonly WindowRule[]> =>
  fc
    .record({
      kind: fc.constantFrom('none', 'whole', 'whole', 'measures', 'both'),
      lows: fc.array(fc.integer({ min: -2, max: 5 }), { minLength: 2, maxLength: 2 }),
      widths: fc.array(fc.integer({ min: 2, max: 5 }), { minLength: 2, maxLength: 2 }),
      split: fc.integer({ min: 1, max: 3 }),
    })
    .map(({ kind, lows, widths, split }) => {
      const [whole, later] = lows.map((low, n) => {
        const top = topFret(instrument);
        const bottom = Math.min(Math.max(0, from + low), top);
        return { low: bottom, high: Math.min(bottom + widths[n]!, top) };
      });
      const all: WindowRule = { measures: undefined, window: whole! };
      const part: WindowRule = { measures: { from: split, to: split + 1 }, window: later! };
      if (kind === 'none') return [];
      if (kind === 'whole') return [all];
      return kind === 'measures' ? [part] : [all, part];
    });

/** Pins on notes of the tune, mostly where they sound. */
const pinsFor = (tune: Tune, instrument: Instrument): fc.Arbitrary<readonly Pin[]> => {
  const notes = tune.measures.flatMap(measure =>
    measure.events.flatMap(event =>
      event.kind === 'note' && event.heads.every(head => head.tieFrom === undefined)
        ? [{ measure, event }]
        : [],
    ),
  );
  const one = fc
    .record({ note: fc.nat(), place: fc.nat(), byBeat: fc.boolean() })
    .map(({ note, place, byBeat }): Pin => {
      const { measure, event } = notes[note % notes.length]!;
      const head = event.heads.at(-1)!;
      const sound = midi(head.pitch);
      const places = placesOf(instrument, sound);
      return byBeat
        ? {
            kind: 'beat',
            measure: measure.number,
            beat: 1 + event.at / tune.division,
            place: places[place % places.length]!,
          }
        : { kind: 'pitch', sound, name: 'the note', place: places[place % places.length]! };
    });
  return fc.array(one, { maxLength: 1 }).chain(pins =>
    // A second pin now and then; two on one note may contradict each other.
    fc.option(one, { nil: undefined, freq: 5 }).map(more => (more ? [...pins, more] : pins)),
  );
};

const rulesFor = (tune: Tune, instrument: Instrument, from: number): fc.Arbitrary<Rules> =>
  fc
    .record({
      windows: windowsAbove(instrument, from),
      open: fc.option(fc.constantFrom('never', 'rescue', 'free'), { nil: undefined }),
      outside: fc.constantFrom('nearest', 'nearest', 'nearest', 'nearest', 'refuse'),
      pins: fc.option(pinsFor(tune, instrument), { nil: undefined, freq: 2 }),
      keepMarked: fc.constantFrom(false, false, true),
      onePlace: fc.boolean(),
      repeats: fc.constantFrom('same', 'free'),
      campanella: fc.boolean(),
      level: fc.constantFrom('first', 'even', 'even', 'least'),
      hand: fc.constantFrom('small', 'medium', 'medium', 'large', 80, 130),
    })
    .map(({ open, pins, ...said }) =>
      rulesFrom({ ...said, ...(open && { open }), ...(pins && { pins }) } as Partial<Rules>),
    );

/** Another edition's places: mostly such as sound the note here too. */
const targetsFor = (tune: Tune, instrument: Instrument): fc.Arbitrary<Targets | undefined> => {
  const heads = tune.measures.flatMap(({ events }) =>
    events.flatMap(event => (event.kind === 'note' ? event.heads : [])),
  );
  return fc.option(
    fc.array(fc.nat(5), { minLength: heads.length, maxLength: heads.length }).map(
      all =>
        new Map(
          heads.map((head, n) => {
            const places = placesOf(instrument, midi(head.pitch));
            return [head.id, places[all[n]!] ?? { string: 1, fret: all[n]! }];
          }),
        ),
    ),
    { nil: undefined, freq: 2 },
  );
};

/** All of it together. */
export const cases: fc.Arbitrary<Case> = fc
  .record({ instrument: instruments, from: fc.constantFrom(0, 0, 2, 4, 8) })
  .chain(({ instrument, from }) =>
    tunes(instrument, from).chain(tune =>
      fc
        .record({ rules: rulesFor(tune, instrument, from), targets: targetsFor(tune, instrument) })
        .map(({ rules, targets }) => ({ tune, instrument, rules, targets })),
    ),
  );

/** A case cut at its end until it has few enough paths; undefined where even one strike has too many. */
export const smallEnough = (
  drawn: Case,
  mostPaths: number,
): { readonly small: Case; readonly trial: Trial } | undefined => {
  let tune: Tune | undefined = drawn.tune;
  while (tune) {
    const small: Case = { ...drawn, tune, rules: holdingIn(tune, drawn.rules) };
    const trial = trialOf(tune, drawn.instrument, small.rules, drawn.targets);
    if (sizeOf(trial) <= mostPaths) return { small, trial };
    tune = withoutLastEvent(tune);
  }
  return undefined;
};

/** Without the windows for measures that the tune does not have, or has no more: such are refused. */
const holdingIn = (tune: Tune, rules: Rules): Rules => {
  const numbers = tune.measures.map(({ number }) => Number.parseInt(number, 10));
  const holds = ({ measures }: WindowRule): boolean =>
    !measures || numbers.some(each => each >= measures.from && each <= measures.to);
  return { ...rules, windows: rules.windows.filter(holds) };
};

const withoutLastEvent = (tune: Tune): Tune | undefined => {
  const last = tune.measures.at(-1);
  if (!last) return undefined;
  const measures = tune.measures.slice(0, -1);
  const events = last.events.slice(0, -1);
  return { ...tune, measures: events.length > 0 ? [...measures, { ...last, events }] : measures };
};
