/** The order in which the notes of a scale are played. All answers are indices from the lowest note up. */
import { namesIn } from '../table.ts';

export const DIRECTIONS = ['up', 'down', 'both'] as const;
/** Which way a scale is played. */
export type Direction = (typeof DIRECTIONS)[number];

/** A pattern plays a figure from every note on. A new one is a new row. */
export const PATTERNS = {
  steps: { words: { scale: '', arpeggio: '' }, figure: [0], unit: 1 },
  thirds: { words: { scale: 'in thirds', arpeggio: 'over every other note' }, figure: [0, 2], unit: 0.5 },
  fours: {
    words: { scale: 'in groups of four', arpeggio: 'in groups of four' },
    figure: [0, 1, 2, 3],
    unit: 0.5,
  },
} as const satisfies Record<string, Pattern>;

/** How a scale is played: in steps, or in figures on each of its notes. */
export interface Pattern {
  /** After the name of what is played. */
  readonly words: { readonly scale: string; readonly arpeggio: string };
  readonly figure: readonly number[];
  /** Length of a note in quarter notes. */
  readonly unit: number;
}

/** The name of a pattern. */
export type PatternName = keyof typeof PATTERNS;
/** The names of all patterns. */
export const PATTERN_NAMES = namesIn(PATTERNS);

/**
 * Both ways a scale in steps starts at `start`, goes up, down to its lowest note, and ends where it
 * started. Figures go from the lowest note to the highest, and mirrored back. Each way ends on its last
 * note.
 */
export const orderOf = (
  count: number,
  start: number,
  direction: Direction,
  pattern: Pattern,
): readonly number[] => {
  const up = figured(count, pattern.figure);
  const down = up.map(index => count - 1 - index);
  if (direction === 'up') return up;
  if (direction === 'down') return down;
  if (pattern.figure.length > 1) return [...up, ...down.slice(1)];
  const below = Array.from({ length: start }, (_, index) => index + 1);
  return [...up.slice(start), ...down.slice(1), ...below];
};

const figured = (count: number, figure: readonly number[]): readonly number[] => {
  const reach = Math.max(...figure);
  const starts = Array.from({ length: Math.max(0, count - reach) }, (_, index) => index);
  const notes = starts.flatMap(from => figure.map(step => from + step));
  return notes.at(-1) === count - 1 ? notes : [...notes, count - 1];
};
