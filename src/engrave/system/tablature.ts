/** The tablature: a line a string, broken behind each figure; or empty lines to fill in. */

import { pitchName } from '../../score/pitch.ts';
import { bounds, type Mark, move } from '../drawing/mark.ts';
import { face } from '../font/face.ts';
import { figureBaseline, figureMark } from '../measure/digits.ts';
import { richText, rightEdge } from '../measure/rich-text.ts';
import { STYLE } from '../style.ts';
import { brokenLine } from './broken-line.ts';
import { isTiedFromAfar, type PlacedSystem } from './placed.ts';
import { type Sketch, SYSTEM } from './sketch.ts';
import { tabJoins } from './tab-joins.ts';

export const tabHeight = (strings: number): number => (strings - 1) * STYLE.tabSpace;

/** T A B, upright, shared out over the height of the lines. */
function tabClef(strings: number, x: number): Mark[] {
  const height = tabHeight(strings);
  const size = Math.min(2.7, Math.max(1.9, height / 2.35));
  const cap = (face('serifBold').capHeight / 1000) * size;
  const pitch = Math.min(cap * 1.22, (height - cap) / 2 + 0.25);
  return ['T', 'A', 'B'].map((letter, i) => ({
    kind: 'text',
    role: 'clef',
    text: letter,
    face: 'serifBold',
    x,
    y: height / 2 + (i - 1) * pitch + cap / 2,
    size,
    anchor: 'middle',
  }));
}

/** The open strings' names on their lines, once, at the start. */
function stringNames({ notation: { arrangement } }: PlacedSystem, x: number): Mark[] {
  const size = 1.5;
  return arrangement.instrument.strings.flatMap((pitch, i) => {
    const name = pitchName(pitch, false);
    const { width } = richText(name, { role: 'number', face: 'serifItalic', size });
    return richText(
      name,
      { role: 'number', face: 'serifItalic', size },
      x - width / 2,
      figureBaseline(i * STYLE.tabSpace, size),
    ).marks;
  });
}

interface Tablature {
  /** y = 0 is the top line. */
  readonly byMeasure: ReadonlyMap<number, readonly Mark[]>;
  readonly own: readonly Mark[];
}

/** The marks of the tablature under a system. */
export function tablature(system: PlacedSystem): Tablature {
  const { notation, kind, width, isFirst } = system;
  const strings = notation.arrangement.instrument.strings.length;
  const clef = tabClef(strings, 1.5);
  const names = isFirst ? stringNames(system, Math.max(3.6, rightEdge(clef) + 1)) : [];
  const isWritten = kind.tablature === 'figures';
  const byMeasure = isWritten ? figures(system) : new Map<number, Mark[]>();
  const digits = [...byMeasure.values()].flat().filter(mark => mark.role === 'digit');
  const occupied = [...clef, ...names, ...digits].map(bounds);
  const thickness = STYLE.staffLine * 0.8;
  const lines = Array.from({ length: strings }, (_, i) =>
    brokenLine({ role: 'tab-line', y: i * STYLE.tabSpace, thickness }, width, occupied),
  );
  // On empty lines a slur would give away the strings that are asked for.
  const joins = isWritten ? tabJoins(system, digits) : [];
  return { byMeasure, own: [...clef, ...names, ...lines.flat(), ...joins] };
}

/** Figures by measure. A note that is tied over from the system before, or into a second ending, shows its figure again, in brackets. */
function figures(system: PlacedSystem): Map<number, Mark[]> {
  const { columns, notation } = system;
  const byMeasure = new Map<number, Mark[]>();
  for (const { column, x } of columns) {
    const heads = column.note?.event.heads ?? [];
    const again = heads
      .filter(head => isTiedFromAfar(system, head))
      .flatMap(({ id }) => {
        const place = notation.arrangement.placements.get(id);
        return place ? [figureMark(place, column.centre, STYLE.digitSize * 0.8, id, `(${place.fret})`)] : [];
      });
    const marks = move([...column.digits, ...again], x, 0);
    byMeasure.set(column.measure, [...(byMeasure.get(column.measure) ?? []), ...marks]);
  }
  return byMeasure;
}

/** Room above the top line for a figure on it. */
const FIGURE_RISE = 0.7;

/** The least y of the top line at which nothing in the tablature meets what is above. */
export function tablatureTop({ own }: Tablature, sketch: Sketch, words: number, clearance: number): number {
  const lowest = Math.max(words, sketch.below(-Infinity, Infinity, 4));
  const curves = own.filter(mark => mark.role === 'tab-curve').map(bounds);
  const under = curves.map(box => sketch.below(box.left, box.right, 4) + 0.35 - box.top);
  return Math.max(lowest + clearance + FIGURE_RISE, ...under);
}

/** Draws a tablature with its top line at y. */
export function drawTablature({ own, byMeasure }: Tablature, sketch: Sketch, y: number): void {
  sketch.add(SYSTEM, move(own, 0, y));
  for (const [measure, marks] of byMeasure) sketch.add(measure, move(marks, 0, y));
}
