/**
 * Chord shapes as text: frames side by side, strings upright, the lowest at the left. Figures on the
 * strings are fingers; `o` over a string is open, `x` silent. Under each frame stand frets, notes and
 * reach.
 */

import { openPitches, stringNames } from '../../instrument/places.ts';
import { pitchClass } from '../../lesson/chords/chord.ts';
import { type ChordShape, shownFrets } from '../../lesson/chords/shape.ts';
import { type ChordEntry, type ChordSheet, leftOutWords } from '../../lesson/chords/sheet.ts';
import { mmText } from '../../score/numbers.ts';
import { pitchName } from '../../score/pitch.ts';
import { chordText, textWriter } from './content.ts';
import { type Paint, Row } from './row.ts';
import { type Signs, signsFor } from './signs.ts';
import { displayWidth, fold } from './width.ts';

/** How drawings of the neck are written. */
export interface DiagramText {
  /** Columns of the terminal. */
  readonly width: number;
  /** Seven-bit characters only. */
  readonly ascii: boolean;
  readonly paint: Paint;
  readonly title?: string;
  readonly leftHanded?: boolean;
}

/** Line characters of a frame: left, inner and right crossing of each kind of line. */
interface FrameSigns {
  readonly nut: Crossings;
  readonly top: Crossings;
  readonly fret: Crossings;
  readonly end: Crossings;
  readonly string: string;
  readonly barre: string;
}

type Crossings = readonly [left: string, inner: string, right: string, line: string];

const UNICODE: FrameSigns = {
  nut: ['╒', '╤', '╕', '═'],
  top: ['┌', '┬', '┐', '─'],
  fret: ['├', '┼', '┤', '─'],
  end: ['└', '┴', '┘', '─'],
  string: '│',
  barre: '━',
};

const SEVEN_BIT: FrameSigns = {
  nut: ['+', '+', '+', '='],
  top: ['+', '+', '+', '-'],
  fret: ['+', '+', '+', '-'],
  end: ['+', '+', '+', '-'],
  string: '|',
  barre: '=',
};

/** Columns from string to string. */
const STEP = 2;
/** Columns for the number of a fret, left of the frame. */
const LEFT = 3;
const BETWEEN = 3;

/** The sheet, with a line feed after each line. */
export const chordsToText = (sheet: ChordSheet, options: DiagramText): string => {
  const signs = signsFor(options.ascii);
  const title = textWriter(signs)(options.title ?? 'Chords');
  const heading = [...fold(title, options.width), ...factLines(sheet, signs, options.width)];
  const blocks = [
    heading.filter(line => line !== '').map(line => options.paint('heading', line)),
    ...framesText(sheet, options),
    legendText(sheet, options.width).map(line => options.paint('legend', line)),
  ];
  return blocks
    .filter(block => block.length > 0)
    .map(block => block.map(line => `${line.trimEnd()}\n`).join(''))
    .join('\n');
};

/** Instrument, stringing, and what was wished for; then what else there is to say. */
export const factLines = (
  { hand: { instrument }, wishes: { near, window } }: ChordSheet,
  signs: Signs,
  width: number,
  more: readonly string[] = [],
): readonly string[] => {
  const facts = [
    instrument.name,
    stringNames(instrument),
    ...(instrument.capo > 0 ? [`capo ${instrument.capo}`] : []),
    ...(window ? [`frets ${window.low}${signs.dash}${window.high}`] : []),
    ...(near === undefined ? [] : [`near fret ${near}`]),
    ...more,
  ];
  return fold(facts.map(textWriter(signs)).join(signs.separator), width);
};

/** What the millimetres mean, and the usual caution, where a shape reaches farther than is comfortable. */
export const legendText = ({ entries }: ChordSheet, width: number): readonly string[] => {
  const shapes = entries.flatMap(entry => entry.shapes);
  return [
    ...(shapes.some(({ reach }) => reach > 0)
      ? fold('mm: along the neck, from the lowest stopped fret to the highest', width)
      : []),
    ...(shapes.some(({ stretched }) => stretched) ? fold(CAUTION, width) : []),
  ];
};

const CAUTION =
  '! A wider reach than is comfortable to this hand: warm up, do not force it, and stop if it hurts; teacher and physician judge what a hand should do.';

/** Blocks of lines, each a row of frames as wide as fits. */
export const framesText = (sheet: ChordSheet, options: DiagramText): readonly (readonly string[])[] => {
  const cells = sheet.entries.flatMap(entry => cellsOf(entry, sheet, options));
  const width = Math.max(0, ...cells.map(cell => cell.width)) + BETWEEN;
  const perRow = Math.max(1, Math.floor((options.width + BETWEEN) / width));
  const grouped = groupOf(sheet, perRow);
  return Array.from({ length: Math.ceil(cells.length / grouped) }, (_, row) =>
    beside(cells.slice(row * grouped, (row + 1) * grouped), width, options.paint),
  );
};

/** As many frames in a row as fit, the shapes of a chord together where all chords have equally many. */
const groupOf = ({ entries }: ChordSheet, perRow: number): number => {
  const counts = new Set(entries.map(({ shapes }) => Math.max(1, shapes.length)));
  const [count] = counts;
  return counts.size === 1 && count! <= perRow ? perRow - (perRow % count!) : perRow;
};

