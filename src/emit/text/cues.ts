/** Cues as words: plain text for reading aloud, or Markdown. */

import type { Instrument } from '../../instrument/instrument.ts';
import { openPitches } from '../../instrument/places.ts';
import type { CueMeasure, CueNote, CuePhrase, Cues, HandMove } from '../../lesson/cues.ts';
import { stretchName } from '../../score/moments.ts';
import { beatText } from '../../score/numbers.ts';
import { pitchName } from '../../score/pitch.ts';
import { playedHow } from './heading.ts';
import { timesWords } from './marks.ts';
import { signsFor } from './signs.ts';
import { cleanText, fold, toAscii, withoutControls } from './width.ts';

/** How cue sheets are written. */
export interface CueStyle {
  readonly strings: 'names' | 'numbers';
  readonly markup: 'text' | 'markdown';
  /** Columns of plain text. */
  readonly width: number;
  readonly ascii: boolean;
}

/** The cues of a tune, with a line feed after each line. */
export const cuesToText = (cues: Cues, style: CueStyle): string => {
  const { tune, arrangement, phrases } = cues;
  const { instrument } = arrangement;
  const title = cleanText(tune.title ?? 'Cues');
  const names = stringNames(instrument, style.strings);
  const speaker = new Speaker(names);
  const blocks = phrases.map(phrase => ({ head: phraseHead(phrase), lines: speaker.phrase(phrase) }));
  const edition = [instrument.name, ...playedHow(tune, arrangement, signsFor(style.ascii))].join(', ');
  const text = withoutControls(
    style.markup === 'markdown'
      ? markdown(title, edition, blocks)
      : plain(title, edition, blocks, style.width),
  );
  return style.ascii ? toAscii(text.replaceAll('–', '-')) : text;
};

interface Block {
  readonly head: string;
  readonly lines: readonly string[];
}

const markdown = (title: string, edition: string, blocks: readonly Block[]): string =>
  [
    `# ${asText(title)}\n\n${asText(edition)}\n`,
    ...blocks.map(({ head, lines }) => `## ${head}\n\n${lines.map(line => `- ${asText(line)}\n`).join('')}`),
  ].join('\n');

