/** What the teacher asks of a fingering, before the solver looks for the cheapest. */
import type { Place } from '../instrument/instrument.ts';
import type { FretWindow, WindowRule } from './arrangement.ts';
import type { HandSize } from './hand.ts';

/**
 * When an open string may sound: never; to rescue a note that has no place in the window; or as
 * freely as any other place.
 */
export type OpenPolicy = 'never' | 'rescue' | 'free';

/**
 * What becomes of a note without a place in the window: it goes to the place that the hand reaches
 * best, or the tune is refused.
 */
export type OutsidePolicy = 'nearest' | 'refuse';

/**
 * What is cheap. `first`: low places and open strings, as beginners' books write. `even`: the sum of
 * all terms. `least`: the hardest single move as easy as can be, and then the sum.
 */
export type Level = 'first' | 'even' | 'least';

/** A place that the teacher has chosen: for a pitch throughout, or for the note at a beat. */
export type Pin = { readonly place: Place } & (
  | { readonly kind: 'pitch'; readonly sound: number; readonly name: string }
  | { readonly kind: 'beat'; readonly measure: string; readonly beat: number }
);

/** What the teacher asks for, every rule with a value. */
export interface Rules {
  readonly windows: readonly WindowRule[];
  readonly open: OpenPolicy;
  readonly outside: OutsidePolicy;
  readonly pins: readonly Pin[];
  /** Obey string, fret and fingering numbers that are in the file. */
  readonly keepMarked: boolean;
  /** Every pitch has one place throughout the tune. */
  readonly onePlace: boolean;
  /** A passage that returns is fingered the same each time, or each time for itself. */
  readonly repeats: 'same' | 'free';
  /** Neighbouring notes ring over each other on different strings. */
  readonly campanella: boolean;
  readonly level: Level;
  readonly hand: HandSize;
}

/** The rules where nothing is said; open strings only rescue inside a window, and are free without one. */
export const rulesFrom = (said: Partial<Rules> = {}): Rules => ({
  windows: said.windows ?? [],
  open: said.open ?? ((said.windows ?? []).length > 0 ? 'rescue' : 'free'),
  outside: said.outside ?? 'nearest',
  pins: said.pins ?? [],
  keepMarked: said.keepMarked ?? false,
  onePlace: said.onePlace ?? false,
  repeats: said.repeats ?? 'same',
  campanella: said.campanella ?? false,
  level: said.level ?? 'even',
  hand: said.hand ?? 'medium',
});

/** One window for the whole tune. */
export const wholeTune = (low: number, high: number): readonly WindowRule[] => [
  { measures: undefined, window: { low, high } },
];

/**
 * The windows in force in measures, by their printed numbers in the order of the tune: of the rules that name
 * a number the last, or else the last for the whole tune. A number such as "12a" counts as 12; a measure
 * without a number has the window of the measure before.
 */
export const windowsIn = (rules: Rules, measures: readonly string[]): readonly (FretWindow | undefined)[] => {
  let window: FretWindow | undefined;
  return measures.map((measure, index) => {
    if (index === 0 || /^\d/.test(measure)) window = windowAt(rules, Number.parseInt(measure, 10));
    return window;
  });
};

/** The rules with windows that end where the tune does, by its printed numbers: 9-99 is 9-16 in a tune of 16 measures. */
export const endingWith = (rules: Rules, measures: readonly string[]): Rules => {
  // One by one: spreading the numbers of a long tune would overflow the stack.
  const last = measures.reduce((most, each) => Math.max(most, Number.parseInt(each, 10) || 0), 0);
  return {
    ...rules,
    windows: rules.windows.map(rule =>
      rule.measures && rule.measures.to > last ? { ...rule, measures: { ...rule.measures, to: last } } : rule,
    ),
  };
};

const windowAt = ({ windows }: Rules, number: number): FretWindow | undefined => {
  const named = windows.findLast(
    ({ measures }) => measures && number >= measures.from && number <= measures.to,
  );
  return (named ?? windows.findLast(({ measures }) => !measures))?.window;
};

/** "frets 4-8", "frets 4-8 without open strings" */
export const windowName = ({ open }: Rules, window: FretWindow | undefined): string =>
  (window ? `frets ${window.low}-${window.high}` : 'the frets of the neck') +
  (open === 'never' ? ' without open strings' : '');
