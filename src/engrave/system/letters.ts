/** Note letters, or boxes to write them in, in a row of their own under the staff. */
import { accidentalSign } from '../../score/pitch.ts';
import { type Box, union } from '../drawing/box.ts';
import { bounds, type Mark, move } from '../drawing/mark.ts';
import { anchoredText, richText } from '../measure/rich-text.ts';
import { headCentre, type PlacedNote, type PlacedSystem } from './placed.ts';
import type { Sketch } from './sketch.ts';

const SIZE = 2;
const BASELINE = 6.2;
/** From a letter, with its accidental, or a box to the ink over it. */
const CLEARANCE = { letter: 0.5, box: 0.7 };
const BESIDE = 0.2;
const BOX = { half: 0.85, height: 2 };

/** Notes that are named: struck, and of full size. */
const named = ({ notes }: PlacedSystem): PlacedNote[] =>
  notes.filter(({ shape }) => shape.size === 1 && shape.event.heads.some(head => head.tieFrom === undefined));

const letter = (note: PlacedNote): string => {
  const { step, alter } = note.shape.event.heads.at(-1)!.pitch;
  return `${step}${accidentalSign(alter)}`;
};

/** A size at which no letter touches its neighbour. */
function fittingSize(notes: readonly PlacedNote[]): number {
  const widths = notes.map(
    note => richText(letter(note), { role: 'letter', face: 'sansBold', size: SIZE }).width,
  );
  const shares = notes.slice(1).map((note, i) => {
    const room = headCentre(note) - headCentre(notes[i]!) - 0.15;
    return (2 * room) / (widths[i]! + widths[i + 1]!);
  });
  return SIZE * Math.max(0.5, Math.min(1, ...shares));
}

function letterMarks(notes: readonly PlacedNote[]): Mark[][] {
  const size = fittingSize(notes);
  return notes.map(note => {
    const of = note.shape.event.heads.at(-1)!.id;
    return anchoredText(
      letter(note),
      { role: 'letter', face: 'sansBold', size, of },
      headCentre(note),
      0,
      'middle',
    );
  });
}

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
  const marks = kind.letters ? letterMarks : options.letterBoxes && kind.boxes ? boxMarks : undefined;
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
