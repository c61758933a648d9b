/** Random lattices of plain numbers, and every path through them. */
import fc from 'fast-check';
import type { Grip } from '../../../src/fingering/grip.ts';
import { DIFFERENCE, type Lattice } from '../../../src/fingering/lattice.ts';
import type { Tie } from '../../../src/fingering/ties.ts';

/** A grip that is nothing but a number for ties to agree on. */
export const gripOf = (key: number): Grip => ({
  touches: [{ string: key + 1, fret: 1, finger: 1 }],
  position: 1,
  fit: 'inside',
  astray: 0,
});
export const keyOf = (grip: Grip): number => grip.touches[0]!.string - 1;

export interface Drawn {
  readonly lattice: Lattice;
  readonly ties: readonly Tie[];
}

/** How many layers, of how many grips, with how many ties over how many layers each: from, to. */
interface Shape {
  readonly layers: readonly [number, number];
  readonly grips: readonly [number, number];
  readonly ties: readonly [number, number];
  readonly span: readonly [number, number];
}

const LOOSE: Shape = { layers: [1, 6], grips: [1, 4], ties: [0, 3], span: [2, 4] };
/** So many ties that what looks best for one is seldom the best for all. */
export const TANGLED: Shape = { layers: [5, 5], grips: [4, 4], ties: [4, 5], span: [2, 2] };

/** What a grip costs; or the same with differences from another edition. */
export const PRICE = fc.integer({ min: -5, max: 30 });
export const PRICE_AFTER_DIFFERENCES = fc
  .tuple(fc.nat(30), fc.nat(2))
  .map(([cost, n]) => cost + n * DIFFERENCE);

const many = <T>(each: fc.Arbitrary<T>, [minLength, maxLength]: readonly [number, number]) =>
  fc.array(each, { minLength, maxLength });

/** Lattices of that shape; some moves are ruled out. */
export const drawnWith = (own = PRICE, shape = LOOSE): fc.Arbitrary<Drawn> => {
  const price = fc.oneof({ weight: 12, arbitrary: fc.integer({ min: 0, max: 30 }) }, fc.constant(Infinity));
  const [minLength, maxLength] = shape.span;
  return fc
    .record({
      layers: many(many(fc.tuple(fc.nat(2), own), shape.grips), shape.layers),
      prices: many(price, [80, 80]),
      ties: many(fc.uniqueArray(fc.nat(5), { minLength, maxLength }), shape.ties),
    })
    .map(({ layers, prices, ties }) => ({
      lattice: {
        layers: layers.map((grips, id) => ({
          id,
          grips: grips.map(([key]) => gripOf(key)),
          touches: grips.map(([key]) => gripOf(key).touches),
          touching: Int32Array.from(grips.keys()),
          costs: Float64Array.from(grips, ([, cost]) => cost),
        })),
        moves: layers
          .slice(1)
          .map((to, k) =>
            Float64Array.from({ length: layers[k]!.length * to.length }, (_, cell) => prices[16 * k + cell]!),
          ),
      },
      ties: ties
        .map(each => each.filter(layer => layer < layers.length).sort((a, b) => a - b))
        .filter(each => each.length > 1)
        .map(each => ({ layers: each, key: keyOf })),
    }));
};
export const drawn = drawnWith();
export const tangled = drawnWith(PRICE, TANGLED);

interface Walked {
  readonly path: readonly number[];
  /** Cost of each step: a move with the grip it leads to. */
  readonly steps: readonly number[];
}

/** Every path on which the ties hold. */
export const everyPath = ({ lattice: { layers, moves }, ties }: Drawn): readonly Walked[] => {
  let paths: readonly Walked[] = [{ path: [], steps: [] }];
  layers.forEach(({ costs }, k) => {
    paths = paths.flatMap(({ path, steps }) =>
      Array.from(costs, (cost, j) => {
        const move = k === 0 ? 0 : moves[k - 1]![path[k - 1]! * costs.length + j]!;
        return { path: [...path, j], steps: [...steps, move + cost] };
      }),
    );
  });
  return paths.filter(({ path }) =>
    ties.every(tie => new Set(tie.layers.map(k => keyOf(layers[k]!.grips[path[k]!]!))).size === 1),
  );
};

export const sum = ({ steps }: Walked): number => steps.reduce((total, step) => total + step, 0);
/** Differences first, then the dearest step. */
export const hardest = ({ steps }: Walked): number =>
  steps.includes(Infinity)
    ? Infinity
    : steps.reduce((total, step) => total + Math.floor(step / DIFFERENCE) * DIFFERENCE, 0) +
      Math.max(...steps.map(step => step % DIFFERENCE));
export const least = (all: readonly Walked[], price: (each: Walked) => number): number =>
  all.reduce((best, each) => Math.min(best, price(each)), Infinity);

export const priceOf = (of: Drawn, path: Int32Array, price: (each: Walked) => number): number =>
  price(everyPath(of).find(each => each.path.join() === Array.from(path).join())!);
