/**
 * Scales and arpeggios by name: "C major", "D dorian", "F# minor pentatonic", "G7 arpeggio". What a name
 * consists of is asked of tonal; its key signature is worked out here.
 */
import { Chord, Interval, Note, Scale } from 'tonal';
import { keyAlter } from '../../score/accidentals.ts';
import { Refusal } from '../../score/diagnostic.ts';
import { type Key, NO_SIGNATURE } from '../../score/model/attributes.ts';
import { keyName, MODES, majorFifths, signatureName } from '../../score/names.ts';
import { nearest } from '../../score/nearest.ts';
import { accidentalSign, midi, type Pitch, type Step, stepNamed } from '../../score/pitch.ts';
import { type Interval as Distance, transposePitch } from '../../score/transpose.ts';
import type { Tune } from '../../score/tune.ts';
import { isForeign } from '../foreign.ts';

/** A scale or an arpeggio: its notes within an octave. */
export interface ScaleNotes {
  readonly kind: 'scale' | 'arpeggio';
  /** As a sheet prints it: "B♭ major", "Am7". */
  readonly name: string;
  readonly tonic: { readonly step: Step; readonly alter: number };
  /** Above the tonic, within an octave, ascending; the first is the tonic itself. */
  readonly intervals: readonly Distance[];
  readonly key: Key;
}

/** Finds a scale or an arpeggio by its name. Throws a Refusal that shows how names are written. */
export const scaleNotes = (typed: string): ScaleNotes => {
  const text = typed.trim().replaceAll('♯', '#').replaceAll('♭', 'b').replace(/\s+/g, ' ');
  const found = read(text) ?? read(signed(text));
  if (!found) throw unknown(typed, meantBy(signed(text)));
  if (Math.abs(found.key.fifths) > 7) throw tooManyAccidentals(found);
  return found;
};

/**
 * The scale of that name; without one that of the key of a tune, the major one where its mode is none that is known, and
 * without a tune C major.
 */
export const scaleFor = (name: string | undefined, tune: Pick<Tune, 'measures'> | undefined): ScaleNotes => {
  const { fifths, mode = '' } = tune?.measures[0]?.key ?? NO_SIGNATURE;
  return scaleNotes(name ?? keyName({ fifths, mode: MODES.has(mode) ? mode : undefined }));
};

/** "F-sharp minor" and "b flat" with signs. */
const signed = (text: string): string =>
  text.replace(/^([A-G])[ -]?sharp\b/i, '$1#').replace(/^([A-G])[ -]?flat\b/i, '$1b');

