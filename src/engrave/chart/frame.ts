/**
 * A chord frame: strings upright, the lowest at the left, frets across, in millimetres. Stopped places are
 * discs with the finger's number, a barre is a bar with its number once, an open string has a ring above
 * it and a silent one a cross. The fret of the first row is named beside it where that is not the first.
 *
 * The frame's origin is the upper end of string `n` (or of string 1 for a left-handed player).
 */
import { type ChordShape, LEAST_SHOWN, shownFrets } from '../../lesson/chords/shape.ts';
import { leftOutWords } from '../../lesson/chords/sheet.ts';
import type { ChordSymbol } from '../../score/model/chord-symbol.ts';
import { mmText } from '../../score/numbers.ts';
import { union } from '../drawing/box.ts';
import { bounds, type Mark, move, place } from '../drawing/mark.ts';
import { capsule, disc, ring } from '../drawing/round.ts';
import { face, textWidth } from '../font/face.ts';
import { chordMarks } from '../measure/chord-marks.ts';
import { anchoredText } from '../measure/rich-text.ts';

export interface FrameStyle {
  readonly strings: number;
  /** Between strings, mm. */
  readonly gap: number;
  /** Between frets, mm. */
  readonly row: number;
  readonly rows: number;
  readonly leftHanded: boolean;
}

const NUT = 1.3;
const LINE = 0.3;
const OUTLINE = 0.4;
const ABOVE = 2.9;
const CAPTION = 3.2;

/** Frames of one size for all shapes, as large as they can be with `scale` at most 1. */
export const frameStyle = (
  strings: number,
  shapes: readonly ChordShape[],
  scale: number,
  leftHanded: boolean,
): FrameStyle => {
  const gap = scale * Math.min(6, 23 / Math.max(1, strings - 1));
  const rows = Math.max(LEAST_SHOWN, ...shapes.map(shape => shownFrets(shape).count));
  return { strings, gap, row: Math.max(gap * 1.15, scale * 5.8), rows, leftHanded };
};

export const frameWidth = ({ strings, gap }: FrameStyle): number => (strings - 1) * gap;
export const frameHeight = ({ rows, row }: FrameStyle): number => rows * row;

/** Above the frame: rings and crosses, then the name. Below it: the caption. mm. */
export const FRAME_ROOM = { above: 5.2, name: 8.5, below: 5.5 } as const;

/** The frame of a shape, without its name. */
export function frameMarks(shape: ChordShape, style: FrameStyle): Mark[] {
  const { base } = shownFrets(shape);
  return [
    ...gridMarks(style, base),
    ...stringEnds(shape, style),
    ...stoppedMarks(shape, style, base),
    ...captionMarks(shape, style),
  ];
}

const stringX = (string: number, { strings, gap, leftHanded }: FrameStyle): number =>
  (leftHanded ? string - 1 : strings - string) * gap;

const radius = ({ gap, row }: FrameStyle): number => Math.min(gap, row) * 0.42;

function gridMarks(style: FrameStyle, base: number): Mark[] {
  const width = frameWidth(style);
  const height = frameHeight(style);
  const strings = Array.from({ length: style.strings }, (_, i): Mark => {
    const x = i * style.gap;
    return { kind: 'line', role: 'string', x1: x, y1: 0, x2: x, y2: height, thickness: LINE };
  });
  const frets = Array.from({ length: style.rows + 1 }, (_, i): Mark => {
    const y = i * style.row;
    const ends = { x1: -LINE / 2, x2: width + LINE / 2 };
    if (i === 0 && base === 1) {
      return { kind: 'line', role: 'fret', ...ends, y1: -NUT / 2, y2: -NUT / 2, thickness: NUT };
    }
    return { kind: 'line', role: 'fret', ...ends, y1: y, y2: y, thickness: LINE };
  });
  if (base === 1) return [...strings, ...frets];
  const size = Math.min(4.2, style.row * 0.62);
  const x = Math.min(-radius(style), 0) - 1.3;
  return [...strings, ...frets, figure(String(base), x, style.row / 2, size, 'end', undefined, 'number')];
}

