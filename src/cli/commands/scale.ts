/** `fretward scale`: the warm-up, in the places of a window or of a tune. */
import { wholeWindow } from '../../lesson/places.ts';
import { scaleNotes } from '../../lesson/scale/notes.ts';
import { makeScale } from '../../lesson/scale.ts';
import { keyName } from '../../score/names.ts';
import { defined } from '../define.ts';
import { UsageError } from '../exit.ts';
import { fileStem, handOut, LESSON_NAMES, lessonOf } from '../lesson.ts';
import { isTuneFile } from '../names.ts';
import { checkOptions } from '../options/check.ts';
import type { OptionName } from '../options/options.ts';

const OPTION_NAMES = [
  'key',
  'octaves',
  'direction',
  'pattern',
  ...LESSON_NAMES,
] as const satisfies readonly OptionName[];

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

export const run = async (
  words: readonly string[],
  typed: Readonly<Record<string, unknown>>,
): Promise<number> => {
  const options = checkOptions(typed, OPTION_NAMES);
  const named = words.length > 0 ? words.join(' ') : undefined;
  if (named !== undefined && options.key !== undefined) {
    throw new UsageError(`"${named}" and --key both name a scale`, 'name it once');
  }
  const tune = words.find(isTuneFile);
  if (tune !== undefined) {
    throw new UsageError(`${tune} is a tune, and no scale`, `write --for ${tune}`);
  }
  const key = options.key ?? named;
  if (key === undefined && options.for === undefined) {
    throw new UsageError('no scale is named', 'write, for example, fretward scale C major -f 4-8');
  }
  return handOut({ fingers: 'all', positions: true, ...options }, async () => {
    const lesson = await lessonOf(options);
    const { tune, editions } = makeScale(
      {
        scale: scaleNotes(key ?? keyName(lesson.tune!.measures[0]!.key)),
        window: wholeWindow(lesson.rules),
        octaves: options.octaves,
        direction: options.direction,
        pattern: options.pattern,
      },
      lesson,
    );
    return { tune, editions, diagnostics: lesson.diagnostics, stem: fileStem(tune.title!) };
  });
};
