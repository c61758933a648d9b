import { describe, expect, it } from 'vitest';
import { cleanText, displayWidth, toAscii } from '../../../src/emit/text/width.ts';

describe('displayWidth', () => {
  // Unicode Standard Annex #11, table "EastAsianWidth.txt": classes of these characters, from memory.
  it.each([
    ['abc', 3],
    ['é', 1],
    ['e\u0301', 1],
    ['♯♭♮', 3],
    ['┌─●', 3],
    ['日本', 4],
    ['한글', 4],
    ['ﾊﾝ', 2],
    ['Ａ', 2],
    ['', 0],
    ['Привет', 6],
    ['’“”…', 4],
  ])('%s takes %i', (text, width) => {
    expect(displayWidth(text)).toBe(width);
  });
});

describe('toAscii', () => {
  it.each([
    ['crème brûlée', 'creme brulee'],
    ['F♯ B♭', 'F# Bb'],
    ['Größe', 'Grosse'],
    ['“it’s” – …', '"it\'s" - ...'],
    ['日', '?'],
  ])('%s becomes %s', (text, plain) => {
    expect(toAscii(text)).toBe(plain);
  });
});

it('cleanText keeps one line, without control and direction characters', () => {
  expect(cleanText(' a\n\tb\u001b[1m\u202ec\u200b ')).toBe('a b [1mc');
});
