/** `<pitch>` → the sounding pitch; and notes without one that frets could play. */
import type { Note } from 'musicxml-interfaces';
import type { Refusal } from '../../score/diagnostic.ts';
import { type Pitch, STEPS, type Step } from '../../score/pitch.ts';
import { spelt, transposePitch } from '../../score/transpose.ts';
import { type Placed, refuseAt, sourceOf, type Walk } from '../draft.ts';
import { innermost, type XmlElement } from '../xml/element.ts';
import { intervalOn } from './attributes.ts';

const STEP_NAMES: ReadonlyMap<string, Step> = new Map(STEPS.map(step => [step.toLowerCase(), step]));

/** What may be wrong with a pitch; octaves are MusicXML's 0 to 9, and one more on either side. */
const BAD = {
  step: 'a pitch has no step from A to G',
  octave: 'a pitch has no octave from 0 to 9',
  alter: 'a pitch is altered by what is no number, or by an octave or more',
} as const;

/** The sounding pitch, or why there is none that frets could play. */
export const pitchOf = (walk: Walk, node: XmlElement, data: Note, staff: number): Pitch | FaultCode => {
  const written = data.pitch;
  if (written === undefined) return 'unpitched-notes';
  const step = STEP_NAMES.get(written.step ?? '');
  const { octave, alter = 0 } = written;
  if (step === undefined) throw badPitch(walk, node, 'step');
  if (!(Number.isInteger(octave) && octave >= -1 && octave <= 10)) throw badPitch(walk, node, 'octave');
  if (!(Math.abs(alter) < 12)) throw badPitch(walk, node, 'alter');
  if (!Number.isInteger(alter)) return 'quarter-tones';
  const pitch = spelt({ step, alter, octave });
  const interval = intervalOn(walk, staff);
  return interval === undefined ? pitch : transposePitch(pitch, interval);
};

const badPitch = (walk: Walk, node: XmlElement, part: keyof typeof BAD): Refusal =>
  refuseAt(walk, innermost(node, 'pitch', part), {
    code: 'bad-pitch',
    message: BAD[part],
    hint: 'mend the pitch in the file, or export the tune again',
  });

type FaultCode = keyof typeof FAULTS;

const FAULTS = {
  'unpitched-notes': {
    at: ['unpitched'],
    message: 'the melody has notes without a pitch, as percussion has',
    hint: 'choose another with --part or --voice',
  },
  'quarter-tones': {
    at: ['pitch', 'alter'],
    message: 'the melody has quarter tones, which frets cannot play',
    hint: 'choose another with --part or --voice, or write the nearest semitones',
  },
} as const;

/** Notes that the voice of a note is unfit to be the melody. */
export const addFault = (walk: Walk, node: XmlElement, placed: Placed, code: FaultCode): void => {
  const { at, message, hint } = FAULTS[code];
  const place = sourceOf(walk, innermost(node, ...at));
  walk.faults.push({ event: placed.event.id, diagnostic: { severity: 'error', code, message, hint, place } });
};
