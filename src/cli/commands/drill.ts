/** `fretward drill`: new melodies for sight-reading in given places. */
import { usualDrill } from '../../lesson/drill/usual.ts';
import { makeDrill } from '../../lesson/drill.ts';
import { wholeWindow } from '../../lesson/places.ts';
import { scaleFor } from '../../lesson/scale/notes.ts';
import { defined } from '../define.ts';
import { UsageError } from '../exit.ts';
import { obeyingOne } from '../in-force.ts';
import { fileStem, handOut, LESSON_NAMES, lessonOf, type Made } from '../lesson.ts';
import type { OptionName, Options } from '../options/options.ts';

const OPTION_NAMES = [
  'key',
  'metre',
  'measures',
  'grade',
  'seed',
  'focus',
  ...LESSON_NAMES,
] as const satisfies readonly OptionName[];

const EXAMPLES = `  fretward drill -i ukulele-low-g -f 4-8
      eight measures in C major, by steps, in frets 4 to 8
  fretward drill -f 4-8 --key "G major" --metre 3/4 --grade 3 --focus 1:8,C5
      with rhythm; string 1 fret 8 and C5 come more often
  fretward drill --for tune.mxl -f 4-8 --sheets quiz,blank --to pdf -o sheets/
      in the key, the metre and the places of a tune; to read, and to fill in`;

export const define = defined({
  options: OPTION_NAMES,
  said: { key: { default: 'the key of the tune of --for, or C major' } },
  examples: EXAMPLES,
});

export const run = (_words: readonly string[], typed: Readonly<Record<string, unknown>>): Promise<number> =>
  obeyingOne(typed.for, { typed, names: OPTION_NAMES }, (options, saidAt) => {
    if (!options.frets && options.for === undefined) {
      throw new UsageError('a drill needs places', 'name a window with --frets 4-8, or a tune with --for');
    }
    return handOut(options, saidAt, () => drillOf(options));
  });

const drillOf = async (options: Options<(typeof OPTION_NAMES)[number]>): Promise<Made> => {
  const lesson = await lessonOf(options);
  const { tune, editions } = makeDrill(
    {
      scale: scaleFor(options.key, lesson.tune),
      window: wholeWindow(lesson.rules),
      ...usualDrill({ ...options, time: options.metre }, lesson.tune),
    },
    lesson,
  );
  return { tune, editions, diagnostics: lesson.diagnostics, stem: fileStem(tune.title!) };
};
