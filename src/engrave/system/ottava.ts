/** Ottava lines: the sign, and a dashed line to the last note that it stands over. */
import { richText } from '../measure/rich-text.ts';
import { headLeft, headRight, type PlacedNote, type PlacedSystem } from './placed.ts';
import type { Sketch } from './sketch.ts';

/** Signs by octaves, and what is added for a line above or below. */
const SIGNS = ['8v', '15m', '22m'] as const;

/** The sign alone stands over a single note. */
const SHORTEST_LINE = 1;

/** Runs of notes under one line within the system. */
function runs({ notes, notation }: PlacedSystem): { octaves: number; notes: PlacedNote[] }[] {
  const found: { octaves: number; notes: PlacedNote[] }[] = [];
  let open: { octaves: number; notes: PlacedNote[] } | undefined;
  for (const note of notes) {
    const octaves = notation.ottava.get(note.shape.event.id);
    if (octaves === undefined) open = undefined;
    else if (open?.octaves === octaves) open.notes.push(note);
    else {
      open = { octaves, notes: [note] };
      found.push(open);
    }
  }
  return found;
}

/** Whether the first note after the system stands under the same line. */
function goesOn({ notation: { tune, ottava }, line }: PlacedSystem, octaves: number): boolean {
  const later = tune.measures.slice(line.last + 1).flatMap(({ events }) => events);
  const next = later.find(event => event.kind === 'note');
  return next !== undefined && ottava.get(next.id) === octaves;
}

export function drawOttavas(system: PlacedSystem, sketch: Sketch): void {
  for (const { octaves, notes } of runs(system)) {
    const left = headLeft(notes[0]!) - 0.3;
    const isOpen = notes.at(-1) === system.notes.at(-1) && goesOn(system, octaves);
    const right = isOpen ? system.width : Math.max(headRight(notes.at(-1)!) + 0.3, left + 3);
    const above = octaves > 0;
    const y = above
      ? Math.min(-1.4, sketch.above(left, right, 0) - 0.7)
      : Math.max(6.4, sketch.below(left, right, 4) + 2);
    const end = above ? y + 0.9 : y - 0.9;
    const label = `${SIGNS[Math.abs(octaves) - 1]!}${above ? 'a' : 'b'}`;
    const words = richText(label, { role: 'words', face: 'serifItalic', size: 1.9 }, left, y);
    const from = left + words.width + 0.3;
    const level = y - 0.6;
    const line = { kind: 'line', role: 'words', thickness: 0.13 } as const;
    const covers = right < from + SHORTEST_LINE;
    sketch.add(notes[0]!.measure, [
      ...words.marks,
      ...(covers
        ? []
        : [
            { ...line, x1: from, y1: level, x2: right, y2: level, dash: [0.7, 0.5] as const },
            ...(isOpen ? [] : [{ ...line, x1: right, y1: level, x2: right, y2: end }]),
          ]),
    ]);
  }
}
