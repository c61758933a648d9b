/**
 * A survey of where a melody could be played: every window up the neck, in every key around.
 *
 * For each combination the notes that fit are fingered at least cost, each passage for itself; notes that
 * do not fit are counted and left out. Grips and moves are priced once for the whole survey: a window
 * only takes its part of them.
 */
import type { Instrument } from '../instrument/instrument.ts';
import { topFret } from '../instrument/places.ts';
import type { FretWindow } from './arrangement.ts';
import { gripsFor } from './candidates.ts';
import { type Grip, isOpen, type MoveContext } from './grip.ts';
import { type Hand, handOn, span } from './hand.ts';
import { LatticeBuilder, type Layer, type MoveTable } from './lattice.ts';
import { costModel } from './model.ts';
import { cutLayer, cutTable } from './reduce.ts';
import type { OpenPolicy, Rules } from './rules.ts';
import { solve } from './solver.ts';
import { type Strike, timingBefore } from './strikes.ts';
import { rescue } from './terms/astray.ts';
import { toCost } from './terms/term.ts';
import { hasteOf } from './time.ts';

/** How a melody fits one window in one key. */
export interface SurveyRow {
  readonly instrument: string;
  /** Semitones from the key that was read. */
  readonly transposition: number;
  readonly window: FretWindow;
  /** Notes with a place in the window, or on an open string where that may be; and those without. */
  readonly fitting: number;
  readonly misfits: number;
  /** Points a fitting note. */
  readonly costPerNote: number;
  readonly shifts: number;
  /** From the index finger to the farthest note, mm. */
  readonly widestReach: number;
}

/** The windows and keys to be tried, each with each. */
export interface SurveyRange {
  readonly windows: readonly FretWindow[];
  /** Semitones. */
  readonly transpositions: readonly number[];
}

/** All keys to a tritone around, and the octaves. */
export const TRANSPOSITIONS: readonly number[] = [-12, -6, -5, -4, -3, -2, -1, 0, 1, 2, 3, 4, 5, 6, 12];

/** Every window of `width` frets, from fret 1 up the neck. */
export const windowsOf = (instrument: Instrument, width: number): readonly FretWindow[] =>
  Array.from({ length: Math.max(1, topFret(instrument) - width + 1) }, (_, index) => ({
    low: index + 1,
    high: Math.min(index + width, topFret(instrument)),
  }));

/** One row for each transposition and window, in that order. Of chords the top note is taken. */
export const survey = (
  strikes: readonly Strike[],
  division: number,
  instrument: Instrument,
  rules: Rules,
  { windows, transpositions }: SurveyRange,
): readonly SurveyRow[] => {
  const ground = surveyGround(handOn(instrument, rules.hand), rules);
  return transpositions.flatMap(transposition =>
    windows.map(window => surveyWindow(ground, strikes, division, transposition, window)),
  );
};

/** Least misfits first, then the least cost a note, then the nearest key, then the lowest window. */
export const ranked = (rows: readonly SurveyRow[]): readonly SurveyRow[] =>
  [...rows].sort(
    (a, b) =>
      a.misfits - b.misfits ||
      a.costPerNote - b.costPerNote ||
      Math.abs(a.transposition) - Math.abs(b.transposition) ||
      b.transposition - a.transposition ||
      a.window.low - b.window.low,
  );

/** What all windows share: layers by pitch over the whole neck, and the price of every move. */
interface Ground {
  readonly hand: Hand;
  readonly open: OpenPolicy;
  readonly layerOf: (sound: number) => Layer;
  readonly moves: (from: Layer, to: Layer, context: MoveContext) => MoveTable;
}

const surveyGround = (hand: Hand, rules: Rules): Ground => {
  const build = new LatticeBuilder(hand, costModel(rules));
  const everywhere = Array.from({ length: hand.fretAt.length - 1 }, (_, index) => index + 1);
  const policy = { open: 'free', outside: 'refuse' } as const;
  const layers = new Map<number, Layer>();
  const layerOf = (sound: number): Layer => {
    const demand = { sounds: [sound], window: undefined, fixed: [undefined], targets: [undefined] };
    const layer = layers.get(sound) ?? build.layer(demand, each => gripsFor(hand, each, policy, everywhere));
    layers.set(sound, layer);
    return layer;
  };
  const moves: Ground['moves'] = (from, to, context) => build.moves(from, to, context);
  return { hand, open: rules.open, layerOf, moves };
};

