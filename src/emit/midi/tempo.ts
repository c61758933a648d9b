/** The track that tells tempo, metre and key. */
import { beatsOf } from '../../score/beats.ts';
import type { Key, TimeSignature } from '../../score/model/attributes.ts';
import { valueTicks } from '../../score/time.ts';
import type { Tune } from '../../score/tune.ts';
import { keySignatureEvent, type MidiEvent, tempoEvent, timeSignatureEvent } from './file.ts';
import type { Visit } from './performance.ts';

/** How fast the track is played. */
export interface Tempo {
  /** Beats a minute instead of the tune's own; the beat is that of the first time signature. */
  readonly perMinute: number | undefined;
  /** How much of the speed is played, per cent. */
  readonly percent: number;
}

/** Beats a minute where nothing is said: our judgement, for a learner. */
const DEFAULT_TEMPO = 90;

/** Something that holds from a moment on. */
interface Mark<T> {
  readonly at: number;
  readonly value: T;
}

/** Changes in the order of playing, without repetitions; `now` is in force before the first. */
const changes = <T>(
  visits: readonly Visit[],
  atStart: (index: number) => T,
  within: (index: number) => readonly Mark<T>[],
): readonly Mark<T>[] => {
  const marks = visits.flatMap(({ measure, at }) => [
    { at, value: atStart(measure.index) },
    ...within(measure.index).map(mark => ({ at: at + mark.at, value: mark.value })),
  ]);
  return marks.filter(
    (mark, index) => index === 0 || JSON.stringify(mark.value) !== JSON.stringify(marks[index - 1]!.value),
  );
};

/** Quarter notes a minute: marks within each measure, and what is in force where it starts. */
const temposOf = (tune: Tune, { perMinute }: Tempo) => {
  const beat = beatsOf(tune.measures[0]?.time, tune.division)[0]!;
  const quarters = ((perMinute ?? DEFAULT_TEMPO) * beat) / tune.division;
  let inForce = quarters;
  const starts: number[] = [];
  const within: (readonly Mark<number>[])[] = [];
  for (const { directions } of tune.measures) {
    const marks = directions.flatMap(each =>
      perMinute === undefined && each.kind === 'tempo' && each.perMinute !== undefined
        ? [{ at: each.at, value: each.perMinute * valueTicks(each.beat, 1) }]
        : [],
    );
    const first = marks.findLast(mark => mark.at === 0);
    starts.push(first?.value ?? inForce);
    within.push(marks.filter(mark => mark.at > 0));
    inForce = marks.at(-1)?.value ?? inForce;
  }
  return { starts, within };
};

/**
 * Tempo, metre and key as they change in the order of playing. `ticks` takes times of the performance to
 * those of the file; what holds at the start holds through the count-in.
 */
export const conductorEvents = (
  tune: Tune,
  visits: readonly Visit[],
  tempo: Tempo,
  ticks: (at: number) => number,
): readonly MidiEvent[] => {
  const { starts, within } = temposOf(tune, tempo);
  const time = (at: number): number => (at === 0 ? 0 : ticks(at));
  const quarter = (perMinute: number): number => 60e6 / ((perMinute * tempo.percent) / 100);
  return [
    ...changes(
      visits,
      index => starts[index]!,
      index => within[index]!,
    ).map(({ at, value }) => tempoEvent(time(at), quarter(value))),
    ...changes<TimeSignature | undefined>(
      visits,
      index => tune.measures[index]!.time,
      index => changesOf(tune, index, 'time'),
    ).flatMap(({ at, value }) => timeSignature(time(at), value)),
    ...changes<Key>(
      visits,
      index => tune.measures[index]!.key,
      index => changesOf(tune, index, 'key'),
    ).map(({ at, value }) => keySignatureEvent(time(at), value.fifths, value.mode === 'minor')),
  ];
};

const changesOf = <K extends 'key' | 'time'>(tune: Tune, index: number, name: K) =>
  tune.measures[index]!.changes.flatMap(change =>
    change.at > 0 && change[name] !== undefined ? [{ at: change.at, value: change[name] }] : [],
  );

/** The format holds one fraction with a power of two below; others are left out. */
const timeSignature = (at: number, time: TimeSignature | undefined): readonly MidiEvent[] => {
  if (time?.kind !== 'metred') return [];
  const types = new Set(time.fractions.map(({ beatType }) => beatType));
  const [beatType] = types;
  const beats = time.fractions.flatMap(each => each.beats).reduce((sum, each) => sum + each, 0);
  if (types.size > 1 || beats > 255 || !Number.isInteger(Math.log2(beatType!))) return [];
  const [beat] = beatsOf(time, 24);
  return [timeSignatureEvent(at, beats, beatType!, Math.min(255, beat!))];
};
