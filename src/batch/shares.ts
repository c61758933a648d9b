/** Work dealt out to several machines, and whether the reports of all of them are there. */
import { groupBy } from '../score/groups.ts';
import { hashOf } from './plain.ts';

/** Of all, every `count`th, starting with the `index`th; both from 1. */
export interface Share {
  readonly index: number;
  readonly count: number;
}

/** A share, and what it is a share of. */
export interface KnownShare extends Share {
  /** How many there are in all. */
  readonly all: number;
  /** Says which ones, on whatever machine. */
  readonly of: string;
}

const WHOLE: Share = { index: 1, count: 1 };

/** What falls to a share. */
export const dealt = <T>(all: readonly T[], { index, count }: Share = WHOLE): readonly T[] =>
  all.filter((_, at) => at % count === index - 1);

/** A share with what it is a share of; `names` are those of all, and alike on all machines. */
export const shareOf = (names: readonly string[], share: Share = WHOLE): KnownShare => ({
  ...share,
  all: names.length,
  of: hashOf(names.join('\n')),
});

/** A share, and who has it. */
export interface Held {
  readonly share: KnownShare;
  readonly holder: string;
}

/** What does not add up: shares that nobody has, and two holders of which one would be counted twice. */
export type Fault =
  | { readonly kind: 'missing'; readonly index: number; readonly share: KnownShare }
  | { readonly kind: 'repeated'; readonly first: Held; readonly second: Held };

/** What does not add up of these shares; whole runs over other tunes stand for themselves. */
export const faultsOf = (held: readonly Held[]): readonly Fault[] => {
  return groupBy(held, ({ share }) => share.of).flatMap(set => {
    const [{ share }] = set;
    const repeated = set.flatMap((second, at): readonly Fault[] => {
      const first = set.slice(0, at).find(each => overlaps(each.share, second.share));
      return first ? [{ kind: 'repeated', first, second }] : [];
    });
    const indices = Array.from({ length: share.count }, (_, at) => at + 1);
    const missing = indices.filter(index => !set.some(each => each.share.index === index));
    return repeated.length > 0
      ? repeated
      : missing.map((index): Fault => ({ kind: 'missing', index, share }));
  });
};

/** Whether two shares of the same have something in common; shared out differently, they mostly have. */
const overlaps = (a: Share, b: Share): boolean => a.count !== b.count || a.index === b.index;