/** What would be markup in Markdown stands for itself (CommonMark, "Backslash escapes", from memory). */
const asText = (text: string): string => text.replace(/[\\`*_[\]<>&#]/g, '\\$&');

const plain = (title: string, edition: string, blocks: readonly Block[], width: number): string => {
  const indented = (line: string): readonly string[] =>
    fold(keepTogether(line), width - 4)
      .map(part => part.replaceAll(NO_BREAK, ' '))
      .map((part, index) => (index === 0 ? `  ${part}` : `    ${part}`));
  return [
    `${[...fold(title, width), ...fold(edition, width)].join('\n')}\n`,
    ...blocks.map(({ head, lines }) => `${[head, ...lines.flatMap(indented)].join('\n')}\n`),
  ].join('\n');
};

const NO_BREAK = '\u00a0';

/** No line ends between a word and its number, "finger 4", a beat and its note, "on 2 C", or a string and its name. */
export const keepTogether = (text: string): string =>
  text
    .replace(/\b(fret|finger|string|beat|on|measures?) (?=\d)/gi, `$1${NO_BREAK}`)
    .replace(/\b(on\u00a0\d+) (?=and\b)/g, `$1${NO_BREAK}`)
    .replace(/\b(on\u00a0\d+|and) (?=[A-G][♯♭]?(?![♯♭\w])|\d)/g, `$1${NO_BREAK}`)
    .replace(/(?<=\b[A-G][♯♭]?) (?=string\b)/g, NO_BREAK);

/** "C string" or "string 3"; where two have one name, "low E string" and "high E string". */
const stringNames = (instrument: Instrument, by: CueStyle['strings']): readonly string[] => {
  const letters = instrument.strings.map(pitch => pitchName(pitch, false));
  const open = openPitches(instrument);
  return letters.map((letter, index) => {
    if (by === 'numbers') return `string ${index + 1}`;
    const twins = open.filter((_, other) => letters[other] === letter);
    if (twins.length === 1) return `${letter} string`;
    if (twins.length > 2) return `string ${index + 1}`;
    return `${open[index] === Math.min(...twins) ? 'low' : 'high'} ${letter} string`;
  });
};

/** "Measures 1–4", "Pickup and measures 1–3", "First ending, measure 8" */
const phraseHead = ({ measures }: CuePhrase): string => inEnding(measures[0]!, measures.at(-1)!);

/** From one measure to another, as a line begins with them. */
const inEnding = ({ number, signs: { ending } }: CueMeasure, last: CueMeasure): string => {
  const range = rangeName(number, last.number);
  return capital(ending ? `${endingName(ending)} ending, ${range}` : range);
};

const capital = (words: string): string => `${words[0]!.toUpperCase()}${words.slice(1)}`;

/** Cues leave the number of a pickup out. */
const PICKUP = '0';

const rangeName = (from: string | undefined, to: string | undefined): string => {
  return stretchName(from ?? PICKUP, to ?? from ?? PICKUP);
};

const ORDINALS = ['', 'first', 'second', 'third', 'fourth', 'fifth', 'sixth'] as const;

const endingName = (numbers: readonly number[]): string =>
  numbers.map(number => ORDINALS[number] ?? `${number}th`).join(' and ');

/** Speaks from note to note, and leaves out what has not changed. */
class Speaker {
  readonly #names: readonly string[];
  #string: number | undefined;
  #begun = false;

  constructor(names: readonly string[]) {
    this.#names = names;
  }

  phrase(phrase: CuePhrase): readonly string[] {
    const { measures, as, position } = phrase;
    const [first] = measures;
    const last = measures.at(-1)!;
    // A phrase is heard by itself: the string is named at its start.
    this.#string = undefined;
    const start = !this.#begun && position !== undefined ? [`Index finger at fret ${position}.`] : [];
    this.#begun = true;
    const body = as
      ? [...signsBefore(first!), `As ${rangeName(as.from, as.to)}.`, ...signsAfter(last)]
      : gathered(measures).flatMap(group => [
          ...signsBefore(group[0]!),
          this.#measures(group, group[0] === first),
          ...signsAfter(group.at(-1)!),
        ]);
    return [...start, ...body];
  }

  /** The ending that a phrase begins with stands over it. */
  #measures(group: readonly CueMeasure[], begins: boolean): string {
    const [first] = group;
    const last = group.at(-1)!;
    const label = begins ? capital(rangeName(first!.number, last.number)) : inEnding(first!, last);
    if (first!.as !== undefined) {
      this.#string = undefined;
      return `${label}: as ${rangeName(first!.as, last.as)}.`;
    }
    const { notes } = first!;
    if (notes.length === 0) return `${label}: hold.`;
    const said = runsOf(notes).map(({ note, before, more }) => this.#note(note, before, more));
    return `${label}: ${said.join('; ')}.`;
  }

  #note(note: CueNote, before: CueNote | undefined, more: string): string {
    const { beat, pitch, placement, grace, again, move } = note;
    const { string, fret, finger } = placement;
    const way = move ? `${moveName(move)}, ` : '';
    const when = `${way}${beatName(beat, before?.beat)}${more} ${grace ? 'grace note ' : ''}${pitchName(pitch, false)}`;
    if (again && this.#string === string) return `${when} again`;
    const name = this.#string === string ? '' : `${this.#names[string - 1]} `;
    this.#string = string;
    const where = fret === 0 ? `${name || 'string '}open` : `${name}fret ${fret}`;
    const how = fret === 0 ? '' : `, finger ${finger}`;
    return `${when}, ${where}${how}`;
  }
}

const signsBefore = ({ signs: { segno, coda } }: CueMeasure): readonly string[] => [
  ...(segno ? ['Segno.'] : []),
  ...(coda ? ['Coda.'] : []),
];

const signsAfter = ({ signs: { back, jumps }, backTo }: CueMeasure): readonly string[] => [
  ...(back
    ? [`Back to ${backTo === undefined ? 'the pickup' : `measure ${backTo}`}${timesOf(back.times)}.`]
    : []),
  ...jumps.map(text => `${text}.`.replace(/\.\.$/, '.')),
];

const timesOf = (times: number): string =>
  timesWords({ repeat: true, times })
    .map(words => `; ${words}`)
    .join('');

/** A note with the one before it, and the further beats on which it comes again: " and 3". */
interface Run {
  readonly note: CueNote;
  readonly before: CueNote | undefined;
  readonly more: string;
}

/** Repeated notes on whole beats are said together, as long as the hand does not move; grace notes have no beat. */
const runsOf = (notes: readonly CueNote[]): readonly Run[] => {
  const runs: Run[] = [];
  notes.forEach((note, index) => {
    const before = notes[index - 1];
    const run = runs.at(-1);
    const whole = run !== undefined && [run.note.beat, note.beat].every(Number.isInteger);
    const together =
      whole && run.note.again && note.again && ![run.note, note].some(({ grace }) => grace) && !note.move;
    if (together) runs[runs.length - 1] = { ...run, more: `${run.more} and ${note.beat}` };
    else runs.push({ note, before, more: '' });
  });
  return runs;
};

const moveName = (move: HandMove): string => {
  const way = move.to > move.from ? 'up' : 'down';
  return move.kind === 'slide'
    ? `slide finger ${move.finger} ${way}`
    : `hand ${way}, index finger to fret ${move.to}`;
};

/** Measures that follow each other and are as others that follow each other are said in one breath. */
const gathered = (measures: readonly CueMeasure[]): readonly (readonly CueMeasure[])[] => {
  const groups: CueMeasure[][] = [];
  for (const measure of measures) {
    const last = groups.at(-1)?.at(-1);
    const goesOn =
      last?.as !== undefined &&
      measure.as !== undefined &&
      Number(measure.as) === Number(last.as) + 1 &&
      signsAfter(last).length + signsBefore(measure).length === 0 &&
      measure.signs.ending === undefined;
    if (goesOn) groups.at(-1)!.push(measure);
    else groups.push([measure]);
  }
  return groups;
};

/** Parts of a beat as they are counted aloud; a second part needs no number if its beat was just said. */
const PARTS: readonly (readonly [part: number, word: string])[] = [
  [1 / 4, 'e'],
  [1 / 3, 'and a third'],
  [1 / 2, 'and'],
  [2 / 3, 'and two thirds'],
  [3 / 4, 'a'],
];

const beatName = (beat: number, before: number | undefined): string => {
  const whole = Math.floor(beat + 1e-6);
  const part = beat - whole;
  if (Math.abs(part) < 1e-6) return `on ${whole}`;
  const word = PARTS.find(([size]) => Math.abs(size - part) < 1e-6)?.[1];
  if (word === undefined) return `on ${beatText(beat)}`;
  return before !== undefined && Math.floor(before + 1e-6) === whole ? word : `on ${whole} ${word}`;
};
