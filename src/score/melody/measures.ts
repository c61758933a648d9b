/** The measures of a voice, with the marks that concern it. */
import type { ChordSymbol } from '../model/chord-symbol.ts';
import type { Direction } from '../model/direction.ts';
import type { Measure, Part, Score } from '../model.ts';
import type { TuneMeasure } from '../tune.ts';
import { withoutLateChanges } from './late-changes.ts';
import { withoutLateChords } from './late-chords.ts';
import { withNoChords } from './no-chord.ts';

/** What is written once, mostly in the first part, and holds for all. */
const SHARED = ['tempo', 'sign', 'jump', 'rehearsal'] as const satisfies readonly Direction['kind'][];
type SharedKind = (typeof SHARED)[number];

/** What belongs to the staff at which it stands. */
const OF_STAFF: readonly Direction['kind'][] = ['dynamic', 'octave-shift'];

/** The measures of a part with the events of one voice alone. */
export const measuresOf = (score: Score, part: Part, voice: string): readonly TuneMeasure[] => {
  const staff = staffOf(part, voice);
  const concerns = (each: Direction): boolean => !OF_STAFF.includes(each.kind) || (each.staff ?? 1) === staff;
  const lenders = new Map(SHARED.map(kind => [kind, lender(score, part, holdsKind(kind))]));
  const chords = lender(score, part, measure => measure.chordSymbols.length > 0);
  const measures = part.measures.map(({ voices, ...measure }) => {
    const lent = SHARED.flatMap(kind => directionsOf(lenders.get(kind), measure.index, kind));
    const own = measure.directions.filter(concerns);
    return {
      ...measure,
      directions: lent.length === 0 ? own : [...own, ...lent].sort((a, b) => a.at - b.at),
      chordSymbols: chords === undefined ? measure.chordSymbols : chordsOf(chords, measure.index),
      events: voices.find(each => each.id === voice)?.events ?? [],
    };
  });
  return withoutLateChanges(withoutLateChords(withNoChords(measures)));
};

/** The staff on which the voice begins. */
const staffOf = (part: Part, voice: string): number => {
  for (const { voices } of part.measures) {
    const found = voices.find(each => each.id === voice);
    if (found !== undefined) return found.staff;
  }
  return 1;
};

/** The first other part that has what the chosen one has nowhere; undefined where the part has its own. */
const lender = (score: Score, part: Part, holds: (measure: Measure) => boolean): Part | undefined =>
  part.measures.some(holds) ? undefined : score.parts.find(each => each.measures.some(holds));

const holdsKind =
  (kind: SharedKind) =>
  (measure: Measure): boolean =>
    measure.directions.some(each => each.kind === kind);

const directionsOf = (part: Part | undefined, index: number, kind: SharedKind): readonly Direction[] =>
  part?.measures[index]?.directions.filter(each => each.kind === kind) ?? [];

const chordsOf = (part: Part, index: number): readonly ChordSymbol[] =>
  part.measures[index]?.chordSymbols ?? [];
