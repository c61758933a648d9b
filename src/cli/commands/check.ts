/** `fretward check`: whether string and fret numbers that are in files are right. */

import type { Instrument } from '../../instrument/instrument.ts';
import { checkMarks } from '../../lesson/check.ts';
import { counted } from '../../score/numbers.ts';
import { takesTunes } from '../define.ts';
import { answerEach } from '../each.ts';
import { UsageError } from '../exit.ts';
import { type InForce, obeying } from '../in-force.ts';
import { chooseInstruments } from '../instruments.ts';
import { wordsFor } from '../options/check.ts';
import { type OptionName, READING } from '../options/options.ts';
import { rulesOf } from '../options/rules.ts';

const OPTION_NAMES = [
  'instrument',
  'tuning',
  'capo',
  'frets',
  'open',
  'onePlace',
  'hand',
  'part',
  'voice',
  'chords',
  ...READING,
  'json',
  'quiet',
] as const satisfies readonly OptionName[];

type Asked = InForce<(typeof OPTION_NAMES)[number]>;

const EXAMPLES = `  fretward check marked.musicxml -i ukulele-low-g -f 4-8
      every place sounds its note, in frets 4 to 8, and can be held
  fretward check marked.musicxml -i guitar --one-place --open never
      no pitch in two places, no open strings
  fretward check sheets/ --json --quiet
      a folder of files, as JSON; exit status 1 if anything is wrong`;

export const define = takesTunes({
  options: OPTION_NAMES,
  said: {
    instrument: {
      help: `the instrument of the numbers: one of ${wordsFor('instrument').join(', ')}, or a JSON file that describes yours`,
    },
    frets: {
      help: 'the window of frets that notes must lie in: 4-8, or by measures 1-16:4-8,17-32:10-15',
      default: 'the whole neck',
    },
    chords: { default: 'all' },
  },
  examples: EXAMPLES,
});

export const run = async (
  tunes: readonly string[],
  typed: Readonly<Record<string, unknown>>,
): Promise<number> =>
  obeying({ tunes, typed, names: OPTION_NAMES }, asked => {
    // What is typed wrong is said before any tune is read.
    instrumentOf(asked.options);
    return answerEach(tunes, withAllChords(asked), ({ tune, file }, options) => {
      const instrument = instrumentOf(options);
      const { notes, marked, faults } = checkMarks(tune, instrument, rulesOf(options));
      const verdict = faults.length === 0 ? 'all is in order' : counted(faults.length, 'fault');
      return {
        data: { file, instrument: instrument.id, notes, marked, faults },
        text: `${file}, ${instrument.name}: ${counted(notes, 'note')}, ${marked} with string and fret; ${verdict}\n`,
        diagnostics: faults,
        // Nothing is arranged here.
        covers: ['left-out'],
      };
    });
  });

/** Every note is looked at, unless somebody says otherwise. */
const withAllChords = (asked: Asked): Asked => ({
  ...asked,
  optionsFor: tune => ({ chords: 'all', ...asked.optionsFor(tune) }),
});

const instrumentOf = (options: Asked['options']): Instrument => {
  const [instrument, ...others] = chooseInstruments(options);
  if (others.length === 0) return instrument!;
  throw new UsageError('a file is marked for one instrument', 'name one with --instrument', {
    option: 'instrument',
  });
};
