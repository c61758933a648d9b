/** What cues say of a hand that moves. */
import { expect, test } from 'vitest';
import { cuesToText } from '../../src/emit/text/cues.ts';
import { arrange } from '../../src/fingering/arrange.ts';
import type { Placement } from '../../src/fingering/arrangement.ts';
import { rulesFrom, wholeTune } from '../../src/fingering/rules.ts';
import { findInstrument } from '../../src/instrument/define.ts';
import { makeCues } from '../../src/lesson/cues.ts';
import { quarters } from '../support/melody.ts';

/** The cues of C5 on string 2, by finger 4 at fret 8, from one position to the other. */
const cuesThrough = (positions: readonly number[]): string => {
  const tune = quarters(positions.map(() => 'C5').join(' '));
  const rules = rulesFrom({ windows: wholeTune(4, 8) });
  const { arrangement } = arrange(tune, findInstrument('ukulele-low-g'), rules);
  const placed = [...arrangement.placements].map(([head], index): [number, Placement] => [
    head,
    { string: 2, fret: 8, finger: 4, position: positions[index]!, fit: 'inside' },
  ]);
  const cues = makeCues(tune, { ...arrangement, placements: new Map(placed) });
  return cuesToText(cues, { strings: 'names', markup: 'text', width: 200, ascii: false });
};

test('a hand that moves behind a finger that stays is said to move, and the finger does not slide', () => {
  expect(cuesThrough([4, 5, 5, 4])).toContain(
    'on 1 C, E string fret 8, finger 4; hand up, index finger to fret 5, on 2 and 3 C again; hand down, index finger to fret 4, on 4 C again.',
  );
});
