/** Which words options take, where they can be counted; for shells. */
import { INSTRUMENTS } from '../../instrument/catalogue.ts';
import { OPTIONS, type OptionName, type OptionRow } from './options.ts';
import { wordsTaken } from './values.ts';

/** The words that an option takes; none where it takes numbers, notes or names. */
export const valuesOf = (name: OptionName): readonly string[] => {
  if (name === 'instrument') return INSTRUMENTS.map(each => each.id);
  const row: OptionRow = OPTIONS[name];
  return wordsTaken(row.schema());
};
