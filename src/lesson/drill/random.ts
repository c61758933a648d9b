/**
 * Chance that is the same for ever: a generator of our own in 32-bit integers, so that a seed gives the
 * same drill on every machine and with every version. Nothing in here may change what a seed gives.
 * Method: Marsaglia's xorshift with the shifts 13, 17, 5 (Marsaglia 2003, J. Stat. Soft. 8(14), from memory).
 */

export interface Chance {
  /** A whole number from 0 to `count` − 1, each as likely. */
  readonly below: (count: number) => number;
  /** An index of `weights` (whole numbers, not all 0), as likely as its weight is large. */
  readonly weighted: (weights: readonly number[]) => number;
}

/** Chance from a seed, a whole number. */
export const chance = (seed: number): Chance => {
  // Neighbouring seeds are spread out first; xorshift never leaves 0, nor gets there.
  let state = Math.imul(seed ^ 0x5bd1e995, 0x9e3779b1) >>> 0 || 1;
  const next = (): number => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    state >>>= 0;
    return state;
  };
  for (let warm = 0; warm < 8; warm++) next();
  // What would make small numbers likelier is thrown away.
  const below = (count: number): number => {
    const limit = 0xffffffff - (0xffffffff % count);
    let value = next();
    while (value > limit) value = next();
    return (value - 1) % count;
  };
  const weighted = (weights: readonly number[]): number => {
    let left = below(weights.reduce((sum, each) => sum + each, 0));
    return weights.findIndex(weight => {
      left -= weight;
      return left < 0;
    });
  };
  return { below, weighted };
};
