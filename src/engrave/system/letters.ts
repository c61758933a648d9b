/** Note letters, or boxes to write them in, in a row of their own under the staff. */
import { accidentalSign } from '../../score/pitch.ts';
import type { Mark } from '../drawing/mark.ts';
import { anchoredText } from '../measure/rich-text.ts';
import { headCentre, type PlacedNote, type PlacedSystem } from './placed.ts';
import type { Sketch } from './sketch.ts';

const SIZE = 1.75;
const BASELINE = 6.3;
const RISE = 1.75;
const BOX = { half: 0.85, height: 2 };

/** Notes that are named: struck, and of full size. */
const named = ({ notes }: PlacedSystem): PlacedNote[] =>
  notes.filter(({ shape }) => shape.size === 1 && shape.event.heads.some(head => head.tieFrom === undefined));

function letterMarks(note: PlacedNote, y: number): Mark[] {
  const { pitch, id } = note.shape.event.heads.at(-1)!;
  const text = `${pitch.step}${accidentalSign(pitch.alter)}`;
  return anchoredText(
    text,
    { role: 'letter', face: 'sansBold', size: SIZE, of: id },
    headCentre(note),
    y,
    'middle',
  );
}

function boxMarks(note: PlacedNote, y: number): Mark[] {
  const x = headCentre(note);
  const [left, right, top, bottom] = [x - BOX.half, x + BOX.half, y - BOX.height + 0.4, y + 0.4];
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
  const lowest = notes.map(note => sketch.below(headCentre(note) - 0.9, headCentre(note) + 0.9, 4));
  const y = Math.max(BASELINE, ...lowest.map(bottom => bottom + RISE));
  for (const note of notes) sketch.add(note.measure, marks(note, y));
}
