/** The options that say which tune, for which instruments, in which key. */
import * as z from 'zod/mini';
import { DEFAULT_INSTRUMENT, INSTRUMENTS } from '../../instrument/catalogue.ts';
import { flag } from './row.ts';
import { listed, oneOf, transposition, whole } from './values.ts';

export const INSTRUMENT_ROWS = {
  instrument: {
    flags: '-i, --instrument <id>',
    help: `one of ${listed(INSTRUMENTS.map(each => each.id))}, or a JSON file that describes yours; several make an edition each`,
    default: DEFAULT_INSTRUMENT,
    list: true,
    schema: () => z.array(z.string()),
  },
  tuning: {
    flags: '--tuning <notes>',
    help: 'open strings as you say them, string 1 last: "G3 C4 E4 A4"',
    default: 'the instrument’s own',
    schema: () => z.string(),
  },
  capo: {
    flags: '--capo <fret>',
    help: 'put a capo at this fret; frets are counted from it',
    default: '0',
    schema: () => whole(0, 36),
  },
} as const;

export const TUNE_ROWS = {
  part: {
    flags: '--part <part>',
    help: 'the part that is taken, by name, id or number',
    default: 'the first with notes',
    schema: () => z.string(),
  },
  voice: {
    flags: '--voice <id>',
    help: 'the voice of that part',
    default: 'its first with notes',
    schema: () => z.string(),
  },
  chords: {
    flags: '--chords <which>',
    help: 'of notes struck together: top: the highest alone; all: all of them, as shapes',
    default: 'top',
    schema: () => oneOf(['top', 'all']),
  },
  transpose: {
    flags: '--transpose <where>',
    help: 'move the tune by semitones, down with a minus; to a key, the nearest way: C, "G minor"; best: to the key in which most notes fit, at least effort',
    default: '0',
    schema: transposition,
  },
  match: flag(
    '--match',
    'of several instruments, the later ones play as many notes as can be where the first one does',
  ),
} as const;
