/** `fretward inspect`: what is in a tune, and where it would fit. */

import type { FretWindow } from '../../fingering/arrangement.ts';
import { windowsThatFit } from '../../fingering/fit.ts';
import { strikesOf } from '../../fingering/strikes.ts';
import { type WholeFit, wholeFit, wholeFitData, wholeFitText } from '../../fingering/whole-fit.ts';
import { INSTRUMENTS } from '../../instrument/catalogue.ts';
import { keyName, metreName, movedName } from '../../score/names.ts';
import { counted } from '../../score/numbers.ts';
import { pitchName } from '../../score/pitch.ts';
import { type PartSummary, type Summary, summarise } from '../../score/summary.ts';
import { takesTunes } from '../define.ts';
import { answerEach, type Loaded } from '../each.ts';
import { obeying } from '../in-force.ts';
import { type OptionName, READING } from '../options/options.ts';

const OPTION_NAMES = ['part', 'voice', ...READING, 'json', 'quiet'] as const satisfies readonly OptionName[];

/** How many frets the windows have that are tried: a hand and one fret. */
const WINDOW_WIDTH = 5;

const EXAMPLES = `  fretward inspect tune.mxl
      parts, voices, range, key, metre, and where it fits
  fretward inspect tune.mxl --part Flute --json
      the same for one part, as JSON`;

export const define = takesTunes({ options: OPTION_NAMES, examples: EXAMPLES });

/** Where the chosen melody fits: per instrument the narrowest window, and those of a hand's width. */
interface Fit extends WholeFit {
  readonly instrument: string;
  readonly windows: readonly FretWindow[];
}

interface Inspection extends Summary {
  readonly file: string;
  readonly melody: { readonly part: string; readonly voice: string; readonly notes: number };
  readonly fit: readonly Fit[];
}

export const run = async (
  tunes: readonly string[],
  typed: Readonly<Record<string, unknown>>,
): Promise<number> =>
  obeying({ tunes, typed, names: OPTION_NAMES }, asked =>
    answerEach(tunes, asked, loaded => {
      const inspection = inspectionOf(loaded);
      return { data: inspectionData(inspection), text: describe(inspection), covers: ['left-out'] };
    }),
  );

const inspectionOf = ({ file, score, tune }: Loaded): Inspection => {
  const { strikes } = strikesOf(tune);
  const sounds = strikes.flatMap(strike => strike.sounds);
  const pitches = strikes.flatMap(strike => strike.pitches);
  return {
    file,
    ...summarise(score),
    melody: { part: tune.part, voice: tune.voice, notes: sounds.length },
    fit: INSTRUMENTS.map(instrument => ({
      instrument: instrument.id,
      windows: windowsThatFit(instrument, sounds, WINDOW_WIDTH),
      ...wholeFit(instrument, pitches),
    })),
  };
};

const inspectionData = ({ fit, ...inspection }: Inspection) => ({
  ...inspection,
  fit: fit.map(({ instrument, windows, ...whole }) => ({
    instrument,
    fits: whole.missing.length === 0,
    windows,
    ...wholeFitData(whole),
  })),
});

const describe = (inspection: Inspection): string => {
  const { file, heading, parts, measures, melody, fit } = inspection;
  const lines = [
    `${heading.title ?? 'Untitled'} (${file})`,
    ...row('composer', heading.composer),
    ...row('lyricist', heading.lyricist),
    ...row('rights', heading.rights.join('; ')),
    ...row('measures', String(measures)),
    ...parts.flatMap(describePart),
    `  melody: part ${melody.part}, voice ${melody.voice}, ${counted(melody.notes, 'note')}`,
    '  fits:',
    ...fit.map(describeFit),
  ];
  return `${lines.join('\n')}\n`;
};

const row = (name: string, value: string | undefined): readonly string[] =>
  value ? [`  ${name}: ${value}`] : [];

const describePart = (part: PartSummary): readonly string[] => [
  `  part ${part.id}${part.name ? ` (${part.name})` : ''}: ${part.keys.map(keyName).join(', then ')}; ${
    part.times.map(metreName).join(', then ') || 'no time signature'
  }${part.transposed === 0 ? '' : `; transposing: sounds ${movedName(part.transposed)}`}${part.chordSymbols > 0 ? `; ${counted(part.chordSymbols, 'chord symbol')}` : ''}`,
  ...part.voices.map(voice => {
    const range = voice.range
      ? `${pitchName(voice.range.lowest)} to ${pitchName(voice.range.highest)}`
      : 'no pitched notes';
    const verses = voice.verses.length > 0 ? `; ${counted(voice.verses.length, 'verse')}` : '';
    const chords = voice.chords > 0 ? `; ${counted(voice.chords, 'chord')}` : '';
    return `    voice ${voice.id}: ${counted(voice.notes, 'note')}, ${range}${chords}${verses}`;
  }),
  ...part.leftOut.map(({ what, count }) => `    not on the sheets: ${what} (${count})`),
];

const describeFit = ({ instrument, windows, ...whole }: Fit): string => {
  const width = windows.length > 0 ? `; windows of ${WINDOW_WIDTH} frets: ${windowRanges(windows)}` : '';
  return `    ${instrument.padEnd(18)}${wholeFitText(whole)}${width}`;
};

/** "1-5, 3-7 to 9-13": windows that follow each other together. */
const windowRanges = (windows: readonly FretWindow[]): string => {
  const name = ({ low, high }: FretWindow): string => `${low}-${high}`;
  const starts = windows.filter(({ low }, index) => windows[index - 1]?.low !== low - 1);
  const ends = windows.filter(({ low }, index) => windows[index + 1]?.low !== low + 1);
  return starts.map((start, index) => [...new Set([start, ends[index]!])].map(name).join(' to ')).join(', ');
};
