/**
 * A neck map as text: level, strings one below the other as in tablature, or upright. A place that is
 * used has its letter, finger or count; other places of the same notes have theirs in brackets. Frets
 * are evenly spaced here; what is to scale is on paper.
 */
import { stringNames } from '../../instrument/places.ts';
import { type NeckMap, type NeckPlace, windowsName } from '../../lesson/neck/map.ts';
import { markersAt } from '../../lesson/neck/markers.ts';
import { pitchName } from '../../score/pitch.ts';
import type { DiagramText } from './chords.ts';
import { textWriter } from './content.ts';
import { movedFacts, wrap } from './heading.ts';
import { Row, type TextRole } from './row.ts';
import { type Signs, signsFor } from './signs.ts';
import { displayWidth, fold } from './width.ts';

/** The same, and what stands at the places. */
export interface NeckText extends DiagramText {
  readonly show?: 'letters' | 'fingers' | 'counts';
  readonly upright?: boolean;
}

/** Columns of a fret's cell: the wire is the last one. */
const CELL = 5;

/** The map with its heading and key, a line feed after each line. Too wide for the terminal, it stands upright. */
export const neckToText = (map: NeckMap, of: { readonly title: string }, options: NeckText): string => {
  const signs = signsFor(options.ascii);
  const write = textWriter(signs);
  const names = map.instrument.strings.map(pitch => write(pitchName(pitch, false)));
  const gutter = Math.max(...names.map(displayWidth)) + 1;
  const fits = gutter + CELL * (map.lastFret + 1) <= options.width;
  const drawing =
    options.upright || !fits ? upright(map, names, options) : level(map, names, gutter, options);
  const title = write(options.title ?? of.title);
  const heading = [...fold(title, options.width), ...factsOf(map, signs, options.width).map(write)].filter(
    text => text !== '',
  );
  return [
    heading.map(text => options.paint('heading', text)),
    drawing,
    wrap(keyOf(map, options), '   ', options.width).map(text => options.paint('legend', text)),
  ]
    .map(block => block.map(text => `${text.trimEnd()}\n`).join(''))
    .join('\n');
};

const factsOf = (map: NeckMap, signs: Signs, width: number): readonly string[] => {
  const { instrument } = map;
  const frets = windowsName(map, signs.dash);
  return fold(
    [
      instrument.name,
      stringNames(instrument),
      ...(instrument.capo > 0 ? [`capo ${instrument.capo}`] : []),
      ...(frets === '' ? [] : [frets]),
      ...movedFacts(map),
    ].join(signs.separator),
    width,
  );
};

const keyOf = (map: NeckMap, { show = 'letters' }: NeckText): readonly string[] => [
  show === 'counts'
    ? 'a figure: played here so many times'
    : show === 'fingers'
      ? 'a figure: played here with this finger, 0 open'
      : 'a letter: played here',
  show === 'letters' ? '(letter): the same note elsewhere' : '( ): the same note elsewhere',
  ...(map.places.some(({ tonic }) => tonic) ? ['*: the keynote'] : []),
  ...(map.windows.length > 0 ? [`=: the window${map.windows.length > 1 ? 's' : ''}`] : []),
];

