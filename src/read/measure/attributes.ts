/** `<attributes>`: divisions, keys, times, clefs, transpositions. */
import type { Attributes, Clef as XmlClef, Key as XmlKey, Time as XmlTime } from 'musicxml-interfaces';
import { TimeSymbolType } from 'musicxml-interfaces';
import {
  type AttributeChange,
  type Clef,
  type Key,
  NO_SIGNATURE,
  type TimeSignature,
} from '../../score/model/attributes.ts';
import { type Interval, intervalInKey, intervalOf, isSpelling, transposeKey } from '../../score/transpose.ts';
import { sourceOf, type Walk } from '../draft.ts';
import { attribute, child, childText, type XmlElement } from '../xml/element.ts';
import { isBeatType, setDivisions } from './duration.ts';
import { isEndOfSpan } from './span-type.ts';

/** Takes attributes into force, and notes what changes within the measure. */
export const readAttributes = (walk: Walk, node: XmlElement, data: Attributes): void => {
  if (data.divisions !== undefined) setDivisions(walk, node, data.divisions);
  const change: Change = { at: walk.now };
  const key = readKeys(walk, node, data);
  if (key !== undefined) change.key = key;
  const time = readTimes(walk, node, data);
  if (time !== undefined) change.time = time;
  for (const clef of data.clefs ?? []) {
    if ((clef.number ?? 1) === 1) change.clef = clefOf(clef);
  }
  countStyles(walk, node);
  put(walk, change);
};

/** Signs in the place of notes, each where it starts. */
const STYLES: ReadonlyMap<string, string> = new Map([
  ['slash', 'slashes'],
  ['beat-repeat', 'beat-repeat signs'],
  ['measure-repeat', 'measure-repeat signs'],
]);

const countStyles = (walk: Walk, node: XmlElement): void => {
  for (const style of node.children.filter(each => each.nodeName === 'measure-style')) {
    for (const sign of style.children) {
      const what = STYLES.get(sign.nodeName);
      if (what !== undefined && !isEndOfSpan(sign)) walk.omissions.add(what, sourceOf(walk, sign));
    }
  }
};

/** The sounding key, where the written key or the transposition changes. */
const readKeys = (walk: Walk, node: XmlElement, data: Attributes): Key | undefined => {
  const transposed = readTranspositions(walk, node);
  let written: Key | undefined;
  for (const key of data.keySignatures ?? []) {
    if ((key.number ?? 1) === 1) written = keyOf(walk, node, key);
    else if (key.fifths !== (written ?? walk.writtenKey).fifths) {
      walk.omissions.add('key signatures of lower staves', sourceOf(walk, node));
    }
  }
  if (written === undefined && !transposed) return undefined;
  walk.writtenKey = written ?? walk.writtenKey;
  const interval = intervalOn(walk, 1);
  return interval === undefined ? walk.writtenKey : transposeKey(walk.writtenKey, interval);
};

/** From written to sounding pitch on a staff, in the key in force; undefined where nothing transposes. */
export const intervalOn = (walk: Walk, staff: number): Interval | undefined => {
  if (walk.transpositions.size === 0) return undefined;
  const interval = walk.transpositions.get(staff) ?? walk.transpositions.get(ALL_STAVES);
  return interval && intervalInKey(interval, walk.writtenKey);
};

const ALL_STAVES = 0;

type Change = { -readonly [K in keyof AttributeChange]: AttributeChange[K] };

/** Takes a change into force. What only states again what holds already is no change. */
const put = (walk: Walk, change: Change): void => {
  const isFirst = walk.measures.length === 1 && change.at === 0;
  const kept: Change = { at: change.at };
  if (change.key !== undefined && !isSame(change.key, walk.key)) kept.key = change.key;
  if (change.time !== undefined && !isSame(change.time, walk.time)) kept.time = change.time;
  if (change.clef !== undefined && !isSame(change.clef, walk.clef)) kept.clef = change.clef;
  if (kept.key === undefined && kept.time === undefined && kept.clef === undefined) return;
  walk.key = kept.key ?? walk.key;
  walk.time = kept.time ?? walk.time;
  walk.clef = kept.clef ?? walk.clef;
  if (!isFirst) walk.measure.changes.push(kept);
  if (change.at > 0) return;
  walk.measure.key = walk.key;
  walk.measure.time = walk.time;
  walk.measure.clef = walk.clef;
};

