/** `fretward difficulty`: what a fingering asks of the hand, in numbers. */
import {
  type Difficulty,
  type DifficultyReport,
  difficultyData,
  difficultyOf,
  type HardMove,
} from '../../fingering/difficulty.ts';
import type { Grip } from '../../fingering/grip.ts';
import { measureLabel } from '../../score/moments.ts';
import { mmText, pointsNumber, pointsText } from '../../score/numbers.ts';
import { takesTunes } from '../define.ts';
import { answerEditions } from '../each.ts';
import { obeying } from '../in-force.ts';
import { ARRANGING, type OptionName, READING } from '../options/options.ts';
import { STRIKE_COLUMNS } from '../strike-columns.ts';
import { type Column, table } from '../table.ts';

const OPTION_NAMES = [...ARRANGING, ...READING, 'json', 'quiet'] as const satisfies readonly OptionName[];

const EXAMPLES = `  fretward difficulty tune.mxl -i ukulele-low-g -f 4-8
      shifts, reach, string crossings, in all and measure by measure, and the
      hardest moves
  fretward difficulty tune.mxl -i ukulele -i ukulele-low-g -f 4-8 --json
      both editions, as JSON`;

export const define = takesTunes({ options: OPTION_NAMES, examples: EXAMPLES });

export const run = async (
  tunes: readonly string[],
  typed: Readonly<Record<string, unknown>>,
): Promise<number> =>
  obeying({ tunes, typed, names: OPTION_NAMES }, asked =>
    answerEditions(tunes, asked, (arranged, title) => {
      const report = difficultyOf(arranged);
      return {
        data: { instrument: arranged.arrangement.instrument.id, ...reportData(report) },
        text: `${title}\n${reportText(report)}`,
      };
    }),
  );

const reportData = ({ hardest, measures, comfortableReach, ...all }: DifficultyReport) => ({
  ...difficultyData(all),
  comfortableReach,
  measures: measures.map(({ measure, ...line }) => ({ measure, ...difficultyData(line) })),
  hardest: hardest.map(({ strike, from, to, cost }) => ({
    measure: strike.source.measure,
    beat: strike.beat,
    from,
    to,
    cost: pointsNumber(cost),
  })),
});

type Line = Difficulty & { readonly measure: string };

const COLUMNS: readonly Column<Line>[] = [
  { title: 'measure', align: 'right', cell: line => measureLabel(line.measure) },
  { title: 'notes', align: 'right', cell: line => String(line.notes) },
  { title: 'shifts', align: 'right', cell: line => String(line.shifts) },
  { title: 'shifted', align: 'right', cell: line => mmText(line.shifted) },
  { title: 'widest reach', align: 'right', cell: line => mmText(line.widestReach) },
  { title: 'crossings', align: 'right', cell: line => String(line.crossings) },
  { title: 'outside', align: 'right', cell: line => String(line.outside) },
  { title: 'open', align: 'right', cell: line => String(line.open) },
  { title: 'points', align: 'right', cell: line => pointsText(line.cost) },
];

const reportText = (report: DifficultyReport): string => {
  const { hardest, measures, comfortableReach, ...all } = report;
  const moves = hardest.length > 0 ? `hardest moves:\n${table(MOVES, hardest)}` : '';
  const caution =
    all.widestReach > comfortableReach
      ? `The widest reach is more than is comfortable to this hand (${mmText(comfortableReach)}): warm up, do not force it, and stop if it hurts; teacher and physician judge what a hand should do.\n`
      : '';
  return `${table(COLUMNS, [...measures, { ...all, measure: 'all' }])}${pointsText(all.costPerNote)} points a note\n${moves}${caution}`;
};

const MOVES: readonly Column<HardMove>[] = [
  ...STRIKE_COLUMNS,
  { title: 'from', align: 'left', cell: ({ from }) => gripName(from) },
  { title: 'to', align: 'left', cell: ({ to }) => gripName(to) },
  { title: 'points', align: 'right', cell: ({ cost }) => pointsText(cost) },
];

/** "2:7 finger 3". */
const gripName = ({ touches }: Grip): string =>
  touches
    .map(({ string, fret, finger }) => `${string}:${fret}${finger ? ` finger ${finger}` : ' open'}`)
    .join(', ');
