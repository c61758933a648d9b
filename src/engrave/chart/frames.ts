/** Rows of chord frames, as many in a row as the width takes; the shapes of one chord stay together. */
import type { ChordEntry, ChordSheet } from '../../lesson/chords/sheet.ts';
import { type Mark, move } from '../drawing/mark.ts';
import {
  FRAME_ROOM,
  type FrameStyle,
  frameHeight,
  frameMarks,
  frameStyle,
  frameWidth,
  nameOver,
  noFrame,
} from './frame.ts';

export interface FrameRow {
  readonly marks: readonly Mark[];
  /** mm. */
  readonly height: number;
}

/** Between neighbouring frames of one chord, for the number of a fret; between chords; between rows. mm. */
const BETWEEN = 11;
const BETWEEN_CHORDS = 13;
/** Chords stand no farther apart than this, however few there are. */
const FARTHEST = 45;
const LEADING = 5;
/** At the left of the first frame, for the number of a fret. */
const INDENT = 6.5;
/** At the right of the last frame, for a name that is wider than its frame. */
const EDGE = 4.4;

/** Rows of frames from x = 0, y = 0 downwards, each as wide as `width`. */
export function frameRows(
  { hand, entries }: ChordSheet,
  width: number,
  { scale, leftHanded }: { readonly scale: number; readonly leftHanded: boolean },
): readonly FrameRow[] {
  const shapes = entries.flatMap(entry => entry.shapes);
  const style = frameStyle(hand.instrument.strings.length, shapes, scale, leftHanded);
  const group = Math.max(1, ...entries.map(entry => entry.shapes.length));
  const step = frameWidth(style) + BETWEEN * scale;
  const alone = frameWidth(style) + (group - 1) * step;
  const room = width - INDENT - EDGE;
  const fitting = Math.floor((room + BETWEEN_CHORDS * scale) / (alone + BETWEEN_CHORDS * scale));
  const grid: Grid = { step, group, perRow: Math.max(1, fitting), width: room, alone };
  const height = FRAME_ROOM.name * scale + FRAME_ROOM.above + frameHeight(style) + FRAME_ROOM.below + LEADING;
  return intoRows(entries, grid).map(row => ({
    height,
    marks: row.flatMap(drawn => cellMarks(drawn, style, scale, INDENT + cellX(drawn, grid))),
  }));
}

/** Where frames stand in a row; lengths in mm. */
interface Grid {
  /** From frame to frame of one chord. */
  readonly step: number;
  /** Frames that a chord has, at most. */
  readonly group: number;
  /** Chords in a row. */
  readonly perRow: number;
  readonly width: number;
  /** Width of the frames of one chord. */
  readonly alone: number;
}

interface Drawn {
  readonly entry: ChordEntry;
  readonly shape: ChordEntry['shapes'][number] | undefined;
  /** Which chord of the row, and which frame of the chord. */
  readonly chord: number;
  readonly frame: number;
}

/** Chords in rows; one with more frames than a row holds goes on in the next. */
function intoRows(
  entries: readonly ChordEntry[],
  { perRow, group, step, width, alone }: Grid,
): readonly (readonly Drawn[])[] {
  if (alone <= width) {
    return Array.from({ length: Math.ceil(entries.length / perRow) }, (_, row) =>
      entries
        .slice(row * perRow, (row + 1) * perRow)
        .flatMap((entry, chord) => framesOf(entry).map((shape, frame) => ({ entry, shape, chord, frame }))),
    );
  }
  const most = Math.max(1, Math.min(group, Math.floor((width + BETWEEN) / step)));
  return entries.flatMap(entry => {
    const frames = framesOf(entry).map((shape, frame) => ({ entry, shape, chord: 0, frame: frame % most }));
    return Array.from({ length: Math.ceil(frames.length / most) }, (_, row) =>
      frames.slice(row * most, (row + 1) * most),
    );
  });
}

/** A chord that cannot be played has one frame, without a shape. */
const framesOf = ({ shapes }: ChordEntry): readonly (ChordEntry['shapes'][number] | undefined)[] =>
  shapes.length > 0 ? shapes : [undefined];

/** Chords are spread over the width, frames of one chord are not. */
const cellX = ({ chord, frame }: Drawn, { perRow, step, width, alone }: Grid): number => {
  const even = perRow > 1 ? (width - alone) / (perRow - 1) : 0;
  return chord * Math.min(even, alone + FARTHEST) + frame * step;
};

function cellMarks({ entry, shape }: Drawn, style: FrameStyle, scale: number, x: number): Mark[] {
  const name = nameOver(entry.chord.symbol, style, 6.4 * scale, frameWidth(style) + BETWEEN * scale * 0.8);
  const frame = shape ? frameMarks(shape, style) : noFrame(style);
  return move([...name, ...frame], x, FRAME_ROOM.name * scale + FRAME_ROOM.above);
}