const isSame = (a: object, b: object | undefined): boolean => JSON.stringify(a) === JSON.stringify(b);

const keyOf = (walk: Walk, node: XmlElement, key: XmlKey): Key => {
  const fifths = key.fifths;
  if (fifths === undefined || !Number.isInteger(fifths) || Math.abs(fifths) > 7) {
    walk.omissions.add('key signatures beyond seven sharps or flats or of a free kind', sourceOf(walk, node));
    return NO_SIGNATURE;
  }
  return { fifths, mode: key.mode || undefined };
};

const SYMBOLS: Partial<Record<TimeSymbolType, (TimeSignature & { kind: 'metred' })['symbol']>> = {
  [TimeSymbolType.Common]: 'common',
  [TimeSymbolType.Cut]: 'cut',
  [TimeSymbolType.SingleNumber]: 'single-number',
};

/** The time signature of the first staff, or of all. */
const readTimes = (walk: Walk, node: XmlElement, data: Attributes): TimeSignature | undefined => {
  let first: TimeSignature | undefined;
  const elements = node.children.filter(each => each.nodeName === 'time');
  for (const [index, time] of (data.times ?? []).entries()) {
    const element = elements[index]!;
    const read = timeOf(time, element);
    const add = (what: string): void => walk.omissions.add(what, sourceOf(walk, element));
    if (read === undefined) add('time signatures that could not be read');
    else if (Number(attribute(element, 'number') ?? 1) > 1) {
      if (!isSame(read, first ?? walk.time)) add('time signatures of lower staves');
    } else {
      first = read;
      if (attribute(element, 'print-object') === 'no')
        add('marks that time signatures are not to be printed');
    }
  }
  return first;
};

const timeOf = (time: XmlTime, element: XmlElement): TimeSignature | undefined => {
  if (child(element, 'senza-misura') && time.beats === undefined) return { kind: 'senza-misura' };
  const fractions = (time.beats ?? []).map((beats, index) => ({
    beats: beats.split('+').map(Number),
    beatType: time.beatTypes?.[index] ?? Number.NaN,
  }));
  const sound = fractions.every(({ beats, beatType }) => beats.every(isBeats) && isBeatType(beatType));
  if (fractions.length === 0 || !sound) return undefined;
  return { kind: 'metred', fractions, symbol: SYMBOLS[time.symbol ?? TimeSymbolType.Normal] ?? 'fraction' };
};

const isBeats = (value: number): boolean => Number.isInteger(value) && value > 0 && value <= 1024;

const SIGNS: readonly Clef['sign'][] = ['G', 'F', 'C', 'TAB', 'percussion', 'none', 'jianpu'];
const USUAL_LINE: Partial<Record<string, number>> = { G: 2, F: 4, C: 3, TAB: 5 };

const clefOf = (clef: XmlClef): Clef => {
  const sign = SIGNS.find(each => each === clef.sign) ?? 'G';
  const octaveChange = Number(clef.clefOctaveChange ?? 0);
  return {
    sign,
    line: Number.isInteger(clef.line) ? clef.line : (USUAL_LINE[sign] ?? 3),
    octaveChange: Number.isInteger(octaveChange) ? octaveChange : 0,
  };
};

/** Whether there were any. */
const readTranspositions = (walk: Walk, node: XmlElement): boolean => {
  const elements = node.children.filter(each => each.nodeName === 'transpose');
  for (const element of elements) {
    const staff = Number(element.getAttribute('number') ?? ALL_STAVES);
    if (staff === ALL_STAVES) walk.transpositions.clear();
    const interval = intervalWritten(element);
    walk.transpositions.set(staff, interval);
    if (child(element, 'double')) walk.omissions.add('doublings at the octave', sourceOf(walk, element));
    if (staff <= 1) walk.transposed ??= interval.semitones;
  }
  return elements.length > 0;
};

const intervalWritten = (element: XmlElement): Interval => {
  const number = (name: string): number | undefined => {
    const value = Number(childText(element, name));
    return childText(element, name) !== undefined && Number.isInteger(value) ? value : undefined;
  };
  const semitones = number('chromatic') ?? 0;
  const octaves = number('octave-change') ?? 0;
  const steps = number('diatonic');
  const within =
    steps !== undefined && isSpelling({ steps, semitones }) ? { steps, semitones } : intervalOf(semitones);
  return { steps: within.steps + 7 * octaves, semitones: within.semitones + 12 * octaves };
};
