/**
 * Instruments that come from outside: a row of the catalogue, a JSON file, or either of them with
 * another tuning or a capo.
 */
import * as z from 'zod/mini';
import { Refusal } from '../score/diagnostic.ts';
import { midi, type Pitch, stepNamed } from '../score/pitch.ts';
import { DEFAULT_INSTRUMENT, INSTRUMENTS } from './catalogue.ts';
import type { Instrument } from './instrument.ts';

const LIMITS = { strings: 12, frets: 36, scaleLength: { low: 150, high: 1500 } } as const;

/** What an instrument file holds. Strings are listed as players say them: the last one is string 1. */
const instrumentFile = () =>
  z.strictObject({
    id: z.string().check(z.regex(/^[a-z0-9]+(-[a-z0-9]+)*$/)),
    name: z.string().check(z.minLength(1), z.maxLength(60)),
    strings: z.array(z.string()).check(z.minLength(1), z.maxLength(LIMITS.strings)),
    frets: z.int().check(z.gte(1), z.lte(LIMITS.frets)),
    scaleLength: z.number().check(z.gte(LIMITS.scaleLength.low), z.lte(LIMITS.scaleLength.high)),
    hand: z._default(z.enum(['one-fret-a-finger', 'two-frets-a-finger']), 'one-fret-a-finger'),
    clef: z._default(z.enum(['treble', 'treble-8', 'bass-8']), 'treble'),
    capo: z._default(z.int().check(z.gte(0)), 0),
  });

/** What the fields of an instrument file are, for messages. */
const FIELDS: Readonly<Record<string, string>> = {
  id: 'lower-case words joined by hyphens, such as "my-ukulele"',
  name: 'a text of 1 to 60 characters',
  strings: `the open strings, at most ${LIMITS.strings}, string 1 last: ["G3", "C4", "E4", "A4"]`,
  frets: `a whole number from 1 to ${LIMITS.frets}`,
  scaleLength: `a length from ${LIMITS.scaleLength.low} to ${LIMITS.scaleLength.high}, in mm`,
  hand: 'one-fret-a-finger or two-frets-a-finger',
  clef: 'treble, treble-8 or bass-8',
  capo: 'the fret of a capo, 0 for none',
};

/** What is wrong with fields, each named once. */
const faultsIn = (issues: readonly z.core.$ZodIssue[]): string => {
  const faults = issues.flatMap(issue => {
    if (issue.code === 'unrecognized_keys') return issue.keys.map(key => `${key}: means nothing here`);
    const [field] = issue.path;
    if (field === undefined) return ['this describes no instrument'];
    return [`${String(field)}: write ${FIELDS[String(field)]}`];
  });
  return [...new Set(faults)].join('; ');
};

/** The catalogue's instrument of that id. Throws a Refusal that names those there are. */
export const findInstrument = (id: string = DEFAULT_INSTRUMENT): Instrument => {
  const found = INSTRUMENTS.find(each => each.id === id);
  if (found) return found;
  throw new Refusal({
    severity: 'error',
    code: 'unknown-instrument',
    message: `there is no instrument "${id}"`,
    hint: `use one of ${INSTRUMENTS.map(each => each.id).join(', ')}, or a JSON file that describes yours`,
  });
};

/** An instrument out of the text of a JSON file. Throws a Refusal that names what is wrong. */
export const parseInstrument = (json: string): Instrument => {
  let data: unknown;
  try {
    data = JSON.parse(json);
  } catch (error) {
    throw badInstrument(`this is not JSON (${(error as Error).message})`);
  }
  const result = instrumentFile().safeParse(data);
  if (!result.success) {
    throw badInstrument(faultsIn(result.error.issues));
  }
  const { strings, ...rest } = result.data;
  return withCapo({ ...rest, strings: parseTuning(strings.join(' ')), capo: 0 }, rest.capo);
};

/**
 * Reads a tuning such as "G3 C4 E4 A4": as players say it, string 1 last. Sharps and flats are
 * written # and b. Answers string 1 first. Throws a Refusal that names the note it cannot read.
 */
export const parseTuning = (tuning: string): readonly Pitch[] => {
  const names = tuning.trim().split(/[\s,]+/);
  if (names.length > LIMITS.strings) {
    throw badTuning(`${names.length} strings are more than ${LIMITS.strings}`);
  }
  return names.map(parsePitch).reverse();
};

const NOTE = /^([A-Ga-g])([#b♯♭]{0,2})(-?\d)$/;

/** Sharps and flats may be written as signs or as # and b. */
const parsePitch = (name: string): Pitch => {
  const [, step, signs, octave] = NOTE.exec(name) ?? [];
  if (step === undefined) throw badTuning(`"${name}" is not a note with an octave`);
  const alter = [...signs!].reduce((sum, sign) => sum + (sign === '#' || sign === '♯' ? 1 : -1), 0);
  return { step: stepNamed(step)!, alter, octave: Number(octave) };
};

/** The MIDI number of a note by name, "F#4". Throws a Refusal that names what it cannot read. */
export const midiOf = (name: string): number => midi(parsePitch(name));

/** The same instrument in another tuning, with as many strings as the tuning names; sheets print those beside its name. */
export const withTuning = (instrument: Instrument, tuning: string): Instrument => ({
  ...instrument,
  strings: parseTuning(tuning),
  name: `${instrument.name.replace(/,.*/, '')}, retuned`,
});

/** The same instrument with a capo. Throws a Refusal if no fret would be left. */
export const withCapo = (instrument: Instrument, capo: number): Instrument => {
  if (!Number.isInteger(capo) || capo < 0 || capo >= instrument.frets) {
    throw new Refusal({
      severity: 'error',
      code: 'bad-capo',
      message: `a capo at fret ${capo} does not go on ${instrument.name}`,
      hint: `use a fret from 1 to ${instrument.frets - 1}`,
    });
  }
  return { ...instrument, capo };
};

const badTuning = (message: string) =>
  new Refusal({
    severity: 'error',
    code: 'bad-tuning',
    message,
    hint: 'write the open strings with octave numbers, string 1 last: "G3 C4 E4 A4"',
  });

const badInstrument = (message: string) =>
  new Refusal({
    severity: 'error',
    code: 'bad-instrument-file',
    message,
    hint: 'an instrument file holds id, name, strings, frets, scaleLength (mm), and if need be hand, clef, capo',
  });
