/** `fretward survey`: where on the neck, and in which key, a tune fits. */
import { Claims } from '../../batch/claims.ts';
import type { Output } from '../../batch/outcome.ts';
import { withoutRepeats } from '../../batch/said.ts';
import { rulesFrom } from '../../fingering/rules.ts';
import { strikesOf } from '../../fingering/strikes.ts';
import { ranked, type SurveyRow, survey, TRANSPOSITIONS, windowsOf } from '../../fingering/survey.ts';
import { type WholeFit, wholeFit, wholeFitData, wholeFitText } from '../../fingering/whole-fit.ts';
import type { Instrument } from '../../instrument/instrument.ts';
import type { Diagnostic } from '../../score/diagnostic.ts';
import { keyName } from '../../score/names.ts';
import { mmNumber, mmText, pointsNumber, pointsText } from '../../score/numbers.ts';
import { transposeTune } from '../../score/transpose-tune.ts';
import type { Tune } from '../../score/tune.ts';
import { attempt } from '../attempt.ts';
import { takesTunes } from '../define.ts';
import { answerEach } from '../each.ts';
import { UsageError } from '../exit.ts';
import { type InForce, obeying } from '../in-force.ts';
import { chooseInstruments } from '../instruments.ts';
import { type OptionName, type Options, READING } from '../options/options.ts';
import { layoutOf } from '../options/sheets.ts';
import { listed } from '../options/values.ts';
import { type Destination, deliver, destinationOf } from '../output.ts';
import { type Column, table } from '../table.ts';
import { columnsOf } from '../width.ts';

const OPTION_NAMES = [
  'instrument',
  'tuning',
  'capo',
  'span',
  'open',
  'campanella',
  'level',
  'hand',
  'part',
  'voice',
  'chords',
  ...READING,
  'rows',
  'to',
  'out',
  'paper',
  'landscape',
  'margins',
  'json',
  'quiet',
] as const satisfies readonly OptionName[];

type SurveyOptions = Options<(typeof OPTION_NAMES)[number]>;

const DEFAULT_SPAN = 5;
const DEFAULT_ROWS = 12;

const EXAMPLES = `  fretward survey tune.mxl -i ukulele-low-g
      every window of five frets in every key around: a map, and the best twelve
  fretward survey tune.mxl -i ukulele -i ukulele-low-g --span 4 --rows 30
      windows of four frets on both ukuleles, the best thirty of each
  fretward survey tune.mxl -i ukulele --to svg --out maps/
      the map as a page to print
  fretward survey tune.mxl --json
      all of it, as JSON`;

const FORMAT_NAMES = ['text', 'svg'] as const;

const SAID = {
  open: { default: 'rescue' },
  to: {
    help: 'text: the table and a map in characters; svg: the map as a page to print',
    words: FORMAT_NAMES,
  },
} as const;

export const define = takesTunes({ options: OPTION_NAMES, said: SAID, examples: EXAMPLES });

export const run = async (
  tunes: readonly string[],
  typed: Readonly<Record<string, unknown>>,
): Promise<number> =>
  obeying({ tunes, typed, names: OPTION_NAMES, said: SAID }, asked => surveyAll(tunes, asked));

const surveyAll = async (
  tunes: readonly string[],
  asked: InForce<(typeof OPTION_NAMES)[number]>,
): Promise<number> => {
  const { options } = asked;
  const destination = mapDestination(options);
  // What is typed wrong is said before any tune is read.
  chooseInstruments(options);
  const claims = new Claims();
  const drawn: Output[] = [];
  const status = await answerEach(tunes, asked, async ({ tune, file, stem }, own) => {
    const surveys = surveysOf(tune, own);
    if (!destination) return answer(file, tune, surveys, own);
    const nameOf = ({ instrument }: Survey): string => `${stem}.${instrument.id}.survey.svg`;
    claims.claim(file, surveys.map(nameOf));
    const diagnostics: Diagnostic[] = [];
    for (const each of surveys) {
      const map = await drawMap(file, tune, each, own);
      drawn.push({ name: nameOf(each), content: map.content });
      diagnostics.push(...map.diagnostics);
    }
    return { data: undefined, text: '', diagnostics: withoutRepeats(diagnostics) };
  });
  if (!destination || drawn.length === 0) return status;
  const { quiet = false } = options;
  return Math.max(status, await attempt(undefined, quiet, async () => deliver(drawn, destination, quiet)));
};

/** What was found out about a tune on one instrument. */
interface Survey {
  readonly instrument: Instrument;
  readonly whole: WholeFit;
  readonly rows: readonly SurveyRow[];
}

/** Surveys a tune on the instruments and by the rules that the options say. */
const surveysOf = (tune: Tune, options: SurveyOptions): readonly Survey[] => {
  const { open = 'rescue', campanella = false, level = 'even', hand = 'medium' } = options;
  const rules = rulesFrom({ open, campanella, level, hand });
  const { strikes } = strikesOf(tune);
  const pitches = strikes.flatMap(strike => strike.pitches);
  return chooseInstruments(options).map(instrument => ({
    instrument,
    whole: wholeFit(instrument, pitches),
    rows: survey(strikes, tune.division, instrument, rules, {
      windows: windowsOf(instrument, options.span ?? DEFAULT_SPAN),
      transpositions: TRANSPOSITIONS,
    }),
  }));
};

