/** Rows of charts: how many measures each holds, how wide they are, and how they fill their pages. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { bounds } from '../../../src/engrave/drawing/mark.ts';
import { PLAIN_BARLINE } from '../../../src/score/model/barline.ts';
import { allMarks, charted, chartOf, engraved, rowsOf, touching } from './charted.ts';

const CROWDED = ['Ebm7b5', 'Ab13', 'Dbmaj7', 'Gbmaj9'];
const widths = (row: readonly { readonly left: number }[]) =>
  row.slice(1).map(({ left }, i) => left - row[i]!.left);

describe('a crowded measure', () => {
  const plain = Array.from({ length: 24 }, () => ['C']);
  const pages = chartOf(plain.map((each, index) => (index === 5 ? CROWDED : each)));
  const rows = pages.flatMap(rowsOf);

  test('takes room from its row, and leaves all rows their measures', () => {
    expect(rows.map(row => row.length - 1)).toEqual([4, 4, 4, 4, 4, 4]);
    const crowded = widths(rows[1]!);
    expect(crowded.indexOf(Math.max(...crowded))).toBe(1);
    expect(touching(pages)).toBe(0);
  });

  test('moves no bar line of another row, and not the ends of its own', () => {
    const lefts = (row: (typeof rows)[number]) => row.map(({ left }) => left.toFixed(3));
    for (const row of [2, 3, 4]) expect(lefts(rows[row]!)).toEqual(lefts(rows[0]!));
    expect(lefts(rows[1]!).at(-1)).toBe(lefts(rows[0]!).at(-1));
  });

  test('leaves its neighbours three quarters of their width, equal among themselves', () => {
    const usual = widths(rows[0]!)[1]!;
    const [first, , third, fourth] = widths(rows[1]!);
    for (const width of [first!, third!, fourth!]) expect(width).toBeGreaterThan(0.74 * usual);
    expect(third!).toBeCloseTo(fourth!, 0);
  });

  test('is alone with fewer where the smallest symbols would touch', () => {
    const many = chartOf([...plain.slice(0, 8), CROWDED, CROWDED, CROWDED, CROWDED, ...plain.slice(0, 4)]);
    expect(many.flatMap(rowsOf).map(row => row.length - 1)).toEqual([4, 4, 3, 4, 1]);
    expect(touching(many)).toBe(0);
  });
});

test('a measure of five beats in common time takes room from its row, which holds as many and ends as the others', () => {
  const tune = charted(Array.from({ length: 16 }, () => ['C']));
  const longer = tune.measures[0]!.length / 4;
  const pages = engraved({
    ...tune,
    measures: tune.measures.map((measure, index) => ({
      ...measure,
      at: measure.at + (index > 4 ? longer : 0),
      length: measure.length + (index === 4 ? longer : 0),
    })),
  });
  const rows = pages.flatMap(rowsOf);
  expect(rows.map(row => row.length - 1)).toEqual([4, 4, 4, 4]);
  expect(rows[1]!.at(-1)!.left).toBeCloseTo(rows[2]!.at(-1)!.left, 3);
  const [long, next, ...others] = widths(rows[1]!);
  expect(long! / next!).toBeCloseTo(5 / 4, 1);
  for (const other of others) expect(other).toBeCloseTo(next!, 0);
});

test('no two symbols touch, and every full row is equally wide, whatever stands in it', () => {
  const symbol = fc.constantFrom('C', 'G7', 'Am7', 'F#m7b5', 'Cmaj9#11', 'Ebm(maj7)');
  fc.assert(
    fc.property(fc.array(fc.array(symbol, { maxLength: 4 }), { minLength: 5, maxLength: 24 }), measures => {
      const pages = chartOf([['C'], ...measures]);
      expect(touching(pages)).toBe(0);
      const ends = pages.flatMap(rowsOf).map(row => row.at(-1)!.right);
      for (const end of ends.slice(0, -1)) expect(end).toBeCloseTo(ends[0]!, 1);
      const inside = allMarks(pages).every(mark => bounds(mark).right <= 195.01);
      expect(inside).toBe(true);
    }),
    { numRuns: 40 },
  );
});

describe('a repeat with two endings', () => {
  const ending = (number: number) => ({ numbers: [number], text: `${number}.`, close: 'closed' as const });
  const tune = charted(Array.from({ length: 11 }, () => ['C', 'G7']));
  /** Measures 4 and 5 are the endings, or as many each as asked. */
  const chartWith = (long: number) =>
    engraved({
      ...tune,
      measures: tune.measures.map((measure, index) => ({
        ...measure,
        left: {
          ...PLAIN_BARLINE,
          repeat: index === 0,
          ending: index === 3 ? ending(1) : index === 3 + long ? ending(2) : undefined,
        },
        right: {
          ...PLAIN_BARLINE,
          repeat: index === 2 + long,
          ending: index === 2 + long ? ending(1) : index === 2 + 2 * long ? ending(2) : undefined,
        },
      })),
    });

  test('has both in one row where they are a measure each, and the rows after it as they would be without', () => {
    const pages = chartWith(1);
    expect(pages.flatMap(rowsOf).map(row => row.length - 1)).toEqual([5, 4, 2]);
    expect(touching(pages)).toBe(0);
  });

  test('has longer endings where they fall', () => {
    expect(
      chartWith(2)
        .flatMap(rowsOf)
        .map(row => row.length - 1),
    ).toEqual([4, 4, 3]);
  });

  test.each([1, 2])('keeps its dots as far from the slashes as a bar line, endings of %i', long => {
    const marks = allMarks(chartWith(long));
    const slashes = marks.filter(({ role }) => role === 'head').map(bounds);
    const bars = marks.filter(({ role }) => role === 'bar').map(bounds);
    const nearest = slashes.map(slash => {
      const after = bars.filter(
        bar => bar.left >= slash.right && bar.bottom > slash.top && bar.top < slash.bottom,
      );
      return Math.min(...after.map(bar => bar.left - slash.right));
    });
    expect(Math.min(...nearest)).toBeGreaterThan(2.4);
  });
});

describe('pages', () => {
  test.each([36, 44, 48, 52, 60, 76, 84, 100, 140])('of a chart of %i measures are evenly full', count => {
    const pages = chartOf(Array.from({ length: count }, () => ['C']));
    const rows = pages.map(page => rowsOf(page));
    for (const each of rows) if (pages.length > 1) expect(each.length).toBeGreaterThan(2);
    const ends = rows.map(page => page.at(-1)![0]!.bottom);
    const pitch = rows[0]![1]![0]!.top - rows[0]![0]![0]!.top;
    expect(Math.max(...ends) - Math.min(...ends)).toBeLessThan(pitch * (pages.length > 2 ? 2 : 1) + 1);
  });
});
