/** Clef, key and metre: where they stand on the staff, in columns and staff steps. */
import { keyHeights, readingOf } from '../../engrave/content/reading.ts';
import type { ReadingClef } from '../../instrument/instrument.ts';
import type { TimeSignature } from '../../score/model/attributes.ts';
import { type Pitch, staffStep } from '../../score/pitch.ts';
import type { TuneMeasure } from '../../score/tune.ts';
import type { Signs } from './signs.ts';

/** Position of the top line, in staff steps above the bottom line. */
export const TOP_LINE = 8;

/** What stands at the start of a system, or where key or metre change. */
export interface Signature {
  /** An opening shows the clef; a change does not. */
  readonly kind: 'opening' | 'change';
  readonly fifths: number | undefined;
  /** The key before, whose signs a key without any takes back. */
  readonly cancelled: number;
  readonly time: TimeSignature | undefined;
}

/** A sign on the staff, `dx` columns after the signature's first. */
export interface StaffSign {
  readonly dx: number;
  readonly position: number;
  readonly text: string;
}

/** Staff steps of a sounding pitch above the bottom line, as the clef writes it. */
export const staffPosition = (pitch: Pitch, clef: ReadingClef): number => {
  const { octaves, topLine } = readingOf(clef);
  return TOP_LINE + staffStep(pitch) + 7 * octaves - topLine;
};

/** The signature at the start of a measure: in full where a system opens; else what changes, if anything. */
export function signatureAt(
  measure: TuneMeasure,
  before: TuneMeasure | undefined,
  kind: 'opening',
): Signature;
export function signatureAt(
  measure: TuneMeasure,
  before: TuneMeasure | undefined,
  kind: Signature['kind'],
): Signature | undefined;
export function signatureAt(
  measure: TuneMeasure,
  before: TuneMeasure | undefined,
  kind: Signature['kind'],
): Signature | undefined {
  const { fifths } = measure.key;
  const newKey = before !== undefined && lastKey(before) !== fifths;
  const newTime = before === undefined || lastTime(before) !== timeText(measure.time);
  const time = newTime ? measure.time : undefined;
  if (kind === 'opening') return { kind, fifths, cancelled: newKey ? lastKey(before) : 0, time };
  if (!newKey && !time) return undefined;
  return { kind, fifths: newKey ? fifths : undefined, cancelled: newKey ? lastKey(before) : 0, time };
}

const lastKey = ({ changes, key }: TuneMeasure): number =>
  changes.findLast(change => change.key)?.key?.fifths ?? key.fifths;

const lastTime = ({ changes, time }: TuneMeasure): string =>
  timeText(changes.findLast(change => change.time)?.time ?? time);

/** `3/4`, `3+2/8`, `3/8+2/4`; empty for free time. */
const timeText = (time: TimeSignature | undefined): string =>
  time?.kind === 'metred'
    ? time.fractions.map(({ beats, beatType }) => `${beats.join('+')}/${beatType}`).join('+')
    : '';

/** The signs of a signature, from the left; `signatureWidth` columns wide. */
export const signatureSigns = (
  signature: Signature,
  clef: ReadingClef,
  signs: Signs,
): readonly StaffSign[] => {
  const placed: StaffSign[] = [];
  let dx = 0;
  if (signature.kind === 'opening') {
    placed.push(...clefSigns(clef));
    dx += 2;
  }
  const key = keySigns(signature, clef, signs);
  placed.push(...key.map((sign, index) => ({ ...sign, dx: dx + index })));
  if (key.length > 0) dx += key.length + 1;
  return [...placed, ...timeSigns(signature.time, dx)];
};

/** Columns from the first sign to the last. */
export const signatureWidth = (placed: readonly StaffSign[]): number =>
  Math.max(0, ...placed.map(({ dx, text }) => dx + text.length));

/** A clef is the letter that it grew out of, on its line; an 8 below says that it sounds an octave lower. */
const clefSigns = (clef: ReadingClef): readonly StaffSign[] => {
  const { clefLine, octaves } = readingOf(clef);
  const letter = { dx: 0, position: TOP_LINE - 2 * clefLine, text: clef === 'bass-8' ? 'F' : 'G' };
  return octaves > 0 ? [letter, { dx: 0, position: -1, text: '8' }] : [letter];
};

const keySigns = (
  { fifths, cancelled }: Signature,
  clef: ReadingClef,
  signs: Signs,
): readonly StaffSign[] => {
  if (fifths === undefined) return [];
  const reading = readingOf(clef);
  const shown = fifths === 0 ? cancelled : fifths;
  const text = signs.accidentals[String(fifths === 0 ? 0 : Math.sign(fifths))] ?? '?';
  return keyHeights(shown, reading).map(height => ({ dx: 0, position: TOP_LINE - 2 * height, text }));
};

const NUMERATOR = 6;
const MIDDLE_LINE = 4;
const DENOMINATOR = 2;

const timeSigns = (time: TimeSignature | undefined, from: number): readonly StaffSign[] => {
  if (time?.kind !== 'metred') return [];
  let dx = from;
  return time.fractions.flatMap(({ beats, beatType }, index) => {
    const plus = index > 0 ? [{ dx, position: MIDDLE_LINE, text: '+' }] : [];
    dx += plus.length;
    const upper = beats.join('+');
    const lower = String(beatType);
    const width = Math.max(upper.length, lower.length);
    const centred = (text: string, position: number): StaffSign => ({
      dx: dx + Math.floor((width - text.length) / 2),
      position,
      text,
    });
    const pair = [centred(upper, NUMERATOR), centred(lower, DENOMINATOR)];
    dx += width;
    return [...plus, ...pair];
  });
};
