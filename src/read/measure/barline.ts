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

/** Takes a bar line, with its repeat and ending, into the measure. */
export const readBarline = (walk: Walk, node: XmlElement, data: XmlBarline): void => {
  for (const sign of ['segno', 'coda'] as const) {
    if (data[sign] === undefined) continue;
    walk.measure.directions.push({ kind: 'sign', sign, at: walk.now, source: sourceOf(walk, node) });
  }
  if (data.location === BarlineLocation.Middle) {
    walk.omissions.add('bar lines within a measure', sourceOf(walk, node));
    return;
  }
  if (data.fermatas !== undefined) walk.omissions.add('fermatas on bar lines', sourceOf(walk, node));
  const side = sideOf(walk, data);
  const before = walk.measure[side];
  walk.measure[side] = {
    style: data.barStyle?.data === undefined ? before.style : (STYLES[data.barStyle.data] ?? 'regular'),
    repeat: before.repeat || isRepeat(side, data),
    times: timesOf(data) ?? before.times,
    ending: endingOf(walk, node, side) ?? before.ending,
  };
};

/** The location's default is the right; but a bar line before all notes that opens something is a left one. */
const sideOf = (walk: Walk, data: XmlBarline): 'left' | 'right' => {
  if (data.location === BarlineLocation.Left) return 'left';
  if (data.location === BarlineLocation.Right) return 'right';
  const opens = data.repeat?.direction === DirectionTypeBg.Forward;
  return opens && walk.measure.placed.length === 0 ? 'left' : 'right';
};

const isRepeat = (side: 'left' | 'right', data: XmlBarline): boolean =>
  data.repeat?.direction === (side === 'left' ? DirectionTypeBg.Forward : DirectionTypeBg.Backward);

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
  return {
    numbers: endingNumbers(list),
    text: node.textContent.trim() || list,
    close: type === 'discontinue' ? 'open' : 'closed',
  };
};

/** "1, 2" and "1-3" (which some files have) → numbers. */
const endingNumbers = (list: string): readonly number[] => {
  const numbers = new Set<number>();
  for (const range of list.split(/[\s,.]+/)) {
    const [, from, to] = /^(\d{1,2})(?:[-\u2013](\d{1,2}))?$/.exec(range) ?? [];
    if (from === undefined) continue;
    for (let n = Number(from); n <= Number(to ?? from); n += 1) numbers.add(n);
  }
  return [...numbers];
};
