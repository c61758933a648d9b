/** Keys as they are asked for by name, and the way there from the key that a tune is in. */
import { Refusal } from './diagnostic.ts';
import type { Key } from './model/attributes.ts';
import { keyName, MODES, majorFifths, signatureName } from './names.ts';
import { nearest } from './nearest.ts';
import { accidentalSign, type Step, stepNamed } from './pitch.ts';
import type { Interval } from './transpose.ts';
import type { Move } from './transpose-tune.ts';
import type { Tune } from './tune.ts';

/** A key to move a tune to: "C", in the tune's own mode; "G minor". */
export interface KeyAsked {
  readonly tonic: { readonly step: Step; readonly alter: number };
  /** Undefined where none is named: that of the tune. */
  readonly mode: string | undefined;
}

const NAME = /^([A-G])(?:([#♯])|([b♭])|[ -]?(sharp)\b|[ -]?(flat)\b)?[ -]?([a-z]*)$/i;

/** What players write for modes. */
const SHORT: ReadonlyMap<string, string | undefined> = new Map([
  ['', undefined],
  ['m', 'minor'],
  ['min', 'minor'],
  ['M', 'major'],
  ['maj', 'major'],
]);

/** Reads the name of a key: "Bb", "F# minor", "Am", "D dorian"; undefined for what is none. */
export const keyNamed = (text: string): KeyAsked | undefined => {
  const [, letter, sharp, flat, sharpWord, flatWord, word] = NAME.exec(text.trim()) ?? [];
  if (letter === undefined || word === undefined) return undefined;
  const mode = SHORT.has(word) ? SHORT.get(word) : word.toLowerCase();
  if (mode !== undefined && !MODES.has(mode)) return undefined;
  const alter = (sharp ?? sharpWord) ? 1 : (flat ?? flatWord) ? -1 : 0;
  return { tonic: { step: stepNamed(letter)!, alter }, mode };
};

/** The name of a key that may be meant: "G minro" → "G minor". */
export const nearestKey = (text: string): string | undefined => {
  const [, tonic, word] = /^([A-G](?:[#b♯♭]|[ -](?:sharp|flat))?)[ -]?([a-z]{3,})$/i.exec(text.trim()) ?? [];
  const mode = word && nearest(word, [...MODES.keys()]);
  return mode === undefined ? undefined : `${tonic![0]!.toUpperCase()}${tonic!.slice(1)} ${mode}`;
};

/**
 * The nearest way from a key to the one asked for, upwards where both ways are equally far; spelt as it was asked for.
 * Throws a Refusal where the mode is another one, the key has no name, or the new one would need too many accidentals.
 */
export const intervalTo = ({ tonic, mode }: KeyAsked, key: Key): Interval => {
  const name = `${tonic.step}${accidentalSign(tonic.alter)}`;
  const own = key.mode ?? mode ?? 'major';
  const offset = MODES.get(own);
  if (offset === undefined) {
    throw cannot(`the tune is in no key that has a name: ${keyName(key)}`, 'say by how many semitones');
  }
  const fifths = majorFifths(tonic) - (mode === undefined ? offset : MODES.get(mode)!);
  if (Math.abs(fifths) > 7) {
    throw cannot(
      `${name} ${mode ?? own} would need a key signature of ${signatureName(fifths)}`,
      `name it by the note that sounds the same, with ${fifths > 0 ? 'flats' : 'sharps'}`,
    );
  }
  if (mode !== undefined && MODES.get(mode) !== offset) {
    throw cannot(
      `the tune is in ${keyName(key)}, and moving it does not make it ${mode}`,
      `name a key of its own mode, such as "${keyName({ fifths, mode: own })}", which has the signature of ${name} ${mode}; or semitones`,
    );
  }
  const moved = fifths - key.fifths;
  const up = (((7 * moved) % 12) + 12) % 12;
  const semitones = up > 6 ? up - 12 : up;
  return { semitones, steps: (7 * semitones - moved) / 12 };
};

/** How far a tune is moved that is to go by semitones, or to a key. Throws a Refusal where it cannot get there. */
export const moveTo = (goal: number | KeyAsked, tune: Tune): Move =>
  typeof goal === 'number' ? goal : intervalTo(goal, tune.measures[0]!.key);

const cannot = (message: string, hint: string): Refusal =>
  new Refusal({ severity: 'error', code: 'cannot-reach-key', message, hint });
