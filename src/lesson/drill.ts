/**
 * Sight-reading: a new melody from a seed that uses only the places of a window, or of a tune. It is made
 * as the best of many walks: the one that plays all places most evenly, those in focus more often.
 */
import type { Arranged } from '../fingering/arrange.ts';
import type { FretWindow } from '../fingering/arrangement.ts';
import { Refusal } from '../score/diagnostic.ts';
import type { TimeSignature } from '../score/model/attributes.ts';
import { midi, type Pitch, staffStep } from '../score/pitch.ts';
import { metreTicks } from '../score/time.ts';
import type { Tune } from '../score/tune.ts';
import { compose } from './compose.ts';
import { withAccidentals } from './drill/accidentals.ts';
import { GRADE_ROWS, GRADES, type Grade } from './drill/grades.ts';
import { type Aim, melodist, type Rung, unevenness } from './drill/melody.ts';
import { drillDegrees, type Focus, focusSounds, inflected, insideTest } from './drill/notes.ts';
import { type Chance, chance } from './drill/random.ts';
import { DIVISION, makeRhythm, PHRASE, type Rhythm } from './drill/rhythm.ts';
import { arrangeIn, type KnownPlaces, type LessonAsked, withoutFingers } from './places.ts';
import type { Degree, ScaleNotes } from './scale/notes.ts';
import { placesInWindow } from './scale/places.ts';

/** What a drill is to be. */
export interface DrillAsked {
  readonly scale: ScaleNotes;
  readonly window: FretWindow | undefined;
  readonly time: TimeSignature;
  readonly measures: number;
  readonly grade: Grade;
  /** A whole number; the same seed gives the same melody for ever. */
  readonly seed: number;
  readonly focus: readonly Focus[];
}

/** A drill, fingered. */
export interface MadeDrill {
  readonly tune: Tune;
  /** In the order of the lesson's instruments. */
  readonly editions: readonly Arranged[];
  /** MIDI numbers of the notes that the drill is about, from the lowest. */
  readonly sounds: readonly number[];
}

/** How many walks are tried. Changing it changes every drill. */
const WALKS = 96;

/** What a missing accidental weighs against unevenness: more than that of usual walks, less than a place that never comes. */
const LACKING = 100_000;

/** How much oftener than others a note in focus comes. */
const FOCUS = 4;

/** A drill and its fingering. Throws a Refusal where the places do not make a melody. */
export const makeDrill = (asked: DrillAsked, lesson: LessonAsked): MadeDrill => {
  const { tune, degrees, inside } = drillTune(asked, lesson);
  const known = placesFor(asked, lesson, degrees, inside);
  return {
    tune,
    editions: arrangeIn(tune, { ...lesson, known }),
    sounds: degrees.map(({ sound }) => sound),
  };
};

/** The melody alone, and the notes that it is about. Throws a Refusal. */
export const drillTune = (asked: DrillAsked, lesson: LessonAsked) => {
  const inside = insideTest(lesson, asked.window);
  const degrees = drillDegrees(asked.scale, inside);
  const focus = focusSounds(asked.focus, asked.window, lesson, degrees);
  const dice = chance(asked.seed);
  const rhythm = makeRhythm(asked.time, asked.grade, asked.measures, dice);
  const pitches = bestMelody(asked, { degrees, focus, rhythm, inside }, dice);
  return { tune: writtenOut(asked, rhythm, pitches), degrees, inside };
};

/** Where each note lies: as in the tune and in the scale, what is focused on where it is named. */
const placesFor = (
  { scale, focus }: DrillAsked,
  lesson: LessonAsked,
  degrees: readonly Degree[],
  inside: (sound: number) => boolean,
): readonly KnownPlaces[] => {
  const chromatic = degrees.flatMap(({ pitch }) =>
    ([-1, 1] as const).flatMap(by => inflected(pitch, by) ?? []).filter(each => inside(midi(each))),
  );
  const pitches = [...degrees.map(({ pitch }) => pitch), ...chromatic];
  const named = focus.flatMap(each => ('sound' in each ? [] : [each]));
  return placesInWindow(scale, lesson, pitches, named).map(withoutFingers);
};

