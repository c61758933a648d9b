/** What making a pack has to say. */
import { expect, test } from 'vitest';
import { quarters } from '../../support/melody.ts';
import { packOf, windowOf } from '../../support/pack.ts';

test('what is said of the scale names scale and edition, and no measure as if it were of the tune', () => {
  // The tune fits. Below it lies D4, in frets 3 to 7 of the fourth string alone, where that is low (our own count).
  const { diagnostics } = packOf(quarters('E4 E5'), [windowOf(3, 7)]);
  const outside = diagnostics.filter(({ code }) => code === 'note-outside-window');
  expect(outside.map(({ message }) => message.replace(/ has no place.*: /, ', '))).toEqual([
    'Warm-up scale, ukulele: D4, measure 1 beat 2; measure 5 beat 2',
  ]);
  for (const { place } of outside) expect(place).toBeUndefined();
});
