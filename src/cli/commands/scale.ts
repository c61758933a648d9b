/** `fretward scale`: the warm-up, in the places of a window or of a tune. */

import { isTuneFile } from '../../batch/paths.ts';
import { scaleFor } from '../../lesson/scale/notes.ts';
import { makeScale } from '../../lesson/scale.ts';
import { defined } from '../define.ts';
import { UsageError } from '../exit.ts';
import { obeyingOne } from '../in-force.ts';
import { fileStem, handOut, LESSON_NAMES, lessonOf, type Made } from '../lesson.ts';
import type { OptionName, Options } from '../options/options.ts';

const OPTION_NAMES = [
  'key',
  'octaves',
  'direction',
  'pattern',
  ...LESSON_NAMES,
] as const satisfies readonly OptionName[];

type ScaleOptions = Options<(typeof OPTION_NAMES)[number]>;

const EXAMPLES = `  fretward scale C major -i ukulele-low-g -f 4-8
      C major as far as frets 4 to 8 go, with fingers
  fretward scale A minor pentatonic --octaves 1 --pattern thirds -f 5-8
      one octave, in thirds
  fretward scale --for tune.mxl -i ukulele,ukulele-low-g -f 4-8 --to pdf -o sheets/
      the scale of the tune's key in the tune's own places, for both ukuleles
  fretward scale "G7 arpeggio" -i guitar -f 2-5`;

export const define = defined({
  argument: ['[name...]', 'the scale or arpeggio, as with --key'],
  options: OPTION_NAMES,
  said: {
    key: { default: 'the key of the tune of --for' },
    fingers: { default: 'all' },
    positions: { default: 'on' },
  },
  examples: EXAMPLES,
});

export const run = (words: readonly string[], typed: Readonly<Record<string, unknown>>): Promise<number> => {
  const tune = words.find(isTuneFile);
  if (tune !== undefined) {
    throw new UsageError(`${tune} is a tune, and no scale`, `write --for ${tune}`);
  }
  return obeyingOne(typed.for, { typed, names: OPTION_NAMES }, (options, saidAt) => {
    const key = nameOf(words, options);
    return handOut({ fingers: 'all', positions: true, ...options }, saidAt, () => scaleOf(key, options));
  });
};

/** What the scale is called; undefined for that of the tune. */
const nameOf = (words: readonly string[], { key, for: tune }: ScaleOptions): string | undefined => {
  const named = words.length > 0 ? words.join(' ') : undefined;
  if (named !== undefined && key !== undefined) {
    throw new UsageError(`"${named}" and --key both name a scale`, 'name it once');
  }
  if (named === undefined && key === undefined && tune === undefined) {
    throw new UsageError('no scale is named', 'write, for example, fretward scale C major -f 4-8');
  }
  return key ?? named;
};

const scaleOf = async (key: string | undefined, options: ScaleOptions): Promise<Made> => {
  const lesson = await lessonOf(options);
  const { octaves, direction, pattern } = options;
  const scale = scaleFor(key, lesson.tune);
  const { tune, editions } = makeScale({ scale, octaves, direction, pattern }, lesson);
  return { tune, editions, diagnostics: lesson.diagnostics, stem: fileStem(tune.title!) };
};
