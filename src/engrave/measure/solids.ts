/** The boxes that a column keeps from its neighbours, row by row. */
import { union } from '../drawing/box.ts';
import { bounds, type Mark } from '../drawing/mark.ts';
import { STYLE } from '../style.ts';
import type { Column, Row, Solid } from './column.ts';
import { BELOW_GAP } from './dynamic-marks.ts';
import { isNamed, letterMarks } from './letter-marks.ts';
import { numberRoom } from './syllables.ts';

/** Room at the right of each kind of thing. */
const GAPS = { staff: 0.45, finger: 0.3, tab: 0.5, chord: 0.75, letter: 0.6, word: 0.65, hyphen: 1.25 };

/** Between chord symbols. */
export const CHORD_GAP = GAPS.chord;

type Unmeasured = Omit<Column, 'solids'>;

function solid(row: Row, marks: readonly Mark[], gap: number): Solid[] {
  const box = union(marks.map(bounds));
  return box ? [{ row, ...box, gap }] : [];
}

/**
 * The stem that a beam will end, wherever that is: all heads of the beam lie on its near side, so fingers
 * and accidentals that follow keep clear of it at every height.
 */
function beamedStemSolids({ note, graces }: Unmeasured): Solid[] {
  return [...graces, ...(note ? [note] : [])]
    .filter(shape => shape.beamed)
    .map(({ stem, stemX, stemFoot, stemTip }) => ({
      row: 'staff',
      left: stemX - STYLE.stem / 2,
      right: stemX + STYLE.stem / 2,
      top: stem === 'up' ? Math.min(stemTip, -4) : stemFoot,
      bottom: stem === 'up' ? stemFoot : Math.max(stemTip, 8),
      gap: 0.25,
    }));
}

/** Room for a dot or line over or under the head, away from the stem. */
function markSolids({ note, centre }: Unmeasured): Solid[] {
  const marks = note?.event.articulations.filter(each => each === 'staccato' || each === 'tenuto') ?? [];
  if (!note || marks.length === 0) return [];
  const below = note.stem === 'up' || (!note.stem && note.heights[0]! >= 2);
  const head = below ? Math.max(...note.heights) : Math.min(...note.heights);
  const [top, bottom] = below ? [head + 0.5, head + 2] : [head - 2, head - 0.5];
  const half = marks.includes('tenuto') ? 0.65 : 0.25;
  return [{ row: 'staff', left: centre - half, right: centre + half, top, bottom, gap: 0.2 }];
}

/** Grace notes and fingers keep clear of their neighbours at whatever height: they are read together with their note. */
function attachedSolids({ graces, note }: Unmeasured): Solid[] {
  const fingers = (note?.marks ?? []).filter(({ role }) => role === 'finger').map(bounds);
  const heads = graces.map(({ dx, headWidth }) => ({ left: dx - 0.1, right: dx + headWidth }));
  return [...heads, ...fingers].map(({ left, right }) => ({
    row: 'staff',
    left,
    right,
    top: -4,
    bottom: 8,
    gap: 0.2,
  }));
}

/** Room for the letter of a note, on sheets without letters too: all kinds of sheet are spaced alike. */
const letterSolids = ({ note, centre }: Unmeasured): Solid[] =>
  note && isNamed(note) ? solid('letter', letterMarks(note, centre), GAPS.letter) : [];

export function solidsOf(column: Unmeasured): Solid[] {
  const own = [
    ...column.change,
    ...column.graces.flatMap(each => each.marks),
    ...(column.note?.marks ?? column.rest?.marks ?? []),
  ];
  return [
    ...own.flatMap(mark => solid('staff', [mark], mark.role === 'ledger' ? 0.25 : GAPS.staff)),
    ...beamedStemSolids(column),
    ...markSolids(column),
    ...attachedSolids(column),
    ...column.digits.flatMap(mark => solid('tab', [mark], GAPS.tab)),
    ...column.fingers.flatMap(mark => solid('finger', [mark], GAPS.finger)),
    ...solid('dynamic', column.dynamics, BELOW_GAP),
    ...solid('chord', column.chord, GAPS.chord),
    ...letterSolids(column),
    ...column.syllables.map(({ verse, number, left, right, hyphen }) => ({
      row: `verse ${verse}` as const,
      left: left - numberRoom(number),
      right,
      top: 0,
      bottom: 1,
      gap: hyphen ? GAPS.hyphen : GAPS.word,
      endGap: hyphen ? GAPS.hyphen * 0.75 : 0,
    })),
  ];
}
