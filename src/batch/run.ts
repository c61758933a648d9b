/** One tune after the other: read, choose, arrange, render. A tune that fails never stops the rest. */
import type { Format, Sheet, SheetStyle } from '../emit/formats.ts';
import { arrangeEditions, type EditionsAsked } from '../fingering/editions.ts';
import type { Instrument } from '../instrument/instrument.ts';
import { type Diagnostic, Refusal } from '../score/diagnostic.ts';
import { chooseMelody, type Melody, type MelodyChoice } from '../score/melody.ts';
import type { Input } from './inputs.ts';

/** What is to be made of each tune. */
export interface Job extends EditionsAsked {
  readonly choice: MelodyChoice;
  readonly formats: readonly Format[];
  readonly sheets: readonly Sheet[];
  readonly style: SheetStyle;
}

/** A file's worth of output, named below the output folder. */
export interface Output {
  readonly name: string;
  readonly content: string | Uint8Array;
}

/** What became of a tune. Diagnostics carry the input's name as file. */
export type Outcome =
  | {
      readonly kind: 'arranged';
      readonly outputs: readonly Output[];
      readonly diagnostics: readonly Diagnostic[];
    }
  | { readonly kind: 'refused'; readonly diagnostics: readonly Diagnostic[] }
  | { readonly kind: 'fault'; readonly diagnostics: readonly Diagnostic[] };

/** Makes all outputs of one tune, in memory. */
export const runTune = async (input: Input, job: Job): Promise<Outcome> => {
  const named = (diagnostics: readonly Diagnostic[]): readonly Diagnostic[] =>
    diagnostics.map(each => ({ ...each, place: { file: input.name, ...each.place } }));
  try {
    const { outputs, diagnostics } = await makeOutputs(input, job);
    return { kind: 'arranged', outputs, diagnostics: named(diagnostics) };
  } catch (error) {
    if (error instanceof Refusal) return { kind: 'refused', diagnostics: named(error.diagnostics) };
    return { kind: 'fault', diagnostics: named([faultOf(error)]) };
  }
};

/** An unexpected exception, as a diagnostic: it is our mistake, and says so. */
export const faultOf = (error: unknown): Diagnostic => ({
  severity: 'error',
  code: 'fault',
  message: `fretward made a mistake of its own: ${error instanceof Error ? error.message : String(error)}`,
  hint: 'please report it together with the tune and the command',
});

const makeOutputs = async (input: Input, job: Job) => {
  const { tune, diagnostics: reading } = await loadTune(input, job.choice);
  const diagnostics = [...reading];
  const outputs: Output[] = [];
  const { tune: moved, editions, diagnostics: together } = arrangeEditions(tune, job);
  diagnostics.push(...together);
  for (const { arrangement, diagnostics: own } of editions) {
    const { instrument } = arrangement;
    diagnostics.push(...own.map(each => forInstrument(each, instrument, job)));
    for (const format of job.formats) {
      for (const sheet of format.per === 'sheet' ? job.sheets : job.sheets.slice(0, 1)) {
        const rendered = await format.render(moved, arrangement, sheet, job.style);
        diagnostics.push(...rendered.diagnostics);
        const kind = format.per === 'sheet' ? `.${sheet}` : '';
        rendered.pages.forEach((content, index) => {
          const page = index > 0 ? `.${index + 1}` : '';
          outputs.push({ name: `${input.stem}.${instrument.id}${kind}${page}.${format.extension}`, content });
        });
      }
    }
  }
  return { outputs, diagnostics: withoutRepeats(diagnostics) };
};

/** Reads an input and chooses its melody. Throws a Refusal. */
export const loadTune = async (input: Input, choice: MelodyChoice): Promise<Melody> => {
  const { readScore } = await import('../read/read.ts');
  const { score, diagnostics } = readScore(input.load());
  const melody = chooseMelody(score, choice);
  return { tune: melody.tune, diagnostics: [...diagnostics, ...melody.diagnostics] };
};

/** Where several editions are made at once, each says which one it speaks of. */
const forInstrument = (diagnostic: Diagnostic, instrument: Instrument, job: Job): Diagnostic =>
  job.instruments.length > 1
    ? { ...diagnostic, message: `${instrument.id}: ${diagnostic.message}` }
    : diagnostic;

/** The same warning for the second sheet or edition is said once. */
const withoutRepeats = (diagnostics: readonly Diagnostic[]): readonly Diagnostic[] => {
  const seen = new Set<string>();
  return diagnostics.filter(each => {
    const key = JSON.stringify(each);
    return !seen.has(key) && seen.add(key);
  });
};
