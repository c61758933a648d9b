/** Heads and feet stay on the paper, however long their words are. */
import { describe, expect, test } from 'vitest';
import { bounds, type Mark } from '../../../src/engrave/drawing/mark.ts';
import { pageFrame } from '../../../src/engrave/options.ts';
import { firstHead, footer, runningHead } from '../../../src/engrave/page/heading.ts';
import { surveyPage } from '../../../src/engrave/survey/map.ts';

const FRAME = pageFrame({ sheet: 'tab', paper: 'letter' });
const LONG = 'a sailor went to sea to see what he could see '.repeat(8).trim();

const isOnPaper = (marks: readonly Mark[]): void => {
  const { margin, width } = FRAME;
  for (const { left, right } of marks.map(bounds)) {
    expect(left).toBeGreaterThanOrEqual(margin - 0.1);
    expect(right).toBeLessThanOrEqual(width - margin + 0.1);
  }
};

describe('words that are too long for the paper are set smaller', () => {
  test('in the head of the first page, title and credits', () => {
    isOnPaper(
      firstHead({ title: LONG, subtitle: LONG, left: [LONG, 'Ukulele'], right: [LONG] }, FRAME).marks,
    );
  });

  test('in the head of the others, beside the number of the page', () => {
    const { marks } = runningHead(LONG, 12, FRAME);
    isOnPaper(marks);
    const [title, number] = marks.map(bounds);
    expect(title!.right).toBeLessThan(number!.left);
  });

  test('at the foot', () => isOnPaper(footer([LONG], FRAME).marks));

  test('over a survey', () => {
    const rows = [
      {
        instrument: 'ukulele',
        transposition: 0,
        window: { low: 1, high: 5 },
        fitting: 3,
        misfits: 1,
        costPerNote: 0,
        shifts: 0,
        widestReach: 0,
      },
    ];
    const map = { title: LONG, subtitle: LONG, rows, keyName: () => 'C major' };
    const page = surveyPage(map, { paper: 'letter' });
    isOnPaper(page.groups.filter(({ id }) => id === 'heading').flatMap(({ marks }) => marks));
  });

  test('and those that fit are not', () => {
    const sizes = (title: string) =>
      firstHead({ title, left: [], right: [] }, FRAME).marks.map(mark => mark.kind === 'text' && mark.size);
    expect(sizes('Row')).toEqual([7.4]);
  });
});
