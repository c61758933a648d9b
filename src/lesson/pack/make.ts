/** How each part is made out of the lesson's one arrangement: one row a part. */
import type { Arranged } from '../../fingering/arrange.ts';
import type { Arrangement } from '../../fingering/arrangement.ts';
import type { Diagnostic } from '../../score/diagnostic.ts';
import { keyName } from '../../score/names.ts';
import type { Tune } from '../../score/tune.ts';
import { type LessonAsked, wholeWindow } from '../places.ts';
import { scaleNotes } from '../scale/notes.ts';
import type { Direction, PatternName } from '../scale/pattern.ts';
import { makeScale } from '../scale.ts';
import type { PartName } from './parts.ts';

/** What stands on the pages of a part. */
export type Content = {
  readonly kind: 'music';
  readonly tune: Tune;
  readonly arrangement: Arrangement;
  readonly sheet: 'tab' | 'quiz' | 'names' | 'blank';
  /** The lesson's tune, or one that the lesson made, which has a title and fingers of its own. */
  readonly of: 'tune' | 'lesson';
};

/** What parts can be asked to be, beyond the rules that hold for all. */
export interface PartsAsked {
  readonly scale: {
    /** The key of the tune where none is named. */
    readonly key?: string | undefined;
    readonly octaves?: number | undefined;
    readonly direction?: Direction | undefined;
    readonly pattern?: PatternName | undefined;
  };
}

/** What all parts of a lesson go by. */
export interface Lesson extends LessonAsked {
  readonly tune: Tune;
  /** For each instrument. */
  readonly arranged: readonly Arranged[];
}

export interface Made {
  /** For each edition. */
  readonly contents: readonly Content[];
  readonly diagnostics: readonly Diagnostic[];
}

type Maker = (lesson: Lesson, asked: PartsAsked) => Made;

const sheet =
  (kind: Content['sheet']): Maker =>
  ({ tune, arranged }) => ({
    contents: arranged.map(({ arrangement }) => ({
      kind: 'music',
      tune,
      arrangement,
      sheet: kind,
      of: 'tune',
    })),
    diagnostics: [],
  });

const scale: Maker = (lesson, { scale: asked }) => {
  const { tune, editions } = makeScale(
    {
      scale: scaleNotes(asked.key ?? keyName(lesson.tune.measures[0]!.key)),
      window: wholeWindow(lesson.rules),
      octaves: asked.octaves,
      direction: asked.direction ?? 'both',
      pattern: asked.pattern ?? 'steps',
    },
    lesson,
  );
  return {
    contents: editions.map(({ arrangement }) => ({
      kind: 'music',
      tune,
      arrangement,
      sheet: 'tab',
      of: 'lesson',
    })),
    // Where the hand shifts is printed on the sheet.
    diagnostics: editions.flatMap(each => each.diagnostics.filter(({ severity }) => severity !== 'note')),
  };
};

/** For each part, how it is made of a lesson. Throws a Refusal where it cannot be. */
export const MAKERS: Readonly<Record<PartName, Maker>> = {
  scale,
  quiz: sheet('quiz'),
  names: sheet('names'),
  tab: sheet('tab'),
  blank: sheet('blank'),
};
