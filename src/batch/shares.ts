/** Work dealt out to several machines, and whether the reports of all of them are there. */
import { groupBy } from '../score/groups.ts';
import { hashOf } from './plain.ts';

/** Of all, every `count`th, starting with the `index`th; both from 1. */
export interface Shard {
  readonly index: number;
  readonly count: number;
}

/** A shard, and what it is a share of. */
export interface Share extends Shard {
  /** How many there are in all. */
  readonly all: number;
  /** Says which ones, on whatever machine. */
  readonly of: string;
}

const WHOLE: Shard = { index: 1, count: 1 };

/** What falls to a shard. */
export const dealt = <T>(all: readonly T[], { index, count }: Shard = WHOLE): readonly T[] =>
  all.filter((_, at) => at % count === index - 1);

/** Which share a shard is; `names` are those of all, and alike on all machines. */
export const shareOf = (names: readonly string[], shard: Shard = WHOLE): Share => ({
  ...shard,
  all: names.length,
  of: hashOf(names.join('\n')),
});

/** A share, and who has it. */
export interface Held {
  readonly share: Share;
  readonly holder: string;
}

/** What does not add up: shares that nobody has, and two holders of which one would be counted twice. */
export type Fault =
  | { readonly kind: 'missing'; readonly index: number; readonly share: Share }
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
const overlaps = (a: Shard, b: Shard): boolean => a.count !== b.count || a.index === b.index;
