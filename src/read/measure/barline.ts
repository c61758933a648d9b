/** `<barline>`: styles, repeats, endings, and the signs that hang on bar lines. */
import {
  BarlineLocation,
  BarStyleType,
  DirectionTypeBg,
  type Barline as XmlBarline,
} from 'musicxml-interfaces';
import type { Barline, Ending } from '../../score/model/barline.ts';
import { sourceOf, type Walk } from '../draft.ts';
import { attribute, child, type XmlElement } from '../xml/element.ts';
import { readSigns } from './sign.ts';

const STYLES: Readonly<Record<BarStyleType, Barline['style']>> = {
  [BarStyleType.Regular]: 'regular',
  [BarStyleType.Dotted]: 'dotted',
  [BarStyleType.Dashed]: 'dashed',
  [BarStyleType.Heavy]: 'heavy',
  [BarStyleType.LightLight]: 'double',
  [BarStyleType.LightHeavy]: 'final',
  [BarStyleType.HeavyLight]: 'reverse-final',
  [BarStyleType.HeavyHeavy]: 'heavy',
  [BarStyleType.Tick]: 'regular',
  [BarStyleType.Short]: 'regular',
  [BarStyleType.None]: 'none',
};

const REDUCED: readonly BarStyleType[] = [BarStyleType.Tick, BarStyleType.Short];

/** Takes a bar line, with its repeat and ending, into the measure. */
export const readBarline = (walk: Walk, node: XmlElement, data: XmlBarline): void => {
  const names = node.children.map(each => each.nodeName);
  readSigns(walk, { at: walk.now, source: sourceOf(walk, node) }, names);
  countLeftOut(walk, node, data);
  if (data.location === BarlineLocation.Middle) return;
  const side = sideOf(walk, data);
  const before = walk.measure[side];
  const isAcross = repeatSide(data) !== undefined && repeatSide(data) !== side;
  const style = data.barStyle?.data === undefined ? before.style : (STYLES[data.barStyle.data] ?? 'regular');
  walk.measure[side] = {
    ...before,
    style: isAcross ? before.style : style,
    ending: endingOf(walk, node, side) ?? before.ending,
  };
  repeatAt(walk, data, side);
};

const countLeftOut = (walk: Walk, node: XmlElement, data: XmlBarline): void => {
  const isMiddle = data.location === BarlineLocation.Middle;
  const repeat = child(node, 'repeat');
  if (isMiddle) {
    const what =
      repeat === undefined ? 'bar lines within a measure' : 'repeats that begin or end within a measure';
    walk.omissions.add(what, sourceOf(walk, node));
  } else if (data.fermatas !== undefined) walk.omissions.add('fermatas on bar lines', sourceOf(walk, node));
  if (data.barStyle !== undefined && REDUCED.includes(data.barStyle.data)) {
    walk.omissions.add('ticks and short bar lines, for which plain ones stand', sourceOf(walk, node));
  }
  if (repeat && repeatSide(data) === undefined) {
    walk.omissions.add('repeats that neither begin nor end', sourceOf(walk, node));
  }
  if (repeat && attribute(repeat, 'after-jump') === 'yes') {
    walk.omissions.add('repeats that are made again after a jump', sourceOf(walk, node));
  }
};

/** The side of a measure at which a repeat of that direction stands. */
const repeatSide = ({ repeat }: XmlBarline): 'left' | 'right' | undefined => {
  if (repeat?.direction === DirectionTypeBg.Forward) return 'left';
  return repeat?.direction === DirectionTypeBg.Backward ? 'right' : undefined;
};

/** Takes a repeat into force; one on the other side of the same bar line belongs to the neighbouring measure. */
const repeatAt = (walk: Walk, data: XmlBarline, side: 'left' | 'right'): void => {
  const ends = repeatSide(data) === 'right';
  if (repeatSide(data) === 'left') startRepeat(walk, side === 'left' ? 'here' : 'next');
  const measure = side === 'right' ? walk.measure : walk.measures.at(-2);
  if (!ends || measure === undefined) return;
  measure.right = { ...measure.right, repeat: true, times: timesOf(data) ?? measure.right.times };
};

/** Starts a repeat with this measure, or with the next one. */
export const startRepeat = (walk: Walk, where: 'here' | 'next'): void => {
  if (where === 'here') walk.measure.left = { ...walk.measure.left, repeat: true };
  else walk.repeatsNext = true;
};

/** The location's default is the right; but a bar line before all notes that opens something is a left one. */
const sideOf = (walk: Walk, data: XmlBarline): 'left' | 'right' => {
  if (data.location === BarlineLocation.Left) return 'left';
  if (data.location === BarlineLocation.Right) return 'right';
  return repeatSide(data) === 'left' && walk.measure.placed.length === 0 ? 'left' : 'right';
};

/** More than this is a slip, and would make a performance of any length. */
const MOST_TIMES = 99;

const timesOf = (data: XmlBarline): number | undefined => {
  const times = Number(data.repeat?.times);
  return Number.isInteger(times) && times > 1 && times <= MOST_TIMES ? times : undefined;
};

/** Read from the tree: the library makes one number of a list, and loses spaces. */
const endingOf = (walk: Walk, barline: XmlElement, side: 'left' | 'right'): Ending | undefined => {
  const node = child(barline, 'ending');
  if (node === undefined) return undefined;
  const type = attribute(node, 'type');
  if ((type === 'start') !== (side === 'left')) {
    walk.omissions.add('endings that start or stop at the wrong bar line', sourceOf(walk, node));
    return undefined;
  }
  const list = attribute(node, 'number') ?? '';
  const text = node.textContent.trim() || list;
  const numbers = endingNumbers(list);
  return {
    numbers: numbers.length > 0 ? numbers : endingNumbers(text),
    text,
    close: type === 'discontinue' ? 'open' : 'closed',
  };
};

/** "1, 2", and "1-3" or "1.-3." (which some files have) → numbers; anything else has none. */
const endingNumbers = (list: string): readonly number[] => {
  if (!/^[\d\s.,\u2013-]*$/.test(list)) return [];
  const numbers = new Set<number>();
  for (const [, from, to] of list.matchAll(/\b(\d{1,2})\b(?:\.?\s*[-\u2013]\s*(\d{1,2})\b)?/g)) {
    for (let n = Number(from); n <= Number(to ?? from); n += 1) numbers.add(n);
  }
  return [...numbers];
};
