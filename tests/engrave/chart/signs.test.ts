/** What stands over and between the measures of a chart: numbers, signs, endings, the bar line at the end. */
import { expect, test } from 'vitest';
import { bounds, type Mark } from '../../../src/engrave/drawing/mark.ts';
import type { Barline } from '../../../src/score/model/barline.ts';
import { PLAIN_BARLINE } from '../../../src/score/model/barline.ts';
import type { Direction } from '../../../src/score/model/direction.ts';
import type { Tune } from '../../../src/score/tune.ts';
import { collisions } from '../layout.ts';
import { allMarks, charted, engraved } from './charted.ts';

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
