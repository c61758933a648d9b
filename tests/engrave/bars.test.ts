/** Bar lines between measures that ask for different ones. */
import { describe, expect, test } from 'vitest';
import { type Barline, PLAIN_BARLINE } from '../../src/score/model/barline.ts';
import { systemsOf } from './rules.ts';
import { sheet, tuneOf } from './sheets.ts';

type Style = Barline['style'];
const line = (style: Style, repeat = false): Barline => ({ ...PLAIN_BARLINE, style, repeat });
const D_MAJOR = { fifths: 2, mode: undefined };

/** Widths of the strokes over the staff of a tune of two measures, in sp, the last bar line left out; dashed ones are 0. */
function strokes(right: Barline, left: Barline, perSystem: 1 | 2, changes = false): number[] {
  const tune = tuneOf([
    { notes: 'C5w', right },
    { notes: 'C5w', left, ...(changes && { key: D_MAJOR, changes: [{ at: 0, key: D_MAJOR }] }) },
  ]);
  const { pages } = sheet(tune, { staffSize: 4, sheet: 'quiz', measuresPerSystem: perSystem });
  const [system] = systemsOf(pages);
  const lines = system!.marks.flatMap(mark => (mark.role === 'bar' && mark.kind === 'line' ? [mark] : []));
  const widths = lines
    .sort((a, b) => a.x1 - b.x1)
    .map(({ dash, thickness }) => (dash ? 0 : Math.round(thickness * 100) / 100));
  return perSystem === 2 ? widths.slice(0, -2) : widths;
}

describe('the bar line between two measures', () => {
  const [thin, thick] = [0.16, 0.5];
  test.each<[string, Barline, Barline, readonly number[]]>([
    ['is what the left one asks for', line('double'), line('regular'), [thin, thin]],
    ['is what the right one asks for', line('regular'), line('double'), [thin, thin]],
    ['is none where one asks for none', line('none'), line('regular'), []],
    ['is what the right one asks for, and the left one for none', line('none'), line('double'), [thin, thin]],
    ['is dashed', line('regular'), line('dashed'), [0]],
  ])('%s, within a system and at its end', (_, right, left, widths) => {
    expect(strokes(right, left, 2)).toEqual(widths);
    expect(strokes(right, left, 1)).toEqual(widths);
  });

  test('leaves a repeat that starts to the next system', () =>
    expect(strokes(line('regular'), line('reverse-final', true), 1)).toEqual([thin]));

  test('stays final before a key that changes and a repeat that starts', () =>
    expect(strokes(line('final'), line('reverse-final', true), 2, true)).toEqual([thin, thick, thick, thin]));
});
