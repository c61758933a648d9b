/** The signs beside fret figures are large enough for a photocopy, and meet no figure. */
import { expect, test } from 'vitest';
import { figureLegend } from '../../src/engrave/content/figure-signs.ts';
import { engrave } from '../../src/engrave/engrave.ts';
import { wholeTune } from '../../src/fingering/rules.ts';
import { inked } from './layout.ts';
import { instrument, lowestPlaces, tuneOf } from './sheets.ts';

test('a dot stands beside each figure of which the other edition has another', () => {
  const tune = tuneOf([{ notes: 'C4s D4s E4s F4s C5s D5s E5s F5s C4h' }]);
  const arrangement = lowestPlaces(tune, instrument('ukulele'));
  const differences = new Set(arrangement.placements.keys());
  const matched = { instrument: instrument('ukulele-low-g'), differences };
  const { pages } = engrave(tune, { ...arrangement, matched }, { sheet: 'tab', staffSize: 4 });
  const boxes = (role: string) => inked(pages).flatMap(({ mark, box }) => (mark.role === role ? [box] : []));
  const [dots, figures] = [boxes('outside'), boxes('digit')];
  expect(dots).toHaveLength(differences.size);
  dots.forEach((dot, i) => {
    // One staff space is 1 mm; 0.4 is how wide dots of dotted notes are (from memory).
    expect(dot.right - dot.left).toBeGreaterThanOrEqual(0.4);
    const figure = figures[i]!;
    expect(dot.left - figure.right).toBeGreaterThan(0.05);
    expect(dot.left - figure.right).toBeLessThan(0.3);
    for (const { left, right, top, bottom } of figures)
      expect(left > dot.right || right < dot.left || top > dot.bottom || bottom < dot.top).toBe(true);
  });
});

test('what the signs mean takes a line at the head of the sheet, and none where there are no signs', () => {
  const tune = tuneOf([{ notes: 'C4q D4q E4q F4q' }]);
  const plain = lowestPlaces(tune, instrument('ukulele'));
  expect(figureLegend(plain)).toEqual([]);
  const [head, place] = [...plain.placements][0]!;
  const both = {
    ...plain,
    placements: new Map([...plain.placements, [head, { ...place, fit: 'outside' as const }] as const]),
    windows: wholeTune(4, 8),
    matched: { instrument: instrument('ukulele-low-g'), differences: new Set([head]) },
  };
  expect(figureLegend(both)).toEqual(['* outside the window; • elsewhere than on Ukulele, low G']);
});
