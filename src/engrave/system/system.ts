/** Draws one system: the notes, then what stands above and below them, each clear of what is there. */
import { bounds, type Mark, move } from '../drawing/mark.ts';
import { strokeMarks } from '../measure/bars.ts';
import { richText } from '../measure/rich-text.ts';
import type { SheetKind, SheetOptions } from '../options.ts';
import { STYLE } from '../style.ts';
import { drawArticulations, drawFermatas } from './articulations.ts';
import { beamMarks, type PlacedBeam, placeBeam } from './beams.ts';
import { drawBelow } from './below.ts';
import type { Line } from './break.ts';
import { brokenLine } from './broken-line.ts';
import { drawChords } from './chord-row.ts';
import { directionsOf, drawDirections } from './directions.ts';
import { drawEndings } from './endings.ts';
import { drawFingers } from './fingers.ts';
import { drawLetters } from './letters.ts';
import { drawLyrics } from './lyrics.ts';
import { drawMultiRests } from './multi-rest.ts';
import { drawOttavas } from './ottava.ts';
import { type PlacedSystem, placeSystem } from './placed.ts';
import { drawPositions } from './positions.ts';
import type { Measured } from './possible.ts';
import { Sketch, SYSTEM } from './sketch.ts';
import { drawSlurs } from './slurs.ts';
import { drawTablature, tabHeight, tablature, tablatureTop } from './tablature.ts';
import { drawTies } from './ties.ts';
import { drawTuplets } from './tuplets.ts';

export interface DrawnSystem {
  readonly line: Line;
  /** By measure index; −1 for the system's own. In staff spaces; y = 0 is the staff's top line. */
  readonly marks: ReadonlyMap<number, readonly Mark[]>;
  /** Ink above and below, from y = 0. */
  readonly top: number;
  readonly bottom: number;
}

/** Least distance from the staff's bottom line to the tablature's top line, and from ink to it. */
const TAB_DISTANCE = 4.2;
const TAB_CLEARANCE = 0.85;

function drawStaff(system: PlacedSystem, sketch: Sketch): void {
  const { width, bars, notes } = system;
  // Fingers beside the heads of chords stand in the staff.
  const fingers = notes.flatMap(({ shape, x }) =>
    move(
      shape.marks.filter(mark => mark.role === 'finger'),
      x,
      0,
    ).map(bounds),
  );
  const thickness = STYLE.staffLine;
  const lines = [0, 1, 2, 3, 4].flatMap(y => brokenLine({ role: 'staff', y, thickness }, width, fingers));
  sketch.add(SYSTEM, lines);
  for (const { node, x } of bars) {
    const measure = node.edge === 'start' ? SYSTEM : node.measure;
    sketch.add(measure, [...move(node.bar.marks, x, 0), ...strokeMarks(node.bar.strokes, x, 0, 4)]);
  }
}

function drawNotes(system: PlacedSystem, sketch: Sketch): void {
  for (const { shape, measure, x } of system.notes) sketch.add(measure, move(shape.marks, x, 0));
  for (const { column, x } of system.columns) sketch.add(column.measure, move(column.change, x, 0));
  for (const { column, restX } of system.columns)
    if (column.rest && !system.notation.rests.has(column.measure))
      sketch.add(column.measure, move(column.rest.marks, restX, 0));
}

function drawBeams(system: PlacedSystem, sketch: Sketch): PlacedBeam[] {
  const groups = new Set(
    system.notes.flatMap(({ shape }) => system.notation.beams.get(shape.event.id) ?? []),
  );
  const beams = [...groups].flatMap(group => placeBeam(system, group) ?? []);
  for (const beam of beams) sketch.add(beam.notes[0]!.measure, beamMarks(beam));
  return beams;
}

/** The number of the system's first measure, above the clef; at the start of a tune only where that is not 1. */
function drawNumber({ notation, line }: PlacedSystem, sketch: Sketch): void {
  const { number, implicit } = notation.tune.measures[line.first]!;
  if (implicit || (line.first === 0 && !(Number(number) > 1))) return;
  const { marks, width } = richText(number, { role: 'number', face: 'serifItalic', size: STYLE.smallSize });
  sketch.add(line.first, move(marks, 0, sketch.above(0, width, -0.5) - 0.25));
}

/** The tablature or its empty lines, under all words, and what binds the two staves at the left. */
function drawSecondStaff(system: PlacedSystem, sketch: Sketch, words: number): void {
  if (system.kind.tablature === 'none') return;
  const { bars, notation } = system;
  const height = tabHeight(notation.arrangement.instrument.strings.length);
  const tab = tablature(system);
  const y = Math.max(4 + TAB_DISTANCE, tablatureTop(tab, sketch, words, TAB_CLEARANCE));
  const sung = notation.verses.length > 0;
  for (const { node, x } of bars) {
    const measure = node.edge === 'start' ? SYSTEM : node.measure;
    sketch.add(measure, strokeMarks(node.bar.strokes, x, y, y + height));
    // Words between the staves are not to be crossed by bar lines.
    const lines = node.bar.strokes.filter(each => each.kind !== 'dots');
    if (!sung && node.edge !== 'start') sketch.add(measure, strokeMarks(lines, x, 4, y));
  }
  const thickness = STYLE.thinBar;
  const half = STYLE.staffLine / 2;
  sketch.add(SYSTEM, [
    {
      kind: 'line',
      role: 'bar',
      x1: thickness / 2,
      y1: -half,
      x2: thickness / 2,
      y2: y + height + half,
      thickness,
    },
  ]);
  drawTablature(tab, sketch, y);
}

export function drawSystem(
  measured: Measured,
  line: Line,
  options: SheetOptions,
  kind: SheetKind,
): DrawnSystem {
  const system = placeSystem(measured, line, options, kind);
  const sketch = new Sketch();
  drawStaff(system, sketch);
  drawNotes(system, sketch);
  const beams = drawBeams(system, sketch);
  const byEvent = new Map(beams.flatMap(beam => beam.group.events.map(event => [event.id, beam] as const)));
  drawArticulations(system, sketch);
  drawTies(system, sketch);
  drawSlurs(system, byEvent, sketch);
  drawFingers(system, sketch);
  drawTuplets(system, beams, sketch);
  drawFermatas(system, sketch);
  drawMultiRests(system, sketch);
  drawOttavas(system, sketch);
  drawNumber(system, sketch);
  drawPositions(system, sketch);
  const directions = directionsOf(system);
  const chords = drawChords(system, directions, sketch);
  drawEndings(system, sketch);
  drawDirections(directions, sketch, chords);
  drawBelow(system, sketch);
  drawLetters(system, sketch);
  const words = drawLyrics(system, sketch);
  drawSecondStaff(system, sketch, words);
  const { top, bottom } = sketch.extent!;
  return { line, marks: sketch.marks, top, bottom };
}
