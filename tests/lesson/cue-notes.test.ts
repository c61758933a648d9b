/** What cues say of a hand that moves, and of grace notes. */
import { expect, test } from 'vitest';
import { type CueStyle, cuesToText } from '../../src/emit/text/cues.ts';
import { arrange } from '../../src/fingering/arrange.ts';
import type { Placement } from '../../src/fingering/arrangement.ts';
import { rulesFrom, wholeTune } from '../../src/fingering/rules.ts';
import { findInstrument } from '../../src/instrument/define.ts';
import { makeCues } from '../../src/lesson/cues.ts';
import { quarters } from '../support/melody.ts';
import { attributes, note, tuneFrom } from '../support/musicxml.ts';

const PLAIN: CueStyle = { strings: 'names', markup: 'text', width: 200, ascii: false };

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
  return cuesToText(cues, PLAIN);
};

test('a hand that moves behind a finger that stays is said to move, and the finger does not slide', () => {
  expect(cuesThrough([4, 5, 5, 4])).toContain(
    'on 1 C, E string fret 8, finger 4; hand up, index finger to fret 5, on 2 and 3 C again; hand down, index finger to fret 4, on 4 C again.',
  );
});

test('a grace note is called one, and not said together with the note that it leads to', () => {
  const grace = note('G4', 0, { before: '<grace slash="yes"/>' });
  const tune = tuneFrom(attributes() + note('F4') + grace + note('F4') + note('F4') + note('r'));
  const { arrangement } = arrange(tune, findInstrument('ukulele'), rulesFrom());
  expect(cuesToText(makeCues(tune, arrangement), PLAIN)).toMatch(
    /on 1 F, .*; on 2 grace note G, .*; on 2 F, .*; on 3 F again\./,
  );
  const same = tuneFrom(attributes() + note('G4') + grace + note('G4') + note('G4') + note('r'));
  const { arrangement: still } = arrange(same, findInstrument('ukulele'), rulesFrom());
  expect(cuesToText(makeCues(same, still), PLAIN)).toContain(
    '; on 2 grace note G again; on 2 and 3 G again.',
  );
});
