/** From `--instrument`, `--tuning` and `--capo` to instruments. */
import { isInstrumentFile } from '../batch/paths.ts';
import { DEFAULT_INSTRUMENT, INSTRUMENTS } from '../instrument/catalogue.ts';
import { findInstrument, parseInstrument, withCapo, withTuning } from '../instrument/define.ts';
import type { Instrument } from '../instrument/instrument.ts';
import { Refusal } from '../score/diagnostic.ts';
import { nearest } from '../score/nearest.ts';
import { UsageError } from './exit.ts';
import { readOptionFile } from './option-file.ts';
import type { OptionName, Options } from './options/options.ts';

/** The instruments asked for, the default one where none is. Throws a UsageError where they cannot be had. */
export const chooseInstruments = (
  options: Options<'instrument' | 'tuning' | 'capo'>,
): readonly Instrument[] => {
  const names = options.instrument ?? [DEFAULT_INSTRUMENT];
  const instruments = names.map(name => instrumentOf(name, options));
  const twice = instruments.find((each, index) => instruments.findIndex(({ id }) => id === each.id) < index);
  if (twice) throw new UsageError(`--instrument names ${twice.id} twice`, 'name each edition once');
  return instruments;
};

const instrumentOf = (name: string, { tuning, capo }: Options<'tuning' | 'capo'>): Instrument => {
  const instrument = isInstrumentFile(name) ? instrumentIn(name) : instrumentCalled(name);
  const tuned =
    tuning === undefined
      ? instrument
      : unlessRefused('tuning', () => withTuning(instrument, tuning), {
          before: `--tuning does not take "${tuning}": `,
        });
  return capo === undefined ? tuned : unlessRefused('capo', () => withCapo(tuned, capo));
};

/** Makes something of what an option says; where that is refused, it is the option that is wrong. */
const unlessRefused = <T>(
  option: OptionName,
  make: () => T,
  { before = '', meant }: { readonly before?: string; readonly meant?: string | undefined } = {},
): T => {
  try {
    return make();
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    const { message, hint = '' } = error.diagnostics[0]!;
    const question = meant === undefined ? '' : `is ${meant} meant? `;
    throw new UsageError(`${before}${message}`, `${question}${hint}`, { option });
  }
};

const instrumentIn = (path: string): Instrument => {
  const json = readOptionFile('--instrument', path, 'name a JSON file that describes your instrument');
  return unlessRefused('instrument', () => parseInstrument(json.toString('utf8')), {
    before: `--instrument does not take "${path}": `,
  });
};

const instrumentCalled = (name: string): Instrument =>
  unlessRefused('instrument', () => findInstrument(name), { meant: meantBy(name) });

/** "low g" is in ukulele-low-g. */
const meantBy = (name: string): string | undefined => {
  const ids = INSTRUMENTS.map(({ id }) => id);
  const words = name
    .trim()
    .toLowerCase()
    .replace(/[\s_]+/g, '-');
  return nearest(words, ids) ?? ids.find(id => words.length > 2 && id.includes(words));
};