/** A figure whose middle lies on y. */
function figure(
  text: string,
  x: number,
  y: number,
  size: number,
  anchor: 'middle' | 'end',
  ink: 'paper' | undefined,
  role: 'finger' | 'number',
): Mark {
  const baseline = y + (face('sansBold').figureHeight / 2000) * size;
  const mark = { kind: 'text', role, text, face: 'sansBold', x, y: baseline, size, anchor } as const;
  return ink ? { ...mark, ink } : mark;
}

/** Rings over open strings and crosses over silent ones. */
function stringEnds({ frets }: ChordShape, style: FrameStyle): Mark[] {
  const r = Math.min(1.35, style.gap * 0.27);
  const arm = r * 0.85;
  return frets.flatMap((fret, index): Mark[] => {
    const x = stringX(index + 1, style);
    const y = -ABOVE;
    if (fret === 0) return [ring('place', x, y, r, OUTLINE)];
    if (fret !== undefined) return [];
    const stroke = { kind: 'line', role: 'place', thickness: OUTLINE } as const;
    return [
      { ...stroke, x1: x - arm, y1: y - arm, x2: x + arm, y2: y + arm },
      { ...stroke, x1: x - arm, y1: y + arm, x2: x + arm, y2: y - arm },
    ];
  });
}

function stoppedMarks(shape: ChordShape, style: FrameStyle, base: number): Mark[] {
  const r = radius(style);
  const size = r * 1.75;
  const yOf = (fret: number) => (fret - base + 0.5) * style.row;
  const barred = new Set(shape.barres.map(({ finger }) => finger));
  const bars = shape.barres.flatMap(({ finger, fret, from, to }): Mark[] => {
    const [x1, x2] = [stringX(from, style), stringX(to, style)];
    const y = yOf(fret);
    return [
      capsule('place', x1, x2, y, r),
      figure(String(finger), (x1 + x2) / 2, y, size, 'middle', 'paper', 'finger'),
    ];
  });
  const dots = shape.touches
    .filter(({ finger }) => finger > 0 && !barred.has(finger))
    .flatMap(({ string, fret, finger }): Mark[] => {
      const x = stringX(string, style);
      const y = yOf(fret);
      return [disc('place', x, y, r), figure(String(finger), x, y, size, 'middle', 'paper', 'finger')];
    });
  return [...bars, ...dots];
}

/** What the frame does not show: tones left out, and how far a stretch goes. */
const captionOf = (shape: ChordShape): string =>
  [leftOutWords(shape), shape.stretched ? mmText(shape.reach) : ''].filter(text => text !== '').join(' · ');

function captionMarks(shape: ChordShape, style: FrameStyle): Mark[] {
  const text = captionOf(shape);
  if (text === '') return [];
  const y = frameHeight(style) + 1.9 + CAPTION * 0.7;
  return anchoredText(
    text,
    { role: 'words', face: 'serifItalic', size: CAPTION },
    frameWidth(style) / 2,
    y,
    'middle',
  );
}

/** A chord's name, its left edge at x = 0 and its baseline at y = 0, `size` mm its em, narrowed to a width. */
export function nameMarks(symbol: ChordSymbol, size: number, room = Infinity): Mark[] {
  const marks = chordMarks(symbol);
  const box = union(marks.map(bounds));
  if (!box) return [];
  const scale = Math.min(size / NAME_EM, room / (box.right - box.left));
  return marks.map(mark => place(mark, scale, -box.left * scale, 0));
}

/** Em of chord symbols in staff spaces, as `chordMarks` sets them. */
const NAME_EM = 2.15;

/** The name in the middle over a frame. */
export function nameOver(symbol: ChordSymbol, style: FrameStyle, size: number, room: number): Mark[] {
  const marks = nameMarks(symbol, size, room);
  const box = union(marks.map(bounds));
  return box ? move(marks, frameWidth(style) / 2 - (box.left + box.right) / 2, -FRAME_ROOM.above - 1.2) : [];
}

/** Words where a frame would be, for a chord that cannot be played. */
export function noFrame(style: FrameStyle): Mark[] {
  const size = Math.min(
    CAPTION,
    (CAPTION * frameWidth(style)) / textWidth('no shape', 'serifItalic', CAPTION),
  );
  return anchoredText(
    'no shape',
    { role: 'words', face: 'serifItalic', size },
    frameWidth(style) / 2,
    frameHeight(style) / 2,
    'middle',
  );
}
