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
import { type Layer, latticeBuilder, type MoveTable } from './lattice.ts';
import { costModel } from './model.ts';
import { cutLayer, cutTable } from './reduce.ts';
import type { OpenPolicy, Rules } from './rules.ts';
import { solve } from './solver.ts';
import { type Strike, timingBefore } from './strikes.ts';
import { hasteOf } from './time.ts';

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
  const build = latticeBuilder(hand, costModel(rules));
  const everywhere = Array.from({ length: hand.fretAt.length - 1 }, (_, index) => index + 1);
  const policy = { open: 'free', outside: 'refuse' } as const;
  const layers = new Map<number, Layer>();
  const layerOf = (sound: number): Layer => {
    const demand = { sounds: [sound], window: undefined, fixed: [undefined], targets: [undefined] };
    const layer = layers.get(sound) ?? build.layer(demand, each => gripsFor(hand, each, policy, everywhere));
    layers.set(sound, layer);
    return layer;
  };
  return { hand, open: rules.open, layerOf, moves: build.moves };
};

/** A pitch inside a window: the grips that belong to it, by index in the layer of the whole neck. */
interface Part {
  readonly whole: Layer;
  readonly kept: Int32Array;
  readonly layer: Layer;
}

/** Stopped in the window from a position in it, or open where that may be. */
const partOf = (whole: Layer, window: FretWindow, open: OpenPolicy): Part => {
  const inside = (fret: number): boolean => fret >= window.low && fret <= window.high;
  const pick = (test: (grip: Grip) => boolean): Int32Array =>
    Int32Array.from(whole.grips.keys()).filter(i => {
      const grip = whole.grips[i]!;
      return inside(grip.position) && test(grip);
    });
  const stopped = pick(grip => !isOpen(grip) && inside(grip.touches[0]!.fret));
  const rings = open === 'free' || (open === 'rescue' && stopped.length === 0);
  const kept = rings ? pick(grip => isOpen(grip) || inside(grip.touches[0]!.fret)) : stopped;
  return { whole, kept, layer: cutLayer(whole, kept) };
};

const surveyWindow = (
  ground: Ground,
  strikes: readonly Strike[],
  division: number,
  transposition: number,
  window: FretWindow,
): SurveyRow => {
  const parts = new Map<number, Part>();
  const partFor = (strike: Strike): Part => {
    const sound = strike.sounds.at(-1)! + transposition;
    const part = parts.get(sound) ?? partOf(ground.layerOf(sound), window, ground.open);
    parts.set(sound, part);
    return part;
  };
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
    widestReach: Math.max(0, ...grips.map(grip => reachOf(ground.hand, grip))),
  };
};

const reachOf = (hand: Hand, grip: Grip): number =>
  isOpen(grip) ? 0 : span(hand, grip.position, grip.touches[0]!.fret);
