/**
 * The measures of the drawing, in staff spaces, in one place. [M]: engraving defaults published in the
 * metadata of the reference font of SMuFL; the rest is common engraving practice or our judgement.
 */
export const STYLE = {
  staffLine: 0.13, // [M]
  stem: 0.12, // [M]
  ledgerLine: 0.16, // [M]
  ledgerBeyond: 0.4, // [M]
  beam: 0.5, // [M]
  beamGap: 0.25, // [M]
  thinBar: 0.16, // [M]
  thickBar: 0.5, // [M]
  barGap: 0.4, // [M]
  curveEnds: 0.1, // [M]
  curveMiddle: 0.22, // [M]
  bracket: 0.16, // [M]

  stemLength: 3.5,
  hook: 1.1,
  graceSize: 0.62,

  accidentalGap: 0.22,
  dotGap: 0.45,

  tabSpace: 1.5,
  /** Em size of a fret figure: figures 1.33 sp high, 2.5 mm on a 7.5 mm staff. */
  digitSize: 2.06,
  lyricSize: 1.95,
  verseLeading: 2.3,
  chordSize: 2.15,
  wordsSize: 1.8,
  smallSize: 1.45,
} as const;
