/** Measures: when they are, how they are counted, how they are repeated; and the chord symbols and marks in them. */

import type { Key, TimeSignature } from '../../score/model/attributes.ts';
import type { ChordSymbol } from '../../score/model/chord-symbol.ts';
import type { Direction } from '../../score/model/direction.ts';
import { metreName } from '../../score/names.ts';
import { typedName } from '../../score/pitch.ts';
import type { Tune, TuneMeasure } from '../../score/tune.ts';
import type {
  ChordSymbolDocument,
  JumpName,
  KeyDocument,
  MarkDocument,
  MeasureDocument,
} from './document.ts';
import { fraction } from './fraction.ts';
import { writtenOf } from './notes.ts';

/** The measures, with their bar lines, endings and jumps. */
export const measuresOf = ({ measures, division }: Tune): readonly MeasureDocument[] =>
  measures.map(measure => measureOf(measure, 4 * division));

/** The chord symbols, measure by measure. */
export const chordSymbolsOf = ({ measures, division }: Tune): readonly ChordSymbolDocument[] =>
  measures.flatMap(measure =>
    measure.chordSymbols.map(chord => ({
      measure: measure.index,
      onset: fraction(measure.at + chord.at, 4 * division),
      ...chordOf(chord),
    })),
  );

/** Words, tempo marks, rehearsal marks and dynamics, measure by measure. */
export const marksOf = ({ measures, division }: Tune): readonly MarkDocument[] =>
  measures.flatMap(measure =>
    measure.directions.flatMap(direction => {
      const mark = markOf(direction);
      const onset = fraction(measure.at + direction.at, 4 * division);
      return mark ? [{ measure: measure.index, onset, ...mark }] : [];
    }),
  );

/** Signs and jumps stand with their measure; pitches here sound as they are, whatever the octave sign. */
const markOf = (direction: Direction) => {
  switch (direction.kind) {
    case 'words':
    case 'rehearsal':
    case 'dynamic':
      return { kind: direction.kind, text: direction.text } as const;
    case 'tempo': {
      const { kind, text, perMinute, beat } = direction;
      return {
        kind,
        ...(text !== undefined && { text }),
        ...(perMinute !== undefined && { beat: writtenOf(beat), perMinute }),
      } as const;
    }
    default:
      return undefined;
  }
};

const measureOf = (measure: TuneMeasure, whole: number): MeasureDocument => {
  const { index, number, implicit, at, length, time, key, left, right } = measure;
  const changes = changesOf(measure, whole);
  const jumps = measure.directions.flatMap(jumpOf);
  return {
    index,
    number,
    implicit,
    onset: fraction(at, whole),
    duration: fraction(length, whole),
    metre: metreOf(time),
    key: keyOf(key),
    ...(changes.length > 0 && { changes }),
    repeatStarts: left.repeat,
    repeatEnds: right.repeat,
    ...(right.repeat && { times: right.times }),
    ...(left.ending && { endingStarts: left.ending.numbers }),
    endingStops: right.ending !== undefined,
    ...(jumps.length > 0 && { jumps }),
  };
};

/** What changes at the start of a measure is already in force there. */
const changesOf = ({ at, changes }: TuneMeasure, whole: number) =>
  changes
    .filter(change => change.at > 0 && (change.key !== undefined || change.time !== undefined))
    .map(change => ({
      onset: fraction(at + change.at, whole),
      ...(change.time && { metre: metreOf(change.time) }),
      ...(change.key && { key: keyOf(change.key) }),
    }));

const metreOf = (time: TimeSignature | undefined): string | null =>
  time?.kind === 'metred' ? metreName(time) : null;

const keyOf = ({ fifths, mode }: Key): KeyDocument => ({ fifths, ...(mode !== undefined && { mode }) });

const jumpOf = (direction: Direction): readonly JumpName[] => {
  if (direction.kind === 'sign') return [direction.sign];
  return direction.kind === 'jump' ? [direction.jump] : [];
};

const chordOf = ({ root, kind, text, bass, degrees }: ChordSymbol) => ({
  ...(root && { root: typedName(root) }),
  kind,
  ...(text !== undefined && { text }),
  ...(bass && { bass: typedName(bass) }),
  ...(degrees.length > 0 && { degrees }),
});
