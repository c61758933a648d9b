/** What the words of options are checked by. */
import * as z from 'zod/mini';
import type { WindowRule } from '../../fingering/arrangement.ts';
import type { Pin } from '../../fingering/rules.ts';
import { midiOf } from '../../instrument/define.ts';

export const listed = (names: readonly string[]): string => names.join(', ');

export const oneOf = <const T extends readonly string[]>(names: T) =>
  z.enum(names, `use one of ${listed(names)}`);

/** A whole number in a range, both ends included. */
export const whole = (low: number, high: number) => {
  const message = `write a whole number from ${low} to ${high}`;
  return z
    .pipe(z.string().check(z.regex(/^[+-]?\d{1,9}$/, message)), z.transform(Number))
    .check(z.refine(value => value >= low && value <= high, message));
};

/** A length in mm, with or without decimals or the unit. */
export const millimetres = (low: number, high: number) => {
  const message = `write a length from ${low} to ${high} mm`;
  return z
    .pipe(
      z.string().check(z.regex(/^\d{1,3}(\.\d+)?( ?mm)?$/, message)),
      z.transform((text: string) => Number.parseFloat(text)),
    )
    .check(z.refine(value => value >= low && value <= high, message));
};

/** "4-8", or with measures "1-16:4-8". */
const WINDOW = /^(?:(\d{1,4})-(\d{1,4}):)?(\d{1,2})-(\d{1,2})$/;

export const windowRule = () =>
  z
    .pipe(
      z
        .string()
        .check(
          z.regex(
            WINDOW,
            'write the lower and the higher fret with a hyphen: 4-8, or with measures 1-16:4-8',
          ),
        ),
      z.transform((text: string): WindowRule => {
        const [from, to, low, high] = WINDOW.exec(text)!.slice(1).map(Number) as [
          number,
          number,
          number,
          number,
        ];
        return { measures: Number.isNaN(from) ? undefined : { from, to }, window: { low, high } };
      }),
    )
    .check(z.refine(({ window }) => window.low <= window.high, 'write the lower fret first: 4-8'));

/** "A4=2:5": a pitch; "m12.3=3:7": measure 12, beat 3. */
const PIN = /^(?:m([^.=]+)\.(\d+(?:\.\d+)?)|([A-Ga-g][#b♯♭]*\d))=(\d{1,2}):(\d{1,2})$/;

export const pin = () =>
  z.pipe(
    z
      .string()
      .check(
        z.regex(
          PIN,
          'write pitch=string:fret, such as A4=2:5, or mMEASURE.BEAT=string:fret, such as m12.3=3:7',
        ),
      ),
    z.transform((text: string): Pin => {
      const [, measure, beat, name, string, fret] = PIN.exec(text)!;
      const place = { string: Number(string), fret: Number(fret) };
      return measure !== undefined
        ? { kind: 'beat', measure, beat: Number(beat), place }
        : { kind: 'pitch', name: name!, sound: midiOf(name!), place };
    }),
  );

/** A size by name, or the reach from index to little finger in mm. */
export const handSize = () =>
  z.union(
    [z.enum(['small', 'medium', 'large']), whole(60, 160)],
    'use small, medium, large, or your reach from index to little finger in mm, 60 to 160',
  );

/** Semitones, or "best". */
export const transposition = () =>
  z.union([z.enum(['best']), whole(-24, 24)], 'write semitones from -24 to 24, or best');

/** "60%" or "60": per cent. */
export const percent = () =>
  z
    .pipe(
      z.string().check(z.regex(/^\d{1,3}(\.0+)?\s*%?$/, 'write a percentage from 10% to 400%')),
      z.transform((text: string) => Number.parseInt(text, 10)),
    )
    .check(z.refine(value => value >= 10 && value <= 400, 'write a percentage from 10% to 400%'));

/** A schema, as far as `wordsTaken` looks into it. */
interface Shape {
  readonly def: {
    readonly type: string;
    readonly entries?: Readonly<Record<string, string>>;
    readonly element?: Shape;
    readonly options?: readonly Shape[];
  };
}

/** The words that a schema takes, alone or in a list; none where they cannot be counted. */
export const wordsTaken = (schema: unknown): readonly string[] => {
  const { def } = schema as Shape;
  if (def.type === 'enum') return Object.values(def.entries ?? {});
  if (def.type === 'array') return wordsTaken(def.element);
  return def.options?.flatMap(wordsTaken) ?? [];
};
