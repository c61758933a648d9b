/** "No chord" in words over the staff is the same as the chord symbol of that name. */
import { describe, expect, test } from 'vitest';
import { chordPieces } from '../../src/engrave/content/chord-name.ts';
import { chordChart } from '../../src/lesson/chords/chart.ts';
import { attributes, note, tuneFrom } from '../support/musicxml.ts';

const chord = '<harmony><root><root-step>F</root-step></root><kind>major</kind></harmony>';
const said = (text: string, placement = 'above') =>
  `<direction placement="${placement}"><direction-type><words>${text}</words></direction-type></direction>`;
const none = (text: string) =>
  `<harmony><root><root-step text="">C</root-step></root><kind text="${text}">none</kind></harmony>`;
const tune = (marks: string) =>
  tuneFrom(`${attributes()}${chord}${note('C4', 24)}${marks}${note('D4', 24)}`, note('E4', 48));

describe('no chord', () => {
  test.each(['N.C.', 'N. C.', 'NC', 'n.c.', '(N.C.)', 'no chord', 'No Chords', 'tacet', 'Tacet.'])(
    '"%s" over the staff ends the chord before it',
    text => {
      const [first] = tune(said(text)).measures;
      expect(first!.chordSymbols.map(({ at, root }) => [at, root?.step])).toEqual([
        [0, 'F'],
        [24, undefined],
      ]);
      expect(first!.directions).toEqual([]);
      const { measures } = chordChart(tune(said(text)));
      expect(measures.flatMap(({ beats }) => beats.map(each => each.chord?.root?.step))).toEqual([
        'F',
        'F',
        ...Array(6),
      ]);
    },
  );

  test.each(['N.C.', '', 'tacet'])('however the symbol is spelled ("%s"), it is printed as N.C.', text => {
    const symbol = tune(none(text)).measures[0]!.chordSymbols[1]!;
    expect(chordPieces(symbol)).toEqual([{ text: 'N.C.', raised: false }]);
  });

  test('words and symbol at one moment count once', () => {
    expect(tune(said('N.C.') + none('N.C.')).measures[0]!.chordSymbols).toHaveLength(2);
  });

  test('takes its place among the symbols, and the other words stay', () => {
    const measure = tuneFrom(
      `${attributes()}${said('Slowly')}${note('C4', 12)}${said('N.C.')}${note('D4', 12)}${chord}${said('aside')}${note('E4', 24)}`,
    ).measures[0]!;
    expect(measure.chordSymbols).toMatchObject([
      { at: 12, root: undefined, kind: 'none', text: undefined, bass: undefined, degrees: [] },
      { at: 24, root: { step: 'F' } },
    ]);
    expect(measure.directions).toMatchObject([{ text: 'Slowly' }, { text: 'aside' }]);
  });

  test('is not said already by the symbol of a chord, nor by silence at another moment', () => {
    const symbols = (marks: string) =>
      tune(marks).measures[0]!.chordSymbols.map(({ at, root }) => [at, root?.step]);
    expect(symbols(said('N.C.') + chord)).toEqual([
      [0, 'F'],
      [24, 'F'],
      [24, undefined],
    ]);
    const [first] = tuneFrom(
      `${attributes()}${none('')}${note('C4', 24)}${said('N.C.')}${note('D4', 24)}`,
      `${chord}${note('C4', 48)}`,
    ).measures;
    expect(first!.chordSymbols.map(({ at }) => at)).toEqual([0, 24]);
  });

  test.each([
    ['other words', 'Once more, N.C.', 'above'],
    ['words below the staff', 'tacet', 'below'],
  ])('%s stay words', (_, text, placement) => {
    const [first] = tune(said(text, placement)).measures;
    expect(first!.chordSymbols).toHaveLength(1);
    expect(first!.directions).toMatchObject([{ kind: 'words', text }]);
  });

  test('a tempo mark or a rehearsal letter of that name is none', () => {
    const letter =
      '<direction placement="above"><direction-type><rehearsal>NC</rehearsal></direction-type></direction>';
    const [first] = tune(letter).measures;
    expect(first!.chordSymbols).toHaveLength(1);
    expect(first!.directions).toHaveLength(1);
  });

  test('where the tune has no chord symbols, the words stay words', () => {
    const [first] = tuneFrom(`${attributes()}${said('tacet')}${note('C4', 48)}`).measures;
    expect(first!.chordSymbols).toEqual([]);
    expect(first!.directions).toMatchObject([{ kind: 'words', text: 'tacet' }]);
  });
});
