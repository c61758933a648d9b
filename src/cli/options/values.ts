/** What the words of options are checked by, and turned into. */

import * as z from 'zod/mini';
import type { WindowRule } from '../../fingering/arrangement.ts';
import type { Pin } from '../../fingering/rules.ts';
import { midiOf } from '../../instrument/define.ts';
import type { Focus } from '../../lesson/drill/notes.ts';
import type { TimeSignature } from '../../score/model/attributes.ts';
import { type KeyAsked, keyNamed, nearestKey } from '../../score/transpose-to-key.ts';

export const listed = (names: readonly string[]): string => names.join(', ');

export const oneOf = <const T extends readonly string[]>(names: T) =>
  z.enum(names, `use one of ${listed(names)}`);

/** A text that is not empty: "name a file". */
export const named = (what: string) => z.string().check(z.minLength(1, `name ${what}`));

/** A whole number in a range, both ends included; messages name the unit, where it has one. */
export const whole = (low: number, high: number, unit?: string) =>
  wholeOr(low, high, `write a whole number from ${low} to ${high}${unit === undefined ? '' : ` ${unit}`}`);

const wholeOr = (low: number, high: number, message: string) =>
  z
    .pipe(z.string().check(z.regex(/^[+-]?\d{1,9}$/, message)), z.transform(Number))
    .check(z.refine(value => value >= low && value <= high, message));

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

/** A measure that is typed by its printed number; 0 is the pickup, which may be called so. */
const numberOf = (measure: string): string => (measure === 'pickup' ? '0' : measure);

/** "4-8", or with measures "1-16:4-8", "pickup-8:4-8"; with a dash too, as sheets print it. */
const WINDOW = /^(?:(pickup|\d{1,4}) ?[-–] ?(\d{1,4}): ?)?(\d{1,2}) ?[-–] ?(\d{1,2})$/;

export const windowRule = () =>
  z
    .pipe(
      z
        .string()
        .check(
          z.regex(
            WINDOW,
            'write the lower and the higher fret with a hyphen: 4-8, or with measures 1-16:4-8, pickup-8:4-8',
          ),
        ),
      z.transform((text: string): WindowRule => {
        const [, from, to, low, high] = WINDOW.exec(text)!;
        return {
          measures: from === undefined ? undefined : { from: Number(numberOf(from)), to: Number(to) },
          window: { low: Number(low), high: Number(high) },
        };
      }),
    )
    .check(
      z.refine(({ window }) => window.low <= window.high, {
        error: ({ input }) => {
          const { low, high } = (input as WindowRule).window;
          return `write the lower fret first: ${high}-${low}`;
        },
      }),
      z.refine(
        ({ measures }) => !measures || measures.from <= measures.to,
        'write the earlier measure first: 1-16:4-8',
      ),
    );

