/** From `--instrument`, `--tuning` and `--capo` to instruments. */
import { DEFAULT_INSTRUMENT, INSTRUMENTS } from '../instrument/catalogue.ts';
import { findInstrument, parseInstrument, withCapo, withTuning } from '../instrument/define.ts';
import type { Instrument } from '../instrument/instrument.ts';
import { Refusal } from '../score/diagnostic.ts';
import { nearest } from '../score/nearest.ts';
import { UsageError } from './exit.ts';
import { readOptionFile } from './option-file.ts';
import type { Options } from './options/options.ts';

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
  try {
    const instrument = name.endsWith('.json') ? instrumentIn(name) : findInstrument(name);
    const tuned = tuning === undefined ? instrument : withTuning(instrument, tuning);
    return capo === undefined ? tuned : withCapo(tuned, capo);
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    const { code, message, hint = '' } = error.diagnostics[0]!;
    const ids = INSTRUMENTS.map(({ id }) => id);
    if (code === 'bad-tuning') throw new UsageError(`--tuning does not take "${tuning}": ${message}`, hint);
    if (code === 'bad-instrument-file')
      throw new UsageError(`--instrument does not take "${name}": ${message}`, hint);
    if (code === 'bad-capo') throw new UsageError(message, hint, { option: 'capo' });
    const meant = meantBy(name, ids);
    throw new UsageError(message, meant === undefined ? hint : `is ${meant} meant? ${hint}`, {
      option: 'instrument',
    });
  }
};

/** "low g" is in ukulele-low-g. */
const meantBy = (name: string, ids: readonly string[]): string | undefined => {
  const words = name
    .trim()
    .toLowerCase()
    .replace(/[\s_]+/g, '-');
  return nearest(words, ids) ?? ids.find(id => words.length > 2 && id.includes(words));
};

const instrumentIn = (path: string): Instrument => {
  const hint = 'name a JSON file that describes your instrument';
  return parseInstrument(readOptionFile('--instrument', path, hint).toString('utf8'));
};
