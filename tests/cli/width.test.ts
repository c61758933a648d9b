/** Long lines on a terminal. */
import { expect, test } from 'vitest';
import { withNumbers, wrapped } from '../../src/cli/width.ts';

const LINE =
  'a.musicxml, line 50, part P1, measure 12 beat 3.5: error: D4 is on string 4 fret 7, outside frets 2-6';

test.each(Array.from({ length: 40 }, (_, i) => 40 + i))('at %i columns no number stands apart', width => {
  const text = wrapped(withNumbers(LINE), width);
  const lines = text.split('\n');
  for (const line of lines) {
    expect(line.length).toBeLessThanOrEqual(width);
    expect(line).not.toMatch(/\b(line|part|measure|beat|string|frets?)$/);
  }
  expect(lines.map(line => line.trim()).join(' ')).toBe(LINE);
});
