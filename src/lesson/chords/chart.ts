/**
 * The chord chart of a tune: its measures, the chord symbols where they fall, and for each beat the chord
 * that it gets, or a rest.
 */
import { beatsOf } from '../../score/beats.ts';
import type { TimeSignature } from '../../score/model/attributes.ts';
import { type Barline, rightBarline } from '../../score/model/barline.ts';
import type { ChordSymbol } from '../../score/model/chord-symbol.ts';
import type { Direction } from '../../score/model/direction.ts';
import type { NoteValue, Ticks } from '../../score/model/duration.ts';
import { isPickupNumber } from '../../score/moments.ts';
import { exactValue, writtenRests } from '../../score/time.ts';
import type { Tune, TuneMeasure } from '../../score/tune.ts';

/** A measure of a chord chart. */
export interface ChartMeasure {
  /** Of the tune's measures. */
  readonly index: number;
  /** As printed; undefined for a pickup, which is not counted. */
  readonly number: string | undefined;
  /** Ticks. */
  readonly length: Ticks;
  /** Where it is new; at the tune's first measure. */
  readonly time: TimeSignature | undefined;
  readonly beats: readonly ChartBeat[];
  /** One for each silent beat, and for what a pickup has before its first. */
  readonly rests: readonly ChartRest[];
  /** Where they change, in order of time. */
  readonly chords: readonly { readonly at: Ticks; readonly symbol: ChordSymbol }[];
  readonly left: Barline;
  readonly right: Barline;
  /** Rehearsal marks, segno and coda; jumps. */
  readonly marks: readonly Extract<Direction, { kind: 'rehearsal' | 'sign' | 'jump' }>[];
}

interface ChartBeat {
  /** From the start of the measure. */
  readonly at: Ticks;
  /** The chord that sounds on the beat; undefined for silence: no chord yet, or "no chord". */
  readonly chord: ChordSymbol | undefined;
}

interface ChartRest {
  /** From the start of the measure. */
  readonly at: Ticks;
  readonly value: NoteValue;
}

/** A chord for every beat of a tune. */
export interface ChordChart {
  readonly tune: Tune;
  readonly measures: readonly ChartMeasure[];
}

/** The chart of a tune. A tune without chord symbols has one, too: all its beats are silent. */
export const chordChart = (tune: Tune): ChordChart => {
  let chord: ChordSymbol | undefined;
  const measures = tune.measures.map((measure, index) => {
    const symbols = [...measure.chordSymbols].sort((a, b) => a.at - b.at);
    const before = chord;
    const chordAt = (at: Ticks): ChordSymbol | undefined => {
      const inForce = symbols.findLast(symbol => symbol.at <= at) ?? before;
      return inForce?.root ? inForce : undefined;
    };
    const times = beatTimes(measure, tune.division, index);
    const starts = times[0] === 0 ? times : [0, ...times];
    const rests = starts.flatMap((at, i) =>
      chordAt(at) ? [] : restsOf(at, starts[i + 1] ?? measure.length, tune.division),
    );
    chord = symbols.at(-1) ?? chord;
    return {
      index,
      number: measure.implicit || isPickupNumber(measure.number) ? undefined : measure.number,
      length: measure.length,
      time:
        index === 0 ? measure.time : measure.changes.findLast(change => change.time && change.at === 0)?.time,
      beats: times.map(at => ({ at, chord: chordAt(at) })),
      rests,
      chords: symbols.map(symbol => ({ at: symbol.at, symbol })),
      left: measure.left,
      right: rightBarline(tune.measures, index),
      marks: measure.directions.filter(isMark),
    };
  });
  return { tune, measures };
};

/** A silent beat as one rest, but as several where none is written so. */
const restsOf = (from: Ticks, to: Ticks, division: Ticks): readonly ChartRest[] => {
  const value = exactValue(to - from, division);
  return value ? [{ at: from, value }] : writtenRests(from, to, division);
};

/** All chord symbols of a chart, in order. */
export const symbolsOf = ({ measures }: ChordChart): readonly ChordSymbol[] =>
  measures.flatMap(({ chords }) => chords.map(({ symbol }) => symbol));

const isMark = (direction: Direction): direction is ChartMeasure['marks'][number] =>
  direction.kind === 'rehearsal' || direction.kind === 'sign' || direction.kind === 'jump';

/**
 * Where the beats of a measure fall. One that is shorter than its metre ends on a bar line as all do, so
 * that a pickup, or the second half of a split measure, has the last beats.
 */
const beatTimes = (measure: TuneMeasure, division: Ticks, index: number): readonly Ticks[] => {
  const lengths = beatsOf(measure.time, division);
  const whole = lengths.reduce((sum, length) => sum + length, 0);
  const missing = whole - measure.length;
  const skipped = missing > 0 && (index === 0 || measure.implicit) ? missing : 0;
  const times: Ticks[] = [];
  let at = -skipped;
  for (let beat = 0; at < measure.length; beat++) {
    if (at >= 0) times.push(at);
    at += lengths[beat % lengths.length]!;
  }
  return times;
};
