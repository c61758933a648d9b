/** Signs that steer the way through a tune, as they are said beside the notes of a measure. */
import { repeatStarts, signsAt } from '../../score/play-order.ts';
import type { Tune } from '../../score/tune.ts';

/** What is said before the notes of a measure, and after them. */
export interface CueSigns {
  /** Numbers of the ending that begins here. */
  readonly ending: readonly number[] | undefined;
  readonly segno: boolean;
  readonly coda: boolean;
  /** The measure that a repeat at the end goes back to, by its index, and how often all is played. */
  readonly back: { readonly to: number; readonly times: number } | undefined;
  /** Words such as "D.C. al Fine" at the end. */
  readonly jumps: readonly string[];
}

/** The same where there are none. */
export const NO_SIGNS: CueSigns = {
  ending: undefined,
  segno: false,
  coda: false,
  back: undefined,
  jumps: [],
};

/**
 * The signs of each of these measures, which are those with notes, by their indices. Of silent measures nothing is
 * said, and so the signs before their rests go with the next notes, and those after them with the last.
 */
export const signsBeside = (tune: Tune, sung: readonly number[]): ReadonlyMap<number, CueSigns> => {
  const { measures } = tune;
  const starts = repeatStarts(tune);
  const [segnos, codas] = [signsAt(measures, 'segno'), signsAt(measures, 'coda')];
  return new Map(
    sung.map((index, at) => {
      const first = at === 0 ? 0 : sung[at - 1]! + 1;
      const isHere = (sign: number): boolean => sign >= first && sign <= index;
      const through = measures.slice(index, sung[at + 1]);
      const end = through.findLast(({ right }) => right.repeat);
      return [
        index,
        {
          ending: measures.slice(first, index + 1).findLast(({ left }) => left.ending)?.left.ending?.numbers,
          segno: segnos.some(isHere),
          coda: codas.some(isHere),
          back: end && { to: starts[end.index]!, times: end.right.times },
          jumps: through.flatMap(({ directions }) =>
            directions.flatMap(each => (each.kind === 'jump' ? [each.text] : [])),
          ),
        },
      ];
    }),
  );
};
