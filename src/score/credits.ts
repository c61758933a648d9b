/** Who made a tune, as every sheet of it says. */
import type { Heading } from './model.ts';

/** A line for each: composer, author of the words, arranger; one who made tune and words is named once. */
export const creditLines = ({
  composer,
  lyricist,
  arranger,
}: Pick<Heading, 'composer' | 'lyricist' | 'arranger'>): readonly string[] => [
  ...(composer ? [composer] : []),
  ...(lyricist && lyricist !== composer ? [`Words: ${lyricist}`] : []),
  ...(arranger ? [`Arr. ${arranger}`] : []),
];
