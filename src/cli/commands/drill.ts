/** `fretward drill`: new melodies for sight-reading in given places. */
import type { Command } from 'commander';
import { makeDrill } from '../../lesson/drill.ts';
import { wholeWindow } from '../../lesson/places.ts';
import { scaleNotes } from '../../lesson/scale/notes.ts';
import type { TimeSignature } from '../../score/model.ts';
import { keyName } from '../../score/names.ts';
import { UsageError } from '../exit.ts';
import { fileStem, handOut, LESSON_NAMES, lessonOf } from '../lesson.ts';
import { timeSignature } from '../options/lesson.ts';
import { addOptions, checkOptions, type OptionName } from '../options/options.ts';

const OPTION_NAMES = [
  'key',
  'metre',
  'measures',
  'grade',
  'seed',
  'focus',
  ...LESSON_NAMES,
] as const satisfies readonly OptionName[];

const EXAMPLES = `
Examples:
  fretward drill -i ukulele-low-g -f 4-8
      eight measures in C major, by steps, in frets 4 to 8
  fretward drill -f 4-8 --key "G major" --metre 3/4 --grade 3 --seed 7 --focus 1:8,C5
      with rhythm; string 1 fret 8 and C5 come more often
  fretward drill --for tune.mxl -f 4-8 --sheets tab,quiz,blank --to pdf --out sheets/
      in the key, the metre and the places of a tune; to read, to check, and to fill in`;

export const define = (command: Command): void => {
  addOptions(command, OPTION_NAMES).addHelpText('after', EXAMPLES);
};

const DEFAULT_MEASURES = 8;

export const run = async (
  _words: readonly string[],
  typed: Readonly<Record<string, unknown>>,
): Promise<number> => {
  const options = checkOptions(typed, OPTION_NAMES);
  if (!options.frets && options.for === undefined) {
    throw new UsageError('a drill needs places', 'name a window with --frets 4-8, or a tune with --for');
  }
  return handOut(options, async () => {
    const lesson = await lessonOf(options);
    const first = lesson.tune?.measures[0];
    const metred = first?.time && isPlain(first.time) ? first.time : undefined;
    const { tune, editions } = makeDrill(
      {
        scale: scaleNotes(options.key ?? (first ? keyName(first.key) : 'C major')),
        window: wholeWindow(lesson.rules),
        time: options.metre
          ? timeSignature(options.metre)
          : (metred ?? timeSignature({ beats: 4, beatType: 4 })),
        measures: options.measures ?? DEFAULT_MEASURES,
        grade: options.grade ?? 1,
        seed: options.seed ?? 1,
        focus: options.focus ?? [],
      },
      lesson,
    );
    return { tune, editions, diagnostics: lesson.diagnostics, stem: fileStem(tune.title!) };
  });
};

/** Whether a metre is one fraction with one number above. */
const isPlain = (time: TimeSignature): boolean =>
  time.kind === 'metred' && time.fractions.length === 1 && time.fractions[0]!.beats.length === 1;
