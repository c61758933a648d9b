/** The line at the foot of a terminal. */
import { describe, expect, it } from 'vitest';
import { progressLine } from '../../src/cli/run/progress.ts';

describe('progressLine', () => {
  it('has a bar, the count, the time left at the pace so far, and the tune', () => {
    const line = progressLine({ made: 34, toMake: 102, seconds: 6, file: 'carols/coventry-carol.mxl' }, 100);
    expect(line).toBe('[########                ]   34/102  0:12 left  carols/coventry-carol.mxl');
  });

  it('guesses no time at the very beginning, and counts hours where there are any', () => {
    expect(progressLine({ made: 1, toMake: 9, seconds: 0.1, file: 'a' }, 80)).toBe(
      '[###                     ]  1/9  a',
    );
    expect(progressLine({ made: 1, toMake: 3601, seconds: 1, file: 'a' }, 80)).toContain('1:00:00 left');
  });

  it('is never as wide as the terminal, and steers nothing', () => {
    const file = `${'x'.repeat(300)}\u001b[2J`;
    expect(progressLine({ made: 1, toMake: 2, seconds: 9, file }, 40)).toHaveLength(39);
    expect(progressLine({ made: 1, toMake: 2, seconds: 9, file: '\u001b[2J\n' }, 80)).toContain(
      '\\x1b[2J\\n',
    );
  });
});
