/** Frames as text, read back. */
import { describe, expect, test } from 'vitest';
import { chartToText } from '../../../src/emit/text/chart.ts';
import { chordsToText } from '../../../src/emit/text/chords.ts';
import { chordChart } from '../../../src/lesson/chords/chart.ts';
import { chordSheet } from '../../../src/lesson/chords/sheet.ts';
import { parseChordSymbol } from '../../../src/lesson/chords/symbol.ts';
import { handOf } from '../../lesson/chords/support.ts';
import { attributes, note, tuneFrom } from '../../support/musicxml.ts';
import { exampleTune } from '../../support/pack.ts';

const plain = { width: 80, ascii: false, paint: (_: unknown, text: string) => text };

/** The frets that a single frame shows, from its drawing alone, lowest string first. */
const readFrame = (text: string, strings: number): string => {
  const lines = text.split('\n');
  const top = lines.findIndex(line => /[╒┌+][═─=-]/.test(line));
  const left = lines[top]!.search(/[╒┌+]/);
  const base =
    lines[top]!.includes('═') || lines[top]!.includes('=') ? 1 : Number(lines[top + 1]!.slice(0, left));
  const barred = (line: string, column: number) => /[━=]/.test(line[column] ?? '');
  return Array.from({ length: strings }, (_, n) => {
    const column = left + 2 * n;
    for (let row = top + 1; /[├└+]/.test(lines[row + 1] ?? ''); row += 2) {
      if (/[1-4]/.test(lines[row]![column]!) && !barred(lines[row]!, column)) {
        return String(base + (row - top - 1) / 2);
      }
    }
    return lines[top - 1]![column] === 'x' ? 'x' : '0';
  }).join(' ');
};

describe.each([false, true])('a frame in text (seven bits: %s)', ascii => {
  test.each([
    ['ukulele', 'Am7'],
    ['ukulele', 'B7'],
    ['ukulele', 'Bb9'],
    ['ukulele', 'F#m7b5'],
    ['guitar', 'D'],
    ['guitar', 'F'],
    ['guitar', 'Bb'],
    ['mandolin', 'A7'],
  ])('on the %s draws the frets of %s that stand below it', (id, symbol) => {
    const hand = handOf(id);
    for (const near of [undefined, 7]) {
      const wishes = near === undefined ? {} : { near };
      const text = chordsToText(chordSheet(hand, [parseChordSymbol(symbol)], wishes, 1), { ...plain, ascii });
      const captions = text.split('\n').map(line => line.trim());
      const drawn = readFrame(text.slice(text.indexOf('\n\n') + 2), hand.instrument.strings.length);
      expect(captions).toContain(drawn);
      if (ascii) expect([...text].every(char => char <= '~')).toBe(true);
    }
  });
});

test('millimetres are explained where there are any', () => {
  const text = (symbol: string) =>
    chordsToText(chordSheet(handOf('ukulele'), [parseChordSymbol(symbol)], {}, 1), plain);
  // Of C (0 0 0 3) one string is stopped; of F (2 0 1 0) two.
  expect(text('C')).not.toContain('mm');
  expect(text('F')).toMatch(/\d mm\n\nmm: along the neck, from the lowest stopped fret to the highest\n$/);
});

test('a chord without a shape is named', () => {
  const sheet = chordSheet(
    handOf('ukulele'),
    [parseChordSymbol('C13')],
    { window: { low: 1, high: 1 }, open: 'never' },
    1,
  );
  expect(chordsToText(sheet, plain)).toMatch(/C13\n.*no shape/);
});

test('a chart has endings as sheets have them', () => {
  const chart = chordChart(exampleTune('michael-row-the-boat-ashore'));
  const text = chartToText(chart, chordSheet(handOf('ukulele'), [], {}, 1), plain);
  expect(text.match(/\[\d\S*/g)).toEqual(['[1.', '[2.']);
});

test('a chart has new metres, and says how often a repeat is played, in room of their own', () => {
  const metre = (beats: number) =>
    `<attributes><time><beats>${beats}</beats><beat-type>4</beat-type></time></attributes>`;
  const tune = tuneFrom(
    attributes() + note('C4', 48),
    metre(1) + note('C4', 12),
    `${note('C4', 12)}<barline location="right"><repeat direction="backward" times="3"/></barline>`,
    metre(2) + note('C4', 24),
  );
  const text = chartToText(chordChart(tune), chordSheet(handOf('ukulele'), [], {}, 1), plain);
  expect(text).toMatch(/^ +1\/4 +play 3 times +2\/4$/m);
  expect(text.match(/\d\/4/g)).toEqual(['1/4', '2/4', '4/4']);
});

test('a title of its own is written as all words are, and leaves no line where it is empty', () => {
  const sheet = chordSheet(handOf('ukulele'), [parseChordSymbol('C')], {}, 1);
  const first = (title: string, ascii = true) =>
    chordsToText(sheet, { ...plain, width: 40, ascii, title })
      .split('\n')
      .slice(0, 2);
  expect(first('Für\u009b Élise')[0]).toBe('Fur Elise');
  expect(first('')[0]).toContain('Ukulele');
  expect(first('Chords for everybody who comes on Monday evening', false)).toEqual([
    'Chords for everybody who comes on Monday',
    'evening',
  ]);
});