const titleOf = (file: string, tune: Tune): string => tune.title ?? file;

const keyNameOf =
  (tune: Tune) =>
  (transposition: number): string =>
    keyName(transposeTune(tune, transposition).measures[0]!.key);

const answer = (file: string, tune: Tune, surveys: readonly Survey[], { rows: most }: SurveyOptions) => ({
  data: {
    file,
    surveys: surveys.map(({ instrument, whole, rows }) => ({
      instrument: instrument.id,
      ...wholeFitData(whole),
      rows: ranked(rows).map(rowData),
    })),
  },
  text: surveys
    .map(({ instrument, whole, rows }) =>
      surveyText(
        [`${titleOf(file, tune)}, ${instrument.name}`, `As it is written: ${wholeFitText(whole)}.`],
        rows,
        keyNameOf(tune),
        most ?? DEFAULT_ROWS,
      ),
    )
    .join('\n'),
});

/** The map is drawn with --to svg; everything else is words or JSON. */
const mapDestination = (options: SurveyOptions): Destination | undefined => {
  if (options.to === undefined || options.to.join() === 'text') return undefined;
  if (options.to.join() !== 'svg') {
    throw new UsageError(
      `--to does not take "${options.to.join(',')}" here`,
      `use one of ${listed(FORMAT_NAMES)}`,
    );
  }
  if (options.json) throw new UsageError('--json and --to svg do not go together', 'leave one of them out');
  return destinationOf({ ...options, sheets: undefined });
};

const drawMap = async (file: string, tune: Tune, { instrument, rows }: Survey, options: SurveyOptions) => {
  const [{ surveyPage }, { pageToSvg }, { leftToTheReader }] = await Promise.all([
    import('../../engrave/survey/map.ts'),
    import('../../emit/svg.ts'),
    import('../../emit/type/missing.ts'),
  ]);
  const map = { title: titleOf(file, tune), subtitle: instrument.name, rows, keyName: keyNameOf(tune) };
  const page = surveyPage(map, layoutOf(options));
  return { content: pageToSvg(page), diagnostics: leftToTheReader([page]) };
};

const rowData = (row: SurveyRow): SurveyRow => ({
  ...row,
  costPerNote: pointsNumber(row.costPerNote),
  widestReach: mmNumber(row.widestReach),
});

const surveyText = (
  head: readonly string[],
  rows: readonly SurveyRow[],
  keyOf: (transposition: number) => string,
  count: number,
): string => {
  const columns: readonly Column<SurveyRow>[] = [
    { title: 'key', align: 'left', cell: row => keyOf(row.transposition) },
    { title: 'moved', align: 'right', cell: row => signed(row.transposition) },
    { title: 'frets', align: 'left', cell: ({ window }) => `${window.low}-${window.high}` },
    { title: 'fit', align: 'right', cell: row => String(row.fitting) },
    { title: 'do not', align: 'right', cell: row => String(row.misfits) },
    { title: 'points a note', align: 'right', cell: row => pointsText(row.costPerNote) },
    { title: 'shifts', align: 'right', cell: row => String(row.shifts) },
    { title: 'widest reach', align: 'right', cell: row => mmText(row.widestReach) },
  ];
  return [
    ...head,
    'Notes without a place, by key (down) and window (across, from its lowest fret):',
    heatMap(rows),
    table(columns, ranked(rows).slice(0, count)),
  ].join('\n');
};

const signed = (semitones: number): string => (semitones > 0 ? `+${semitones}` : String(semitones));

/** Columns that a key, and each window, takes in the map. */
const KEY_COLUMNS = 7;
const WINDOW_COLUMNS = 4;

/** Misfits as figures, a dot where every note fits: keys down, windows across by their lowest fret. */
const heatMap = (rows: readonly SurveyRow[]): string => {
  const lows = [...new Set(rows.map(row => row.window.low))];
  const across = Math.floor((columnsOf(process.stdout) - KEY_COLUMNS) / WINDOW_COLUMNS);
  const parts = Array.from({ length: Math.ceil(lows.length / across) }, (_, part) =>
    heatMapOf(rows, lows.slice(part * across, (part + 1) * across)),
  );
  return parts.join('\n');
};

const heatMapOf = (rows: readonly SurveyRow[], lows: readonly number[]): string => {
  const keys = [...new Set(rows.map(row => row.transposition))].sort((a, b) => b - a);
  const line = (name: string, cells: readonly string[]): string =>
    `${name.padStart(KEY_COLUMNS - 1)} ${cells.map(cell => cell.padStart(WINDOW_COLUMNS)).join('')}`;
  return [
    line(
      'frets',
      lows.map(low => `${low}-`),
    ),
    ...keys.map(key =>
      line(
        signed(key),
        lows.map(low => {
          const { misfits } = rows.find(row => row.transposition === key && row.window.low === low)!;
          return misfits === 0 ? '·' : String(misfits);
        }),
      ),
    ),
    '',
  ].join('\n');
};