/** What a melody is made of. */
interface Material {
  /** The notes that it may use. */
  readonly degrees: readonly Degree[];
  /** MIDI numbers of those that are to come more often. */
  readonly focus: ReadonlySet<number>;
  readonly rhythm: Rhythm;
  /** Whether a MIDI number can be played where the drill is. */
  readonly inside: (sound: number) => boolean;
}

const bestMelody = (
  { grade, measures, scale }: DrillAsked,
  { degrees, focus, rhythm, inside }: Material,
  dice: Chance,
): readonly Pitch[] => {
  const row = GRADE_ROWS[grade];
  const tonic = staffStep({ ...scale.tonic, octave: 0 });
  const rungs = degrees.map(({ pitch, sound }): Rung => {
    const step = staffStep(pitch);
    return { step, degree: (((step - tonic) % 7) + 7) % 7, share: focus.has(sound) ? FOCUS : 1 };
  });
  const walker = [3, 2, 1]
    .map(strictness => melodist(rungs, aimsOf(rhythm, strictness), row))
    .find(each => each !== undefined);
  if (!walker) throw tooFarApart(scale, grade);
  const resting = restingNotes(rhythm);
  const accidentalsWanted = row.accidentals ? Math.ceil(measures / 2) : 0;
  let best: readonly Pitch[] = [];
  let least = Infinity;
  for (let walk = 0; walk < WALKS; walk++) {
    const path = walker(dice);
    const plain = path.map(rung => degrees[rung]!.pitch);
    const pitches = row.accidentals
      ? withAccidentals(
          plain,
          index => !resting.has(index) && path.filter(rung => rung === path[index]).length > 2,
          each => inside(midi(each)),
          dice,
        )
      : plain;
    const kept = path.map((rung, index) => (pitches[index] === plain[index] ? rung : -1));
    const accidentals = kept.filter(rung => rung < 0).length;
    const lacking = Math.max(0, accidentalsWanted - accidentals);
    const score = unevenness(rungs, kept) + lacking * LACKING;
    if (score < least) [best, least] = [pitches, score];
  }
  return best;
};

/** Indices of the last notes of measures two and four of each phrase. */
const restingNotes = (rhythm: Rhythm): ReadonlyMap<number, 'phrase' | 'half-phrase'> => {
  const resting = new Map<number, 'phrase' | 'half-phrase'>();
  let count = 0;
  rhythm.forEach((notes, measure) => {
    count += notes.length;
    const ends = (measure + 1) % PHRASE === 0 || measure === rhythm.length - 1;
    if (ends) resting.set(count - 1, 'phrase');
    else if ((measure + 1) % 2 === 0) resting.set(count - 1, 'half-phrase');
  });
  return resting;
};

/** 3: all aims; 2: phrases rest on the triad; 1: tonics at both ends alone. */
const aimsOf = (rhythm: Rhythm, strictness: number): readonly Aim[] => {
  const aims: Aim[] = Array.from({ length: rhythm.flat().length }, () => 'any');
  let phrase = 0;
  for (const [index, kind] of restingNotes(rhythm)) {
    const full: Aim = kind === 'half-phrase' ? 'triad' : phrase % 2 === 0 ? 'half' : 'tonic';
    if (strictness > 1) aims[index] = strictness === 3 ? full : 'triad';
    if (kind === 'phrase') phrase += 1;
  }
  aims[0] = 'tonic';
  aims[aims.length - 1] = 'tonic';
  return aims;
};

const writtenOut = (asked: DrillAsked, rhythm: Rhythm, pitches: readonly Pitch[]): Tune => {
  let next = 0;
  return compose({
    title: `Drill ${asked.seed}: ${asked.scale.name}, grade ${asked.grade}`,
    key: asked.scale.key,
    time: asked.time,
    division: DIVISION,
    length: metreTicks(asked.time, DIVISION)!,
    measures: rhythm.map(notes =>
      notes.map(ticks => {
        next += 1;
        return { pitch: pitches[next - 1]!, ticks };
      }),
    ),
  });
};

const tooFarApart = ({ name }: ScaleNotes, grade: Grade): Refusal =>
  new Refusal({
    severity: 'error',
    code: 'notes-too-far-apart',
    message: `the notes of ${name} in these places lie too far apart for a melody of this grade`,
    hint: `widen the window${grade < GRADES.at(-1)! ? ', or take a higher grade with --grade' : ''}`,
  });
