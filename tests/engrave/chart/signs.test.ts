/** What stands over and between the measures of a chart: numbers, signs, endings, the bar line at the end. */
import { expect, test } from 'vitest';
import { bounds, type Mark } from '../../../src/engrave/drawing/mark.ts';
import type { Barline } from '../../../src/score/model/barline.ts';
import { PLAIN_BARLINE } from '../../../src/score/model/barline.ts';
import type { Direction } from '../../../src/score/model/direction.ts';
import type { Tune } from '../../../src/score/tune.ts';
import { collisions } from '../layout.ts';
import { allMarks, charted, engraved, rowsOf } from './charted.ts';

const EIGHT = Array.from({ length: 8 }, () => ['C']);
const source = { line: 1, part: 'P1', measure: '1' };
const common = { at: 0, placement: 'above', source } as const;
const SIGNS: readonly (readonly Direction[])[] = [
  [{ ...common, kind: 'sign', sign: 'segno' } as Direction],
  [{ ...common, kind: 'sign', sign: 'coda' } as Direction],
  [{ ...common, kind: 'rehearsal', text: 'B' } as Direction],
];

/** The chart of eight measures, the fifth of which opens the second row; measures changed by index. */
const chartWith = (change: (index: number) => Partial<Tune['measures'][number]>) => {
  const tune = charted(EIGHT);
  return engraved({
    ...tune,
    measures: tune.measures.map(each => ({ ...each, ...change(each.index) })),
  });
};

const withRole = (marks: readonly Mark[], role: Mark['role']) => marks.filter(mark => mark.role === role);

test.each([0, 4, 5, 7])('a sign over measure %i keeps off the number of its row', index => {
  for (const directions of SIGNS) {
    const pages = chartWith(at => (at === index ? { directions } : {}));
    expect(withRole(allMarks(pages), 'number')).toHaveLength(1);
    expect(collisions(pages, 0.05)).toEqual([]);
  }
});

test.each([
  ['regular', 'thin, thick'],
  ['final', 'thin, thick'],
  ['double', 'thin, thin'],
] as const)('a tune whose file ends with a %s bar line ends with strokes that are %s', (style, strokes) => {
  const right: Barline = { ...PLAIN_BARLINE, style };
  const bars = withRole(allMarks(chartWith(at => (at === 7 ? { right } : {}))), 'bar');
  const widths = bars.slice(-2).map(mark => {
    const { left, right: edge } = bounds(mark);
    return edge - left > 0.5 ? 'thick' : 'thin';
  });
  expect(widths.join(', ')).toBe(strokes);
});

test('a new metre stands before a row of its own, clear of the bar line', () => {
  const time = (beats: number, beatType: number) =>
    ({ kind: 'metred', fractions: [{ beats: [beats], beatType }], symbol: 'fraction' }) as const;
  const metres = [time(4, 4), time(4, 4), time(12, 8), time(12, 8), time(12, 8), time(4, 4)];
  const news = new Map([
    [2, time(12, 8)],
    [5, time(4, 4)],
  ]);
  const pages = chartWith(index => ({
    time: metres[index] ?? time(4, 4),
    changes: news.has(index) ? [{ at: 0, time: news.get(index)! }] : [],
  }));
  expect(rowsOf(pages[0]!).map(row => row.length - 1)).toEqual([2, 3, 3]);
  // Two figures in 4/4, three in 12/8.
  expect(withRole(allMarks(pages), 'time')).toHaveLength(2 + 3 + 2);
  expect(collisions(pages, 0.05)).toEqual([]);
});

test('a repeat that is played more than twice says so, beside a jump', () => {
  const right: Barline = { ...PLAIN_BARLINE, repeat: true, times: 3 };
  const directions: readonly Direction[] = [
    { ...common, kind: 'jump', jump: 'dacapo', text: 'D.C.' } as Direction,
  ];
  const said = (change: Partial<Tune['measures'][number]>) =>
    withRole(allMarks(chartWith(index => (index === 3 ? change : {}))), 'sign').map(mark =>
      mark.kind === 'text' ? mark.text : mark.kind,
    );
  expect(said({ right })).toEqual(['3×']);
  expect(said({ right, directions })).toEqual(['3×  D.C.']);
  expect(said({ right: { ...right, times: 2 } })).toEqual([]);
});