const NAME = /^([A-G](?:##|bb(?! )|#|b)?)[ -]?(.*?)(?: ?(arpeggio|chord|scale))?$/i;

const read = (text: string): ScaleNotes | undefined => {
  const [, root, type = '', word] = NAME.exec(text) ?? [];
  return root === undefined || isForeign(type) ? undefined : find(root, type, word?.toLowerCase());
};

/** What is not called an arpeggio is a scale if there is one of that name; "C" and "Am" are keys. */
const find = (root: string, type: string, word: string | undefined): ScaleNotes | undefined => {
  const tonic = root[0]!.toUpperCase() + root.slice(1).toLowerCase();
  if (word !== 'arpeggio' && word !== 'chord') {
    const scale = Scale.get(
      `${tonic} ${SHORT.get(type) ?? SHORT.get(type.toLowerCase()) ?? type.toLowerCase()}`,
    );
    if (!scale.empty && scale.tonic) return fromIntervals('scale', tonic, scale.type, scale.intervals);
    if (word === 'scale') return undefined;
  }
  for (const name of [`${tonic}${type}`, `${tonic} ${type.toLowerCase()}`]) {
    const chord = Chord.get(name);
    if (!chord.empty && chord.tonic === tonic) {
      return fromIntervals('arpeggio', tonic, chord.type || chord.aliases[0]!, chord.intervals);
    }
  }
  return undefined;
};

/** What players write for the names that tonal has. */
const SHORT: ReadonlyMap<string, string> = new Map([
  ['', 'major'],
  ['M', 'major'],
  ['maj', 'major'],
  ['m', 'minor'],
  ['min', 'minor'],
  ['natural minor', 'minor'],
  ['pentatonic', 'major pentatonic'],
]);

/** Those that are meant before others which are as near. */
const COMMON = [
  'major',
  'minor',
  'harmonic minor',
  'melodic minor',
  'major pentatonic',
  'minor pentatonic',
  'pentatonic',
  'dorian',
  'phrygian',
  'lydian',
  'mixolydian',
  'locrian',
  'chromatic',
];

const fromIntervals = (
  kind: ScaleNotes['kind'],
  root: string,
  type: string,
  names: readonly string[],
): ScaleNotes => {
  const { letter, alt } = Note.get(root);
  const tonic = { step: stepNamed(letter)!, alter: alt };
  const intervals = names
    .map(withinOctave)
    .sort((a, b) => a.semitones - b.semitones)
    .filter((each, index, all) => each.semitones !== all[index - 1]?.semitones);
  const name = `${tonic.step}${accidentalSign(alt)} ${type}`;
  return { kind, name, tonic, intervals, key: keyOf(kind, type, tonic, intervals) };
};

const withinOctave = (name: string): Distance => {
  const { step, semitones } = Interval.get(name);
  return { steps: step! % 7, semitones: semitones! % 12 };
};

/** A note of a scale in one octave. */
export interface Degree {
  readonly pitch: Pitch;
  /** MIDI number. */
  readonly sound: number;
  readonly isTonic: boolean;
}

/** The notes of a scale that sound from `low` to `high` (MIDI numbers), ascending. */
export const degreesBetween = (
  { tonic, intervals }: ScaleNotes,
  low: number,
  high: number,
): readonly Degree[] =>
  Array.from({ length: 11 }, (_, octave) =>
    intervals.map((interval, index) => {
      const pitch = transposePitch({ ...tonic, octave: octave - 1 }, interval);
      return { pitch, sound: midi(pitch), isTonic: index === 0 };
    }),
  )
    .flat()
    .filter(({ sound }) => sound >= low && sound <= high);

/** Scales that are written in the key of their name's parent, though they have notes outside it. */
const PARENTS: Readonly<Record<string, 'major' | 'minor'>> = {
  'harmonic minor': 'minor',
  'melodic minor': 'minor',
  'minor pentatonic': 'minor',
  'minor blues': 'minor',
  'major pentatonic': 'major',
  'major blues': 'major',
  'bebop major': 'major',
  'harmonic major': 'major',
  chromatic: 'major',
};

/**
 * The key signature: that of the mode; of the parent key for scales that are written so (common practice);
 * else the one that leaves fewest notes with an accidental, of equal ones the nearest to the major or
 * minor key on the tonic.
 */
const keyOf = (
  kind: ScaleNotes['kind'],
  type: string,
  tonic: ScaleNotes['tonic'],
  intervals: readonly Distance[],
): Key => {
  const parent = PARENTS[type];
  const mode = kind === 'scale' ? (parent ?? (MODES.has(type) ? type : undefined)) : undefined;
  const major = majorFifths(tonic);
  if (mode !== undefined) return { fifths: major - MODES.get(mode)!, mode };
  const minorThird = intervals.some(({ steps, semitones }) => steps === 2 && semitones === 3);
  const home = major - (minorThird ? MODES.get('minor')! : 0);
  const pitches = intervals.map(interval => transposePitch({ ...tonic, octave: 4 }, interval));
  const misses = (fifths: number): number =>
    pitches.filter(({ step, alter }) => keyAlter({ fifths, mode: undefined }, step) !== alter).length;
  const choices = Array.from({ length: 15 }, (_, index) => index - 7);
  choices.sort((a, b) => misses(a) - misses(b) || Math.abs(a - home) - Math.abs(b - home) || a - b);
  return { fifths: choices[0]!, mode: undefined };
};

const ENDINGS = ['arpeggio', 'chord', 'scale'];

/** The name that is meant by one with a slip in it: "C majr", "G7 arpegio", "minor A". */
const meantBy = (text: string): string | undefined => {
  const [, kindFirst, tonicLast] = /^(.+?)(?: in)? ([A-G][#b]?)$/.exec(text) ?? [];
  const turned = `${tonicLast} ${kindFirst}`;
  if (tonicLast !== undefined && read(turned)) return turned;
  const [, root, rest] = /^([A-G][#b]?)[ -]?(.+)$/i.exec(text) ?? [];
  if (root === undefined || rest === undefined) return undefined;
  const tonic = root[0]!.toUpperCase() + root.slice(1).toLowerCase();
  const kind = nearest(rest, [...COMMON, ...Scale.names()]);
  const ending = nearest(rest.split(' ').at(-1)!, ENDINGS);
  const names = [
    ...(kind === undefined ? [] : [`${tonic} ${kind}`]),
    ...(ending === undefined ? [] : [`${tonic}${rest.replace(/(^| )\S+$/, ` ${ending}`)}`]),
  ];
  return names.find(name => read(name));
};

const unknown = (typed: string, meant: string | undefined): Refusal =>
  new Refusal({
    severity: 'error',
    code: 'unknown-scale',
    message: `"${typed}" is neither a scale nor a chord`,
    hint: `${meant === undefined ? '' : `is "${meant}" meant? `}${HOW_TO_WRITE}`,
  });

const HOW_TO_WRITE =
  'write a tonic and a kind: "C major", "Bb minor", "D dorian", "A minor pentatonic", "G7 arpeggio"';

const tooManyAccidentals = ({ name, key }: ScaleNotes): Refusal =>
  new Refusal({
    severity: 'error',
    code: 'key-beyond-seven',
    message: `${name} would need a key signature of ${signatureName(key.fifths)}`,
    hint: `write it on the note that sounds the same, with ${key.fifths > 0 ? 'flats' : 'sharps'}`,
  });
