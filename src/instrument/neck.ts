/** The geometry of a neck: where frets lie, in millimetres from the nut. */

/**
 * Distance from the nut to a fret, mm, for a scale of `scaleLength` mm: equal temperament halves the
 * sounding length every twelve frets, so fret n lies at L·(1 − 2^(−n/12)).
 * Source: the formula every maker uses; for L = 650 fret 12 lies at 325.
 */
export const fretDistance = (scaleLength: number, fret: number): number =>
  scaleLength * (1 - 2 ** (-fret / 12));

/** Distances of frets 0 … `frets` from the nut, mm. */
export const fretTable = (scaleLength: number, frets: number): Float64Array =>
  Float64Array.from({ length: frets + 1 }, (_, fret) => fretDistance(scaleLength, fret));
