/** `fretward neck`: a map of the fingerboard for a tune or a scale. */
import type { SaidAt } from '../../batch/said.ts';
import type { Arrangement } from '../../fingering/arrangement.ts';
import { type NeckMap, neckMap } from '../../lesson/neck/map.ts';
import { scaleNotes } from '../../lesson/scale/notes.ts';
import { makeScale } from '../../lesson/scale.ts';
import type { Diagnostic } from '../../score/diagnostic.ts';
import type { Heading } from '../../score/model.ts';
import type { Tune } from '../../score/tune.ts';
import { attempt, type Say } from '../attempt.ts';
import { defined } from '../define.ts';
import { DIAGRAM_NAMES, DIAGRAM_SAID, type Diagram, diagramPrinting, renderDiagrams } from '../diagrams.ts';
import { UsageError } from '../exit.ts';
import { obeyingOne } from '../in-force.ts';
import { arrangedTune, fileStem, lessonOf } from '../lesson.ts';
import { ARRANGING, type OptionName, type Options, READING } from '../options/options.ts';
import { deliver } from '../output.ts';

const OPTION_NAMES = [
  'key',
  'octaves',
  'for',
  'show',
  'upright',
  ...ARRANGING,
  ...DIAGRAM_NAMES,
  ...READING,
] as const satisfies readonly OptionName[];

type NeckOptions = Options<(typeof OPTION_NAMES)[number]>;

const EXAMPLES = `  fretward neck tune.mxl -i ukulele-low-g -f 4-8
      the places of the tune, by note letter
  fretward neck tune.mxl -f 4-8 --show fingers --upright --to pdf --out sheets/
      upright on paper, with the finger of each place
  fretward neck --key "C major" -f 4-8 -i ukulele,ukulele-low-g --to svg -o maps/
      a scale, for both ukuleles
  fretward neck --for tune.mxl --key "G major" -f 4-8
      the scale of G in the places that the tune uses`;

const SAID = { ...DIAGRAM_SAID, key: { default: 'none; the tune is mapped' } } as const;

export const define = defined({
  argument: ['[tune]', 'a MusicXML file (.musicxml, .xml, .mxl), or - for standard input'],
  options: OPTION_NAMES,
  said: SAID,
  examples: EXAMPLES,
});

export const run = async (
  words: readonly string[],
  typed: Readonly<Record<string, unknown>>,
): Promise<number> =>
  obeyingOne(words[0] ?? typed.for, { typed, names: OPTION_NAMES, said: SAID }, (options, saidAt) =>
    drawMaps(words, options, saidAt),
  );

const drawMaps = async (words: readonly string[], options: NeckOptions, saidAt: SaidAt): Promise<number> => {
  const { destination, printing } = await diagramPrinting(options);
  const { quiet = false, show, upright } = options;
  const shown = { ...(show && { show }), ...(upright && { upright }) };
  const draw = async (say: Say): Promise<void> => {
    const { maps, heading, stem, diagnostics } = await mapsOf(words, options);
    const drawn = maps.map(
      (map): Diagram => ({
        stem: `${stem}.${map.instrument.id}.neck`,
        pages: async layout => {
          const { engraveNeck } = await import('../../engrave/neck/page.ts');
          return engraveNeck(map, heading, { ...layout, ...shown });
        },
        text: async style => {
          const { neckToText } = await import('../../emit/text/neck.ts');
          return neckToText(map, { title: heading.title ?? '' }, { ...style, ...shown });
        },
      }),
    );
    const rendered = await renderDiagrams(drawn, printing, options);
    say([...diagnostics, ...rendered.diagnostics]);
    deliver(rendered.outputs, destination, quiet);
  };
  return attempt(undefined, quiet, draw, saidAt);
};

interface Maps {
  readonly maps: readonly NeckMap[];
  /** Of what is mapped. */
  readonly heading: Heading;
  /** Start of the names of files. */
  readonly stem: string;
  readonly diagnostics: readonly Diagnostic[];
}

const mapsOf = async (words: readonly string[], options: NeckOptions): Promise<Maps> => {
  const [file] = words;
  if (file !== undefined && options.key !== undefined) {
    throw new UsageError(
      `${file} and --key are both to be mapped`,
      'name one; a scale in the places of a tune is --key with --for <tune>',
    );
  }
  if (file !== undefined) return tuneMaps(await arrangedTune(file, options));
  if (options.key !== undefined) return scaleMaps(options.key, options);
  if (options.for !== undefined) return tuneMaps(await arrangedTune(options.for, options));
  throw new UsageError(
    'nothing is named that could be mapped',
    'name a tune, or a scale with --key "C major"',
  );
};

const tuneMaps = ({
  tune,
  editions,
  stem,
  diagnostics,
}: {
  readonly tune: Tune;
  readonly editions: readonly { readonly arrangement: Arrangement }[];
  readonly stem: string;
  readonly diagnostics: readonly Diagnostic[];
}): Maps => ({
  maps: editions.map(({ arrangement }) => neckMap(tune, arrangement)),
  heading: tune,
  stem,
  diagnostics,
});

/** A scale lies where `fretward scale` plays it. */
const scaleMaps = async (key: string, options: NeckOptions): Promise<Maps> => {
  const lesson = await lessonOf(options);
  const scale = scaleNotes(key);
  const { tune, editions } = makeScale(
    {
      scale,
      octaves: options.octaves,
      direction: 'up',
      pattern: 'steps',
    },
    lesson,
  );
  return {
    maps: editions.map(({ arrangement }) => neckMap(tune, arrangement, scale.tonic)),
    heading: tune,
    stem: fileStem(tune.title ?? key),
    diagnostics: lesson.diagnostics,
  };
};
