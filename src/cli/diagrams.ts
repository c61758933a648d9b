/** What the commands share that draw diagrams: their options, and the way out in every page format and as text. */

import type { Printing } from '../batch/job.ts';
import { pageName } from '../batch/names.ts';
import type { Output } from '../batch/outcome.ts';
import { withoutRepeats } from '../batch/said.ts';
import { FORMATS } from '../emit/formats.ts';
import { isPageFormat, PAGE_WRITERS, type Rendered } from '../emit/pages.ts';
import type { DiagramText } from '../emit/text/chords.ts';
import type { DiagramOptions } from '../engrave/chart/sheet.ts';
import type { Page } from '../engrave/page.ts';
import type { Diagnostic } from '../score/diagnostic.ts';
import { UsageError } from './exit.ts';
import type { OptionName, Options } from './options/options.ts';
import { listed } from './options/values.ts';
import { destinationOf, printingOf } from './output.ts';

export const DIAGRAM_NAMES = [
  'leftHanded',
  'to',
  'out',
  'title',
  'subtitle',
  'footer',
  'paper',
  'landscape',
  'margins',
  'width',
  'ascii',
  'dpi',
  'transparent',
  'font',
  'color',
  'quiet',
] as const satisfies readonly OptionName[];

/** Diagrams are pages or text, and nothing else. */
const FORMAT_NAMES = ['text', ...Object.keys(PAGE_WRITERS)];

/** What help says of a diagram's formats. */
export const DIAGRAM_SAID = {
  to: {
    words: FORMAT_NAMES,
    help: FORMATS.filter(({ name }) => FORMAT_NAMES.includes(name))
      .map(({ name, summary }) => `${name}: ${summary}`)
      .join('; '),
  },
} as const;

type DiagramNames = (typeof DIAGRAM_NAMES)[number];

/** Something drawn for one edition: on pages, and as text. */
export interface Diagram {
  /** Of its files: name of what is drawn, and of the instrument. */
  readonly stem: string;
  readonly pages: (options: DiagramOptions) => Promise<readonly Page[]>;
  readonly text: (options: DiagramText) => Promise<string>;
}

/** Checks formats and destination. Throws a UsageError. */
export const diagramPrinting = async (options: Options<DiagramNames>) => {
  const destination = destinationOf(options);
  const printing = await printingOf(options, destination);
  const other = printing.formats.find(({ name }) => !FORMAT_NAMES.includes(name));
  if (other) {
    throw new UsageError(`--to does not take "${other.name}" here`, `use one of ${listed(FORMAT_NAMES)}`);
  }
  return { destination, printing };
};

/** Renders diagrams in all formats asked for. */
export const renderDiagrams = async (
  diagrams: readonly Diagram[],
  { formats, style }: Printing,
  { leftHanded = false }: Options<'leftHanded'>,
): Promise<{ readonly outputs: readonly Output[]; readonly diagnostics: readonly Diagnostic[] }> => {
  const outputs: Output[] = [];
  const diagnostics: Diagnostic[] = [];
  const { title } = style.layout;
  const render = async ({ pages, text }: Diagram, format: string): Promise<Rendered> =>
    isPageFormat(format)
      ? PAGE_WRITERS[format](await pages({ ...style.layout, leftHanded }), style)
      : {
          pages: [await text({ ...style, leftHanded, ...(title !== undefined && { title }) })],
          diagnostics: [],
        };
  for (const diagram of diagrams) {
    for (const format of formats) {
      const rendered = await render(diagram, format.name);
      diagnostics.push(...rendered.diagnostics);
      rendered.pages.forEach((content, index) => {
        outputs.push({ name: pageName(diagram.stem, format, index + 1), content });
      });
    }
  }
  return { outputs, diagnostics: withoutRepeats(diagnostics) };
};