/** "A4=2:5": a pitch; "m12.3=3:7": measure 12, beat 3; "pickup.2=3:7". */
const PIN = /^(?:(?:m([^.=]+)|(pickup))\.(\d+(?:\.\d+)?)|([A-Ga-g][#b♯♭]*\d))=(\d{1,2}):(\d{1,2})$/;

export const pin = () =>
  z.pipe(
    z
      .string()
      .check(
        z.regex(
          PIN,
          'write pitch=string:fret, such as A4=2:5, or mMEASURE.BEAT=string:fret, such as m12.3=3:7, or pickup.2=3:7',
        ),
      ),
    z.transform((text: string): Pin => {
      const [, counted, pickup, beat, name, string, fret] = PIN.exec(text)!;
      const measure = counted ?? pickup;
      const place = { string: Number(string), fret: Number(fret) };
      return measure !== undefined
        ? { kind: 'beat', measure: numberOf(measure), beat: Number(beat), place }
        : { kind: 'pitch', name: name!, sound: midiOf(name!), place };
    }),
  );

/** "5", "5-8", "pickup-3": printed numbers of measures. */
const STRETCH = /^(pickup|\d+) ?[-–] ?(\d+)$/;

export interface Stretch {
  /** Printed numbers of the first and the last measure; 0 is a pickup. */
  readonly from: string;
  readonly to: string;
}

export const stretch = () =>
  z
    .pipe(
      named('a measure'),
      z.transform((text: string): Stretch => {
        const [, from = text, to = from] = STRETCH.exec(text) ?? [];
        return { from: numberOf(from), to: numberOf(to) };
      }),
    )
    .check(
      z.refine(({ from, to }) => from === to || Number(from) <= Number(to), {
        error: ({ input }) => {
          const { from, to } = input as Stretch;
          return `write the earlier measure first: ${to}-${from}`;
        },
      }),
    );

/** A size by name, or the reach from index to little finger in mm. */
export const handSize = () =>
  z.union(
    [z.enum(['small', 'medium', 'large']), millimetres(60, 160)],
    'use small, medium, large, or your reach from index to little finger, 60 to 160 mm',
  );

/** Semitones, a key, or "best". */
export const transposition = () => {
  const message = 'write semitones from -24 to 24, a key such as C or "G minor", or best';
  const key = z.pipe(
    z.string().check(z.refine(text => keyNamed(text) !== undefined, message)),
    z.transform((text: string): KeyAsked => keyNamed(text)!),
  );
  return z.union([z.enum(['best']), wholeOr(-24, 24, message), key], {
    error: ({ input }) => {
      const meant = nearestKey(String(input));
      return meant === undefined ? message : `is "${meant}" meant? ${message}`;
    },
  });
};

/** "60%" or "60": per cent. */
export const percent = () =>
  z
    .pipe(
      z.string().check(z.regex(/^\d{1,3}(\.0+)?\s*%?$/, 'write a percentage from 10% to 400%')),
      z.transform((text: string) => Number.parseInt(text, 10)),
    )
    .check(z.refine(value => value >= 10 && value <= 400, 'write a percentage from 10% to 400%'));

const BEATS = /^(\d{1,2})\/(1|2|4|8|16)$/;

/** "3/4": a metre with one number above. */
export const metre = () =>
  z.pipe(
    z
      .string()
      .check(z.regex(BEATS, 'write a fraction such as 3/4 or 6/8'))
      .check(z.refine(inMeasure, 'a measure has 1 to 16 beats')),
    z.transform((text: string): TimeSignature => {
      const [beats, beatType] = text.split('/').map(Number) as [number, number];
      return { kind: 'metred', fractions: [{ beats: [beats], beatType }], symbol: 'fraction' };
    }),
  );

const inMeasure = (text: string): boolean => {
  const beats = Number.parseInt(text, 10);
  return !BEATS.test(text) || (beats >= 1 && beats <= 16);
};

/** "1:8", a place; "C5", a pitch. */
const FOCUS = /^(?:(\d{1,2}):(\d{1,2})|([A-Ga-g][#b♯♭]*\d))$/;

export const focus = () =>
  z.pipe(
    z.string().check(z.regex(FOCUS, 'write places as string:fret, such as 1:8, or pitches, such as C5')),
    z.transform((text: string): Focus => {
      const [, string, fret, name] = FOCUS.exec(text)!;
      return name === undefined
        ? { string: Number(string), fret: Number(fret) }
        : { name, sound: midiOf(name) };
    }),
  );

const UNITS: Readonly<Record<string, number>> = { '': 1, k: 2 ** 10, m: 2 ** 20, g: 2 ** 30 };

/** "64M": bytes. */
export const byteCount = () =>
  z.pipe(
    z.string().check(z.regex(/^[1-9]\d{0,9}[kMG]?$/i, 'write a number of bytes: 1000000, 500k, 64M')),
    z.transform((text: string) => Number.parseInt(text, 10) * UNITS[text.replace(/\d/g, '').toLowerCase()]!),
  );

/** "2/4": the second of four. */
export const share = () => {
  const message = 'write which share of how many: 1/4 is the first of four';
  return z
    .pipe(
      z.string().check(z.regex(/^\d{1,5}\/\d{1,5}$/, message)),
      z.transform((text: string) => {
        const [index, count] = text.split('/').map(Number) as [number, number];
        return { index, count };
      }),
    )
    .check(z.refine(({ index, count }) => index >= 1 && index <= count, message));
};

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
