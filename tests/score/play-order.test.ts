/**
 * Repeats, endings and jumps, played out. Expected orders are worked out by hand from the rules at the
 * head of the module (common practice). A form is written in a small notation: one word a measure, "|:"
 * and ":|" repeats, ":|x3" three times, "[1" and "]" endings, and words for signs and jumps.
 */
import { describe, expect, test } from 'vitest';
import type { Barline } from '../../src/score/model/barline.ts';
import type { Direction } from '../../src/score/model/direction.ts';
import { playOrder, repeatStarts } from '../../src/score/play-order.ts';
import type { Tune, TuneMeasure } from '../../src/score/tune.ts';
import { quarters } from '../support/melody.ts';
import { refused } from '../support/musicxml.ts';

const SIGNS = { segno: 'segno', coda: 'coda' } as const;
const JUMPS = {
  DC: 'dacapo',
  'DC-al-Fine': 'dacapo',
  DS: 'dalsegno',
  toCoda: 'tocoda',
  Fine: 'fine',
} as const;

/** "|: a b :|" → a tune whose measures are numbered a, b, … */
const form = (text: string): Tune => {
  const plain = quarters('C4');
  const [measure] = plain.measures;
  const measures: { -readonly [K in keyof TuneMeasure]: TuneMeasure[K] }[] = [];
  let left: Partial<Barline> = {};
  let numbers: readonly number[] = [];
  let signs: Direction[] = [];
  const source = measure!.source;
  const change = (barline: Partial<Barline>): void => {
    const last = measures.at(-1)!;
    last.right = { ...last.right, ...barline };
  };
  for (const word of text.split(' ')) {
    const end = /^:\|(?:x(\d+))?$/.exec(word);
    if (word === '|:') left = { ...left, repeat: true };
    else if (end) change({ repeat: true, times: Number(end[1] ?? 2) });
    else if (word.startsWith('[')) {
      numbers = word.slice(1).split(',').filter(Boolean).map(Number);
      left = { ...left, ending: { numbers, text: word, close: 'closed' } };
    } else if (word === ']') change({ ending: { numbers, text: '', close: 'closed' } });
    else if (word in SIGNS) signs.push({ kind: 'sign', sign: word as 'segno', at: 0, source });
    else if (word in JUMPS) {
      const jump = JUMPS[word as keyof typeof JUMPS];
      measures.at(-1)!.directions = [
        ...measures.at(-1)!.directions,
        { kind: 'jump', jump, text: word.replaceAll('-', ' '), at: 0, source },
      ];
    } else {
      measures.push({
        ...measure!,
        index: measures.length,
        number: word,
        left: { ...measure!.left, ...left },
        directions: signs,
      });
      left = {};
      signs = [];
    }
  }
  return { ...plain, measures };
};

const played = (text: string): string => {
  const tune = form(text);
  return playOrder(tune)
    .measures.map(index => tune.measures[index]!.number)
    .join(' ');
};

/** From which measure the order goes back to which, and what `repeatStarts` says of that measure. */
const goneBack = (text: string): readonly (readonly [from: string, to: string, said: string])[] => {
  const { measures } = form(text);
  const { measures: order } = playOrder(form(text));
  const starts = repeatStarts(form(text));
  const name = (index: number): string => measures[index]!.number;
  return order.flatMap((index, at) => {
    const next = order[at + 1] ?? measures.length;
    return next > index ? [] : [[name(index), name(next), name(starts[index]!)] as const];
  });
};

describe('where repeats go back to', () => {
  test.each([
    '|: a b :| c d :|',
    '|: a :| |: b :| c :|',
    '|: a |: b :| c :| d',
    '|: a [1 b ] :| [2 c ] :| [3 d ] e',
    '|: a [1 b ] :| [2 c ] d [1 e ] :| [2 f ] g :|',
    '|: a |: b [1 c ] :| [2 d ] e :| f',
  ])('%s', text => {
    const gone = goneBack(text);
    expect(gone.length).toBeGreaterThan(1);
    for (const [, to, said] of gone) expect(said).toBe(to);
  });

  test('the second of two without a start goes back to the end of the first', () => {
    expect(goneBack('|: a b :| c d :|')).toEqual([
      ['b', 'a', 'a'],
      ['d', 'c', 'c'],
    ]);
  });
});

describe('repeats', () => {
  test.each([
    ['a b c', 'a b c'],
    ['a b :| c', 'a b a b c'],
    ['a |: b c :| d', 'a b c b c d'],
    ['|: a :|x3 b', 'a a a b'],
    // Without a start of its own the second goes back to the end of the first.
    ['a :| b :|', 'a a b b'],
    ['|: a :| b :|', 'a a b b'],
    ['|: a :| |: b :|', 'a a b b'],
    // Nested: the inner one is played twice each time.
    ['|: a |: b :| c :| d', 'a b b c a b b c d'],
    // A start that nothing ends.
    ['|: a b', 'a b'],
    ['|: a |: b :| c', 'a b b c'],
  ])('%s', (text, expected) => expect(played(text)).toBe(expected));
});

