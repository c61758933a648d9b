/** The neck map on a page. */

import { stringNames } from '../../instrument/places.ts';
import { type NeckMap, windowsName } from '../../lesson/neck/map.ts';
import { creditLines } from '../../score/credits.ts';
import type { Heading } from '../../score/model.ts';
import { diagramPages, roomBetween, type Words } from '../chart/head.ts';
import type { DiagramOptions } from '../chart/sheet.ts';
import { move } from '../drawing/mark.ts';
import { anchoredText } from '../measure/rich-text.ts';
import { pageFrame } from '../options.ts';
import { movedLines } from '../page/heading.ts';
import type { Page } from '../page.ts';
import { AROUND, drawingSize, layOutNeck, type NeckLayout } from './layout.ts';
import { keyMarks, neckMarks, type PlaceLabel } from './neck.ts';

export interface NeckOptions extends DiagramOptions {
  readonly show?: PlaceLabel;
  readonly upright?: boolean;
}

/** Between the map and the line that explains it, mm. */
const BELOW_MAP = 9;
const KEY_HEIGHT = 8;

/** Engraves a neck map under the heading of what it is of: one page. */
export function engraveNeck(map: NeckMap, of: Heading, options: NeckOptions): readonly Page[] {
  const frame = pageFrame({ ...options, sheet: 'tab' });
  const upright = options.upright ?? false;
  const label = options.show ?? 'letters';
  const words = (layout?: NeckLayout): Words => ({
    title: options.title ?? of.title ?? '',
    subtitle: options.subtitle,
    left: neckLines(map, layout),
    right: creditLines(of),
    foot: of.rights,
    footer: options.footer,
    author: of.composer,
  });
  const room = roomBetween(words(), frame, 0);
  const width = frame.width - 2 * frame.margin;
  const length = upright ? room.bottom - room.top - BELOW_MAP - KEY_HEIGHT : width;
  const layout = layOutNeck(map, length, { upright, leftHanded: options.leftHanded ?? false });
  const size = drawingSize(layout);
  const left = frame.margin + (width - size.width) / 2;
  const origin = originIn(layout);
  const marks = [
    ...move([...neckMarks(layout, label), ...endNames(layout)], left + origin.x, room.top + origin.y),
    ...move(keyMarks(map, label), frame.margin, room.top + size.height + BELOW_MAP),
  ];
  return diagramPages(words(layout), frame, [[{ id: 'neck-1', className: 'diagram', marks }]]);
}

/** From the drawing's upper left corner to where the board's points are counted from. */
const originIn = ({ upright, leftHanded }: NeckLayout): { readonly x: number; readonly y: number } => {
  if (upright) return { x: AROUND.beside, y: AROUND.before };
  return { x: leftHanded ? AROUND.beyond : AROUND.before, y: AROUND.beside };
};

/** Instrument, windows, and the scale of the drawing. */
const neckLines = (map: NeckMap, layout: NeckLayout | undefined): readonly string[] => {
  const { instrument } = map;
  const frets = windowsName(map);
  const factor = layout ? layout.factor : 1;
  return [
    `${instrument.name} · ${stringNames(instrument, false)}`,
    ...(frets === '' ? [] : [`F${frets.slice(1)}`]),
    ...(instrument.capo > 0 ? [`Capo ${instrument.capo}`] : []),
    ...movedLines(map),
    factor === 1 ? 'Frets true to size' : `Frets to scale, 1 : ${(1 / factor).toFixed(2)}`,
  ];
};

const NAMES = 3;

/** Which end of the neck is which. */
function endNames(layout: NeckLayout) {
  const style = { role: 'words', face: 'serifItalic', size: NAMES } as const;
  const { along, across } = endPoints(layout);
  const start = layout.map.instrument.capo > 0 ? 'capo' : 'nut';
  if (layout.upright) {
    return [
      ...anchoredText(start, style, across, -0.2, 'end'),
      ...anchoredText('body', style, across, along + NAMES, 'end'),
    ];
  }
  const [nut, body] = layout.leftHanded ? [along + 0.8, -3.5] : [-0.8, along + 3.5];
  const inwards = layout.leftHanded ? 'start' : 'end';
  return [
    ...anchoredText(start, style, nut, across, 'middle'),
    ...anchoredText('body', style, body, across, inwards),
  ];
}

/** Along the last fret; across the side where the names stand. */
const endPoints = (layout: NeckLayout): { readonly along: number; readonly across: number } => {
  const size = drawingSize(layout);
  const board = layout.upright ? size.height : size.width;
  const along = board - AROUND.before - AROUND.beyond;
  return { along, across: -layout.gap / 2 - 1.6 };
};
