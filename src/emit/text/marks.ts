/** Words and signs over the staff: tempo, rehearsal letters, directions, jumps and their targets. */
import type { Barline } from '../../score/model/barline.ts';
import type { Direction } from '../../score/model/direction.ts';
import type { NoteValue, Ticks } from '../../score/model/duration.ts';
import type { TuneMeasure } from '../../score/tune.ts';

/** Words or a sign over the staff. */
export interface Mark {
  readonly text: string;
  /** Over a moment of the measure, or flush with its right bar line. */
  readonly at: Ticks | 'end';
  /** What it stands over at the start of a measure: its left end, or its first note. */
  readonly over: 'start' | 'note';
}

/** Signs that jumps lead to, in words. */
export const SIGNS = { segno: 'Segno', coda: 'Coda' } as const;

/** How often the repeat at a bar line is played; nothing where that is twice. */
export const timesWords = ({ repeat, times }: Pick<Barline, 'repeat' | 'times'>): readonly string[] =>
  repeat && times > 2 ? [`play ${times} times`] : [];

const JUMPS = { dacapo: 'D.C.', dalsegno: 'D.S.', tocoda: 'To Coda', fine: 'Fine' } as const;

/** What the measure's directions print, in order of time. */
export const marksOf = (measure: TuneMeasure, write: (text: string) => string): readonly Mark[] => {
  const marks = measure.directions.flatMap((direction): Mark[] => {
    const text = write(directionText(direction));
    return text === '' ? [] : [{ text, at: direction.kind === 'jump' ? 'end' : direction.at, over: 'start' }];
  });
  const times = timesWords(measure.right).map((text): Mark => ({ text, at: 'end', over: 'start' }));
  return [...marks, ...times];
};

const directionText = (direction: Direction): string => {
  switch (direction.kind) {
    case 'words':
      return direction.text;
    case 'tempo':
      return direction.printed ? tempoText(direction) : '';
    case 'sign':
      return SIGNS[direction.sign];
    case 'jump':
      return direction.text || JUMPS[direction.jump];
    case 'rehearsal':
      return `[${direction.text}]`;
    case 'dynamic':
      return direction.text;
    case 'octave-shift':
      return '';
  }
};

const BEATS: ReadonlyMap<number, string> = new Map([
  [1, 'whole'],
  [2, 'half'],
  [4, 'quarter'],
  [8, 'eighth'],
  [16, '16th'],
]);

/** `quarter = 84`, `dotted quarter = 72`, or the words that are printed, or both. */
const tempoText = ({ perMinute, beat, text }: Direction & { kind: 'tempo' }): string => {
  if (perMinute === undefined) return text ?? '';
  const equation = `${beatText(beat)} = ${perMinute}`;
  return text ? `${text} (${equation})` : equation;
};

const beatText = ({ base, dots }: NoteValue): string =>
  `${'dotted '.repeat(dots)}${BEATS.get(base) ?? `1/${base}`}`;
