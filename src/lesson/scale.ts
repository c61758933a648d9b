/** The warm-up: a scale or arpeggio as a tune, the same for all editions, and where the hand shifts. */
import type { Arranged } from '../fingering/arrange.ts';
import type { Arrangement } from '../fingering/arrangement.ts';
import { misfitDiagnostics, rulesDiagnostics } from '../fingering/misfits.ts';
import { spotOf } from '../fingering/spots.ts';
import { beatAt, type Strike } from '../fingering/strikes.ts';
import type { Diagnostic } from '../score/diagnostic.ts';
import { midi, pitchName } from '../score/pitch.ts';
import type { Tune } from '../score/tune.ts';
import { arrangeIn, type LessonAsked, type Section, withoutFile, withoutFingers } from './places.ts';
import { lessonIn, regionsOf } from './regions.ts';
import { ascentIn } from './scale/places.ts';
import { type ScaleAsked, scaleTune } from './scale/writing.ts';

/** What a scale is to be; up and down in steps where nothing is said. */
export interface ScaleWanted extends Pick<ScaleAsked, 'scale'> {
  /** Undefined: as far as the window, or the tune, goes; one octave where there is neither. */
  readonly octaves: number | undefined;
  readonly direction?: ScaleAsked['direction'] | undefined;
  readonly pattern?: ScaleAsked['pattern'] | undefined;
}

/** A scale, fingered. */
export interface MadeScale {
  readonly tune: Tune;
  /** In the order of the lesson's instruments; diagnostics say where the hand shifts. */
  readonly editions: readonly Arranged[];
}

/**
 * The scale for all editions of a lesson: in the places that its tune uses, extended to those that it
 * does not use; of a tune that is played in several windows, once through each. Each edition is fingered once
 * upwards; the way down and steps both ways keep places and fingers, figures keep places. Throws a Refusal
 * where the instruments have no room for the scale.
 */
export const makeScale = (wanted: ScaleWanted, lesson: LessonAsked): MadeScale => {
  const { scale, octaves, direction = 'both', pattern = 'steps' } = wanted;
  const regions = regionsOf(lesson);
  const ascents = regions.map(region => ascentIn(scale, octaves, lessonIn(lesson, region)));
  const asked = { scale, direction, pattern };
  const { tune, starts } = scaleTune(
    asked,
    ascents.map(({ range }) => range),
  );
  const sections = ascents.map(({ places }, index): Section => {
    const known = pattern === 'steps' ? places : places.map(withoutFingers);
    return { from: starts[index]!, window: regions[index]!.window, known };
  });
  const editions = arrangeIn(tune, lesson, sections).map((edition, index) => ({
    ...edition,
    diagnostics: [
      ...ascents.flatMap((ascent, section) =>
        fitNotes(strikesIn(edition, starts[section]!, starts[section + 1]), ascent.editions[index]!),
      ),
      ...shiftNotes(tune, edition.arrangement),
    ],
  }));
  return { tune, editions };
};

/** What is struck from the measure of one index up to, not with, that of another. */
const strikesIn = ({ problem }: Arranged, from: number, to = Infinity): readonly Strike[] =>
  problem.strikes.filter(({ source: { measure } }) => Number(measure) > from && Number(measure) <= to);

/** What there is to say of the notes as they were fingered upwards, at the moments at which they are played. */
const fitNotes = (strikes: readonly Strike[], upwards: Arranged): readonly Diagnostic[] => {
  const { problem, found, arrangement } = upwards;
  const bySound = new Map(arrangement.misfits.map(misfit => [midi(misfit.pitch), misfit]));
  const misfits = strikes.flatMap(strike => {
    const misfit = bySound.get(strike.sounds[0]!);
    return misfit ? [{ ...misfit, ...spotOf(strike), head: strike.heads[0]! }] : [];
  });
  return [
    ...misfitDiagnostics(problem, { ...arrangement, misfits }),
    ...rulesDiagnostics(problem, found),
  ].map(withoutFile);
};

/** A note for each change of position: on which note, and where to. */
const shiftNotes = (tune: Tune, { placements }: Arrangement): readonly Diagnostic[] => {
  const notes: Diagnostic[] = [];
  let position: number | undefined;
  for (const measure of tune.measures) {
    for (const event of measure.events) {
      if (event.kind === 'rest') continue;
      const [head] = event.heads;
      const here = placements.get(head!.id)!;
      if (here.fret === 0) continue;
      if (position !== undefined && here.position !== position) {
        notes.push({
          severity: 'note',
          code: 'hand-shifts',
          message: `at ${pitchName(head!.pitch)} the index finger moves from fret ${position} to fret ${here.position}`,
          place: { measure: measure.number, beat: beatAt(tune, measure, event.at) },
        });
      }
      position = here.position;
    }
  }
  return notes;
};
