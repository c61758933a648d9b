/** `fretward arrange`: tunes to sheets. */
import { findInputs, type Input } from '../../batch/inputs.ts';
import { type Job, type Output, runTune } from '../../batch/run.ts';
import { Refusal } from '../../score/diagnostic.ts';
import { choiceOf } from '../choice.ts';
import { report } from '../console.ts';
import { takesTunes } from '../each.ts';
import { EXIT, UsageError } from '../exit.ts';
import { chooseInstruments } from '../instruments.ts';
import { checkOptions, type OptionName, type Options } from '../options.ts';
import { type Destination, deliver, destinationOf, OUTPUT_NAMES, printingOf } from '../output.ts';
import { RULE_NAMES, rulesOf } from '../rule-options.ts';

const OPTION_NAMES = [
  'instrument',
  'tuning',
  'capo',
  ...RULE_NAMES,
  'part',
  'voice',
  'chords',
  'transpose',
  'match',
  ...OUTPUT_NAMES,
] as const satisfies readonly OptionName[];

type ArrangeOptions = Options<(typeof OPTION_NAMES)[number]>;

const EXAMPLES = `  fretward arrange tune.mxl -i ukulele-low-g -f 4-8
      tablature in the terminal, every note inside frets 4 to 8
  fretward arrange tune.mxl -i ukulele -i ukulele-low-g -f 4-8 --to svg --out sheets/
      printed sheets for high-G and low-G students
  fretward arrange tune.mxl --tuning "D4 G4 B4 E5" --capo 2 --open never
      another tuning, a capo, no open strings
  fretward arrange tune.mxl -f 5-8 --outside refuse
      do not arrange a tune that does not fit
  fretward arrange tune.mxl -f 1-16:4-8,17-32:10-15 --one-place
      a window for each half; every pitch always in the same place
  fretward arrange tune.mxl -i ukulele-low-g -i ukulele -f 4-8 --match --transpose best
      two editions in the best key, alike wherever they can be
  fretward arrange tunes/ --to svg,musicxml --out out/
      a folder of tunes, searched to the bottom
  fretward arrange - --to svg --sheets tab --out - < tune.musicxml > tab.svg
      one sheet, from standard input to standard output`;

export const define = takesTunes(OPTION_NAMES, EXAMPLES);

/** Arranges every tune and answers the exit status. */
export const run = async (
  tunes: readonly string[],
  typed: Readonly<Record<string, unknown>>,
): Promise<number> => {
  const options = checkOptions(typed, OPTION_NAMES);
  const destination = destinationOf(options);
  const job = await jobOf(options, destination);
  const quiet = options.quiet ?? false;
  let status: number = EXIT.done;
  const taken = new Map<string, string>();
  for (const input of inputsOf(tunes)) {
    const outcome = await runTune(input, job);
    report(outcome.diagnostics, quiet);
    if (outcome.kind !== 'arranged') {
      status = Math.max(status, outcome.kind === 'fault' ? EXIT.fault : EXIT.refused);
      continue;
    }
    try {
      claim(taken, input, outcome.outputs);
      deliver(outcome.outputs, destination, quiet);
    } catch (error) {
      if (!(error instanceof Refusal)) throw error;
      report(error.diagnostics, quiet);
      status = Math.max(status, EXIT.refused);
    }
  }
  return status;
};

const jobOf = async (options: ArrangeOptions, destination: Destination): Promise<Job> => ({
  choice: choiceOf(options),
  instruments: chooseInstruments(options),
  rules: rulesOf(options),
  transpose: options.transpose ?? 0,
  match: options.match ?? false,
  ...(await printingOf(options, destination)),
});

/** The inputs, or a usage error where an argument names nothing that can be read at all. */
const inputsOf = (tunes: readonly string[]): readonly Input[] => {
  if (tunes.filter(each => each === '-').length > 1) {
    throw new UsageError('standard input (-) can be read only once');
  }
  return findInputs(tunes);
};

/** Two tunes must not write the same file. */
const claim = (taken: Map<string, string>, input: Input, outputs: readonly Output[]): void => {
  for (const { name } of outputs) {
    const other = taken.get(name);
    if (other !== undefined && other !== input.name) {
      throw new Refusal({
        severity: 'error',
        code: 'same-output',
        message: `its sheets would overwrite those of ${other}`,
        hint: 'rename one of the two files, or write them to different folders',
        place: { file: input.name },
      });
    }
    taken.set(name, input.name);
  }
};
