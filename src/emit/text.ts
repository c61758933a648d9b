/**
 * A sheet as text for a terminal of fixed pitch: staff, rhythm letters, lyrics and tablature on one
 * grid of columns, wrapped at bar lines.
 *
 * The stages, in text/: content (what stands where, as strings) → spacing (columns of a measure) →
 * systems (line breaks) → draw (rows). Limits: slurs, beams, stems and articulations are not drawn.
 */
import { SHEETS, type SheetName } from '../engrave/options.ts';
import type { Arrangement } from '../fingering/arrangement.ts';
import { accidentalSign } from '../score/pitch.ts';
import type { Tune } from '../score/tune.ts';
import { contentOf, textWriter } from './text/content.ts';
import { drawSystem, seamsOf } from './text/draw/system.ts';
import { headingLines, legendLines } from './text/heading.ts';
import { layOut } from './text/layout.ts';
import type { Paint } from './text/row.ts';
import { signsFor } from './text/signs.ts';
import { verseLabels } from './text/syllables.ts';
import { tupletSpans } from './text/tuplets.ts';
import { displayWidth } from './text/width.ts';

export type { Paint, TextRole } from './text/row.ts';

/** What is to be on a text sheet, and how wide it may be. */
export interface TextOptions {
  readonly sheet: SheetName;
  /** Columns of the terminal; a single measure that needs more overflows it. */
  readonly width: number;
  /** Seven-bit characters only. */
  readonly ascii: boolean;
  /** Left-hand fingers under the notes: none, where the position changes, or all. */
  readonly fingers?: 'none' | 'changes' | 'all';
  /** Roman numerals over the staff where the position changes. */
  readonly positions?: boolean;
  /** Colours a piece of text by its role; the identity for plain text. */
  readonly paint: Paint;
}

/** Narrower terminals are written for as if they had this many columns. */
const LEAST_WIDTH = 40;

/** The sheet, with a line feed after each line. All lines of a system are equally wide. */
export const toText = (tune: Tune, arrangement: Arrangement, options: TextOptions): string => {
  const { sheet, paint } = options;
  const width = Math.max(LEAST_WIDTH, options.width);
  const signs = signsFor(options.ascii);
  const { instrument } = arrangement;
  const content = contentOf(tune, arrangement, signs, options);
  const strings = instrument.strings.map(({ step, alter }) =>
    textWriter(signs)(step + accidentalSign(alter)),
  );
  const verses = verseLabels(tune);
  const labels = [...strings, ...verses, ...content.map(({ number }) => number)];
  const gutter = 1 + Math.max(...labels.map(displayWidth));
  const spacing = { division: tune.division, clef: instrument.clef, signs };
  const systems = layOut(content, spacing, gutter, width);
  const kind = SHEETS[sheet];
  const frame = {
    signs,
    tuplets: tupletSpans(tune),
    strings: kind.tablature === 'none' ? [] : strings,
    letters: kind.letters,
    verses,
    figures: kind.tablature === 'figures',
    paint,
  };
  const blocks = systems.map((system, index) =>
    drawSystem(system, seamsOf(systems[index - 1], systems[index + 1]), frame),
  );
  const textWidth = Math.min(width, Math.max(LEAST_WIDTH, ...systems.map(system => system.width)));
  const heading = headingLines(tune, arrangement, signs, textWidth);
  const entries = content.flatMap(measure => measure.entries);
  const shown = kind.tablature === 'figures' ? entries : entries.map(entry => ({ ...entry, figures: [] }));
  const legend = legendLines(tune, arrangement, shown, signs, width);
  return [heading.map(line => paint('heading', line)), ...blocks, legend.map(line => paint('legend', line))]
    .filter(block => block.length > 0)
    .map(join)
    .join('\n');
};

const join = (lines: readonly string[]): string => lines.map(line => `${line}\n`).join('');