/** A frame and what stands around it. */
interface Cell {
  readonly width: number;
  readonly draw: (rows: readonly Row[], at: number) => void;
  readonly height: number;
}

const beside = (cells: readonly Cell[], width: number, paint: Paint): readonly string[] => {
  const rows = Array.from({ length: Math.max(0, ...cells.map(cell => cell.height)) }, () => new Row());
  cells.forEach((cell, index) => {
    cell.draw(rows, index * width);
  });
  return rows.map(row => row.render(0, paint));
};

const cellsOf = (entry: ChordEntry, sheet: ChordSheet, options: DiagramText): readonly Cell[] => {
  const name = chordText(entry.chord.symbol, signsFor(options.ascii));
  if (entry.shapes.length === 0) {
    return [
      {
        width: LEFT + Math.max(displayWidth(name), 'no shape'.length),
        height: 2,
        draw: ([first, second], at) => {
          first!.put(at + LEFT, name, 'chord');
          second!.put(at + LEFT, 'no shape', 'legend');
        },
      },
    ];
  }
  return entry.shapes.map(shape => frameCell(name, shape, sheet, options));
};

const frameCell = (name: string, shape: ChordShape, sheet: ChordSheet, options: DiagramText): Cell => {
  const strings = shape.frets.length;
  const captions = captionsOf(shape, sheet, options);
  const { base, count } = shownFrets(shape);
  return {
    width: LEFT + Math.max(STEP * (strings - 1) + 1, ...[name, ...captions].map(displayWidth)),
    height: 3 + 2 * count + captions.length,
    draw: (rows, at) => {
      rows[0]!.put(at + LEFT, name, 'chord');
      drawFrame(rows.slice(1), at + LEFT, shape, { base, count }, options);
      captions.forEach((caption, index) => {
        rows[3 + 2 * count + index]!.put(at + LEFT, caption, 'legend');
      });
    },
  };
};

const drawFrame = (
  rows: readonly Row[],
  at: number,
  { frets, touches, barres }: ChordShape,
  { base, count }: { readonly base: number; readonly count: number },
  { ascii, leftHanded }: DiagramText,
): void => {
  const lines = ascii ? SEVEN_BIT : UNICODE;
  const strings = frets.length;
  const column = (string: number) => at + STEP * (leftHanded ? string - 1 : strings - string);
  frets.forEach((fret, index) => {
    const sign = fret === 0 ? 'o' : fret === undefined ? 'x' : '';
    rows[0]!.put(column(index + 1), sign, 'finger');
  });
  for (let row = 0; row <= count; row++) {
    const kind = row === 0 ? (base === 1 ? lines.nut : lines.top) : row === count ? lines.end : lines.fret;
    rows[1 + 2 * row]!.put(at, crossings(kind, strings), 'staff');
    if (row === count) break;
    rows[2 + 2 * row]!.put(at, Array.from({ length: strings }, () => lines.string).join(' '), 'string');
  }
  if (base > 1) rows[2]!.put(at - 1 - String(base).length, String(base), 'measure');
  for (const { fret, from, to } of barres) {
    const ends = [column(from), column(to)];
    rows[2 + 2 * (fret - base)]!.fill(Math.min(...ends), Math.max(...ends) + 1, lines.barre, 'digit');
  }
  for (const { string, fret, finger } of touches) {
    if (finger > 0) rows[2 + 2 * (fret - base)]!.put(column(string), String(finger), 'digit');
  }
};

const crossings = ([left, inner, right, line]: Crossings, strings: number): string =>
  strings === 1 ? inner : left + `${line}${inner}`.repeat(strings - 2) + line + right;

/** Frets and notes from the lowest string up, the reach, and what is left out. */
const captionsOf = (shape: ChordShape, sheet: ChordSheet, { ascii }: DiagramText): readonly string[] => {
  const write = textWriter(signsFor(ascii));
  const frets = shape.frets.map(fret => (fret === undefined ? 'x' : String(fret))).reverse();
  const notes = notesOf(shape, sheet).reverse();
  const reach = shape.reach > 0 ? [`${mmText(shape.reach)}${shape.stretched ? ' !' : ''}`] : [];
  const leftOut = leftOutWords(shape);
  return [frets.join(' '), write(notes.join(' ')), ...reach, ...(leftOut ? [leftOut] : [])];
};

/** What each string sounds, spelt as the chord spells it. */
const notesOf = (shape: ChordShape, { hand, entries }: ChordSheet): string[] => {
  const { chord } = entries.find(({ shapes }) => shapes.includes(shape))!;
  const spelt = [...chord.tones.map(({ note }) => note), ...(chord.bass ? [chord.bass] : [])];
  const open = openPitches(hand.instrument);
  return shape.frets.map((fret, index) => {
    if (fret === undefined) return '-';
    const note = spelt.find(each => pitchClass(each) === (open[index]! + fret) % 12)!;
    return pitchName({ ...note, octave: 0 }, false);
  });
};
