/** How each part is made out of the lesson's one arrangement: one row a part. */
import type { Arranged } from '../../fingering/arrange.ts';
import type { Arrangement } from '../../fingering/arrangement.ts';
import { handOn } from '../../fingering/hand.ts';
import type { Diagnostic } from '../../score/diagnostic.ts';
import type { ChordSymbol } from '../../score/model/chord-symbol.ts';
import type { Tune } from '../../score/tune.ts';
import { type ChordChart, chordChart, symbolsOf } from '../chords/chart.ts';
import { noteName } from '../chords/chord.ts';
import { type ChordSheet, chordSheet, shapelessChords } from '../chords/sheet.ts';
import { type Cues, makeCues } from '../cues.ts';
import { type DrillSaid, usualDrill } from '../drill/usual.ts';
import { makeDrill } from '../drill.ts';
import { type NeckMap, neckMap } from '../neck/map.ts';
import { type LessonAsked, wholeWindow } from '../places.ts';
import { scaleFor } from '../scale/notes.ts';
import type { Direction, PatternName } from '../scale/pattern.ts';
import { makeScale } from '../scale.ts';
import { PARTS, type PartName } from './parts.ts';
import type { Block } from './prose.ts';

/** What stands on the pages of a part. */
export type Content =
  | {
      readonly kind: 'music';
      readonly tune: Tune;
      readonly arrangement: Arrangement;
      readonly sheet: 'tab' | 'quiz' | 'names' | 'blank';
      /** The lesson's tune, or one that the lesson made: a drill, or a scale to be fingered. */
      readonly of: 'tune' | 'drill' | 'scale';
    }
  | { readonly kind: 'chart'; readonly chart: ChordChart; readonly shapes: ChordSheet }
  | { readonly kind: 'neck'; readonly tune: Tune; readonly map: NeckMap }
  | { readonly kind: 'cues'; readonly cues: Cues; readonly words: readonly Block[] };

/** What parts can be asked to be, beyond the rules that hold for all. What is undefined has a usual value. */
export interface PartsAsked {
  /** Of scale and drill: the key of the tune where none is named. */
  readonly key: string | undefined;
  readonly scale: {
    readonly octaves?: number | undefined;
    readonly direction?: Direction | undefined;
    readonly pattern?: PatternName | undefined;
  };
  readonly drill: DrillSaid;
  readonly chords: { readonly near?: number | undefined; readonly shapes?: number | undefined };
  readonly cues: {
    /** Measures at a time; phrase by phrase where it is undefined. */
    readonly every?: number | undefined;
    /** Puts cues in words. */
    readonly say: (cues: Cues) => readonly Block[];
  };
}

/** What all parts of a lesson go by. */
export interface Lesson extends LessonAsked {
  readonly tune: Tune;
  /** For each instrument. */
  readonly arranged: readonly Arranged[];
}

interface Made {
  /** For each edition, in the order of its pages; empty where there is nothing to show. */
  readonly contents: readonly (readonly Content[])[];
  readonly diagnostics: readonly Diagnostic[];
}

type Maker = (lesson: Lesson, asked: PartsAsked) => Made;

type Music = Extract<Content, { kind: 'music' }>;

const sheet =
  (kind: Music['sheet']): Maker =>
  ({ tune, arranged }) => ({
    contents: arranged.map(({ arrangement }) => [music(tune, arrangement, kind, 'tune')]),
    diagnostics: [],
  });

const music = (tune: Tune, arrangement: Arrangement, kind: Music['sheet'], of: Music['of']): Music => ({
  kind: 'music',
  tune,
  arrangement,
  sheet: kind,
  of,
});

const scale: Maker = (lesson, { key, scale: asked }) => {
  const { tune, editions } = makeScale(
    {
      scale: scaleFor(key, lesson.tune),
      octaves: asked.octaves,
      direction: asked.direction,
      pattern: asked.pattern,
    },
    lesson,
  );
  return {
    contents: editions.map(({ arrangement }) => [music(tune, arrangement, 'tab', 'scale')]),
    // Where the hand shifts is printed on the sheet.
    diagnostics: saidOf('scale', editions).filter(({ severity }) => severity !== 'note'),
  };
};

/** To read, and the same with tablature to check. An arpeggio is a key to warm up in, not to read in. */
const drill: Maker = (lesson, { key, drill: asked }) => {
  const named = scaleFor(key, lesson.tune);
  const { tune, editions } = makeDrill(
    {
      scale: named.kind === 'scale' ? named : scaleFor(undefined, lesson.tune),
      window: wholeWindow(lesson.rules),
      ...usualDrill(asked, lesson.tune),
    },
    lesson,
  );
  return {
    contents: editions.map(({ arrangement }) => [
      music(tune, arrangement, 'quiz', 'drill'),
      music(tune, arrangement, 'tab', 'drill'),
    ]),
    diagnostics: saidOf('drill', editions),
  };
};

/** What there is to say of a part that has measures of its own, which are none of the tune's file. */
const saidOf = (part: PartName, editions: readonly Arranged[]): readonly Diagnostic[] =>
  editions.flatMap(({ arrangement: { instrument }, diagnostics }) => {
    const of = editions.length > 1 ? `, ${instrument.id}` : '';
    return diagnostics.map(({ place: _, message, ...each }) => ({
      ...each,
      message: `${PARTS[part].title}${of}: ${message}`,
    }));
  });

/** Shapes are the usual ones, whatever the window of the melody, unless a fret is named. */
const chords: Maker = ({ tune, arranged, rules }, { chords: { near, shapes = 1 } }) => {
  const chart = chordChart(tune);
  const symbols = symbolsOf(chart);
  if (symbols.every(({ root }) => root === undefined)) {
    return { contents: arranged.map(() => []), diagnostics: [noChords] };
  }
  const sheets = arranged.map(({ arrangement: { instrument } }) =>
    chordSheet(handOn(instrument, rules.hand), symbols, near === undefined ? {} : { near }, shapes),
  );
  return {
    contents: sheets.map(each => [{ kind: 'chart', chart, shapes: each }]),
    diagnostics: sheets.flatMap(each => shapelessChords(each, chordName)),
  };
};

const noChords: Diagnostic = {
  severity: 'note',
  code: 'lesson-without-chords',
  message: 'there are no chord symbols in this tune, and no chord chart in the lesson',
};

const chordName = ({ root, kind, text }: ChordSymbol): string =>
  `${root ? noteName(root) : 'N.C.'}${text ?? (kind === 'major' ? '' : ` ${kind}`)}`;

const neck: Maker = ({ tune, arranged }) => ({
  contents: arranged.map(({ arrangement }) => [{ kind: 'neck', tune, map: neckMap(tune, arrangement) }]),
  diagnostics: [],
});

const cues: Maker = ({ tune, arranged }, { cues: { every, say } }) => ({
  contents: arranged.map(({ arrangement }) => {
    const made = makeCues(tune, arrangement, every);
    return [{ kind: 'cues', cues: made, words: say(made) }];
  }),
  diagnostics: [],
});

/** For each part, how it is made of a lesson. Throws a Refusal where it cannot be. */
export const MAKERS: Readonly<Record<PartName, Maker>> = {
  scale,
  quiz: sheet('quiz'),
  names: sheet('names'),
  blank: sheet('blank'),
  tab: sheet('tab'),
  chords,
  neck,
  cues,
  drill,
};
