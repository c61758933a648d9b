/** Exact numbers as text. */
import { gcd } from '../../score/time.ts';
import type { FractionText } from './document.ts';

/** "3/8", "2", "0"; for whole numbers that are not negative, the lower one above zero. */
export const fraction = (upper: number, lower: number): FractionText => {
  if (!Number.isSafeInteger(upper) || !Number.isSafeInteger(lower) || upper < 0 || lower <= 0) {
    throw new RangeError(`${upper}/${lower} is not a fraction of whole numbers`);
  }
  const common = gcd(upper, lower);
  return lower === common ? String(upper / common) : `${upper / common}/${lower / common}`;
};
