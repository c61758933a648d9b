/** The head of the first page, the running head of the others, and the foot. In millimetres. */

import type { Arrangement } from '../../fingering/arrangement.ts';
import { stringNames } from '../../instrument/places.ts';
import { creditLines } from '../../score/credits.ts';
import { stretchName } from '../../score/moments.ts';
import { movedName } from '../../score/names.ts';
import type { Tune } from '../../score/tune.ts';
import { figureLegend } from '../content/figure-signs.ts';
import { bounds, type Mark } from '../drawing/mark.ts';
import type { TextMark } from '../drawing/text.ts';
import type { FaceName } from '../font/face.ts';
import { anchoredText, richText, type TextStyle } from '../measure/rich-text.ts';
import { type PageFrame, SHEETS, type SheetOptions } from '../options.ts';

const TITLE = 7.4;
const SUBTITLE = 4.6;
const LINE = 3.7;
const LEADING = 1.32;
const SMALL = 2.9;
/** Between the last system and the footer. */
const ABOVE_FOOTER = 4.5;

export interface Heading {
  readonly marks: readonly Mark[];
  /** Lower edge from the top of the paper. */
  readonly bottom: number;
}

export const titleOf = (tune: Tune, { title }: SheetOptions): string => title ?? tune.title ?? '';

function capoLine({ instrument: { capo } }: Arrangement): string[] {
  return capo > 0 ? [`Capo ${capo}`] : [];
}

function windowLines({ windows }: Arrangement): string[] {
  return windows.map(({ measures, window: { low, high } }) => {
    const frets = low === high ? `ret ${low}` : `rets ${low}–${high}`;
    if (!measures) return `F${frets}`;
    const { from, to } = measures;
    const where = stretchName(String(from), String(to));
    return `${where[0]!.toUpperCase()}${where.slice(1)}: f${frets}`;
  });
}

/** How far a tune was moved from the key of its file; nothing where it was not. */
export const movedLines = ({ transposition = 0 }: Pick<Tune, 'transposition'>): readonly string[] =>
  transposition === 0 ? [] : [`Moved ${movedName(transposition)}`];

/** What the sheet is for: instrument, stringing, window, key; and what the signs beside its figures mean. */
export function editionLines(tune: Tune, arrangement: Arrangement, figures: boolean): string[] {
  const { instrument } = arrangement;
  return [
    `${instrument.name} · ${stringNames(instrument, false)}`,
    ...windowLines(arrangement),
    ...capoLine(arrangement),
    ...movedLines(tune),
    ...(figures ? figureLegend(arrangement) : []),
  ];
}

/** A line of text, set smaller where it is wider than its room. */
export function fittedLine(
  text: string,
  style: TextStyle,
  room: number,
  x: number,
  y: number,
  anchor: TextMark['anchor'],
): Mark[] {
  const { width } = richText(text, style);
  const size = width > room ? (style.size * room) / width : style.size;
  return anchoredText(text, { ...style, size }, x, y, anchor);
}

/** A line in the middle of the page. */
const centredLine = (text: string, face: FaceName, size: number, { width, margin }: PageFrame, y: number) =>
  fittedLine(text, { role: 'heading', face, size }, width - 2 * margin, width / 2, y, 'middle');

const widest = (lines: readonly string[]) =>
  Math.max(0, ...lines.map(line => richText(line, { role: 'heading', face: 'serif', size: LINE }).width));

/** The words at the head of a first page. */
export interface HeadWords {
  readonly title: string;
  readonly subtitle?: string | undefined;
  /** Under the title at the left: instrument, frets. */
  readonly left: readonly string[];
  /** At the right: who made it. */
  readonly right: readonly string[];
}

/** The head of a first page, alike on all that is handed out together. */
export function firstHead({ title, subtitle, left, right }: HeadWords, frame: PageFrame): Heading {
  const { width, margin } = frame;
  const marks: Mark[] = [];
  let y = margin;
  if (title !== '') {
    y += TITLE * 0.7;
    marks.push(...centredLine(title, 'serifBold', TITLE, frame, y));
    y += 2;
  }
  if (subtitle) {
    y += SUBTITLE * 0.9;
    marks.push(...centredLine(subtitle, 'serifItalic', SUBTITLE, frame, y));
    y += 1.5;
  }
  const room = width - 2 * margin;
  const collide = widest(left) + widest(right) + 6 > room;
  const style = { role: 'heading', face: 'serif', size: LINE } as const;
  y += 1.5;
  const from = collide ? right.length : 0;
  right.forEach((line, i) => {
    marks.push(...fittedLine(line, style, room, width - margin, y + LINE * (i + 1) * LEADING, 'end'));
  });
  left.forEach((line, i) => {
    marks.push(...fittedLine(line, style, room, margin, y + LINE * (from + i + 1) * LEADING, 'start'));
  });
  const bottom = Math.max(y, ...marks.map(mark => bounds(mark).bottom));
  return { marks, bottom };
}

/** The head of a sheet. */
export function heading(
  tune: Tune,
  arrangement: Arrangement,
  options: SheetOptions,
  frame: PageFrame,
): Heading {
  const words = {
    title: titleOf(tune, options),
    subtitle: options.subtitle,
    left: editionLines(tune, arrangement, SHEETS[options.sheet].tablature === 'figures'),
    right: creditLines(tune),
  };
  return firstHead(words, frame);
}

/** From page 2: the title and the page number. */
export function runningHead(title: string, page: number, { width, margin }: PageFrame): Heading {
  const y = margin + LINE * 0.7;
  const style = { role: 'heading', face: 'serifItalic', size: LINE } as const;
  const number = anchoredText(String(page), { ...style, face: 'serif' }, width - margin, y, 'end');
  const room = Math.min(...number.map(mark => bounds(mark).left)) - LINE - margin;
  return {
    marks: [...fittedLine(title, style, room, margin, y, 'start'), ...number],
    bottom: y + 1,
  };
}

/** Rights on the first page and the footer on each, at the bottom margin; `top` is where it starts. */
export function footer(
  lines: readonly string[],
  { width, height, margin }: PageFrame,
): { marks: Mark[]; top: number } {
  const style = { role: 'heading', face: 'serif', size: SMALL } as const;
  const room = width - 2 * margin;
  const marks = lines.flatMap((line, i) => {
    const y = height - margin - SMALL * 0.25 - (lines.length - 1 - i) * SMALL * LEADING;
    return fittedLine(line, style, room, width / 2, y, 'middle');
  });
  return {
    marks,
    top: height - margin - (lines.length > 0 ? lines.length * SMALL * LEADING + ABOVE_FOOTER : 0),
  };
}
