/** The shape of the document: what each field means, in which unit. */
import * as z from 'zod/mini';
import type { ArrangementDocument } from './document.ts';

const said = (description: string) => z.describe(description);

const text = (description: string) => z.string().check(said(description));
const flag = (description: string) => z.boolean().check(said(description));
const whole = (description: string, low?: number) =>
  low === undefined ? z.int().check(said(description)) : z.int().check(z.gte(low), said(description));
const number = (description: string) => z.number().check(said(description));

const fraction = (description: string) =>
  z
    .string()
    .check(z.regex(/^(0|[1-9]\d*)(\/[1-9]\d*)?$/), said(`${description}; an exact fraction: "3/8", "2"`));

const onset = () => fraction('whole notes from the start of the tune, as written, repeats not played out');
const duration = () => fraction('sounding length in whole notes; 0 for grace notes');
const measureIndex = () => whole('index of the measure', 0);

const pitch = () =>
  z.object({
    name: text('such as F#4, Bb3; middle C is C4'),
    step: z.enum(['C', 'D', 'E', 'F', 'G', 'A', 'B']),
    alter: whole('semitones by which the step is raised'),
    octave: whole('octave 4 starts at middle C'),
    midi: whole('semitones above C-1; middle C is 60'),
  });

const tune = () =>
  z.object({
    title: z.optional(z.string()),
    composer: z.optional(z.string()),
    lyricist: z.optional(z.string()),
    arranger: z.optional(z.string()),
    rights: z.array(z.string()),
    part: text('id of the part in the file'),
    partName: z.string(),
    voice: text('id of the voice in the part'),
    transposition: whole('semitones by which the tune was moved from the key of the file'),
  });

const instrument = () =>
  z.object({
    id: z.string(),
    name: z.string(),
    strings: z.array(pitch()).check(said('open strings without the capo, string 1 first')),
    frets: whole('highest fret of the bare neck', 1),
    scaleLength: number('nut to saddle, mm'),
    hand: z.enum(['one-fret-a-finger', 'two-frets-a-finger']).check(said('how fingers fall on frets')),
    clef: z
      .enum(['treble', 'treble-8', 'bass-8'])
      .check(said('that it reads; the octave clefs are written an octave above the sound')),
    capo: whole('fret of the capo, 0 for none; all frets count from it', 0),
  });

const window = () =>
  z.object({
    low: whole('lowest fret', 0),
    high: whole('highest fret', 0),
    measures: z.optional(
      z
        .object({ from: z.int(), to: z.int() })
        .check(said('printed numbers of the first and last measure; the whole tune where it is absent')),
    ),
  });

const key = () =>
  z.object({
    fifths: whole('sharps above, flats below zero'),
    mode: z.optional(text('such as major, minor, dorian')),
  });

const metre = () =>
  z.nullable(z.string()).check(said('such as 6/8, 3+2/8, 3/8 + 2/4; null where there is none'));

const measure = () =>
  z.object({
    index: whole('counted from 0', 0),
    number: text('as printed; may repeat'),
    implicit: flag('a pickup, or the rest of a divided measure'),
    onset: onset(),
    duration: duration(),
    metre: metre(),
    key: key(),
    changes: z.optional(
      z
        .array(z.object({ onset: onset(), metre: z.optional(metre()), key: z.optional(key()) }))
        .check(said('within the measure')),
    ),
    repeatStarts: z.boolean(),
    repeatEnds: z.boolean(),
    times: z.optional(whole('how often the passage that ends here is played in all', 1)),
    endingStarts: z.optional(z.array(z.int()).check(said('numbers of the ending that starts here'))),
    endingStops: z.boolean(),
    jumps: z.optional(
      z
        .array(z.enum(['segno', 'coda', 'dacapo', 'dalsegno', 'tocoda', 'fine']))
        .check(said('signs and jumps, in order')),
    ),
  });

const time = () => ({
  event: whole('same for notes that are struck together; counts up through the tune', 0),
  measure: measureIndex(),
  onset: onset(),
  beat: fraction('in the lower number of the metre, from the start of the measure, counted from 1'),
  duration: duration(),
});

