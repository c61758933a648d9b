/** `fretward chords`: shapes for chord symbols, and the chord chart of a tune. */
import { existsSync } from 'node:fs';
import { Claims } from '../../batch/claims.ts';
import type { Input } from '../../batch/inputs.ts';
import type { Printing } from '../../batch/job.ts';
import type { Output } from '../../batch/outcome.ts';
import { loadTune } from '../../batch/run.ts';
import type { FretWindow } from '../../fingering/arrangement.ts';
import { handOn } from '../../fingering/hand.ts';
import type { Instrument } from '../../instrument/instrument.ts';
import { topFret } from '../../instrument/places.ts';
import { chordChart, symbolsOf } from '../../lesson/chords/chart.ts';
import { type ChordSheet, chordSheet, shapelessChords } from '../../lesson/chords/sheet.ts';
import { isChordSymbol, parseChordSymbol } from '../../lesson/chords/symbol.ts';
import type { Wishes } from '../../lesson/chords/voicings.ts';
import { type Diagnostic, Refusal } from '../../score/diagnostic.ts';
import type { ChordSymbol } from '../../score/model/chord-symbol.ts';
import { intervalOf } from '../../score/transpose.ts';
import { type KeyAsked, moveTo } from '../../score/transpose-to-key.ts';
import { transposeSymbol, transposeTune } from '../../score/transpose-tune.ts';
import { choiceOf, limitsOf } from '../asked.ts';
import { attempt, type Say } from '../attempt.ts';
import { defined } from '../define.ts';
import { DIAGRAM_NAMES, DIAGRAM_SAID, type Diagram, diagramPrinting, renderDiagrams } from '../diagrams.ts';
import { EXIT, UsageError } from '../exit.ts';
import { blaming, type InForce, obeying } from '../in-force.ts';
import { chooseInstruments } from '../instruments.ts';
import { type OptionName, type Options, READING } from '../options/options.ts';
import { listed } from '../options/values.ts';
import { deliver } from '../output.ts';
import { tunesNamed } from '../tunes.ts';

const OPTION_NAMES = [
  'shapes',
  'near',
  'frets',
  'open',
  'hand',
  'instrument',
  'tuning',
  'capo',
  'part',
  'voice',
  'transpose',
  'measuresPerSystem',
  ...DIAGRAM_NAMES,
  ...READING,
] as const satisfies readonly OptionName[];

type ChordOptions = Options<(typeof OPTION_NAMES)[number]>;

const EXAMPLES = `  fretward chords Am7 B7 Bb9 F#m7b5
      three shapes for each on the ukulele, with fingers
  fretward chords C G/B Am -i guitar --shapes 1
  fretward chords F Bb C7 --near 5
      the same chords up the neck
  fretward chords tune.mxl -i ukulele -i baritone-ukulele --to pdf --out sheets/
      the chord chart of a tune, shapes on top, for both instruments
  fretward chords tune.mxl --transpose -3 --to svg --out sheets/`;

/** Of what is done with open strings elsewhere, what can be done in a shape. */
const OPEN = ['never', 'free'] as const;

const SAID = {
  ...DIAGRAM_SAID,
  frets: { help: 'the window of frets that shapes lie in: 5-9', default: 'the whole neck', own: true },
  open: { help: 'open strings: never; free', default: 'free', words: OPEN, own: true },
  near: { help: 'where on the neck the hand should be' },
} as const;

export const define = defined({
  argument: ['<chord-or-tune...>', 'chord symbols (Am7, Bb9, C/G), MusicXML files, folders or globs'],
  options: OPTION_NAMES,
  said: SAID,
  examples: EXAMPLES,
});

/** Shapes for symbols the more, since there is no chart beside them. */
const SHAPES = { symbols: 3, tune: 1 } as const;

export const run = async (
  words: readonly string[],
  typed: Readonly<Record<string, unknown>>,
): Promise<number> => {
  const tunes = words.filter(isFile);
  return obeying({ tunes, typed, names: OPTION_NAMES, said: SAID }, inForce => drawAll(words, inForce));
};

const drawAll = async (
  words: readonly string[],
  { options, optionsFor, settingsFor, saidAt }: InForce<(typeof OPTION_NAMES)[number]>,
): Promise<number> => {
  // What is typed wrong is said before any tune is read.
  const { destination } = await diagramPrinting(options);
  const general = await askedOf(options);
  const quiet = options.quiet ?? false;
  let status: number = EXIT.done;
  const claims = new Claims();
  const outputs: Output[] = [];
  for (const { input, make } of await sourcesOf(words)) {
    const own = input ? await blaming(settingsFor(input), () => askedOf(optionsFor(input))) : general;
    const draw = async (say: Say): Promise<void> => {
      const { diagrams, diagnostics } = await make(own);
      const rendered = await renderDiagrams(diagrams, own.printing, own.options);
      const names = rendered.outputs.map(({ name }) => name);
      if (input && destination.kind === 'folder') claims.claim(input.name, names);
      say([...diagnostics, ...rendered.diagnostics]);
      outputs.push(...rendered.outputs);
    };
    status = Math.max(status, await attempt(input, quiet, draw, input && saidAt(input)));
  }
  if (outputs.length === 0) return status;
  return Math.max(status, await attempt(undefined, quiet, async () => deliver(outputs, destination, quiet)));
};

interface Asked {
  readonly options: ChordOptions;
  readonly printing: Printing;
  readonly instruments: readonly Instrument[];
  readonly transpose: number | KeyAsked;
  readonly wishes: Wishes;
}