/** One row a string; numbers of the frets below, the window and the markers between. */
const level = (
  map: NeckMap,
  names: readonly string[],
  gutter: number,
  { ascii, paint, show = 'letters', leftHanded = false }: NeckText,
): readonly string[] => {
  const frets = Array.from({ length: map.lastFret + 1 }, (_, fret) => fret);
  const order = leftHanded ? [...frets].reverse() : frets;
  const at = (fret: number): number => (leftHanded ? 0 : gutter) + CELL * order.indexOf(fret);
  const wire = ascii ? '|' : '│';
  const nut = ascii ? '#' : '║';
  const string = ascii ? '-' : '─';
  const rows = map.instrument.strings.map((_, index) => {
    const row = new Row();
    const end = CELL * order.length;
    row.put(leftHanded ? end + 1 : 0, names[index]!, 'string');
    for (const fret of frets) {
      if (fret > 0) row.fill(at(fret), at(fret) + CELL, string, 'string');
      const edge = leftHanded ? at(fret) : at(fret) + CELL - 1;
      row.put(edge, fret === 0 ? nut : wire, 'staff');
    }
    for (const place of placesOn(map, index + 1)) {
      const [label, role] = labelOf(place, show, ascii);
      row.put(at(place.fret) + (leftHanded ? 1 : 0) + offsetOf(label), label, role);
    }
    return row;
  });
  const window = new Row();
  const numbers = new Row();
  for (const fret of frets) {
    const shift = leftHanded ? 1 : 0;
    if (isInWindow(map, fret)) window.fill(at(fret), at(fret) + CELL, '=', 'mark');
    const dots = fret === 0 ? 0 : markersAt(map.instrument, fret + map.instrument.capo);
    const label = `${fret}${(ascii ? '.' : '·').repeat(dots)}`;
    numbers.put(at(fret) + shift + 1, label, 'measure');
  }
  const under = map.windows.length > 0 ? [window] : [];
  return [...rows, ...under, numbers].map(row => row.render(0, paint));
};

/** One column a string, one row a fret; numbers of the frets at the left. */
const upright = (
  map: NeckMap,
  names: readonly string[],
  { ascii, paint, show = 'letters', leftHanded = false }: NeckText,
): readonly string[] => {
  const count = map.instrument.strings.length;
  const left = 8;
  const at = (string: number): number => left + CELL * (leftHanded ? string - 1 : count - string);
  const string = ascii ? '|' : '│';
  const wire = (fret: number): string => (fret === 0 ? '=' : '-');
  const head = new Row();
  names.forEach((name, index) => {
    head.put(at(index + 1) + 1, name, 'string');
  });
  const rows = Array.from({ length: map.lastFret + 1 }, (_, fret) => {
    const row = new Row();
    const dots = fret === 0 ? 0 : markersAt(map.instrument, fret + map.instrument.capo);
    row.put(
      0,
      `${isInWindow(map, fret) ? '=' : ' '} ${String(fret).padStart(2)}${(ascii ? '.' : '·').repeat(dots)}`,
      'measure',
    );
    for (let n = 1; n <= count; n++) {
      if (fret > 0) row.put(at(n) + 1, string, 'string');
      const place = map.places.find(each => each.string === n && each.fret === fret);
      if (!place) continue;
      const [label, role] = labelOf(place, show, ascii);
      row.put(at(n) + offsetOf(label), label, role);
    }
    const line = new Row();
    line.fill(left, left + CELL * (count - 1) + 3, wire(fret), 'staff');
    return [row, line];
  });
  return [head, ...rows.flat()].map(row => row.render(0, paint));
};

const placesOn = ({ places, lastFret }: NeckMap, string: number): readonly NeckPlace[] =>
  places.filter(place => place.string === string && place.fret <= lastFret);

const isInWindow = ({ windows }: NeckMap, fret: number): boolean =>
  windows.some(({ low, high }) => fret >= low && fret <= high);

/** At most four columns: `F♯*`, `(F♯)`. */
const labelOf = (
  place: NeckPlace,
  show: NonNullable<NeckText['show']>,
  ascii: boolean,
): readonly [text: string, role: TextRole] => {
  const letter = textWriter(signsFor(ascii))(pitchName(place.pitch, false));
  if (place.kind === 'elsewhere') return [`(${show === 'letters' ? letter : ' '})`, 'finger'];
  const label = show === 'letters' ? letter : String(show === 'fingers' ? place.finger : place.count);
  return [place.tonic ? `${label}*` : label, 'digit'];
};

/** One-letter labels stand in the middle of the cell. */
const offsetOf = (label: string): number => (label.startsWith('(') || displayWidth(label) > 2 ? 0 : 1);
