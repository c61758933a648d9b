/** How long something lasts, and how that is written. */

/** Whole ticks; `Score.division` of them make a quarter note. */
export type Ticks = number;

/** How a duration is written. */
export interface NoteValue {
  /** Denominator of the undotted value: 4 is a quarter, 1 a whole, 0.5 a breve, 0.25 a long. */
  readonly base: number;
  readonly dots: number;
  /** Notes in the time of: 3 in the time of 2 for a triplet; the product over nested tuplets. */
  readonly ratio: { readonly actual: number; readonly normal: number } | undefined;
}
