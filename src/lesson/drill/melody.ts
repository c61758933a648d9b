/**
 * The pitches of a drill: a walk over the given notes under rules that always hold.
 *
 * - The first note and the last are tonics; every other phrase of four measures comes to rest on the
 *   fifth or the second, the others on the tonic; two measures rest on a note of the tonic triad.
 * - No move is wider than the grade allows. A leap (a fourth or more) is resolved: a step the other way
 *   follows it. No note is played three times in a row.
 *
 * Method: backwards, for every moment and state, whether the rules can still be kept to the end (a table
 * of yes and no); then forwards by chance among what can, with weights that draw the walk to the notes
 * that have been played too seldom. Rests that a small window does not allow are given up one by one.
 */

import type { GradeRow } from './grades.ts';
import type { Chance } from './random.ts';

/** A note that the drill may use. */
export interface Rung {
  /** Steps of the staff, counted from anywhere. */
  readonly step: number;
  /** Degree of the scale by its steps: 0 the tonic, 4 the fifth. */
  readonly degree: number;
  /** How often it is wanted, in proportion; a whole number from 1. */
  readonly share: number;
}

/** What a moment of the melody must be. */
export type Aim = 'any' | 'tonic' | 'half' | 'triad';

/** Degrees that an aim takes. */
const AIMS: Readonly<Record<Exclude<Aim, 'any'>, readonly number[]>> = {
  tonic: [0],
  half: [4, 1],
  triad: [0, 2, 4],
};

/** Where the walk stands, and what it owes. */
interface State {
  readonly rung: number;
  /** The direction in which a step must follow; 0 if none must. */
  readonly owed: -1 | 0 | 1;
  readonly repeated: boolean;
}

const LEAP = 3;

/** Every state that a move can lead to. */
const successors = (rungs: readonly Rung[], from: State, { widest }: GradeRow): readonly State[] => {
  const moves: State[] = [];
  for (let rung = 0; rung < rungs.length; rung++) {
    const size = Math.abs(rungs[rung]!.step - rungs[from.rung]!.step);
    const direction = Math.sign(rung - from.rung) as -1 | 0 | 1;
    const neighbour = Math.abs(rung - from.rung) === 1;
    if (from.owed !== 0 && (direction !== from.owed || !neighbour || size >= LEAP)) continue;
    if (direction === 0) {
      if (!from.repeated) moves.push({ rung, owed: 0, repeated: true });
    } else if (size <= widest || (neighbour && size < LEAP)) {
      const owed = size >= LEAP ? (-direction as -1 | 1) : 0;
      moves.push({ rung, owed, repeated: false });
    }
  }
  return moves;
};

const indexOf = ({ rung, owed, repeated }: State): number => 6 * rung + 2 * (owed + 1) + (repeated ? 1 : 0);

const meets = (rung: Rung, aim: Aim): boolean => aim === 'any' || AIMS[aim].includes(rung.degree);

/** What may stand at a moment; where the melody rests, it owes nothing. */
const mayBe = (rungs: readonly Rung[], state: State, aim: Aim): boolean =>
  meets(rungs[state.rung]!, aim) && (aim === 'any' || state.owed === 0);

/** The states that there are, each at its index. */
const statesOf = (rungs: readonly Rung[]): readonly State[] =>
  rungs.flatMap((_, rung) =>
    ([-1, 0, 1] as const).flatMap(owed => [false, true].map(repeated => ({ rung, owed, repeated }))),
  );

/** table[moment][state]: whether the aims from there on can be met. */
const reachable = (
  rungs: readonly Rung[],
  aims: readonly Aim[],
  states: readonly State[],
  moves: readonly (readonly State[])[],
): readonly Uint8Array[] => {
  const table = aims.map(() => new Uint8Array(states.length));
  for (let moment = aims.length - 1; moment >= 0; moment--) {
    const last = moment === aims.length - 1;
    for (const [index, state] of states.entries()) {
      if (!mayBe(rungs, state, aims[moment]!)) continue;
      if (last || moves[index]!.some(next => table[moment + 1]![indexOf(next)] === 1))
        table[moment]![index] = 1;
    }
  }
  return table;
};

/** How strongly a rung that is wanted draws from so many rungs away. */
const PULL = [16, 11, 8, 6, 4, 3, 2, 1] as const;

/** For each rung how much it, and what is near it, is wanted: from 1. */
const wanted = (rungs: readonly Rung[], counts: readonly number[]): readonly number[] => {
  const shares = rungs.reduce((sum, { share }) => sum + share, 0);
  const played = counts.reduce((sum, each) => sum + each, 0);
  const missing = rungs.map(({ share }, rung) =>
    Math.max(0, share * (played + rungs.length) - counts[rung]! * shares),
  );
  return rungs.map((_, rung) => {
    const drawn = missing.reduce((sum, each, other) => sum + each * (PULL[Math.abs(rung - other)] ?? 0), 0);
    return 1 + Math.floor((4 * drawn) / shares);
  });
};

/** What makes melodies to the same aims; undefined where no melody meets them. */
export const melodist = (rungs: readonly Rung[], aims: readonly Aim[], grade: GradeRow) => {
  const states = statesOf(rungs);
  const moves = states.map(state => successors(rungs, state, grade));
  const table = reachable(rungs, aims, states, moves);
  const open =
    (moment: number) =>
    (state: State): boolean =>
      table[moment]![indexOf(state)] === 1;
  const starts = states.filter(({ owed, repeated }) => owed === 0 && !repeated).filter(open(0));
  if (starts.length === 0) return undefined;
  /** One melody, as indices of rungs. */
  return (dice: Chance): readonly number[] => {
    const counts = rungs.map(() => 0);
    const walk: number[] = [];
    let choices = starts;
    for (let moment = 0; moment < aims.length; moment++) {
      const want = wanted(rungs, counts);
      const before = walk.at(-1);
      const weights = choices.map(({ rung }) => {
        const size = before === undefined ? 0 : Math.abs(rungs[rung]!.step - rungs[before]!.step);
        return want[rung]! * want[rung]! * (before === undefined ? 1 : (grade.moves[size] ?? 1));
      });
      const state = choices[dice.weighted(weights)]!;
      walk.push(state.rung);
      counts[state.rung]! += 1;
      if (moment + 1 < aims.length) choices = moves[indexOf(state)]!.filter(open(moment + 1));
    }
    return walk;
  };
};

/** A note that never comes weighs more than anything else. */
const UNPLAYED = 1e9;

/** How unevenly rungs are played, against their shares: 0 is even. A whole number; −1 is no rung. */
export const unevenness = (rungs: readonly Rung[], walk: readonly number[]): number => {
  const shares = rungs.reduce((sum, { share }) => sum + share, 0);
  const counts = rungs.map((_, rung) => walk.filter(each => each === rung).length);
  return rungs.reduce((sum, { share }, rung) => {
    const off = counts[rung]! * shares - share * walk.length;
    const unplayed = counts[rung] === 0 ? UNPLAYED : 0;
    return sum + Math.floor((off * off) / share) + unplayed;
  }, 0);
};
