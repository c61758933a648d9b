/** Chord frames and charts as drawn. */

import { describe, expect, test } from 'vitest';
import { engraveChart } from '../../../src/engrave/chart/chart.ts';
import { frameMarks, frameStyle, frameWidth } from '../../../src/engrave/chart/frame.ts';
import { engraveShapes } from '../../../src/engrave/chart/sheet.ts';
import { bounds } from '../../../src/engrave/drawing/mark.ts';
import type { Page } from '../../../src/engrave/page.ts';
import { chordChart, symbolsOf } from '../../../src/lesson/chords/chart.ts';
import { shownFrets } from '../../../src/lesson/chords/shape.ts';
import { chordShapes } from '../../../src/lesson/chords/shapes.ts';
import { chordSheet } from '../../../src/lesson/chords/sheet.ts';
import { parseChordSymbol } from '../../../src/lesson/chords/symbol.ts';
import { example, pagesOf as typeset } from '../../emit/typeset.ts';
import { chord, handOf } from '../../lesson/chords/support.ts';
import { allMarks, charted, touching } from './charted.ts';

const SYMBOLS = ['Am7', 'B7', 'Bb9', 'F#m7b5', 'C', 'F', 'E', 'Cmaj9#11', 'Ebm(maj7)', 'D/F#'];

describe.each(['ukulele', 'guitar', 'mandolin'])('a frame for the %s', id => {
  const hand = handOf(id);
  test.each(SYMBOLS)('of %s has the finger in the middle of its disc or barre', symbol => {
    const shapes = chordShapes(hand, chord(symbol), {}, 3);
    const style = frameStyle(hand.instrument.strings.length, shapes, 1, false);
    for (const shape of shapes) {
      const marks = frameMarks(shape, style);
      const figures = marks.filter(({ role }) => role === 'finger');
      const filled = marks.filter(({ kind, role }) => kind === 'polygon' && role === 'place').map(bounds);
      const stopped = new Set(shape.touches.filter(({ finger }) => finger > 0).map(({ finger }) => finger));
      expect(figures.length).toBe(stopped.size);
      for (const figure of figures) {
        const box = bounds(figure);
        const around = filled.find(
          each =>
            Math.abs(middle(each) - middle(box)) < 0.05 &&
            each.left < box.left &&
            each.right > box.right &&
            each.top < box.top &&
            each.bottom > box.bottom,
        );
        expect(around, `${symbol} finger`).toBeDefined();
        expect(Math.abs((around!.top + around!.bottom - box.top - box.bottom) / 2)).toBeLessThan(0.15);
      }
      expect(shownFrets(shape).count).toBeLessThanOrEqual(style.rows);
    }
  });
});

const middle = (box: { left: number; right: number }): number => (box.left + box.right) / 2;

test('a left-handed frame is the mirror image', () => {
  const hand = handOf('ukulele');
  const [shape] = chordShapes(hand, chord('D7'), {}, 1);
  const discs = (leftHanded: boolean) => {
    const style = frameStyle(4, [shape!], 1, leftHanded);
    return frameMarks(shape!, style)
      .filter(({ role }) => role === 'finger')
      .map(mark => {
        const x = middle(bounds(mark));
        return Math.round(1000 * (leftHanded ? frameWidth(style) - x : x));
      });
  };
  expect(discs(true)).toEqual(discs(false));
});

