import { describe, expect, it } from 'vitest';
import { contentOf } from '../../../src/emit/text/content.ts';
import { endingSpans } from '../../../src/emit/text/endings.ts';
import { marksOf } from '../../../src/emit/text/marks.ts';
import { signatureSigns } from '../../../src/emit/text/signature.ts';
import { signsFor } from '../../../src/emit/text/signs.ts';
import { verseLabels } from '../../../src/emit/text/syllables.ts';
import { tupletSpans } from '../../../src/emit/text/tuplets.ts';
import { explainRhythm } from '../../../src/emit/text/values.ts';
import { toText } from '../../../src/emit/text.ts';
import type { TimeSignature } from '../../../src/score/model/attributes.ts';
import { PLAIN_BARLINE } from '../../../src/score/model/barline.ts';
import type { Direction } from '../../../src/score/model/direction.ts';
import type { Lyric } from '../../../src/score/model/event.ts';
import type { Tune } from '../../../src/score/tune.ts';
import { DIVISION, instrument, lowestPlaces, tuneOf } from './tunes.ts';

const SIGNS = signsFor(true);
const content = (tune: Tune, on = 'ukulele') => contentOf(tune, lowestPlaces(tune, instrument(on)), SIGNS);
const ending = (number: number, close: 'closed' | 'open' = 'closed') => ({
  numbers: [number],
  text: String(number),
  close,
});

describe('positions on the staff', () => {
  // The lines of the treble staff are E4 G4 B4 D5 F5; guitar is written an octave above its sound.
  it.each([
    ['ukulele', 'E4 G4 B4 D5 F5'],
    ['guitar', 'E3 G3 B3 D4 F4'],
  ])('the notes on the lines for %s sound %s', (on, names) => {
    const notes = names
      .split(' ')
      .map(name => `${name}q`)
      .join(' ');
    const [measure] = content(tuneOf([{ notes }]), on);
    expect(measure!.entries.map(entry => entry.heads[0]!.position)).toEqual([0, 2, 4, 6, 8]);
  });

  it('a bass sounds an octave below its bass staff, whose lines are G2 B2 D3 F3 A3', () => {
    const [measure] = content(tuneOf([{ notes: 'G1q B1q D2q F2q A2q' }]), 'bass');
    expect(measure!.entries.map(entry => entry.heads[0]!.position)).toEqual([0, 2, 4, 6, 8]);
  });
});

describe('signatures', () => {
  const metre = (...fractions: readonly (readonly [readonly number[], number])[]): TimeSignature => ({
    kind: 'metred',
    fractions: fractions.map(([beats, beatType]) => ({ beats, beatType })),
    symbol: 'fraction',
  });
  const texts = (fifths: number | undefined, cancelled: number, time?: TimeSignature) =>
    signatureSigns({ kind: 'change', fifths, cancelled, time }, 'treble', SIGNS);

  // F5 C5 G5 and B4 E5, as every key signature in the treble clef has them.
  it('have sharps and flats in their order and octave', () => {
    expect(texts(3, 0).map(sign => [sign.text, sign.position])).toEqual([
      ['#', 8],
      ['#', 5],
      ['#', 9],
    ]);
    expect(texts(-2, 0).map(sign => [sign.text, sign.position])).toEqual([
      ['b', 4],
      ['b', 7],
    ]);
  });

  it('take the old key back where the new one has no signs', () => {
    expect(texts(0, 2).map(sign => [sign.text, sign.position])).toEqual([
      ['n', 8],
      ['n', 5],
    ]);
    expect(texts(0, 0)).toEqual([]);
  });

  it('write the metre number over number, two fractions with a plus', () => {
    const signs = texts(undefined, 0, metre([[3, 2], 8], [[2], 4]));
    expect(signs.map(sign => sign.text)).toEqual(['3+2', '8', '+', '2', '4']);
  });

  it('stand where they change, and only there', () => {
    const time = metre([[3], 4]);
    const plain = { notes: 'A4h.', time };
    const changed = { notes: 'A4q', time: metre([[1], 4]), key: { fifths: 1, mode: undefined } };
    const [first, second, third] = content(tuneOf([plain, plain, changed]));
    expect(first!.opening.time).toEqual(time);
    expect([second!.opening.time, second!.change]).toEqual([undefined, undefined]);
    expect(third!.change).toMatchObject({ fifths: 1, cancelled: 0, time: changed.time });
  });
});

describe('endings', () => {
  const spans = (
    ...measures: readonly { left?: ReturnType<typeof ending>; right?: ReturnType<typeof ending> }[]
  ) =>
    endingSpans(
      tuneOf(
        measures.map(({ left, right }) => ({
          notes: 'A4w',
          left: { ...PLAIN_BARLINE, ending: left },
          right: { ...PLAIN_BARLINE, ending: right },
        })),
      ).measures,
    ).map(
      span =>
        span &&
        `${span.starts ? '[' : ''}${span.text}${span.stops ? (span.stops === 'closed' ? ']' : '>') : ''}`,
    );

  it('span from start to stop', () => {
    expect(
      spans({}, { left: ending(1) }, { right: ending(1) }, { left: ending(2), right: ending(2, 'open') }),
    ).toEqual([undefined, '[1', '1]', '[2>']);
  });

  it('end before the next, or with their first measure, where the file has no stop', () => {
    expect(spans({ left: ending(1) }, {}, { left: ending(2) }, {})).toEqual(['[1', '1>', '[2>', undefined]);
  });
});