const value = () =>
  z.object({
    note: fraction('the note as it is written: 1/4 is a quarter note, 2 a breve'),
    dots: whole('augmentation dots', 0),
    ratio: z.optional(
      z.object({ actual: z.int(), normal: z.int() }).check(said('3 in the time of 2 for a triplet')),
    ),
  });

const note = () =>
  z.object({
    ...time(),
    id: whole('unique in the tune', 0),
    value: value(),
    grace: z.boolean(),
    pitch: pitch(),
    tiedFrom: z.optional(whole('id of the note that this one prolongs; it is not struck', 0)),
    string: whole('string 1 is the top line of tablature', 1),
    fret: whole('0 is the open string; counts from the capo', 0),
    finger: whole('0 open string, 1 index finger, 4 little finger', 0),
    position: whole('fret at which the index finger is, also while an open string rings', 0),
    fit: z
      .enum(['inside', 'open', 'outside'])
      .check(said('of the window: inside it, rescued by an open string, or outside')),
    cost: z.optional(
      number(
        'points paid for what is struck here, and for the move to it; stands on one note of those struck together',
      ),
    ),
    elsewhere: z.optional(flag('the edition that this one was matched with plays it in another place')),
    articulations: z.optional(
      z
        .array(z.enum(['staccato', 'accent', 'tenuto', 'breath', 'caesura', 'staccatissimo', 'marcato']))
        .check(said('like lyrics and fermata, of a chord on its first note')),
    ),
    fermata: z.optional(z.boolean()),
    lyrics: z.optional(
      z.array(
        z.object({
          verse: z.string(),
          text: z.string(),
          syllabic: z.enum(['single', 'begin', 'middle', 'end']),
        }),
      ),
    ),
  });

const chordSymbol = () =>
  z.object({
    measure: measureIndex(),
    onset: onset(),
    root: z.optional(text('such as Bb; absent for "no chord"')),
    kind: text('a value of MusicXML’s kind-value list: major, minor, dominant, …'),
    text: z.optional(text('how the file spells the kind')),
    bass: z.optional(z.string()),
    degrees: z.optional(
      z.array(z.object({ value: z.int(), alter: z.int(), type: z.enum(['add', 'alter', 'subtract']) })),
    ),
  });

const mark = () =>
  z.object({
    measure: measureIndex(),
    onset: onset(),
    kind: z.enum(['words', 'tempo', 'rehearsal', 'dynamic']),
    text: z.optional(text('as printed')),
    beat: z.optional(value()),
    perMinute: z.optional(number('beats a minute')),
  });

const warning = () =>
  z.object({
    severity: z.enum(['error', 'warning', 'note']),
    code: text('stable, in kebab case'),
    message: z.string(),
    hint: z.optional(text('what to do about it')),
    line: z.optional(whole('of the XML file', 1)),
    measure: z.optional(text('printed number')),
    beat: z.optional(number('counted from 1')),
  });

/** The document, for checking one. */
export const documentSchema = (): z.ZodMiniType<ArrangementDocument> =>
  z.object({
    format: z.literal('fretward-arrangement'),
    version: z
      .string()
      .check(
        z.regex(/^1\.\d+$/),
        said('of this format: a minor version adds fields, a major one may change or remove them'),
      ),
    tune: tune(),
    instrument: instrument(),
    windows: z
      .array(window())
      .check(said('ranges of frets that notes were forced into, as they were asked for')),
    cost: number('points for the whole fingering: the sum of what notes cost'),
    matchedWith: z.optional(text('id of the instrument whose places were to be met')),
    measures: z.array(measure()),
    notes: z.array(note()).check(said('in order of time; of a chord from the lowest up')),
    rests: z.array(z.object({ ...time(), value: z.optional(value()) })),
    slurs: z.array(z.object({ from: z.int(), to: z.int() })).check(said('from one event to another')),
    chordSymbols: z.array(chordSymbol()),
    marks: z.array(mark()).check(said('what is written above and below the staff')),
    warnings: z.array(warning()).check(said('what was said about the tune and this edition')),
  });
