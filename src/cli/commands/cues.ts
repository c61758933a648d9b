/** `fretward cues`: tunes in words, as a teacher says them while playing. */
import { join } from 'node:path';
import { Claims } from '../../batch/claims.ts';
import { writeFiles } from '../../batch/files.ts';
import { cuesToText } from '../../emit/text/cues.ts';
import { makeCues } from '../../lesson/cues.ts';
import { attempt, type Say } from '../attempt.ts';
import { print } from '../console.ts';
import { takesTunes } from '../define.ts';
import { EXIT } from '../exit.ts';
import { blaming, type InForce, obeying } from '../in-force.ts';
import { arrangedInput } from '../lesson.ts';
import { ARRANGING, type OptionName, type Options, READING } from '../options/options.ts';
import { tunesNamed } from '../tunes.ts';

const OPTION_NAMES = [
  ...ARRANGING,
  'every',
  'strings',
  'markdown',
  'out',
  'width',
  'ascii',
  ...READING,
  'quiet',
] as const satisfies readonly OptionName[];

const EXAMPLES = `  fretward cues tune.mxl -i ukulele-low-g -f 4-8
      phrase by phrase: beat, note, string, fret, finger, and what the hand does
  fretward cues tune.mxl -f 4-8 --every 2 --strings numbers
      two measures at a time; strings by number
  fretward cues tune.mxl -i ukulele,ukulele-low-g -f 4-8 --markdown -o sheets/
      a Markdown file for each ukulele`;

export const define = takesTunes({ options: OPTION_NAMES, examples: EXAMPLES });

export const run = async (
  tunes: readonly string[],
  typed: Readonly<Record<string, unknown>>,
): Promise<number> => obeying({ tunes, typed, names: OPTION_NAMES }, asked => sayAll(tunes, asked));

const sayAll = async (
  tunes: readonly string[],
  { options, optionsFor, settingsFor, saidAt }: InForce<(typeof OPTION_NAMES)[number]>,
): Promise<number> => {
  const { out, quiet = false } = options;
  const toFiles = out !== undefined && out !== '-';
  const claims = new Claims();
  let status: number = EXIT.done;
  let shown = false;
  for (const input of await tunesNamed(tunes)) {
    const sayOne = async (say: Say): Promise<void> => {
      const own = optionsFor(input);
      const { tune, editions, diagnostics, stem } = await arrangedInput(input, own);
      say(diagnostics);
      const texts = editions.map(({ arrangement }) => ({
        path: join(out ?? '', `${stem}.${arrangement.instrument.id}.cues.${own.markdown ? 'md' : 'txt'}`),
        content: cuesToText(makeCues(tune, arrangement, own.every), styleOf(own, toFiles)),
      }));
      if (!toFiles) {
        if (shown) print('\n');
        print(texts.map(({ content }) => content).join('\n'));
        shown = true;
        return;
      }
      claims.claim(
        input.name,
        texts.map(({ path }) => path),
      );
      writeFiles(texts);
      if (!quiet) print(texts.map(({ path }) => `${path}\n`).join(''));
    };
    const done = await blaming(settingsFor(input), () => attempt(input, quiet, sayOne, saidAt(input)));
    status = Math.max(status, done);
  }
  return status;
};

/** How cues are put in words; files are as wide as text that goes nowhere known. */
const styleOf = (
  { strings = 'names', markdown, width, ascii = false }: Options<(typeof OPTION_NAMES)[number]>,
  toFiles: boolean,
) =>
  ({
    strings,
    markup: markdown ? 'markdown' : 'text',
    width: width ?? (toFiles ? undefined : process.stdout.columns) ?? 80,
    ascii,
  }) as const;
