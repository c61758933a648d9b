/**
 * A survey as a page: keys down, windows across, in each cell a bar as high as the share of notes that
 * fit, and over it how many do not. Black on white, to survive a photocopier. In millimetres.
 */
import type { SurveyRow } from '../../fingering/survey.ts';
import type { Mark } from '../drawing/mark.ts';
import type { FaceName } from '../font/face.ts';
import { anchoredText } from '../measure/rich-text.ts';
import { type PageFrame, pageFrame, type SheetOptions } from '../options.ts';
import { fittedLine } from '../page/heading.ts';
import type { Page } from '../page.ts';

const LARGEST_CELL = 11;
/** Room for the names of keys at the left, and for the lines of text above. */
const KEY_ROOM = 26;
const HEAD_ROOM = 32;
const LINE = 0.12;

export interface SurveyMap {
  readonly title: string;
  /** What was surveyed, for whom: under the title. */
  readonly subtitle: string;
  readonly rows: readonly SurveyRow[];
  /** How the key of a transposition is called. */
  readonly keyName: (transposition: number) => string;
}

/** The page for one instrument's survey. */
export const surveyPage = (map: SurveyMap, options: Omit<SheetOptions, 'sheet'>): Page => {
  const frame = pageFrame({ ...options, sheet: 'tab' });
  const { title, subtitle } = map;
  return {
    number: 1,
    of: 1,
    width: frame.width,
    height: frame.height,
    title,
    description: `${subtitle}: notes that fit, by key and window of frets`,
    author: undefined,
    keywords: ['survey', subtitle],
    groups: [
      { id: 'heading', className: 'heading', marks: headingMarks(map, frame) },
      { id: 'map', className: 'system', label: 'Survey', marks: gridMarks(map, frame) },
    ],
  };
};

const text = (
  words: string,
  x: number,
  y: number,
  size: number,
  anchor: 'start' | 'middle' | 'end',
  face: FaceName = 'serif',
): Mark[] => anchoredText(words, { role: 'heading', face, size }, x, y, anchor);

const headingMarks = ({ title, subtitle }: SurveyMap, { width, margin }: PageFrame): readonly Mark[] => {
  const line = (words: string, y: number, size: number, face: FaceName): Mark[] =>
    fittedLine(words, { role: 'heading', face, size }, width - 2 * margin, width / 2, margin + y, 'middle');
  return [
    ...line(title, 5.2, 7, 'serifBold'),
    ...line(subtitle, 12, 4, 'serif'),
    ...line(
      'The fuller a square, the more notes fit; the figure counts those that do not.',
      18,
      3.2,
      'serifItalic',
    ),
  ];
};

const gridMarks = ({ rows, keyName }: SurveyMap, { width, height, margin }: PageFrame): readonly Mark[] => {
  const windows = [...new Map(rows.map(({ window }) => [window.low, window])).values()];
  const keys = [...new Set(rows.map(({ transposition }) => transposition))].sort((a, b) => b - a);
  const cell = Math.min(
    LARGEST_CELL,
    (width - 2 * margin - KEY_ROOM) / windows.length,
    (height - 2 * margin - HEAD_ROOM) / keys.length,
  );
  const left = (width - KEY_ROOM - cell * windows.length) / 2 + KEY_ROOM;
  const top = margin + HEAD_ROOM;
  const size = cell * 0.3;
  const across = windows.flatMap(({ low, high }, column) =>
    text(`${low}–${high}`, left + cell * (column + 0.5), top - 1.5, size, 'middle'),
  );
  const down = keys.flatMap((key, line) => {
    const signed = key > 0 ? `+${key}` : String(key).replace('-', '–');
    const name = key === 0 ? keyName(key) : `${keyName(key)} (${signed})`;
    return text(name, left - 1.5, top + cell * (line + 0.5) + size * 0.35, size, 'end');
  });
  const cells = rows.flatMap(row => {
    const column = windows.findIndex(({ low }) => low === row.window.low);
    return cellMarks(row, left + cell * column, top + cell * keys.indexOf(row.transposition), cell);
  });
  return [...text('frets', left - 1.5, top - 1.5, size, 'end', 'serifItalic'), ...across, ...down, ...cells];
};

/** A frame, the bar, and the count of what does not fit; a full square needs no figure. */
const cellMarks = ({ fitting, misfits }: SurveyRow, x: number, y: number, cell: number): readonly Mark[] => {
  const inset = cell * 0.08;
  const side = cell - 2 * inset;
  const share = fitting / Math.max(1, fitting + misfits);
  const [l, t, r, b] = [x + inset, y + inset, x + inset + side, y + inset + side];
  const edges = [
    [l, t, r, t],
    [l, b, r, b],
    [l, t, l, b],
    [r, t, r, b],
  ] as const;
  // The bar of a cell with misfits leaves room for the figure.
  const room = misfits === 0 ? side : side * 0.55;
  const from = b - room * share;
  return [
    ...edges.map(
      ([x1, y1, x2, y2]): Mark => ({ kind: 'line', role: 'staff', x1, y1, x2, y2, thickness: LINE }),
    ),
    ...(share > 0
      ? [
          {
            kind: 'polygon',
            role: 'heading',
            points: [
              [l, from],
              [r, from],
              [r, b],
              [l, b],
            ],
          } as const,
        ]
      : []),
    ...(misfits > 0 ? text(String(misfits), x + cell / 2, t + side * 0.36, cell * 0.28, 'middle') : []),
  ];
};
