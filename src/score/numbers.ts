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
