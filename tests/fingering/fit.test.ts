/** Where pitches fit, against enumeration of every place of the neck; and what is offered where they do not. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { fits, narrowestWindow, windowsThatFit } from '../../src/fingering/fit.ts';
import { describeWaysOut, waysOut } from '../../src/fingering/ways-out.ts';
import { INSTRUMENTS } from '../../src/instrument/catalogue.ts';
import { findInstrument, withCapo } from '../../src/instrument/define.ts';
import type { Instrument } from '../../src/instrument/instrument.ts';
import { soundAt, topFret } from '../../src/instrument/places.ts';

const necks = fc
  .record({ base: fc.constantFrom(...INSTRUMENTS), capo: fc.constantFrom(0, 0, 3) })
  .map(({ base, capo }) => withCapo(base, capo));

/** A few pitches that lie near each other on some neck. */
const melodies = fc.array(fc.integer({ min: 52, max: 84 }), { minLength: 1, maxLength: 5 });

/** Whether some place from fret `low` to fret `high` sounds each pitch: every place of the neck is tried. */
const fitByTrial = (instrument: Instrument, sounds: readonly number[], low: number, high: number): boolean =>
  sounds.every(sound =>
    instrument.strings.some((_, index) => {
      for (let fret = Math.max(0, low); fret <= Math.min(high, topFret(instrument)); fret++) {
        if (soundAt(instrument, { string: index + 1, fret }) === sound) return true;
      }
      return false;
    }),
  );

describe('pitches fit', () => {
  test('a window if each has a place in it, ends included', () => {
    fc.assert(
      fc.property(necks, melodies, fc.nat(12), fc.nat(5), (instrument, sounds, low, width) => {
        const window = { low, high: low + width };
        expect(fits(instrument, sounds, window)).toBe(fitByTrial(instrument, sounds, low, low + width));
        expect(fits(instrument, sounds, undefined)).toBe(fitByTrial(instrument, sounds, 0, 99));
      }),
    );
  });

  test('the windows up the neck that enumeration finds; the narrowest is the first of the least width', () => {
    fc.assert(
      fc.property(necks, melodies, fc.integer({ min: 1, max: 6 }), (instrument, sounds, width) => {
        const found = (frets: number): readonly number[] =>
          Array.from({ length: topFret(instrument) }, (_, n) => n + 1).filter(
            low =>
              low + frets - 1 <= topFret(instrument) && fitByTrial(instrument, sounds, low, low + frets - 1),
          );
        const windows = windowsThatFit(instrument, sounds, width);
        expect(windows).toEqual(found(width).map(low => ({ low, high: low + width - 1 })));
        const widths = Array.from({ length: topFret(instrument) }, (_, n) => n + 1);
        const least = widths.find(each => found(each).length > 0);
        const low = least && found(least)[0];
        expect(narrowestWindow(instrument, sounds)).toEqual(
          low === undefined ? undefined : { low, high: low + least! - 1 },
        );
      }),
    );
  });

  test('the whole neck and no more', () => {
    const ukulele = findInstrument('ukulele');
    expect(windowsThatFit(ukulele, [], 18)).toEqual([{ low: 1, high: 18 }]);
    expect(windowsThatFit(ukulele, [], 19)).toEqual([]);
    expect(windowsThatFit(ukulele, [], 30)).toEqual([]);
  });
});