describe('a chord chart', () => {
  const tune = charted([
    ['C'],
    [],
    ['F', 'G7'],
    ['C', 'Am7', 'Dm7', 'G7(b9)'],
    ['Cmaj9', 'F#m7b5', 'Bb13', 'Eb6/9'],
    ['C'],
  ]);
  const chart = chordChart(tune);
  const pages = engraveChart(chart, chordSheet(handOf('ukulele'), symbolsOf(chart), {}, 1), {});

  test('gives each beat the chord in force', () => {
    const roots = chart.measures.map(({ beats }) => beats.map(({ chord: each }) => each?.root?.step));
    expect(roots[0]).toEqual(['C', 'C', 'C', 'C']);
    expect(roots[1]).toEqual(['C', 'C', 'C', 'C']);
    expect(roots[2]).toEqual(['F', 'F', 'G', 'G']);
    expect(roots[3]).toEqual(['C', 'A', 'D', 'G']);
  });

  test('has one slash a beat', () => {
    expect(allMarks(pages).filter(({ kind, role }) => kind === 'polygon' && role === 'head').length).toBe(24);
  });

  test('has no two chord symbols that touch', () => {
    expect(touching(pages)).toBe(0);
  });

  test.each([4, 8, 16, 20, 24])('keeps %i that a file gives at one moment within their measure', count => {
    const many = charted([Array.from({ length: count }, (_, i) => ['Eb', 'Bb'][i % 2]!), ['C']]);
    const measures = many.measures.map(measure => ({
      ...measure,
      chordSymbols: measure.chordSymbols.map(symbol => ({ ...symbol, at: 0 })),
    }));
    const crowded = chordChart({ ...many, measures });
    const sheet = chordSheet(handOf('ukulele'), symbolsOf(crowded), {}, 1);
    const drawn = engraveChart(crowded, sheet, {});
    expect(touching(drawn)).toBe(0);
    const { marks } = drawn.flatMap(({ groups }) => groups).find(({ id }) => id === 'measure-1')!;
    const rightOf = (role: string) =>
      Math.max(...marks.filter(mark => mark.role === role).map(mark => bounds(mark).right));
    expect(rightOf('chord')).toBeLessThan(rightOf('bar'));
  });

  test.each([8, 32, 40, 44])('of %i measures moves its rows closer where that saves a page', count => {
    const long = chordChart(charted(Array.from({ length: count }, () => ['C'])));
    const drawn = engraveChart(long, chordSheet(handOf('ukulele'), symbolsOf(long), {}, 1), {});
    const bars = (page: Page) =>
      page.groups
        .filter(({ className }) => className === 'system')
        .map(({ marks }) => bounds(marks.find(({ role }) => role === 'bar')!));
    expect(drawn.length).toBe(count <= 40 ? 1 : 2);
    for (const page of drawn) {
      const rows = bars(page);
      const free = rows.slice(1).map(({ top }, i) => top - rows[i]!.bottom);
      for (const each of free) expect(each).toBeCloseTo(free[0]!, 3);
      // Room for the number of a measure, 2 mm high, and as much again.
      if (free.length > 0) expect(free[0]).toBeGreaterThan(4);
      expect(rows.at(-1)!.bottom).toBeLessThan(page.height - 15);
    }
  });

  test('is silent before the first chord and under "no chord"', () => {
    const none = { ...parseChordSymbol('C'), root: undefined, kind: 'none' };
    const silent = charted([[], ['C'], []]);
    const measures = silent.measures.map((measure, index) =>
      index === 2 ? { ...measure, chordSymbols: [{ ...none, at: 0 }] } : measure,
    );
    const { measures: shown } = chordChart({ ...silent, measures });
    expect(shown.map(({ beats }) => beats.filter(beat => beat.chord).length)).toEqual([0, 4, 0]);
    expect(shown.map(({ rests }) => rests.length)).toEqual([4, 0, 4]);
  });

  test('has its title, instrument and composer where the sheets of the tune have them', () => {
    const michael = example('michael-row-the-boat-ashore');
    const shown = chordChart(michael);
    const [page] = engraveChart(shown, chordSheet(handOf('ukulele-low-g'), symbolsOf(shown), {}, 1), {});
    const headOf = ({ groups }: Page) => groups.find(({ className }) => className === 'heading')!.marks;
    expect(headOf(page!)).toEqual(headOf(typeset(michael)[0]!));
  });

  test('has a slash or a rest for each beat of a pickup, which takes the room of its beats', () => {
    const grace = chordChart(example('amazing-grace'));
    const [page] = engraveChart(grace, chordSheet(handOf('ukulele'), symbolsOf(grace), {}, 1), {});
    const marksOf = (id: string) => page!.groups.find(group => group.id === id)!.marks;
    expect(marksOf('measure-1').flatMap(mark => (mark.kind === 'glyph' ? [mark.name] : []))).toEqual([
      'restQuarter',
    ]);
    const [first, second, third] = ['system-1', 'measure-1', 'measure-2'].map(id => {
      const bars = marksOf(id).filter(({ role }) => role === 'bar');
      return Math.max(...bars.map(mark => bounds(mark).right));
    });
    expect((second! - first!) / (third! - second!)).toBeCloseTo(1 / 3, 1);
  });
});

test('sheets of shapes keep inside the margins', () => {
  for (const id of ['ukulele', 'guitar']) {
    const sheet = chordSheet(handOf(id), SYMBOLS.map(parseChordSymbol), {}, 3);
    for (const page of engraveShapes(sheet, {})) {
      for (const mark of page.groups.flatMap(({ marks }) => marks)) {
        const box = bounds(mark);
        expect(box.left).toBeGreaterThanOrEqual(15 - 0.01);
        expect(box.right).toBeLessThanOrEqual(page.width - 15 + 0.01);
        expect(box.bottom).toBeLessThanOrEqual(page.height - 15 + 0.01);
      }
    }
  }
});
