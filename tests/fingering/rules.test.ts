/** What holds where nothing is said, and which window is in force in a measure. */
import { expect, test } from 'vitest';
import { arrange } from '../../src/fingering/arrange.ts';
import { endingWith, rulesFrom, wholeTune, windowsIn } from '../../src/fingering/rules.ts';
import { findInstrument } from '../../src/instrument/define.ts';
import { bars } from '../support/melody.ts';

test('open strings are free without a window and only rescue inside one, unless it is said otherwise', () => {
  expect(rulesFrom().open).toBe('free');
  expect(rulesFrom({ windows: [] }).open).toBe('free');
  expect(rulesFrom({ windows: wholeTune(4, 8) }).open).toBe('rescue');
  expect(rulesFrom({ windows: wholeTune(4, 8), open: 'never' }).open).toBe('never');
});

test('what is said holds, all else is as usual', () => {
  expect(rulesFrom()).toEqual({
    windows: [],
    open: 'free',
    outside: 'nearest',
    pins: [],
    keepMarked: false,
    onePlace: false,
    repeats: 'same',
    campanella: false,
    level: 'even',
    hand: 'medium',
  });
  const said = {
    windows: wholeTune(1, 4),
    open: 'free',
    outside: 'refuse',
    pins: [{ kind: 'pitch', sound: 60, name: 'C4', place: { string: 3, fret: 0 } }],
    keepMarked: true,
    onePlace: true,
    repeats: 'free',
    campanella: true,
    level: 'least',
    hand: 99,
  } as const;
  expect(rulesFrom(said)).toEqual(said);
});

test('the last window that names a measure is in force there; elsewhere the last for the whole tune', () => {
  const named = (from: number, to: number, low: number) => ({
    measures: { from, to },
    window: { low, high: low + 3 },
  });
  const rules = rulesFrom({
    windows: [...wholeTune(1, 4), named(3, 5, 5), ...wholeTune(2, 5), named(5, 6, 7), named(12, 12, 9)],
  });
  const lows = ['1', '2', '3', '4', '5', '6', '7', '12', '12a', '0'].map(
    measure => windowsIn(rules, [measure])[0]!.low,
  );
  expect(lows).toEqual([2, 2, 5, 5, 7, 7, 2, 9, 9, 2]);
  expect(windowsIn(rulesFrom({ windows: [named(3, 5, 5)] }), ['2', '3', '6'])).toEqual([
    undefined,
    { low: 5, high: 8 },
    undefined,
  ]);
});

test('a measure without a number has the window of the measure before; the first, that of the whole tune', () => {
  const windows = [...wholeTune(1, 4), { measures: { from: 2, to: 3 }, window: { low: 5, high: 9 } }];
  const lows = windowsIn(rulesFrom({ windows }), ['X1', '1', '2', 'X2', '', '3', '4', 'X3']);
  expect(lows.map(window => window!.low)).toEqual([1, 1, 5, 5, 5, 5, 1, 1]);
});

test('a window that is to hold to the end ends where the tune does, and sheets say so', () => {
  const window = { low: 4, high: 8 };
  const windows = [...wholeTune(0, 4), { measures: { from: 2, to: 99 }, window }];
  const { arrangement } = arrange(
    bars('G4 A4', 'F4 G4', 'A4 C5'),
    findInstrument('ukulele'),
    rulesFrom({ windows }),
  );
  expect(arrangement.windows).toEqual([...wholeTune(0, 4), { measures: { from: 2, to: 3 }, window }]);
});

test('the last measure is that with the highest number, of a tune of any length', () => {
  const windows = [{ measures: { from: 2, to: 999_999 }, window: { low: 4, high: 8 } }];
  const lastOf = (numbers: readonly string[]) =>
    endingWith(rulesFrom({ windows }), numbers).windows[0]!.measures!.to;
  expect(lastOf(['1', '2', 'X1', '3', ''])).toBe(3);
  expect(lastOf(Array.from({ length: 200_000 }, (_, index) => String(index + 1)))).toBe(200_000);
});