describe('ways out', () => {
  test('are those that enumeration finds, the nearest key first', () => {
    fc.assert(
      fc.property(
        necks,
        melodies,
        fc.nat(9),
        fc.integer({ min: 2, max: 4 }),
        (instrument, sounds, low, width) => {
          const window = { low, high: low + width };
          const ways = waysOut(instrument, [...sounds, ...sounds], window);
          const moved = (by: number) => sounds.map(sound => sound + by);
          const keys = Array.from({ length: 12 }, (_, n) => [n + 1, -n - 1]).flat();
          expect(ways.transpositions).toEqual(
            keys.filter(by => fitByTrial(instrument, moved(by), low, window.high)),
          );
          // With the capo on: it stays where another instrument is taken. None is the one in use.
          const capoed = INSTRUMENTS.map(other => ({ ...other, capo: instrument.capo }));
          expect(ways.instruments).toEqual(
            capoed.filter(
              other =>
                other.id !== instrument.id &&
                JSON.stringify(other.strings) !== JSON.stringify(instrument.strings) &&
                fitByTrial(other, sounds, low, window.high),
            ),
          );
          expect(ways.withoutCapo).toBe(
            instrument.capo > 0 && fitByTrial({ ...instrument, capo: 0 }, sounds, low, window.high),
          );
          // Of all windows around the given one: fewest frets, of those the highest.
          const wider: { readonly low: number; readonly high: number }[] = [];
          for (let from = 0; from <= low; from++)
            for (let to = window.high; to <= topFret(instrument); to++)
              if (fitByTrial(instrument, sounds, from, to)) wider.push({ low: from, high: to });
          wider.sort((a, b) => a.high - a.low - (b.high - b.low) || b.low - a.low);
          expect(ways.window).toEqual(wider[0]);
        },
      ),
    );
  });

  test('without a window concern the whole neck', () => {
    // G3 is the low G, a fourth below the lowest string of the other; the bass has both pitches high up its first.
    const ways = waysOut(findInstrument('ukulele'), [55, 60], undefined);
    expect(ways.window).toBeUndefined();
    expect(ways.instruments.map(({ id }) => id)).toEqual([
      'ukulele-low-g',
      'baritone-ukulele',
      'guitar',
      'mandolin',
      'bass',
    ]);
    expect(ways.transpositions[0]).toBe(5);
  });

  test('never offer the instrument in use, but to take its capo off', () => {
    // C4 is the lowest note of a ukulele; a capo at the second fret raises it to D4.
    const capoed = withCapo(findInstrument('ukulele'), 2);
    const ways = waysOut(capoed, [60, 64], undefined);
    expect(ways.withoutCapo).toBe(true);
    expect(ways.instruments.map(({ id }) => id)).not.toContain('ukulele');
    expect(waysOut(findInstrument('ukulele'), [59], undefined).withoutCapo).toBe(false);
  });

  test('need no open strings where those never sound', () => {
    // C4 is an open string of the ukulele and no stopped note; of the low G, fret 5 of the fourth string.
    const ukulele = findInstrument('ukulele');
    const window = { low: 4, high: 8 };
    const ways = waysOut(ukulele, [60, 64], window, 'never');
    expect(ways.window).toBeUndefined();
    expect(waysOut(ukulele, [60, 64], window).window).toEqual({ low: 0, high: 8 });
    expect(ways.instruments.map(({ id }) => id)).toContain('ukulele-low-g');
    // D4 and E4: as above, a whole tone higher; C4 cannot be stopped wherever it is moved from.
    expect(waysOut(ukulele, [60], undefined, 'never').transpositions[0]).toBe(1);
  });

  test('widen a window by the fewest frets, of those the highest', () => {
    // A4 on the ukulele: the first string open, the second at fret 5, the third at 9, the fourth at 2.
    const ukulele = findInstrument('ukulele');
    const widened = (low: number, high: number) => waysOut(ukulele, [69], { low, high }).window;
    expect(widened(6, 7)).toEqual({ low: 5, high: 7 });
    expect(widened(7, 8)).toEqual({ low: 7, high: 9 });
    expect(widened(6, 8)).toEqual({ low: 6, high: 9 });
  });

  test('never offer the instrument in use under another name', () => {
    const mine = { ...findInstrument('ukulele'), id: 'mine' };
    expect(waysOut(mine, [70], undefined).instruments.map(({ id }) => id)).not.toContain('ukulele');
    const tuned = { ...mine, id: 'ukulele', strings: findInstrument('guitar').strings };
    expect(waysOut(tuned, [70], undefined).instruments.map(({ id }) => id)).not.toContain('ukulele');
  });

  test('are said in one sentence, each kind that there is', () => {
    const guitar = findInstrument('guitar');
    const none = { transpositions: [], window: undefined, withoutCapo: false, instruments: [] };
    expect(describeWaysOut(none)).toBeUndefined();
    const all = {
      transpositions: [2, -3, 4, -12],
      window: { low: 3, high: 8 },
      withoutCapo: true,
      instruments: [guitar],
    };
    expect(describeWaysOut(all)).toMatch(
      /up 2 semitones or down 3 semitones; or in frets 3-8; or without the capo; or on guitar$/,
    );
    expect(describeWaysOut({ ...none, transpositions: [-3, -4] })).toMatch(/transposed down 3 semitones$/);
    expect(describeWaysOut({ ...none, window: { low: 0, high: 5 } })).toMatch(/fit in frets 0-5$/);
    expect(describeWaysOut({ ...none, instruments: [guitar] })).toBe('every note would fit on guitar');
    expect(describeWaysOut({ ...none, instruments: [guitar, findInstrument('bass')] })).toMatch(
      /fit on guitar, bass$/,
    );
  });

  test('count keys from the one that is written, which is what there is to ask for', () => {
    const ways = { transpositions: [3, -2], window: undefined, withoutCapo: false, instruments: [] };
    expect(describeWaysOut(ways, 'would fit', 2)).toMatch(
      /fit in the key that it is written in or transposed up 5 semitones in all$/,
    );
    expect(describeWaysOut({ ...ways, transpositions: [2] }, 'would fit', -2)).toMatch(
      /fit in the key that it is written in$/,
    );
    expect(describeWaysOut(ways, 'would fit', -1)).toMatch(
      /fit transposed up 2 semitones or down 3 semitones in all$/,
    );
  });
});
