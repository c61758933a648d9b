/** Where frets, strings and places lie on paper, against the formula. */
import { describe, expect, test } from 'vitest';
import { bounds } from '../../../src/engrave/drawing/mark.ts';
import { fretAt, layOutNeck, onPaper, placeAt } from '../../../src/engrave/neck/layout.ts';
import { engraveNeck } from '../../../src/engrave/neck/page.ts';
import { arrange } from '../../../src/fingering/arrange.ts';
import { rulesFrom, wholeTune } from '../../../src/fingering/rules.ts';
import { findInstrument, withCapo } from '../../../src/instrument/define.ts';
import type { Instrument } from '../../../src/instrument/instrument.ts';
import { neckMap } from '../../../src/lesson/neck/map.ts';
import { pitchOf, tuneOf } from '../../support/melody.ts';

const mapOn = (instrument: Instrument) => {
  const tune = tuneOf(['G4', 'A4', 'C5', 'E5'].map(name => ({ pitch: pitchOf(name), duration: 12 })));
  return neckMap(tune, arrange(tune, instrument, rulesFrom({ windows: wholeTune(3, 8) })).arrangement);
};

const LEVEL = { upright: false, leftHanded: false };

describe('frets', () => {
  test.each(['ukulele', 'guitar', 'mandolin'])('of the %s are to scale', id => {
    const { scaleLength } = findInstrument(id);
    const layout = layOutNeck(mapOn(findInstrument(id)), 180, LEVEL);
    // L·(1 − 2^(−n/12)), the formula every maker uses.
    for (let fret = 0; fret <= 12; fret++) {
      const mm = scaleLength * (1 - 2 ** (-fret / 12));
      expect(fretAt(layout, fret)).toBeCloseTo(layout.factor * mm, 9);
    }
    expect(fretAt(layout, 12)).toBeCloseTo((layout.factor * scaleLength) / 2, 9);
  });

  test('are true to size where the paper allows, and never larger', () => {
    expect(layOutNeck(mapOn(findInstrument('ukulele')), 400, LEVEL).factor).toBe(1);
    expect(layOutNeck(mapOn(findInstrument('ukulele')), 150, LEVEL).factor).toBeLessThan(1);
  });

  test('count from a capo', () => {
    const layout = layOutNeck(mapOn(withCapo(findInstrument('ukulele'), 2)), 400, LEVEL);
    expect(fretAt(layout, 10)).toBeCloseTo(381 * (2 ** (-2 / 12) - 0.5), 9);
  });
});

describe('a place', () => {
  test('lies between its fret and the one before', () => {
    const layout = layOutNeck(mapOn(findInstrument('ukulele')), 180, LEVEL);
    for (let fret = 1; fret <= 12; fret++) {
      const { along } = placeAt(layout, 2, fret);
      expect(along).toBeGreaterThan(fretAt(layout, fret - 1));
      expect(along).toBeLessThan(fretAt(layout, fret));
    }
    expect(placeAt(layout, 2, 0).along).toBeLessThan(0);
  });

  test('has string 1 on top; upright at the right; left-handed the other way about', () => {
    const map = mapOn(findInstrument('ukulele'));
    const at = (upright: boolean, leftHanded: boolean, string: number, fret: number) => {
      const layout = layOutNeck(map, 180, { upright, leftHanded });
      return onPaper(layout, placeAt(layout, string, fret));
    };
    expect(at(false, false, 1, 3)[1]).toBeLessThan(at(false, false, 4, 3)[1]);
    expect(at(false, false, 1, 3)[0]).toBeLessThan(at(false, false, 1, 5)[0]);
    expect(at(false, true, 1, 3)[0]).toBeGreaterThan(at(false, true, 1, 5)[0]);
    expect(at(true, false, 1, 3)[0]).toBeGreaterThan(at(true, false, 4, 3)[0]);
    expect(at(true, true, 1, 3)[0]).toBeLessThan(at(true, true, 4, 3)[0]);
    expect(at(true, false, 1, 3)[1]).toBeLessThan(at(true, false, 1, 5)[1]);
  });
});

const HEAD = { title: 'T', rights: ['Public domain', 'By nobody'] };

describe.each([
  { upright: false, leftHanded: false },
  { upright: true, leftHanded: false },
  { upright: false, leftHanded: true },
  { upright: true, leftHanded: true },
])('the page, %o', options => {
  test.each(['ukulele', 'guitar', 'baritone-ukulele'])(
    'of a %s keeps inside its margins, discs apart',
    id => {
      const [page] = engraveNeck(mapOn(findInstrument(id)), HEAD, options);
      const marks = page!.groups.flatMap(group => group.marks);
      for (const mark of marks) {
        const box = bounds(mark);
        expect(box.left).toBeGreaterThanOrEqual(15 - 0.3);
        expect(box.right).toBeLessThanOrEqual(page!.width - 15 + 0.3);
        expect(box.bottom).toBeLessThanOrEqual(page!.height - 15 + 0.3);
      }
      const discs = marks.filter(({ kind, role }) => kind === 'polygon' && role === 'place').map(bounds);
      for (const a of discs) {
        for (const b of discs) {
          const centres = Math.hypot(
            (a.left + a.right - b.left - b.right) / 2,
            (a.top + a.bottom - b.top - b.bottom) / 2,
          );
          if (centres < 0.01) continue;
          expect(centres).toBeGreaterThan((a.right - a.left + b.right - b.left) / 2 - 0.01);
        }
      }
    },
  );

  test('has what the tune says of rights at its foot, clear of the map', () => {
    const [page] = engraveNeck(mapOn(findInstrument('ukulele')), HEAD, options);
    const foot = page!.groups.find(({ className }) => className === 'footer')!.marks;
    expect(foot.map(mark => mark.kind === 'text' && mark.text)).toEqual(HEAD.rights);
    const highest = Math.min(...foot.map(mark => bounds(mark).top));
    for (const { className, marks } of page!.groups)
      if (className !== 'footer') for (const mark of marks) expect(bounds(mark).bottom).toBeLessThan(highest);
  });
});

test.each([
  [[], undefined],
  [[[4, 8]], 'Frets 4–8'],
  [[[5, 5]], 'Fret 5'],
  [
    [
      [2, 6],
      [5, 9],
    ],
    'Frets 2–6 and 5–9',
  ],
  [
    [
      [0, 3],
      [5, 5],
      [7, 10],
    ],
    'Frets 0–3, 5 and 7–10',
  ],
])('windows %j are named once: %s', (windows, line) => {
  const map = {
    ...mapOn(findInstrument('ukulele')),
    windows: windows.map(([low, high]) => ({ low: low!, high: high! })),
  };
  const marks = engraveNeck(map, { title: 'Tune', rights: [] }, {}).flatMap(({ groups }) =>
    groups.flatMap(group => group.marks),
  );
  const lines = marks.flatMap(mark =>
    mark.kind === 'text' && /^Frets? \d/.test(mark.text) ? [mark.text] : [],
  );
  expect(lines).toEqual(line === undefined ? [] : [line]);
});
