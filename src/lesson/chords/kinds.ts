/**
 * Kinds of chords: what MusicXML 4.0 lists as `kind-value`, each as intervals above the root.
 *
 * Sources: the notes that MusicXML 4.0 gives beside its values (from memory); the intervals are those of
 * tonal's chord type of the name given, where tonal has one. Sevenths are minor unless a name says
 * otherwise, elevenths and thirteenths leave out what players leave out (the third of a dominant
 * eleventh, the eleventh of a thirteenth; common practice).
 *
 * MusicXML does not say what the root of a functional sixth is. Here it is the note under the sixth, on
 * which the chord is built, as with every other symbol: the German sixth on A♭ is A♭ C E♭ F♯.
 */

export interface Kind {
  /** Interval names as theory writes them: number, then P M m A d. */
  readonly intervals: string;
  /** tonal's symbol for the same chord type; undefined where it knows none. */
  readonly symbol: string | undefined;
}

/** By MusicXML’s kind value. */
export const KINDS: Readonly<Record<string, Kind>> = {
  major: { intervals: '1P 3M 5P', symbol: 'M' },
  minor: { intervals: '1P 3m 5P', symbol: 'm' },
  augmented: { intervals: '1P 3M 5A', symbol: 'aug' },
  diminished: { intervals: '1P 3m 5d', symbol: 'dim' },
  dominant: { intervals: '1P 3M 5P 7m', symbol: '7' },
  'major-seventh': { intervals: '1P 3M 5P 7M', symbol: 'maj7' },
  'minor-seventh': { intervals: '1P 3m 5P 7m', symbol: 'm7' },
  'diminished-seventh': { intervals: '1P 3m 5d 7d', symbol: 'dim7' },
  'augmented-seventh': { intervals: '1P 3M 5A 7m', symbol: '7#5' },
  'half-diminished': { intervals: '1P 3m 5d 7m', symbol: 'm7b5' },
  'major-minor': { intervals: '1P 3m 5P 7M', symbol: 'mMaj7' },
  'major-sixth': { intervals: '1P 3M 5P 6M', symbol: '6' },
  'minor-sixth': { intervals: '1P 3m 5P 6M', symbol: 'm6' },
  'dominant-ninth': { intervals: '1P 3M 5P 7m 9M', symbol: '9' },
  'major-ninth': { intervals: '1P 3M 5P 7M 9M', symbol: 'maj9' },
  'minor-ninth': { intervals: '1P 3m 5P 7m 9M', symbol: 'm9' },
  'dominant-11th': { intervals: '1P 5P 7m 9M 11P', symbol: '11' },
  'major-11th': { intervals: '1P 3M 5P 7M 9M 11P', symbol: undefined },
  'minor-11th': { intervals: '1P 3m 5P 7m 9M 11P', symbol: 'm11' },
  'dominant-13th': { intervals: '1P 3M 5P 7m 9M 13M', symbol: '13' },
  'major-13th': { intervals: '1P 3M 5P 7M 9M 13M', symbol: 'maj13' },
  'minor-13th': { intervals: '1P 3m 5P 7m 9M 13M', symbol: 'm13' },
  'suspended-second': { intervals: '1P 2M 5P', symbol: 'sus2' },
  'suspended-fourth': { intervals: '1P 4P 5P', symbol: 'sus4' },
  power: { intervals: '1P 5P', symbol: '5' },
  pedal: { intervals: '1P', symbol: undefined },
  Neapolitan: { intervals: '1P 3M 5P', symbol: 'M' },
  Italian: { intervals: '1P 3M 6A', symbol: undefined },
  French: { intervals: '1P 3M 4A 6A', symbol: undefined },
  German: { intervals: '1P 3M 5P 6A', symbol: undefined },
  Tristan: { intervals: '1P 4A 6A 9A', symbol: undefined },
  /** Only what the file's degrees add to the root. */
  other: { intervals: '1P', symbol: undefined },
};
