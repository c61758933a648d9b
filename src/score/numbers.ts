/** How numbers are written, the same on sheets, in messages and in tables. */

/** Lengths with one decimal, in mm. */
export const mmText = (length: number): string => `${length.toFixed(1)} mm`;

/** Costs with two decimals, in points. */
export const pointsText = (cost: number): string => cost.toFixed(2);

/** A beat as it is counted: "1", "2.5", "3.67". */
export const beatText = (beat: number): string => String(Math.round(beat * 100) / 100);

/** "1 note", "2 notes". */
export const counted = (count: number, noun: string): string => `${count} ${noun}${count === 1 ? '' : 's'}`;

/** Lengths in data: to a tenth of a mm. */
export const mmNumber = (length: number): number => Math.round(length * 10) / 10;

/** Costs in data: to a thousandth of a point, the unit that the solver counts in. */
export const pointsNumber = (cost: number): number => Math.round(cost * 1000) / 1000;

/** More than this many of a kind are counted. */
const MOST_LISTED = 8;

/** "C4, D4"; of a long list the first ones: "C4, D4, E4 and 12 more". */
export const shortList = (names: readonly string[]): string => {
  const shown = names.slice(0, MOST_LISTED).join(', ');
  return names.length > MOST_LISTED ? `${shown} and ${names.length - MOST_LISTED} more` : shown;
};
