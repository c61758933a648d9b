/** Every path through the grips of a trial, and the best of them. */
import type { Grip } from '../../../src/fingering/grip.ts';
import type { Rules } from '../../../src/fingering/rules.ts';
import type { Trial } from './trial.ts';

/** Answers to one case: what a level calls best compares first to last. */
export interface Priced {
  readonly differences: number;
  /** The dearest step. */
  readonly hardest: number;
  readonly cost: number;
}

/** Calls `visit` with every path on which all agreements hold. */
export const everyPath = (trial: Trial, visit: (path: readonly number[], priced: Priced) => void): void => {
  const { layers, step, differences } = trial;
  if (sizeOf(trial) === 0) return;
  const agreements = layers.map((_, k) => trial.agreements.filter(({ later }) => later === k));
  const path: number[] = [];
  const go = (k: number, priced: Priced): void => {
    if (k === layers.length) {
      visit(path, priced);
      return;
    }
    for (let j = 0; j < layers[k]!.length; j++) {
      const grip = layers[k]![j]!;
      const agreed = agreements[k]!.every(({ earlier, agree }) =>
        agree(grip, layers[earlier]![path[earlier]!]!),
      );
      if (!agreed) continue;
      const cost = step(k, path[k - 1] ?? 0, j);
      path[k] = j;
      go(k + 1, {
        differences: priced.differences + differences(k, j),
        hardest: Math.max(priced.hardest, cost),
        cost: priced.cost + cost,
      });
    }
  };
  go(0, { differences: 0, hardest: -Infinity, cost: 0 });
};

/** Whether one fingering is better than another at a level: fewest differences always come first. */
export const isBetter = (a: Priced, b: Priced, level: Rules['level']): boolean => {
  if (a.differences !== b.differences) return a.differences < b.differences;
  if (level === 'least' && a.hardest !== b.hardest) return a.hardest < b.hardest;
  return a.cost < b.cost;
};

/** The best fingering's price; undefined where there is no fingering. */
export const bestByTrial = (trial: Trial, level: Rules['level']): Priced | undefined => {
  let best: Priced | undefined;
  everyPath(trial, (_, priced) => {
    if (!best || isBetter(priced, best, level)) best = priced;
  });
  return best;
};

/** How many paths there are, agreements aside. */
export const sizeOf = ({ layers }: Trial): number => layers.reduce((size, { length }) => size * length, 1);

/** The places of a path, as a key. */
export const placesOfPath = (
  { layers }: Pick<Trial, 'layers'>,
  path: readonly number[] | Int32Array,
): string => Array.from(path, (j, k) => placesOfGrip(layers[k]![j]!)).join(' ');

export const placesOfGrip = ({ touches }: Grip): string =>
  touches.map(({ string, fret }) => `${string}:${fret}`).join();
