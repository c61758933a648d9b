/**
 * Ties: strikes whose grips must agree. A passage that returns is fingered the same each time; with
 * one place a pitch, every note of a pitch lies in the same place.
 */
import { openPitches } from '../instrument/places.ts';
import type { Demand } from './demand.ts';
import type { Grip, Touch } from './grip.ts';
import type { Hand } from './hand.ts';
import type { Strike } from './strikes.ts';

/** Strikes whose grips must agree. */
export interface Tie {
  /** Indices of layers, at least two, ascending. */
  readonly layers: readonly number[];
  /** What must be equal. */
  readonly key: (grip: Grip) => TieKey;
}

/** What they must agree in, as a value to be compared. */
export type TieKey = number | string;

/**
 * Ties the measures that hold the same notes in the same rhythm under the same demands: string, fret
 * and finger of each note agree. Measures without notes do not count.
 */
export const repeatTies = (
  strikes: readonly Strike[],
  demands: readonly Demand[],
  measureStarts: ReadonlyMap<number, number>,
): readonly Tie[] => {
  const byMeasure = new Map<number, number[]>();
  strikes.forEach((strike, k) => {
    const indices = byMeasure.get(strike.measure);
    if (indices) indices.push(k);
    else byMeasure.set(strike.measure, [k]);
  });
  const ids = new Map<Demand, number>();
  const idOf = (demand: Demand): number => {
    const id = ids.get(demand) ?? ids.size;
    ids.set(demand, id);
    return id;
  };
  const passages = new Map<string, number[][]>();
  for (const [measure, indices] of byMeasure) {
    const start = measureStarts.get(measure) ?? 0;
    const key = indices
      .map(k => {
        const { at, duration, slurred } = strikes[k]!;
        // A slur into the measure belongs to the one before.
        return `${at - start},${duration},${slurred && k !== indices[0]},${idOf(demands[k]!)}`;
      })
      .join(';');
    const returns = passages.get(key);
    if (returns) returns.push(indices);
    else passages.set(key, [indices]);
  }
  return [...passages.values()]
    .filter(returns => returns.length > 1)
    .flatMap(returns =>
      returns[0]!.map((_, n) => ({ layers: returns.map(indices => indices[n]!), key: gripKey })),
    );
};

/** Ties all notes of a pitch to one place. */
export const onePlaceTies = (hand: Hand, strikes: readonly Strike[]): readonly Tie[] => {
  const byPitch = new Map<number, number[]>();
  strikes.forEach((strike, k) => {
    for (const sound of strike.sounds) {
      const layers = byPitch.get(sound);
      if (layers) layers.push(k);
      else byPitch.set(sound, [k]);
    }
  });
  const open = openPitches(hand.instrument);
  return [...byPitch]
    .filter(([, layers]) => layers.length > 1)
    .sort(([a], [b]) => a - b)
    .map(([sound, layers]) => ({
      layers,
      key: (grip: Grip): TieKey => {
        const touch = grip.touches.find(({ string, fret }) => open[string - 1]! + fret === sound)!;
        return placeKey(touch.string, touch.fret);
      },
    }));
};

const placeKey = (string: number, fret: number): number => 64 * string + fret;

/** String, fret and finger of every touch; a single one as a number, since melodies have no others. */
const gripKey = ({ touches }: Grip): TieKey =>
  touches.length === 1 ? touchKey(touches[0]!) : touches.map(touchKey).join();

const touchKey = ({ string, fret, finger }: Touch): number => 5 * placeKey(string, fret) + finger;
