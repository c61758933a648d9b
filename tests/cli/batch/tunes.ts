/** A folder of tunes, and the line that makes sheets of them. */
import { GRACE, MICHAEL, ROW, type Terminal, terminal } from '../terminal.ts';

export const BUILD = 'fretward arrange tunes -s tab --out out';

/** A terminal with that many tunes in `tunes/`. */
export const withTunes = (count = 3): Terminal => {
  const term = terminal();
  for (let index = 0; index < count; index++) {
    term.tune([ROW, GRACE, MICHAEL][index % 3]!, `tunes/${String(index).padStart(2, '0')}.musicxml`);
  }
  return term;
};
