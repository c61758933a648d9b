/** What provokes a diagnostic: files and a command, and where the program then says that the trouble is. */
import { attributes, note, partWise } from '../../support/musicxml.ts';

export interface Provocation {
  /** Files that lie in the folder, by name. */
  readonly files?: Readonly<Record<string, string | Uint8Array>>;
  /** A line of bash. */
  readonly line: string;
  readonly env?: Readonly<Record<string, string>>;
  /** Where it is, but for the line; undefined where it is in no place. */
  readonly at?: Readonly<Record<string, string | number>>;
  /** What the line of the file begins with that is named; undefined where none is. */
  readonly on?: string;
  /** By default 1 for an error, 0 for a warning or note. */
  readonly status?: number;
}

/** What only a program that uses the library can ask for; a command is refused as mistyped before. */
export interface Call {
  readonly call: () => unknown;
}

export type Provocations = Readonly<Record<string, Provocation | Call>>;

type Rest = Omit<Provocation, 'files' | 'line'> & { readonly command?: string; readonly options?: string };

/** A tune that is read from t.musicxml; one element a line, so that a line number tells which. */
export const tune = (content: string | Uint8Array, rest: Rest = {}): Provocation => {
  const { command = 'arrange', options = '', at, ...others } = rest;
  return {
    ...others,
    files: { 't.musicxml': typeof content === 'string' ? content.replaceAll('><', '>\n<') : content },
    line: `fretward ${command} t.musicxml ${options}`.trim(),
    at: { file: 't.musicxml', ...at },
  };
};

/** A score of one part in 4/4; each string is what a measure holds. */
export const measures = (first: string, ...others: readonly string[]): string =>
  partWise(attributes() + first, ...others);

/** A whole note with whatever else belongs into it. */
export const whole = (name: string, parts: Parameters<typeof note>[2] = {}): string => note(name, 48, parts);

/** String, fret and finger, as MusicXML marks them on a note. */
export const marked = (string: number, fret: number, finger?: number): { readonly rest: string } => ({
  rest: `<notations><technical>${finger === undefined ? '' : `<fingering>${finger}</fingering>`}<string>${string}</string><fret>${fret}</fret></technical></notations>`,
});

/** Where something in the first measure of such a score is. */
export const IN_FIRST = { part: 'P1', measure: '1' } as const;
