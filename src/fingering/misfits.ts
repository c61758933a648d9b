/** What there is to say about a fingering: notes that do not fit, where they stand, and what would make them fit. */
import { placeName } from '../instrument/places.ts';
import type { Diagnostic } from '../score/diagnostic.ts';
import { groupBy } from '../score/groups.ts';
import { counted } from '../score/numbers.ts';
import { pitchName } from '../score/pitch.ts';
import type { Arrangement } from './arrangement.ts';
import type { Problem } from './problem.ts';
import { windowName } from './rules.ts';
import type { Found } from './search.ts';
import { listSpots, placeOf } from './spots.ts';
import { hintAt } from './ways-out.ts';

/** Warnings for the notes that were played outside the window, notes for open strings that rescued. */
export const misfitDiagnostics = (problem: Problem, { misfits }: Arrangement): readonly Diagnostic[] => {
  const { asked, strikes, demands } = problem;
  const { rules } = asked;
  const groups = groupBy(misfits, ({ pitch, placement: { string, fret, fit }, window }) =>
    [pitchName(pitch), string, fret, fit, windowName(rules, window)].join(),
  );
  return groups.map((spots): Diagnostic => {
    const [{ pitch, placement, window }] = spots;
    const start = `${pitchName(pitch)} has no place in ${windowName(rules, window)}`;
    if (placement.fit === 'open') {
      return {
        severity: 'note',
        code: 'open-string-in-window',
        message: `${start}; played on ${placeName(placement)}: ${listSpots(spots)}`,
        place: placeOf(spots[0]),
      };
    }
    return {
      severity: 'warning',
      code: 'note-outside-window',
      message: `${start}; played on ${placeName(placement)}: ${listSpots(spots)}`,
      ...hintAt(asked, strikes, demands, window),
      place: placeOf(spots[0]),
    };
  });
};

/** What else the rules did that the teacher should know. */
export const rulesDiagnostics = (
  { asked: { rules }, strikes }: Problem,
  { proven }: Found,
): readonly Diagnostic[] => {
  const marked = strikes.filter(({ marked }) =>
    marked.some(({ string, fret, finger }) => (string ?? fret ?? finger) !== undefined),
  ).length;
  const notes: Diagnostic[] = [];
  if (marked > 0 && !rules.keepMarked) {
    notes.push({
      severity: 'note',
      code: 'marks-ignored',
      message: `string, fret or fingering numbers that are in the file for ${counted(marked, 'note')} were not used`,
      hint: 'obey them with --keep-marked',
    });
  }
  if (!proven) {
    notes.push({
      severity: 'note',
      code: 'not-proven-cheapest',
      message: 'passages that return are fingered alike, but a cheaper way of doing so may exist',
      hint: '--free-repeats fingers each passage for itself, provably at least cost',
    });
  }
  return notes;
};
