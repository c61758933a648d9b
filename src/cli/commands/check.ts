/** `fretward check`: whether string and fret numbers that are in files are right. */

import { checkMarks } from '../../lesson/check.ts';
import { counted } from '../../score/numbers.ts';
import { takesTunes } from '../define.ts';
import { answerEach } from '../each.ts';
import { EXIT, UsageError } from '../exit.ts';
import { chooseInstruments } from '../instruments.ts';
import { checkOptions } from '../options/check.ts';
import { LIMITING, type OptionName } from '../options/options.ts';
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
  ...LIMITING,
  'json',
  'quiet',
] as const satisfies readonly OptionName[];

const EXAMPLES = `  fretward check marked.musicxml -i ukulele-low-g -f 4-8
      every place sounds its note, in frets 4 to 8, and can be held
  fretward check marked.musicxml -i guitar --one-place --open never
      no pitch in two places, no open strings
  fretward check sheets/ --json --quiet
      a folder of files, as JSON; exit status 1 if anything is wrong`;

export const define = takesTunes({
  options: OPTION_NAMES,
  said: { chords: { default: 'all' } },
  examples: EXAMPLES,
});

export const run = async (
  tunes: readonly string[],
  typed: Readonly<Record<string, unknown>>,
): Promise<number> => {
  const options = checkOptions(typed, OPTION_NAMES);
  const [instrument, ...others] = chooseInstruments(options);
  if (others.length > 0) {
    throw new UsageError('a file is marked for one instrument', 'name one with --instrument');
  }
  const rules = rulesOf(options);
  let faulty = 0;
  const chosen = { ...options, chords: options.chords ?? ('all' as const) };
  const status = await answerEach(tunes, chosen, ({ tune, file }) => {
    const { notes, marked, faults } = checkMarks(tune, instrument!, rules);
    if (faults.length > 0) faulty += 1;
    const verdict = faults.length === 0 ? 'all is in order' : counted(faults.length, 'fault');
    return {
      data: { file, instrument: instrument!.id, notes, marked, faults },
      text: `${file}, ${instrument!.name}: ${counted(notes, 'note')}, ${marked} with string and fret; ${verdict}\n`,
      diagnostics: faults,
      // Nothing is arranged here.
      covers: ['left-out'],
    };
  });
  return faulty > 0 ? Math.max(status, EXIT.refused) : status;
};
