/** Things that belong together. */

/** A list with at least one item. */
export type Group<T> = readonly [T, ...T[]];

/** Items with equal keys together, each key's in their order, the keys in the order in which they appear. */
export const groupsBy = <T, K>(items: Iterable<T>, key: (item: T) => K): ReadonlyMap<K, Group<T>> => {
  const groups = new Map<K, [T, ...T[]]>();
  for (const item of items) {
    const group = groups.get(key(item));
    if (group) group.push(item);
    else groups.set(key(item), [item]);
  }
  return groups;
};

/** The same groups without their keys. */
export const groupBy = <T>(items: Iterable<T>, key: (item: T) => unknown): readonly Group<T>[] => [
  ...groupsBy(items, key).values(),
];