describe('lyrics', () => {
  const words = (verse: string, text: string, syllabic: Lyric['syllabic'] = 'single'): Lyric => ({
    verse,
    text,
    syllabic,
    extend: false,
  });
  /** A measure for each list of lyrics, the last one a second ending. */
  const sung = (lyrics: readonly (readonly Lyric[])[]): Tune => {
    const last = { ...PLAIN_BARLINE, ending: ending(2) };
    const bare = tuneOf(
      lyrics.map((_, index) => ({ notes: 'A4w', ...(index === lyrics.length - 1 && { left: last }) })),
    );
    const measures = bare.measures.map((measure, index) => ({
      ...measure,
      events: measure.events.map(event => ({ ...event, lyrics: lyrics[index]! })),
    }));
    return { ...bare, measures };
  };
  const rows = (lyrics: readonly (readonly Lyric[])[]) =>
    toText(sung(lyrics), lowestPlaces(sung(lyrics)), {
      sheet: 'quiz',
      width: 80,
      ascii: true,
      paint: (_, text) => text,
    })
      .split('\n')
      .filter(row => /^[\d ] +[a-z][a-z -]*$/.test(row) && !/^[w ]+$/.test(row));

  it('are those of every verse, in the order of their numbers', () => {
    const tune = sung([[words('2', 'two'), words('1', 'one')], [words('2', 'end')]]);
    expect(
      content(tune).flatMap(measure => measure.entries.map(entry => entry.syllables.map(each => each?.text))),
    ).toEqual([
      ['one', 'two'],
      [undefined, 'end'],
    ]);
  });

  it('have a row for each verse, with its number where there are several', () => {
    const two = rows([[words('2', 'two'), words('1', 'one')], [words('2', 'end')]]);
    expect(two.map(row => row.trim().split(/ +/))).toEqual([
      ['1', 'one'],
      ['2', 'two', 'end'],
    ]);
    const one = rows([[words('1', 'one')], [words('1', 'end')]]);
    expect(one.map(row => row.trim().split(/ +/))).toEqual([['one', 'end']]);
  });

  it('that say their numbers themselves are not numbered again', () => {
    expect(verseLabels(sung([[words('1', 'one'), words('2', '2. two')]]))).toEqual(['1', '']);
  });

  it('have the hyphen of a word that ends elsewhere before the ending in which another begins', () => {
    const hyphenBefore = (syllabic: Lyric['syllabic']): number => {
      const [row] = rows([[words('1', 'be', 'begin')], [], [words('1', 'gin', syllabic)]]);
      return row!.indexOf('-') / (row!.indexOf('be') + row!.indexOf('gin'));
    };
    expect(hyphenBefore('end')).toBeCloseTo(0.5, 1);
    expect(hyphenBefore('single')).toBeLessThan(hyphenBefore('end'));
  });
});

describe('tuplets', () => {
  it('that the file does not mark are found by their values, quarter by quarter', () => {
    const tune = tuneOf([{ notes: 'A4e3 A4e3 A4e3 A4q3 A4e3 A4q' }]);
    expect(tupletSpans(tune).map(({ events, text }) => [events.length, text])).toEqual([
      [3, '3'],
      [2, '3'],
    ]);
  });
});

describe('words over the staff', () => {
  const source = { line: 1, part: 'P1', measure: '1' };
  const place = { at: DIVISION, source };
  const mark = (direction: Direction) => {
    const [measure] = tuneOf([{ notes: 'A4w', directions: [direction] }]).measures;
    return marksOf(measure!, text => text)[0];
  };

  it.each<[Direction, string | undefined]>([
    [{ ...place, kind: 'jump', jump: 'dacapo', text: '' }, 'D.C.'],
    [{ ...place, kind: 'jump', jump: 'dalsegno', text: 'D.S. al Coda' }, 'D.S. al Coda'],
    [{ ...place, kind: 'jump', jump: 'fine', text: 'Fine' }, 'Fine'],
    [{ ...place, kind: 'sign', sign: 'segno' }, 'Segno'],
    [{ ...place, kind: 'rehearsal', text: 'B' }, '[B]'],
    [
      {
        ...place,
        kind: 'tempo',
        perMinute: 72,
        beat: { base: 4, dots: 1, ratio: undefined },
        text: undefined,
        printed: true,
      },
      'dotted quarter = 72',
    ],
    [{ ...place, kind: 'octave-shift', octaves: 1, end: false }, undefined],
  ])('%o', (direction, text) => {
    expect(mark(direction)?.text).toBe(text);
  });

  it('say how often a passage is played where that is not twice', () => {
    const [measure] = tuneOf([
      { notes: 'A4w', right: { ...PLAIN_BARLINE, repeat: true, times: 3 } },
    ]).measures;
    expect(marksOf(measure!, text => text)).toEqual([{ text: 'play 3 times', at: 'end', over: 'start' }]);
  });
});

it('the legend explains the letters that are used and no others', () => {
  expect(explainRhythm(['q', 'q.', 'rh', 'rest', 'g'])).toEqual([
    'h half',
    'q quarter',
    '. dotted',
    'r rest',
    'g grace note',
  ]);
});
