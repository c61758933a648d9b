/**
 * "No chord" that a file writes as words over the staff. Among chord symbols it is one of them: it ends the chord
 * before it. Where a tune has none, the words may mean anything, and stay words.
 */
import type { ChordSymbol } from '../model/chord-symbol.ts';
import type { Direction } from '../model/direction.ts';
import type { TuneMeasure } from '../tune.ts';

/** Common practice. */
const NO_CHORD = /^\(?(n\.? ?c\.?|no chords?|tacet)\.?\)?$/i;

type Words = Extract<Direction, { kind: 'words' }>;

const saysNoChord = (direction: Direction): direction is Direction & Words =>
  direction.kind === 'words' && direction.placement === 'above' && NO_CHORD.test(direction.text);

/** The same measures, with a chord symbol in the place of such words. */
export const withNoChords = (measures: readonly TuneMeasure[]): readonly TuneMeasure[] =>
  measures.some(({ chordSymbols }) => chordSymbols.some(({ root }) => root))
    ? measures.map(measure => (measure.directions.some(saysNoChord) ? withoutWords(measure) : measure))
    : measures;

const withoutWords = (measure: TuneMeasure): TuneMeasure => {
  const isSaid = (at: number) => measure.chordSymbols.some(each => each.at === at && !each.root);
  const said = measure.directions.filter(saysNoChord).filter(({ at }) => !isSaid(at));
  const chordSymbols = [...measure.chordSymbols, ...said.map(noChord)].sort((a, b) => a.at - b.at);
  return { ...measure, chordSymbols, directions: measure.directions.filter(each => !saysNoChord(each)) };
};

const noChord = ({ at, source }: Words & Direction): ChordSymbol => ({
  at,
  root: undefined,
  kind: 'none',
  text: undefined,
  bass: undefined,
  degrees: [],
  source,
});
