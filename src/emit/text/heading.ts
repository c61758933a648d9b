/** The words around the systems: heading above, legend below. */
import type { Arrangement, WindowRule } from '../../fingering/arrangement.ts';
import { stringNames } from '../../instrument/places.ts';
import { creditLines } from '../../score/credits.ts';
import { stretchName } from '../../score/moments.ts';
import { movedName } from '../../score/names.ts';
import type { Tune } from '../../score/tune.ts';
import { type Entry, textWriter } from './content.ts';
import { TIE } from './draw/rhythm.ts';
import type { Signs } from './signs.ts';
import { explainRhythm } from './values.ts';
import { displayWidth, fold } from './width.ts';

/** `frets 4–8`, `fret 5`; where it does not hold for the whole tune, `frets 4–8 in measures 1–8`. */
const windowText = ({ window, measures }: WindowRule, { dash }: Signs): string => {
  const range = (from: number, to: number): string => (from === to ? `${from}` : `${from}${dash}${to}`);
  const plural = (from: number, to: number): string => (from === to ? '' : 's');
  const frets = `fret${plural(window.low, window.high)} ${range(window.low, window.high)}`;
  if (!measures) return frets;
  const { from, to } = measures;
  return `${frets} in ${stretchName(String(from), String(to), dash)}`;
};

/** How far a tune was moved from the key of its file; nothing where it was not. */
export const movedFacts = ({ transposition = 0 }: Pick<Tune, 'transposition'>): readonly string[] =>
  transposition === 0 ? [] : [`moved ${movedName(transposition)}`];

/** How an edition is to be played: with a capo, in which windows, and how far from where it was written. */
export const playedHow = (
  tune: Tune,
  { instrument: { capo }, windows }: Arrangement,
  signs: Signs,
): readonly string[] => [
  ...(capo > 0 ? [`capo ${capo}`] : []),
  ...windows.map(rule => windowText(rule, signs)),
  ...movedFacts(tune),
];

/** Title and, at the right, who made it; then instrument, stringing, capo and window. */
export const headingLines = (
  tune: Tune,
  arrangement: Arrangement,
  signs: Signs,
  width: number,
): readonly string[] => {
  const write = textWriter(signs);
  const { instrument } = arrangement;
  const facts = [instrument.name, stringNames(instrument), ...playedHow(tune, arrangement, signs)];
  const title = write(tune.title ?? '');
  const credits = write(creditLines(tune).join(signs.separator));
  const gap = width - displayWidth(title) - displayWidth(credits);
  const names =
    title && credits && gap >= 2
      ? [title + ' '.repeat(gap) + credits]
      : [title, credits].flatMap(text => fold(text, width));
  return [...names, ...wrap(facts.map(write), signs.separator, width)].filter(line => line !== '');
};

/** What the letters and signs of these entries mean, and the rights that the file states. */
export const legendLines = (
  tune: Tune,
  arrangement: Arrangement,
  entries: readonly Entry[],
  signs: Signs,
  width: number,
): readonly string[] => {
  const whole = arrangement.window && { window: arrangement.window, measures: undefined };
  const outside = entries.some(entry => entry.figures.some(figure => figure.outside));
  const elsewhere = entries.some(entry =>
    entry.figures.some(figure => figure.text.endsWith(signs.elsewhere)),
  );
  const items = [
    ...explainRhythm(entries.map(entry => entry.rhythm).filter(text => text !== '')),
    ...(entries.some(entry => entry.tied) ? [`${TIE} tied`] : []),
    ...(entries.some(entry => entry.finger !== '') ? ['fingers 1 index to 4 little, 0 open string'] : []),
    ...(outside ? [`* outside ${whole ? windowText(whole, signs) : 'the window'}`] : []),
    ...(elsewhere ? [`${signs.elsewhere} elsewhere than on ${arrangement.matched!.instrument.name}`] : []),
  ];
  const rights = tune.rights.flatMap(each => fold(textWriter(signs)(each), width));
  return [...wrap(items, '   ', width), ...rights].filter(line => line !== '');
};

/** Items side by side as far as the width goes. */
export const wrap = (items: readonly string[], separator: string, width: number): readonly string[] => {
  const lines: string[] = [];
  for (const item of items) {
    const last = lines.at(-1);
    const joined = last === undefined ? item : last + separator + item;
    if (last !== undefined && displayWidth(joined) <= width) lines[lines.length - 1] = joined;
    else lines.push(...fold(item, width));
  }
  return lines;
};
