/** `fretward arrange`: tunes to sheets. */
import { join } from 'node:path';
import type { Command } from 'commander';
import { writeFiles } from '../../batch/files.ts';
import { findInputs, type Input } from '../../batch/inputs.ts';
import { type Job, type Output, runTune } from '../../batch/run.ts';
import { formatNamed, SHEETS } from '../../emit/formats.ts';
import { Refusal } from '../../score/diagnostic.ts';
import { choiceOf } from '../choice.ts';
import { print, report } from '../console.ts';
import { EXIT, UsageError } from '../exit.ts';
import { readFont } from '../font.ts';
import { chooseInstruments } from '../instruments.ts';
import { addOptions, checkOptions, type OptionName, type Options } from '../options.ts';
import { painter } from '../paint.ts';
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
  'to',
  'sheets',
  'out',
  'paper',
  'width',
  'ascii',
  'dpi',
  'transparent',
  'font',
  'color',
  'quiet',
] as const satisfies readonly OptionName[];

type ArrangeOptions = Options<(typeof OPTION_NAMES)[number]>;

/** Where outputs go: files below a folder, or standard output. */
type Destination =
  | { readonly kind: 'folder'; readonly path: string }
  | { readonly kind: 'text' }
  | { readonly kind: 'single' };

const EXAMPLES = `
Examples:
  fretward arrange tune.mxl -i ukulele-low-g -f 4-8
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

export const define = (command: Command): void => {
  command.argument('<tune...>', 'MusicXML files (.musicxml, .xml, .mxl), folders, or - for standard input');
  addOptions(command, OPTION_NAMES).addHelpText('after', EXAMPLES);
};

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

const destinationOf = ({ to, out, sheets }: ArrangeOptions): Destination => {
  if (out === '-') {
    if ((to?.length ?? 1) > 1 || (sheets?.length ?? 1) > 1) {
      throw new UsageError(
        '--out - takes a single sheet',
        'name one format with --to and one kind with --sheets',
      );
    }
    return { kind: 'single' };
  }
  if (out !== undefined) return { kind: 'folder', path: out };
  const files = to?.filter(name => name !== 'text') ?? [];
  if (files.length > 0) {
    throw new UsageError(`--to ${files.join(',')} writes files`, 'say where with --out <folder>');
  }
  return { kind: 'text' };
};

const jobOf = async (options: ArrangeOptions, destination: Destination): Promise<Job> => ({
  choice: choiceOf(options),
  instruments: chooseInstruments(options),
  rules: rulesOf(options),
  transpose: options.transpose ?? 0,
  match: options.match ?? false,
  formats: [...new Set(options.to ?? ['text'])].map(formatNamed),
  sheets: options.sheets ?? (destination.kind === 'folder' ? SHEETS : ['tab']),
  style: {
    paper: options.paper ?? 'a4',
    width: options.width ?? (destination.kind === 'folder' ? undefined : process.stdout.columns) ?? 80,
    ascii: options.ascii ?? false,
    dpi: options.dpi ?? 150,
    transparent: options.transparent ?? false,
    font: options.font === undefined ? undefined : readFont(options.font),
    paint: await painter(options.color !== false && destination.kind !== 'folder'),
  },
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

const deliver = (outputs: readonly Output[], destination: Destination, quiet: boolean): void => {
  if (destination.kind === 'folder') {
    const files = outputs.map(({ name, content }) => ({ path: join(destination.path, name), content }));
    writeFiles(files);
    if (!quiet) print(files.map(({ path }) => `${path}\n`).join(''));
    return;
  }
  if (destination.kind === 'single' && outputs.length > 1) {
    throw new UsageError(
      `--out - takes a single sheet, and this makes ${outputs.length} (${outputs.map(({ name }) => name).join(', ')})`,
      'use --out <folder>',
    );
  }
  const contents = outputs.map(({ content }) => content);
  if (contents.every(each => typeof each === 'string')) {
    print(contents.map(each => (each.endsWith('\n') ? each : `${each}\n`)).join('\n'));
    return;
  }
  if (process.stdout.isTTY) {
    throw new UsageError('a terminal cannot show this format', 'use --out <folder>, or > and a file name');
  }
  for (const each of contents) print(each);
};
