/** Pages of chord shapes: from what is on the sheet to drawn pages. */
import { stringNames } from '../../instrument/places.ts';
import type { ChordSheet } from '../../lesson/chords/sheet.ts';
import { move } from '../drawing/mark.ts';
import { pageFrame, type SheetOptions } from '../options.ts';
import type { Group, Page } from '../page.ts';
import { type FrameRow, frameRows } from './frames.ts';
import { diagramPages, roomBetween, type Words } from './head.ts';
import { type Block, onPages } from './pages.ts';

export interface DiagramOptions extends Omit<SheetOptions, 'sheet'> {
  readonly leftHanded?: boolean;
}

/** Between rows of frames beyond the room that each has around it, from least to most, mm. */
const BETWEEN_ROWS = [0, 7] as const;

/** Engraves chord shapes. */
export function engraveShapes(sheet: ChordSheet, options: DiagramOptions): readonly Page[] {
  const frame = pageFrame({ ...options, sheet: 'tab' });
  const words: Words = {
    title: options.title ?? 'Chords',
    subtitle: options.subtitle,
    left: sheetLines(sheet),
    right: [],
    foot: cautionLines(sheet),
    footer: options.footer,
    author: undefined,
  };
  const rows = frameRows(sheet, frame.width - 2 * frame.margin, {
    scale: 1,
    leftHanded: options.leftHanded ?? false,
  });
  const blocks = rows.map(
    (row, index): Block => ({
      height: row.height,
      after: BETWEEN_ROWS,
      draw: y => [rowGroup(row, index, frame.margin, y)],
    }),
  );
  const pages = onPages(blocks, page => roomBetween(words, frame, page));
  return diagramPages(words, frame, pages);
}

export const rowGroup = ({ marks }: FrameRow, index: number, x: number, y: number): Group => ({
  id: `frames-${index + 1}`,
  className: 'diagram',
  marks: move(marks, x, y),
});

/** Instrument, stringing, capo, and where on the neck. */
export const sheetLines = ({ hand: { instrument }, wishes }: ChordSheet): readonly string[] => {
  const { window, near } = wishes;
  return [
    `${instrument.name} · ${stringNames(instrument, false)}`,
    ...(window ? [`Frets ${window.low}–${window.high}`] : []),
    ...(near === undefined ? [] : [`Near fret ${near}`]),
    ...(instrument.capo > 0 ? [`Capo ${instrument.capo}`] : []),
  ];
};

/** The usual caution, where a shape reaches farther than is comfortable. */
export const cautionLines = ({ entries }: ChordSheet): readonly string[] =>
  entries.some(({ shapes }) => shapes.some(({ stretched }) => stretched))
    ? [
        'A reach in mm is wider than is comfortable to this hand: warm up, do not force it, and stop if it hurts;',
        'teacher and physician judge what a hand should do.',
      ]
    : [];
