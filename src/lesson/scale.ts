/** The warm-up: a scale or arpeggio as a tune, the same for all editions, and where the hand shifts. */
import type { Arranged } from '../fingering/arrange.ts';
import type { Arrangement } from '../fingering/arrangement.ts';
import { misfitDiagnostics, rulesDiagnostics } from '../fingering/misfits.ts';
import { spotOf } from '../fingering/spots.ts';
import { beatAt } from '../fingering/strikes.ts';
import type { Diagnostic } from '../score/diagnostic.ts';
import { midi, pitchName } from '../score/pitch.ts';
import type { Tune } from '../score/tune.ts';
import { arrangeIn, knownPlaces, type LessonAsked, withoutFile, withoutFingers } from './places.ts';
import { fingered } from './scale/places.ts';
import { scaleRange } from './scale/range.ts';
import { type ScaleAsked, scaleTune } from './scale/writing.ts';

export type { ScaleAsked } from './scale/writing.ts';

/** What a scale is to be; up and down in steps where nothing is said. */
export interface ScaleWanted extends Omit<ScaleAsked, 'direction' | 'pattern'> {
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
 * does not use. Each edition is fingered once upwards; the way down and steps both ways keep places and
 * fingers, figures keep places. Throws a Refusal where the instruments have no room for the scale.
 */
export const makeScale = (wanted: ScaleWanted, lesson: LessonAsked): MadeScale => {
  const { direction = 'both', pattern = 'steps' } = wanted;
  const asked: ScaleAsked = { ...wanted, direction, pattern };
  const range = scaleRange(asked.scale, lesson, asked);
  const ascent = scaleTune({ ...asked, direction: 'up', pattern: 'steps' }, range);
  const upwards = fingered(ascent, lesson);
  const known = upwards.map(({ arrangement }) => {
    const places = knownPlaces(ascent, arrangement);
    return asked.pattern === 'steps' ? places : withoutFingers(places);
  });
  const tune = scaleTune(asked, range);
  const editions = arrangeIn(tune, { ...lesson, known }).map((edition, index) => ({
    ...edition,
    diagnostics: [...fitNotes(edition, upwards[index]!), ...shiftNotes(tune, edition.arrangement)],
  }));
  return { tune, editions };
};

/** What there is to say of the notes as they were fingered upwards, at the moments at which they are played. */
const fitNotes = ({ problem: { strikes } }: Arranged, upwards: Arranged): readonly Diagnostic[] => {
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
