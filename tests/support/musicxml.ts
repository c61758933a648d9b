/** Small MusicXML scores for tests, and what is read from them. */

import { readScore } from '../../src/read/read.ts';
import { type Diagnostic, Refusal } from '../../src/score/diagnostic.ts';
import { chooseMelody, type Melody } from '../../src/score/melody.ts';
import type { NoteEvent } from '../../src/score/model/event.ts';
import type { Measure, Part, Score } from '../../src/score/model.ts';
import { pitchName } from '../../src/score/pitch.ts';
import type { Tune } from '../../src/score/tune.ts';

export const bytesOf = (text: string): Uint8Array => new TextEncoder().encode(text);

/** A part-wise score of one part; each string is what one measure holds. */
export const partWise = (...measures: readonly string[]): string =>
  scoreOf(
    '<score-part id="P1"><part-name>Tune</part-name></score-part>',
    `<part id="P1">${measures.map((each, i) => `<measure number="${i + 1}">${each}</measure>`).join('')}</part>`,
  );

export const scoreOf = (partList: string, parts: string, header = ''): string =>
  `<?xml version="1.0" encoding="UTF-8"?><score-partwise version="4.0">${header}<part-list>${partList}</part-list>${parts}</score-partwise>`;

/** `<attributes>` of a first measure: a quarter note has 12 divisions. */
export const attributes = (inner = '<time><beats>4</beats><beat-type>4</beat-type></time>'): string =>
  `<attributes><divisions>12</divisions>${inner}</attributes>`;

export interface NoteParts {
  /** Before the pitch: `<grace/>`, `<chord/>`, `<cue/>`. */
  readonly before?: string;
  /** Between the duration and the type: `<tie/>`, `<voice>`. */
  readonly after?: string;
  /** From the type on. */
  readonly rest?: string;
}

/** A note, by name ("C4", "F#4", "Bb3", "r" for a rest) and duration (0 writes none). */
export const note = (
  name: string,
  duration = 12,
  { before = '', after = '', rest = '' }: NoteParts = {},
): string => {
  const [, step, sign, octave] = /^([A-G])([#b]*)(\d)$/.exec(name) ?? [];
  const alter = sign ? `<alter>${sign.startsWith('#') ? sign.length : -sign.length}</alter>` : '';
  const pitch = step ? `<pitch><step>${step}</step>${alter}<octave>${octave}</octave></pitch>` : '<rest/>';
  const length = duration === 0 ? '' : `<duration>${duration}</duration>`;
  return `<note>${before}${pitch}${length}${after}${rest}</note>`;
};

export const read = (xml: string): Score => readScore(bytesOf(xml)).score;

/** The only part of a score whose measures are given. */
export const readPart = (...measures: readonly string[]): Part => read(partWise(...measures)).parts[0]!;

export const readMeasure = (content: string): Measure => readPart(content).measures[0]!;

export const melodyOf = (xml: string, choice: Partial<Parameters<typeof chooseMelody>[1]> = {}): Melody =>
  chooseMelody(read(xml), { chords: 'top', ...choice });

export const tuneFrom = (...measures: readonly string[]): Tune => melodyOf(partWise(...measures)).tune;

/** The notes of a measure's first voice. */
export const notesIn = (measure: Measure): readonly NoteEvent[] =>
  measure.voices[0]!.events.filter(event => event.kind === 'note');

/** Every event of a tune, one word each: "C4/12", "r/24", chords with "+". */
export const words = (tune: Tune): string =>
  tune.measures
    .map(measure =>
      measure.events
        .map(event => {
          const what = event.kind === 'rest' ? 'r' : event.heads.map(head => pitchName(head.pitch)).join('+');
          return `${what}/${event.duration}`;
        })
        .join(' '),
    )
    .join(' | ');

/** What a refusal says; fails where nothing is refused. */
export const refused = (act: () => unknown): readonly Diagnostic[] => {
  try {
    act();
  } catch (error) {
    if (error instanceof Refusal) return error.diagnostics;
    throw error;
  }
  throw new Error('nothing was refused');
};
