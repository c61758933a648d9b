/** `fretward explain`: why every note is where it is, and what other places would cost. */
import { cheapest } from '../../fingering/alternatives.ts';
import { type Arranged, arrangementOf } from '../../fingering/arrange.ts';
import { type Explained, explain, gripAt } from '../../fingering/explain.ts';
import type { Grip } from '../../fingering/grip.ts';
import { partedCost } from '../../fingering/lattice.ts';
import type { Strike } from '../../fingering/strikes.ts';
import { Refusal } from '../../score/diagnostic.ts';
import { measureRanges, momentName, stretchName } from '../../score/moments.ts';
import { counted, mmNumber, mmText, pointsNumber, pointsText } from '../../score/numbers.ts';
import { takesTunes } from '../define.ts';
import { type Answer, answerEditions } from '../each.ts';
import { UsageError } from '../exit.ts';
import { type InForce, obeying } from '../in-force.ts';
import { ARRANGING, type OptionName, READING } from '../options/options.ts';
import type { Stretch } from '../options/values.ts';
import { pitchNames, STRIKE_COLUMNS } from '../strike-columns.ts';
import { type Column, table } from '../table.ts';
import { NO_BREAK } from '../width.ts';

const OPTION_NAMES = [
  ...ARRANGING,
  'measure',
  'alternatives',
  ...READING,
  'json',
  'quiet',
] as const satisfies readonly OptionName[];

const EXAMPLES = `  fretward explain tune.mxl -i ukulele-low-g -f 4-8
      string, fret, finger and position of every note, what was paid for it,
      and what its other places would cost more
  fretward explain tune.mxl -f 4-8 --measure 7 --json
      measure 7 alone, as JSON; --measure 5-8 takes four
  fretward explain tune.mxl -f 4-8 --alternatives 3
      the three cheapest fingerings and where they differ`;

export const define = takesTunes({ options: OPTION_NAMES, examples: EXAMPLES });

export const run = async (
  tunes: readonly string[],
  typed: Readonly<Record<string, unknown>>,
): Promise<number> => obeying({ tunes, typed, names: OPTION_NAMES }, async asked => answersTo(tunes, asked));

const answersTo = (
  tunes: readonly string[],
  asked: InForce<(typeof OPTION_NAMES)[number]>,
): Promise<number> => {
  const { options } = asked;
  if (options.measure !== undefined && options.alternatives !== undefined) {
    throw new UsageError(
      '--measure and --alternatives do not go together',
      'leave one of them out: alternatives are of whole fingerings',
    );
  }
  return answerEditions(tunes, asked, (edition, title) =>
    options.alternatives !== undefined
      ? alternativesOf(edition, title, options.alternatives)
      : explanationOf(edition, title, options.measure),
  );
};

const isIn = ({ from, to }: Stretch, measure: string): boolean =>
  from === to ? measure === from : Number(from) <= Number(measure) && Number(measure) <= Number(to);

const explanationOf = (arranged: Arranged, title: string, stretch: Stretch | undefined): Answer => {
  const { problem, found } = arranged;
  const wanted = (strike: Strike): boolean => !stretch || isIn(stretch, strike.source.measure);
  const notes = explain(arranged, wanted);
  if (notes.length === 0) throw nothingIn(stretch!, problem.strikes);
  const { points } = partedCost(found.cost);
  const repeats = partedCost(found.cost - found.untied).points;
  const said = [
    `${title}: ${pointsText(points)} points for ${counted(problem.strikes.length, 'note')}`,
    ...(repeats > 0 ? [`of these ${pointsText(repeats)} for places and passages that agree`] : []),
  ];
  return {
    data: {
      instrument: arranged.arrangement.instrument.id,
      cost: points,
      costOfAgreement: repeats,
      proven: found.proven,
      notes: notes.map(noteData),
    },
    text: `${said.join('\n')}\n${table(COLUMNS, notes)}`,
  };
};

const nothingIn = ({ from, to }: Stretch, strikes: readonly Strike[]): Refusal =>
  new Refusal({
    severity: 'error',
    code: 'no-note-to-place',
    message: `no note is struck in ${stretchName(from, to, '-')}`,
    hint: `notes are struck in ${measureRanges([...new Set(strikes.map(({ source }) => source.measure))])}`,
  });

