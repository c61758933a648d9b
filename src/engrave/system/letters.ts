/** Note letters, or boxes to write them in, in a row of their own under the staff. */
import { type Box, union } from '../drawing/box.ts';
import { bounds, type Mark, move } from '../drawing/mark.ts';
import { isNamed, letterMarks } from '../measure/letter-marks.ts';
import { headCentre, type PlacedNote, type PlacedSystem } from './placed.ts';
import type { Sketch } from './sketch.ts';

const BASELINE = 6.2;
/** From a letter, with its accidental, or a box to the ink over it. */
const CLEARANCE = { letter: 0.5, box: 0.7 };
const BESIDE = 0.2;
const BOX = { half: 0.85, height: 2 };

/** Notes that are named. */
const named = ({ notes }: PlacedSystem): PlacedNote[] => notes.filter(({ shape }) => isNamed(shape));

const rowOfLetters = (notes: readonly PlacedNote[]): Mark[][] =>
  notes.map(note => letterMarks(note.shape, headCentre(note)));

function boxMarks(notes: readonly PlacedNote[]): Mark[][] {
  return notes.map(note => oneBox(headCentre(note)));
}

function oneBox(x: number): Mark[] {
  const [left, right, top, bottom] = [x - BOX.half, x + BOX.half, 0.4 - BOX.height, 0.4];
  const edge = (x1: number, y1: number, x2: number, y2: number): Mark => ({
    kind: 'line',
    role: 'answer',
    x1,
    y1,
    x2,
    y2,
    thickness: 0.1,
  });
  return [
    edge(left - 0.05, top, right + 0.05, top),
    edge(left - 0.05, bottom, right + 0.05, bottom),
    edge(left, top, left, bottom),
    edge(right, top, right, bottom),
  ];
}

export function drawLetters(system: PlacedSystem, sketch: Sketch): void {
  const { kind, options } = system;
  const marks = kind.letters ? rowOfLetters : options.letterBoxes && kind.boxes ? boxMarks : undefined;
  if (!marks) return;
  const notes = named(system);
  const row = marks(notes);
  const gap = kind.letters ? CLEARANCE.letter : CLEARANCE.box;
  const y = Math.max(BASELINE, ...row.map(each => gap + freeBelow(sketch, union(each.map(bounds))!)));
  row.forEach((each, i) => {
    sketch.add(notes[i]!.measure, move(each, 0, y));
  });
}

/** The baseline at which what stands in a box around y = 0 meets the ink over it. */
const freeBelow = (sketch: Sketch, { left, right, top }: Box): number =>
  sketch.below(left - BESIDE, right + BESIDE, 4) - top;