const askedOf = async (options: ChordOptions): Promise<Asked> => {
  const { printing } = await diagramPrinting(options);
  const instruments = chooseInstruments(options);
  return {
    options,
    printing,
    instruments,
    transpose: transposeOf(options),
    wishes: wishesOf(options, instruments),
  };
};

interface Made {
  readonly diagrams: readonly Diagram[];
  readonly diagnostics: readonly Diagnostic[];
}

/** All symbols together, or one tune. */
interface Source {
  readonly input: Input | undefined;
  readonly make: (asked: Asked) => Promise<Made>;
}

/** What reads as a chord symbol is one; what names a file, or ends as one does, is a tune. */
const isFile = (word: string): boolean =>
  word === '-' || (!isChordSymbol(word) && (/\.\w+$|[\\/]$|\*/.test(word) || existsSync(word)));

const sourcesOf = async (words: readonly string[]): Promise<readonly Source[]> => {
  const files = words.filter(isFile);
  const symbols = words.filter(word => !files.includes(word));
  const tunes = (await tunesNamed(files)).map(input => ({
    input,
    make: (asked: Asked) => chartOf(input, asked),
  }));
  if (symbols.length === 0) return tunes;
  return [{ input: undefined, make: asked => shapesOf(symbols, asked) }, ...tunes];
};

const shapesOf = async (words: readonly string[], asked: Asked): Promise<Made> => {
  const faults: Diagnostic[] = [];
  const interval = intervalOf(semitonesOf(asked.transpose));
  const symbols = words.flatMap(word => {
    try {
      return [transposeSymbol(parseChordSymbol(word), interval)];
    } catch (error) {
      if (!(error instanceof Refusal)) throw error;
      faults.push(...error.diagnostics);
      return [];
    }
  });
  if (faults.length > 0) throw new Refusal(...faults);
  return forEditions(symbols, asked, SHAPES.symbols, (sheet, { id }) => ({
    stem: `chords.${id}`,
    pages: async options => (await import('../../engrave/chart/sheet.ts')).engraveShapes(sheet, options),
    text: async options => (await import('../../emit/text/chords.ts')).chordsToText(sheet, options),
  }));
};

const chartOf = async (input: Input, asked: Asked): Promise<Made> => {
  const { tune, diagnostics } = await loadTune(input, choiceOf(asked.options), limitsOf(asked.options));
  const chart = chordChart(transposeTune(tune, moveTo(asked.transpose, tune)));
  const symbols = symbolsOf(chart);
  if (symbols.length === 0) {
    throw new Refusal({
      severity: 'error',
      code: 'no-chord-symbols',
      message: 'there are no chord symbols in this tune',
      hint: 'write them over the staff in the program that the file comes from, and export it again',
    });
  }
  const made = await forEditions(symbols, asked, SHAPES.tune, (sheet, { id }) => ({
    stem: `${input.stem}.${id}.chords`,
    pages: async options =>
      (await import('../../engrave/chart/chart.ts')).engraveChart(chart, sheet, options),
    text: async options => (await import('../../emit/text/chart.ts')).chartToText(chart, sheet, options),
  }));
  return { ...made, diagnostics: [...diagnostics, ...made.diagnostics] };
};

const forEditions = async (
  symbols: readonly ChordSymbol[],
  { options, instruments, wishes }: Asked,
  count: number,
  draw: (sheet: ChordSheet, instrument: Instrument) => Diagram,
): Promise<Made> => {
  const { signsFor } = await import('../../emit/text/signs.ts');
  const { chordText } = await import('../../emit/text/content.ts');
  const diagnostics: Diagnostic[] = [];
  const diagrams = instruments.map(instrument => {
    const sheet = chordSheet(handOn(instrument, options.hand), symbols, wishes, options.shapes ?? count);
    diagnostics.push(...shapelessChords(sheet, symbol => chordText(symbol, signsFor(false))));
    return draw(sheet, instrument);
  });
  return { diagrams, diagnostics };
};

const transposeOf = ({ transpose = 0 }: ChordOptions): number | KeyAsked => {
  if (transpose !== 'best') return transpose;
  throw new UsageError(
    '--transpose best needs a melody to be arranged',
    'fretward arrange says which key that is, with the same tune and window; name it here, as in --transpose D',
  );
};

/** How far chord symbols are moved that are typed, and so in no key. */
const semitonesOf = (transpose: Asked['transpose']): number => {
  if (typeof transpose === 'number') return transpose;
  throw new UsageError('--transpose to a key needs a tune that is in one', 'say by how many semitones');
};

const wishesOf = ({ near, frets, open }: ChordOptions, instruments: readonly Instrument[]): Wishes => {
  const top = Math.min(...instruments.map(topFret));
  const window = frets?.at(-1)?.window;
  if (frets?.some(({ measures }) => measures) || (frets?.length ?? 0) > 1) {
    throw new UsageError('chord shapes have one window for all', 'name it without measures: --frets 5-9');
  }
  if (window) checkWindow(window, top);
  if (near !== undefined && near > top) {
    throw new UsageError(`--near ${near} is off the neck`, `the neck has frets 1 to ${top}`);
  }
  if (open === 'rescue') {
    throw new UsageError('--open does not take "rescue" here', `use one of ${listed(OPEN)}`);
  }
  return {
    ...(window && { window }),
    ...(near !== undefined && { near }),
    ...(open && { open }),
  };
};

const checkWindow = ({ low, high }: FretWindow, top: number): void => {
  if (high <= top) return;
  const instead = low <= top ? `: write ${low}-${top}` : '';
  throw new UsageError(
    `frets ${low}-${high} are no window on this neck`,
    `the neck has frets 0 to ${top}${instead}`,
  );
};
