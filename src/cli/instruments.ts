/** From `--instrument`, `--tuning` and `--capo` to instruments. */
import { readFileSync } from 'node:fs';
import { findInstrument, parseInstrument, withCapo, withTuning } from '../instrument/define.ts';
import type { Instrument } from '../instrument/instrument.ts';
import { Refusal } from '../score/diagnostic.ts';
import { UsageError } from './exit.ts';
import type { Options } from './options/options.ts';

/** The instruments asked for, the default one where none is. Throws a UsageError where they cannot be had. */
export const chooseInstruments = (
  options: Options<'instrument' | 'tuning' | 'capo'>,
): readonly Instrument[] => {
  const names = options.instrument ?? [undefined];
  try {
    const instruments = names.map(name => adapt(load(name), options));
    const twice = instruments.find(
      (each, index) => instruments.findIndex(({ id }) => id === each.id) < index,
    );
    if (twice) throw new UsageError(`--instrument names ${twice.id} twice`, 'name each edition once');
    return instruments;
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    const { message, hint } = error.diagnostics[0]!;
    throw new UsageError(message, hint);
  }
};

const adapt = (instrument: Instrument, { tuning, capo }: Options<'tuning' | 'capo'>): Instrument => {
  const tuned = tuning === undefined ? instrument : withTuning(instrument, tuning);
  return capo === undefined ? tuned : withCapo(tuned, capo);
};

const load = (name: string | undefined): Instrument => {
  if (!name?.endsWith('.json')) return findInstrument(name);
  try {
    return parseInstrument(readFileSync(name, 'utf8'));
  } catch (error) {
    if (error instanceof Refusal) throw error;
    throw new UsageError(`the instrument file ${name} cannot be read`, 'check the path and its permissions');
  }
};
