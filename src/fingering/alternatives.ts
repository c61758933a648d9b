/**
 * The k cheapest fingerings of which no two have all notes in the same places, in order, exactly.
 *
 * After Lawler (1972): what remains when an answer is taken out is split by the first note whose place
 * differs. Each part is the same problem with the places before that note fixed and some places of the
 * note ruled out; the best part's best answer comes next. Parts wait under a lower bound, which the
 * solver's two passes give for nothing, and are solved only when their turn comes.
 */
import { placesKey } from './explain.ts';
import type { Grip } from './grip.ts';
import { narrowed } from './lattice.ts';
import type { Problem } from './problem.ts';
import { type Found, search } from './search.ts';
import { solve } from './solver.ts';

/** A part of what remains: notes before `at` have the places of `prefix`, note `at` none of `ruledOut`. */
interface Part {
  readonly prefix: readonly string[];
  readonly ruledOut: ReadonlySet<string>;
  readonly bound: number;
  readonly solved?: Found;
}

/** The k cheapest, the best first; fewer where there are not so many. */
export const cheapest = (problem: Problem, count: number): readonly Found[] => {
  const first = search(problem.lattice, problem.ties, solve);
  if (!first) return [];
  const parts: Part[] = [{ prefix: [], ruledOut: new Set(), bound: first.cost, solved: first }];
  const answers: Found[] = [];
  while (answers.length < count && parts.length > 0) {
    const part = takeCheapest(parts);
    if (part.solved) {
      answers.push(part.solved);
      parts.push(...split(problem, part, part.solved));
      continue;
    }
    const solved = solvePart(problem, part);
    if (solved) parts.push({ ...part, bound: solved.cost, solved });
  }
  return answers;
};

/** Of equally cheap parts the one that waits longest, solved ones first. */
const takeCheapest = (parts: Part[]): Part => {
  let least = 0;
  parts.forEach((part, i) => {
    const best = parts[least]!;
    if (part.bound < best.bound || (part.bound === best.bound && part.solved && !best.solved)) least = i;
  });
  return parts.splice(least, 1)[0]!;
};

const latticeOf = ({ lattice }: Problem, { prefix, ruledOut }: Part) => {
  const allowed = new Map<number, (grip: Grip) => boolean>();
  prefix.forEach((places, k) => {
    allowed.set(k, grip => placesKey(grip) === places);
  });
  if (ruledOut.size > 0) allowed.set(prefix.length, grip => !ruledOut.has(placesKey(grip)));
  return narrowed(lattice, allowed);
};

const solvePart = (problem: Problem, part: Part): Found | undefined =>
  search(latticeOf(problem, part), problem.ties, solve);

/** What remains of a part without its best answer. */
const split = (problem: Problem, part: Part, { path }: Found): readonly Part[] => {
  const { layers } = problem.lattice;
  const { through, offsets } = solve(latticeOf(problem, part));
  const chosen = Array.from(path, (i, k) => placesKey(layers[k]!.grips[i]!));
  return chosen.slice(part.prefix.length).flatMap((places, n) => {
    const at = part.prefix.length + n;
    const ruledOut = new Set(n === 0 ? part.ruledOut : []).add(places);
    let bound = Infinity;
    layers[at]!.grips.forEach((grip, i) => {
      if (!ruledOut.has(placesKey(grip))) bound = Math.min(bound, through[offsets[at]! + i]!);
    });
    return Number.isFinite(bound) ? [{ prefix: chosen.slice(0, at), ruledOut, bound }] : [];
  });
};