/** A pitch inside a window: the grips that belong to it, by index in the layer of the whole neck. */
interface Part {
  readonly whole: Layer;
  readonly kept: Int32Array;
  readonly layer: Layer;
}

/** What of each pitch belongs to a window: as `gripsFor` has it, where notes outside are refused. */
const partsIn = (
  { layerOf, open }: Ground,
  sounds: Iterable<number>,
  { low, high }: FretWindow,
): ReadonlyMap<number, Part> => {
  const stopped = new Map<number, Int32Array>();
  const rest = new Set<number>();
  for (const sound of sounds) {
    const { grips } = layerOf(sound);
    const kept = pick(grips, grip => {
      const { fret } = grip.touches[0]!;
      return fret > 0 && fret >= low && fret <= high && grip.position >= low;
    });
    for (const i of kept) rest.add(grips[i]!.position);
    stopped.set(sound, kept);
  }
  if (rest.size === 0) rest.add(1);
  const ringsBeside = open === 'free' || (open === 'rescue' && low === 0);
  return new Map(
    [...stopped].map(([sound, inside]): [number, Part] => {
      const whole = layerOf(sound);
      const rescued = inside.length === 0 && !ringsBeside && open === 'rescue';
      if (!ringsBeside && !rescued) return [sound, { whole, kept: inside, layer: cutLayer(whole, inside) }];
      const held = new Set(inside);
      const kept = pick(whole.grips, (grip, i) => held.has(i) || (isOpen(grip) && rest.has(grip.position)));
      const layer = cutLayer(whole, kept);
      const costs = rescued ? layer.costs.map(cost => cost + RESCUE) : layer.costs;
      return [sound, { whole, kept, layer: { ...layer, costs } }];
    }),
  );
};

const RESCUE = toCost(rescue, 1);

const pick = (grips: readonly Grip[], test: (grip: Grip, i: number) => boolean): Int32Array =>
  Int32Array.from(grips.keys()).filter(i => test(grips[i]!, i));

const surveyWindow = (
  ground: Ground,
  strikes: readonly Strike[],
  division: number,
  transposition: number,
  window: FretWindow,
): SurveyRow => {
  const soundOf = (strike: Strike): number => strike.sounds.at(-1)! + transposition;
  const parts = partsIn(ground, new Set(strikes.map(soundOf)), window);
  const partFor = (strike: Strike): Part => parts.get(soundOf(strike))!;
  const fitting = strikes.filter(strike => partFor(strike).kept.length > 0);
  const chain = fitting.map(partFor);
  const tables = new Map<MoveTable, MoveTable>();
  const moves = chain.slice(1).map((to, k) => {
    const from = chain[k]!;
    const strike = fitting[k + 1]!;
    const context = { ...hasteOf(timingBefore(division, fitting[k]!, strike)), slurred: strike.slurred };
    const table = ground.moves(from.whole, to.whole, context);
    const small = tables.get(table) ?? cutTable(table, from.kept, to.kept, to.whole.grips.length);
    tables.set(table, small);
    return small;
  });
  const { path, cost } = solve({ layers: chain.map(part => part.layer), moves });
  const grips = chain.map((part, k) => part.layer.grips[path[k]!]!);
  return {
    instrument: ground.hand.instrument.id,
    transposition,
    window,
    fitting: fitting.length,
    misfits: strikes.length - fitting.length,
    costPerNote: fitting.length > 0 ? cost / 1000 / fitting.length : 0,
    shifts: grips.filter((grip, k) => k > 0 && grip.position !== grips[k - 1]!.position).length,
    widestReach: grips.reduce((widest, grip) => Math.max(widest, reachOf(ground.hand, grip)), 0),
  };
};

const reachOf = (hand: Hand, grip: Grip): number =>
  isOpen(grip) ? 0 : span(hand, grip.position, grip.touches[0]!.fret);
