/** The words around the systems: heading above, legend below. */
import type { Arrangement } from '../../fingering/arrangement.ts';
import { pitchName } from '../../score/pitch.ts';
import type { Tune } from '../../score/tune.ts';
import type { Entry, MeasureContent } from './content.ts';
import { textWriter } from './content.ts';
import { TIE } from './draw/rhythm.ts';
import type { Paint } from './row.ts';
import type { Signs } from './signs.ts';
import { explainRhythm } from './values.ts';
import { displayWidth, fold } from './width.ts';

/** `4–8`, or `5` for a window of one fret. */
const windowText = (arrangement: Arrangement, signs: Signs): string => {
  const { low, high } = arrangement.window!;
  return low === high ? `${low}` : `${low}${signs.dash}${high}`;
};

/** Title and, at the right, composer; then instrument, stringing, capo and window. */
export const headingLines = (
  tune: Tune,
  arrangement: Arrangement,
  width: number,
  signs: Signs,
  paint: Paint,
): readonly string[] => {
  const write = textWriter(signs);
  const { instrument, window } = arrangement;
  const stringing = [...instrument.strings]
    .reverse()
    .map(pitch => pitchName(pitch))
    .join(' ');
  const facts = [
    instrument.name,
    stringing,
    ...(instrument.capo > 0 ? [`capo ${instrument.capo}`] : []),
    ...(window ? [`frets ${windowText(arrangement, signs)}`] : []),
  ];
  const title = write(tune.title ?? '');
  const composer = write(tune.composer ?? '');
  const gap = width - displayWidth(title) - displayWidth(composer);
  const first =
    gap >= 2 || !title || !composer
      ? [title + ' '.repeat(Math.max(0, title ? gap : 0)) + composer]
      : [title, composer];
  const lines = [...first, ...wrap(facts.map(write), signs.separator, width)];
  return lines
    .map(line => line.trimEnd())
    .filter(line => line !== '')
    .map(line => paint('heading', line));
};

/** What the letters and signs mean, and the rights that the file states. */
export const legendLines = (
  tune: Tune,
  arrangement: Arrangement,
  measures: readonly MeasureContent[],
  width: number,
  options: { readonly signs: Signs; readonly figures: boolean; readonly paint: Paint },
): readonly string[] => {
  const { signs, figures, paint } = options;
  const entries = measures.flatMap(measure => measure.entries);
  const has = (test: (entry: Entry) => boolean): boolean => entries.some(test);
  const marked = figures && arrangement.window && has(entry => entry.figures.some(({ outside }) => outside));
  const items = [
    ...explainRhythm(entries.map(entry => entry.rhythm).filter(text => text !== '')),
    ...(has(entry => entry.tied) ? [`${TIE} tied`] : []),
    ...(marked ? [`* outside frets ${windowText(arrangement, signs)}`] : []),
  ];
  const rights = tune.rights.flatMap(each => fold(textWriter(signs)(each), width));
  return [...wrap(items, '   ', width), ...rights]
    .filter(line => line !== '')
    .map(line => paint('legend', line));
};

/** Items side by side as far as the width goes. */
const wrap = (items: readonly string[], separator: string, width: number): readonly string[] => {
  const lines: string[] = [];
  for (const item of items) {
    const last = lines.at(-1);
    const joined = last === undefined ? item : last + separator + item;
    if (last !== undefined && displayWidth(joined) <= width) lines[lines.length - 1] = joined;
    else lines.push(...fold(item, width));
  }
  return lines;
};