const noteData = ({ strike, grip, charges, alternatives }: Explained) => ({
  measure: strike.source.measure,
  beat: strike.beat,
  pitches: pitchNames(strike),
  touches: grip.touches,
  position: grip.position,
  fit: grip.fit,
  paid: charges.map(({ measured, unit, ...charge }) => ({
    ...charge,
    measured: unit === 'mm' ? mmNumber(measured) : measured,
    unit,
  })),
  others: alternatives.map(({ places, regret, differences, exact }) => ({
    places,
    regret: Number.isFinite(regret) ? pointsNumber(regret) : null,
    differences,
    exact,
  })),
});

const touchNames = (grip: Grip): string =>
  grip.touches.map(({ string, fret }) => `${string}:${fret}`).join(' ');

const COLUMNS: readonly Column<Explained>[] = [
  ...STRIKE_COLUMNS,
  { title: 'string:fret', align: 'left', cell: ({ grip }) => touchNames(grip) },
  { title: 'finger', align: 'left', cell: ({ grip }) => grip.touches.map(({ finger }) => finger).join(' ') },
  { title: 'position', align: 'right', cell: ({ grip }) => String(grip.position) },
  { title: 'other places', align: 'left', flows: true, cell: ({ alternatives }) => others(alternatives) },
  { title: 'paid', align: 'left', flows: true, cell: ({ charges }) => charges.map(paid).join(', ') },
];

/** "2:10 +0.42", cheapest first; "2:10 +0.42 and 1 more difference" where an edition is matched. */
const others = (alternatives: Explained['alternatives']): string =>
  alternatives
    .slice(0, 3)
    .map(({ places, regret, differences, exact }) => {
      const names = places.map(({ string, fret }) => `${string}:${fret}`).join(' ');
      if (!Number.isFinite(regret)) return `${names} not under these rules`;
      const cost = `${exact ? '' : 'at most '}${regret < 0 ? '' : '+'}${pointsText(regret)}`;
      return kept(`${names} ${cost}${moreDifferent(differences)}`);
    })
    .join(', ');

const moreDifferent = (differences: number): string =>
  differences > 0 ? ` and ${counted(differences, 'more difference')}` : '';

/** "shift 0.84 (1 time)". */
const paid = ({ term, cost, measured, unit }: Explained['charges'][number]): string =>
  `${term} ${kept(`${pointsText(cost)} (${amountOf(measured, unit)})`)}`;

const amountOf = (measured: number, unit: string): string =>
  unit === 'mm' ? mmText(measured) : counted(Math.round(measured * 100) / 100, unit.replace(/s$/, ''));

const kept = (text: string): string => text.replaceAll(' ', NO_BREAK);

const alternativesOf = ({ problem }: Arranged, title: string, count: number): Answer => {
  const answers = cheapest(problem, count);
  const [best] = answers;
  const rows = answers.map((answer, index) => ({
    rank: index + 1,
    cost: partedCost(answer.cost).points,
    differences: partedCost(answer.cost - best!.cost).differences,
    differs:
      index === 0
        ? []
        : problem.strikes.flatMap((strike, k) => {
            const there = touchNames(gripAt(problem, answer, k));
            return touchNames(gripAt(problem, best!, k)) === there ? [] : [{ strike, there }];
          }),
    placements: arrangementOf(problem, answer.path).placements,
  }));
  const lines = rows.map(({ rank, cost, differences, differs }) => {
    const where = differs.map(
      ({ strike, there }) =>
        `${momentName({ measure: strike.source.measure, beat: strike.beat })} at ${there}`,
    );
    return `${rank}. ${pointsText(cost)} points${moreDifferent(differences)}${where.length > 0 ? `: ${where.join('; ')}` : ''}\n`;
  });
  return {
    data: {
      instrument: problem.hand.instrument.id,
      alternatives: rows.map(({ rank, cost, differences, differs, placements }) => ({
        rank,
        cost,
        differences,
        differs: differs.map(({ strike, there }) => ({
          measure: strike.source.measure,
          beat: strike.beat,
          places: there,
        })),
        places: problem.strikes.map(strike => strike.heads.map(head => placements.get(head)!)),
      })),
    },
    text: `${title}: the ${answers.length === 1 ? 'only fingering' : `${answers.length} cheapest fingerings`}; places as string:fret\n${lines.join('')}`,
  };
};
