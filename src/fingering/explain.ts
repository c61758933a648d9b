/** Why a note is where it is: what was paid for it, and what every other place would cost more. */
import type { Place } from '../instrument/instrument.ts';
import type { Grip } from './grip.ts';
import { narrowed, partedCost } from './lattice.ts';
import type { Problem, Solved } from './problem.ts';
import { type Found, search } from './search.ts';
import { solve } from './solver.ts';
import type { Strike } from './strikes.ts';
import { chargeMove, type Term, toCost } from './terms/term.ts';

/** One term that was paid. */
export interface Charge {
  readonly term: string;
  readonly measured: number;
  readonly unit: Term['unit'];
  /** Points. */
  readonly cost: number;
}

/** Another place for a note. */
export interface Alternative {
  readonly places: readonly Place[];
  /**
   * Points that the whole tune would cost more; Infinity where the rules leave no fingering with it. Less
   * than none where a difference from the edition that is to be matched buys it.
   */
  readonly regret: number;
  /** How many more notes would lie elsewhere than in the edition that is to be matched; 0 without one. */
  readonly differences: number;
  /** False where the search was cut short: the regret is then at most this. */
  readonly exact: boolean;
}

/** Why a strike is played where it is. */
export interface Explained {
  readonly strike: Strike;
  readonly grip: Grip;
  readonly charges: readonly Charge[];
  /** Every other place (of a chord: set of places), the fewest differences first, then the cheapest. */
  readonly alternatives: readonly Alternative[];
}

/** Branches that one regret may take; a single note's is found long before. */
const EFFORT = 400;

/** Explains the strikes that are wanted, in order; all of them where nothing is said. */
export const explain = (
  { problem, found }: Solved,
  wanted: (strike: Strike) => boolean = () => true,
): readonly Explained[] => {
  const regretsOf = regrets(problem, found);
  return problem.strikes.flatMap((strike, k) =>
    wanted(strike)
      ? [
          {
            strike,
            grip: gripAt(problem, found, k),
            charges: chargesAt(problem, found, k),
            alternatives: regretsOf(k),
          },
        ]
      : [],
  );
};

/** The grip that was chosen for a strike. */
export const gripAt = ({ lattice }: Problem, { path }: Found, k: number): Grip =>
  lattice.layers[k]!.grips[path[k]!]!;

/** What was paid at a strike: for its grip, and for the move to it. */
export const chargesAt = (problem: Problem, found: Found, k: number): readonly Charge[] => {
  const { model, hand, contexts } = problem;
  const grip = gripAt(problem, found, k);
  const charges = model.gripTerms.map(term => {
    const measured = term.measure(grip, hand);
    return chargeOf(term, measured, toCost(term, measured));
  });
  if (k > 0) {
    const before = gripAt(problem, found, k - 1);
    for (const term of [...model.handTerms, ...model.fingerTerms]) {
      const { measured, cost } = chargeMove(term, before, grip, hand, contexts[k - 1]!);
      charges.push(chargeOf(term, measured, cost));
    }
  }
  return charges.filter(charge => charge.cost !== 0);
};

const chargeOf = ({ name, unit }: Term, measured: number, cost: number): Charge => ({
  term: name,
  measured,
  unit,
  cost: cost / 1000,
});

/** Which places a grip touches, as a key. */
export const placesKey = ({ touches }: Grip): string =>
  touches.map(({ string, fret }) => `${string}:${fret}`).join();

const regretOf = (dearer: number): Pick<Alternative, 'regret' | 'differences'> => {
  if (!Number.isFinite(dearer)) return { regret: Infinity, differences: 0 };
  const { points, differences } = partedCost(dearer);
  return { regret: points, differences };
};

/** Answers, for a strike, the regret of each place that was not chosen. */
const regrets = (problem: Problem, found: Found): ((k: number) => readonly Alternative[]) => {
  const { lattice, ties } = problem;
  const free = ties.length === 0 ? solve(lattice) : undefined;
  const known = new Map<string, { readonly cost: number; readonly proven: boolean }>();
  // Strikes that a passage's return ties together have the same regrets.
  const groups = new Int32Array(problem.strikes.length).fill(-1);
  for (let t = ties.length - 1; t >= 0; t--) for (const k of ties[t]!.layers) groups[k] = t;
  const costWith = (k: number, places: string): { readonly cost: number; readonly proven: boolean } => {
    if (free) {
      const costs = lattice.layers[k]!.grips.map((grip, i) =>
        placesKey(grip) === places ? free.through[free.offsets[k]! + i]! : Infinity,
      );
      return { cost: Math.min(...costs), proven: true };
    }
    const forced = narrowed(lattice, new Map([[k, grip => placesKey(grip) === places]]));
    return search(forced, ties, solve, EFFORT) ?? { cost: Infinity, proven: true };
  };
  return k => {
    const chosen = placesKey(gripAt(problem, found, k));
    const others = new Map(
      lattice.layers[k]!.grips.filter(grip => placesKey(grip) !== chosen).map(grip => [
        placesKey(grip),
        grip.touches.map(({ string, fret }) => ({ string, fret })),
      ]),
    );
    return [...others]
      .map(([key, places]): Alternative => {
        const memo = `${groups[k]! >= 0 ? `tie ${groups[k]}` : `strike ${k}`} ${key}`;
        const { cost, proven } = known.get(memo) ?? costWith(k, key);
        known.set(memo, { cost, proven });
        return { places, ...regretOf(cost - found.cost), exact: proven };
      })
      .sort((a, b) => a.differences - b.differences || a.regret - b.regret);
  };
};
