/** How hard a fingering is, in numbers that a player can picture; in all and measure by measure. */
import { groupBy } from '../score/groups.ts';
import { mmNumber, pointsNumber } from '../score/numbers.ts';
import { chargesAt, gripAt } from './explain.ts';
import { type Grip, isOpen } from './grip.ts';
import { type Hand, span } from './hand.ts';
import type { Solved } from './problem.ts';
import type { Strike } from './strikes.ts';

/** What a fingering, or a measure of it, asks of the hand. */
export interface Difficulty {
  readonly notes: number;
  readonly shifts: number;
  /** Way of the hand in all, mm. */
  readonly shifted: number;
  /** Widest reach from the index finger to another, or between fingers that play in a row, mm. */
  readonly widestReach: number;
  readonly crossings: number;
  readonly outside: number;
  readonly open: number;
  /** Points, and points a note. */
  readonly cost: number;
  readonly costPerNote: number;
}

/** The numbers as data hold them: lengths to a tenth of a mm, costs to a thousandth of a point. */
export const difficultyData = ({
  shifted,
  widestReach,
  cost,
  costPerNote,
  ...counts
}: Difficulty): Difficulty => ({
  ...counts,
  shifted: mmNumber(shifted),
  widestReach: mmNumber(widestReach),
  cost: pointsNumber(cost),
  costPerNote: pointsNumber(costPerNote),
});

/** A move that is worth checking by hand. */
export interface HardMove {
  readonly strike: Strike;
  readonly from: Grip;
  readonly to: Grip;
  /** Points, the grip it leads to included. */
  readonly cost: number;
}

/** The same for a whole tune, measure by measure, with its hardest moves. */
export interface DifficultyReport extends Difficulty {
  /** The span of index and little finger that is no effort to this hand, mm. */
  readonly comfortableReach: number;
  readonly measures: readonly (Difficulty & { readonly measure: string })[];
  /** The hardest first. */
  readonly hardest: readonly HardMove[];
}

/** Counts what a fingering asks of the hand; `hardest` names that many moves. */
export const difficultyOf = (solved: Solved, hardest = 5): DifficultyReport => {
  const { problem } = solved;
  const steps = problem.strikes.map((strike, k) => stepAt(solved, strike, k));
  return {
    ...sumUp(steps),
    comfortableReach: problem.hand.comfortable[5 + 4]!,
    measures: groupBy(steps, ({ strike }) => strike.measure).map(each => ({
      measure: each[0].strike.source.measure,
      ...sumUp(each),
    })),
    hardest: steps
      .flatMap(({ strike, before, grip, cost }) => (before ? [{ strike, from: before, to: grip, cost }] : []))
      .sort((a, b) => b.cost - a.cost || a.strike.at - b.strike.at)
      .slice(0, hardest),
  };
};

interface Step {
  readonly strike: Strike;
  readonly before: Grip | undefined;
  readonly grip: Grip;
  readonly shifted: number;
  readonly reach: number;
  /** Points. */
  readonly cost: number;
}

const stepAt = ({ problem, found }: Solved, strike: Strike, k: number): Step => {
  const { hand } = problem;
  const grip = gripAt(problem, found, k);
  const before = k > 0 ? gripAt(problem, found, k - 1) : undefined;
  const cost = chargesAt(problem, found, k).reduce((sum, charge) => sum + charge.cost, 0);
  return {
    strike,
    before,
    grip,
    shifted: before ? span(hand, before.position, grip.position) : 0,
    reach: reachOf(hand, before, grip),
    cost,
  };
};

/** How far the hand spreads for a grip: from the index finger's fret, and from the fingers just used. */
const reachOf = (hand: Hand, before: Grip | undefined, grip: Grip): number => {
  const stopped = grip.touches.filter(touch => touch.finger > 0);
  const held = before?.position === grip.position ? before.touches.filter(touch => touch.finger > 0) : [];
  const spans = stopped.flatMap(touch => [
    span(hand, grip.position, touch.fret),
    ...[...stopped, ...held].map(other => span(hand, other.fret, touch.fret)),
  ]);
  return Math.max(0, ...spans);
};

const sumUp = (steps: readonly Step[]): Difficulty => {
  const cost = steps.reduce((sum, step) => sum + step.cost, 0);
  const count = (test: (step: Step) => boolean): number => steps.filter(test).length;
  return {
    notes: steps.length,
    shifts: count(({ before, grip }) => before !== undefined && before.position !== grip.position),
    shifted: steps.reduce((sum, step) => sum + step.shifted, 0),
    widestReach: steps.reduce((widest, { reach }) => Math.max(widest, reach), 0),
    crossings: count(({ before, grip }) => before !== undefined && crosses(before, grip)),
    outside: count(({ grip }) => grip.fit === 'outside'),
    open: count(({ grip }) => isOpen(grip)),
    cost,
    costPerNote: steps.length > 0 ? cost / steps.length : 0,
  };
};

const crosses = (a: Grip, b: Grip): boolean =>
  a.touches.length === 1 && b.touches.length === 1 && a.touches[0]!.string !== b.touches[0]!.string;