describe('endings', () => {
  test.each([
    ['|: a [1 b ] :| [2 c ] d', 'a b a c d'],
    ['a [1 b ] :| [2 c ]', 'a b a c'],
    ['|: a [1,2 b ] :| [3 c ] d', 'a b a b a c d'],
    ['|: a [1 b ] :| [2 c ] :| [3 d ] e', 'a b a c a d e'],
    ['|: a [1 b c ] :| [2 d e ] f', 'a b c a d e f'],
    // A first ending alone: the second time one goes on behind it.
    ['|: a [1 b ] :| c', 'a b a c'],
    // A repeat at the second ending too: the two endings are all there is.
    ['|: a [1 b ] :| [2 c ] :| d', 'a b a c d'],
    // Two passages with endings, the second without a start.
    ['|: a [1 b ] :| [2 c ] d [1 e ] :| [2 f ]', 'a b a c d e d f'],
    // A second passage that follows its forerunner's endings directly: it starts where they end.
    ['|: a [1 b ] :| [2 c ] [1 d ] :| [2 e ] f', 'a b a c d e f'],
    // An ending that names no pass is always played.
    ['|: a [ b ] :| c', 'a b a b c'],
    // Endings of an inner passage, each time anew.
    ['|: a |: b [1 c ] :| [2 d ] e :| f', 'a b c b d e a b c b d e f'],
  ])('%s', (text, expected) => expect(played(text)).toBe(expected));
});

describe('jumps', () => {
  test.each([
    ['a b Fine c DC', 'a b c a b'],
    ['a segno b c DS d', 'a b c b c d'],
    ['a segno b Fine c DS', 'a b c b'],
    ['a b toCoda c DC coda d', 'a b c a b d'],
    ['a segno b toCoda c DS coda d e', 'a b c b d e'],
    // Repeats are not made again, and the last ending is taken.
    ['|: a b :| c DC', 'a b a b c a b c'],
    ['|: a [1 b ] :| [2 c ] Fine d DC', 'a b a c d a c'],
    // First the repeat at the same bar line, then the jump.
    ['|: a b :| DC c', 'a b a b a b c'],
    // Signs without counterpart.
    ['a b DS c', 'a b c'],
    ['a toCoda b DC', 'a b a b'],
    ['a Fine b', 'a b'],
    // A segno is none for a coda; one that comes later is not meant, nor is a coda at the way out or before it.
    ['a coda b DS c', 'a b c'],
    ['a DS segno b c', 'a b c'],
    ['a segno b segno c DS d', 'a b c c d'],
    ['a b coda c toCoda DC d', 'a b c a b c d'],
    ['coda a b toCoda c DC d', 'a b c a b c d'],
    ['a toCoda b DC coda c coda d', 'a b a d'],
    // One jump after the other, each once.
    ['a b DC c DC d', 'a b a b c a b c d'],
  ])('%s', (text, expected) => expect(played(text)).toBe(expected));

  test('what leads nowhere is said', () => {
    expect(playOrder(form('a b DS c')).diagnostics.map(each => each.code)).toEqual(['no-segno']);
    expect(playOrder(form('a toCoda b DC')).diagnostics.map(each => each.code)).toEqual(['no-coda']);
    expect(playOrder(form('a b DC-al-Fine')).diagnostics.map(each => each.code)).toEqual(['no-fine']);
    expect(playOrder(form('a Fine b DC-al-Fine')).diagnostics).toEqual([]);
    expect(playOrder(form('a b DC')).diagnostics).toEqual([]);
    // What a direction says without being a jump leads nowhere.
    const words = { kind: 'words', at: 0, text: 'con moto al fine', placement: 'above' } as const;
    const { measures, ...tune } = form('a b');
    const [first, ...rest] = measures;
    const said = { ...first!, directions: [{ ...words, source: first!.source }] };
    expect(playOrder({ ...tune, measures: [said, ...rest] }).diagnostics).toEqual([]);
    expect(playOrder(form('a segno b DS')).diagnostics).toEqual([]);
    expect(playOrder(form('a toCoda b DC coda c')).diagnostics).toEqual([]);
    expect(playOrder(form('a b DS c')).diagnostics).toMatchObject([
      { severity: 'warning', message: expect.stringMatching(/no segno before/), place: { part: 'P1' } },
    ]);
    expect(playOrder(form('a toCoda b DC')).diagnostics[0]!.message).toMatch(/no coda after/);
  });

  test('a sign at the end of a measure stands for the next', () => {
    const tune = form('a segno b c DS d');
    const { length } = tune.measures[1]!;
    const late = (at: number): Tune => ({
      ...tune,
      measures: tune.measures.map(measure => ({
        ...measure,
        directions: measure.directions.map(each => (each.kind === 'sign' ? { ...each, at } : each)),
      })),
    });
    expect(playOrder(late(length)).measures).toEqual([0, 1, 2, 2, 3]);
    expect(playOrder(late(length - 1)).measures).toEqual([0, 1, 2, 1, 2, 3]);
    const empty = { ...late(0), measures: late(0).measures.map(measure => ({ ...measure, length: 0 })) };
    expect(playOrder(empty).measures).toEqual([0, 1, 2, 1, 2, 3]);
  });
});

test('repeats that never end in practice are refused', () => {
  expect(() => playOrder(form('|: a |: b :|x999 c :|x999'))).toThrow(/longer than/);
  expect(playOrder(form('|: a :|x200000')).measures).toHaveLength(200_000);
  expect(refused(() => playOrder(form('|: a :|x200001')))).toMatchObject([
    { severity: 'error', code: 'too-many-repeats', place: { measure: '1' } },
  ]);
});
