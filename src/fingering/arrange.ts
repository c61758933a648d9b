/** Arranges a tune: the cheapest fingering under the rules, as a place and a finger for every head. */
import type { Instrument } from '../instrument/instrument.ts';
import type { Diagnostic } from '../score/diagnostic.ts';
import type { Tune } from '../score/tune.ts';
import type { Arrangement, Misfit, Placement } from './arrangement.ts';
import type { Targets } from './demand.ts';
import { DIFFERENCE } from './lattice.ts';
import { misfitDiagnostics, rulesDiagnostics } from './misfits.ts';
import { type Problem, problemOf, type Solved, solveProblem } from './problem.ts';
import type { Rules } from './rules.ts';
import { spotOf } from './spots.ts';

/** A tune's fingering, what there is to say about it, and how it was found. */
export interface Arranged extends Solved {
  readonly arrangement: Arrangement;
  /** Notes outside the window, open strings that rescued, marks that were not obeyed. */
  readonly diagnostics: readonly Diagnostic[];
}

/**
 * Finds the cheapest fingering of a tune under the rules; with `targets`, of those that agree with
 * another edition in as many notes as can be. Instruments of other editions, `beside`, are not offered as
 * ways out. Throws a Refusal that lists every note the instrument cannot sound, or that the rules leave
 * without a place.
 */
export const arrange = (
  tune: Tune,
  instrument: Instrument,
  rules: Rules,
  targets?: Targets,
  beside?: readonly Instrument[],
): Arranged => {
  const problem = problemOf(tune, instrument, rules, targets, beside);
  const found = solveProblem(problem);
  const arrangement = arrangementOf(problem, found.path);
  return {
    arrangement,
    diagnostics: [...misfitDiagnostics(problem, arrangement), ...rulesDiagnostics(problem, found)],
    problem,
    found,
  };
};

/** The arrangement that a path through the problem's lattice means. */
export const arrangementOf = (problem: Problem, path: Int32Array): Arrangement => {
  const { strikes, struckBy, asked } = problem;
  const { instrument, rules } = asked;
  const placements = new Map<number, Placement>();
  strikes.forEach((strike, k) => {
    const grip = problem.lattice.layers[k]!.grips[path[k]!]!;
    strike.heads.forEach((head, index) => {
      placements.set(head, { ...grip.touches[index]!, position: grip.position, fit: grip.fit });
    });
  });
  for (const [head, struck] of struckBy) placements.set(head, placements.get(struck)!);
  const costs = strikeCosts(problem, path);
  const [first] = rules.windows;
  return {
    instrument,
    window: rules.windows.length === 1 && !first!.measures ? first!.window : undefined,
    windows: rules.windows,
    placements,
    misfits: misfitsOf(problem, placements),
    cost: costs.reduce((sum, cost) => sum + cost, 0),
    costs: new Map(strikes.map((strike, k) => [strike.heads[0]!, costs[k]!])),
  };
};

/** What a path costs at each strike, thousandths of a point, differences from another edition left out. */
const strikeCosts = ({ lattice }: Problem, path: Int32Array): readonly number[] =>
  Array.from(path, (grip, k) => {
    const layer = lattice.layers[k]!;
    const move = k > 0 ? lattice.moves[k - 1]![path[k - 1]! * layer.grips.length + grip]! : 0;
    return (layer.costs[grip]! % DIFFERENCE) + move;
  });

const misfitsOf = (
  { strikes, demands }: Problem,
  placements: ReadonlyMap<number, Placement>,
): readonly Misfit[] =>
  strikes.flatMap((strike, k) =>
    strike.heads.flatMap((head, index) => {
      const placement = placements.get(head)!;
      if (placement.fit === 'inside') return [];
      return [{ head, ...spotOf(strike, index), window: demands[k]!.window, placement }];
    }),
  );
