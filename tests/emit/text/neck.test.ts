/** Neck maps in characters. */
import { expect, test } from 'vitest';
import { neckToText } from '../../../src/emit/text/neck.ts';
import { arrange } from '../../../src/fingering/arrange.ts';
import { rulesFrom, wholeTune } from '../../../src/fingering/rules.ts';
import { findInstrument } from '../../../src/instrument/define.ts';
import { neckMap } from '../../../src/lesson/neck/map.ts';
import { bars, quarters } from '../../support/melody.ts';

test.each([40, 60])('in %i columns a long title goes on over several lines', width => {
  const title = 'Blow the man down, '.repeat(6).trim();
  const tune = quarters('C4 D4');
  const { arrangement } = arrange(tune, findInstrument('ukulele'), rulesFrom({}));
  const text = neckToText(
    neckMap(tune, arrangement),
    { title },
    { width, ascii: false, leftHanded: false, paint: (_role, line) => line },
  );
  const lines = text.split('\n');
  for (const line of lines) expect(line.length).toBeLessThanOrEqual(width);
  const end = lines.findIndex(line => line.startsWith('Ukulele'));
  expect(lines.slice(0, end).join(' ')).toBe(title);
});

test('several windows are several in the key, too', () => {
  const tune = bars('C4 D4', 'G4 A4');
  const second = { measures: { from: 2, to: 2 }, window: { low: 5, high: 9 } };
  const rules = rulesFrom({ windows: [...wholeTune(0, 4), second] });
  const { arrangement } = arrange(tune, findInstrument('ukulele'), rules);
  const text = neckToText(
    neckMap(tune, arrangement),
    { title: '' },
    { width: 80, ascii: false, leftHanded: false, paint: (_, line) => line },
  );
  expect(text).toMatch(/=: the windows\n$/);
});

test.each([40, 50, 60, 70, 80])('in %i columns no line ends between a sign and what it means', width => {
  const tune = quarters('C4 D4');
  const rules = rulesFrom({ windows: wholeTune(0, 4) });
  const { arrangement } = arrange(tune, findInstrument('ukulele'), rules);
  const map = neckMap(tune, arrangement, { step: 'C', alter: 0 });
  const text = neckToText(
    map,
    { title: '' },
    { width, ascii: false, leftHanded: false, paint: (_, line) => line },
  );
  const key = text
    .trimEnd()
    .split('\n\n')
    .at(-1)!
    .split(/\n| {3}/);
  expect(key).toEqual([
    'a letter: played here',
    '(letter): the same note elsewhere',
    '*: the keynote',
    '=: the window',
  ]);
});
