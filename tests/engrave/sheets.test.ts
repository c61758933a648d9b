import { describe, expect, test } from 'vitest';
import type { TextMark } from '../../src/engrave/drawing/text.ts';
import { engrave, type Page } from '../../src/engrave/engrave.ts';
import type { Tune } from '../../src/score/tune.ts';
import { breaks, centre, collisions, inked } from './layout.ts';
import { instrument, lowestPlaces, sheet, tuneOf } from './sheets.ts';

const scale = Array.from({ length: 16 }, () => ({ notes: 'C4q D4q E4q F4q' }));
const texts = (pages: readonly Page[], role: string) =>
  inked(pages).flatMap(({ mark }) => (mark.role === role ? [(mark as TextMark).text] : []));

/** The tune with its last two notes struck together. */
function lastAsChord(tune: Tune): Tune {
  const [measure] = tune.measures;
  const [low, high] = measure!.events.slice(-2);
  if (low?.kind !== 'note' || high?.kind !== 'note') throw new Error('no two notes at the end');
  const chord = { ...low, heads: [...low.heads, ...high.heads] };
  return { ...tune, measures: [{ ...measure!, events: [...measure!.events.slice(0, -2), chord] }] };
}

describe('the four kinds of sheet', () => {
  const tune = tuneOf([{ notes: 'C4q F#4q Bb4q~ Bb4q' }]);
  test('tab has a figure for each struck note', () => {
    expect(texts(sheet(tune).pages, 'digit')).toEqual(['0', '2', '1']);
  });
  test('quiz has none, and no tablature lines', () => {
    const { pages } = sheet(tune, { sheet: 'quiz' });
    expect(texts(pages, 'digit')).toEqual([]);
    expect(inked(pages).some(({ mark }) => mark.role === 'tab-line')).toBe(false);
  });
  test('names has letters with their accidentals as glyphs', () => {
    const { pages } = sheet(tune, { sheet: 'names' });
    expect(texts(pages, 'letter').filter(Boolean)).toEqual(['C', 'F', 'B']);
    const signs = inked(pages).flatMap(({ mark }) =>
      mark.role === 'letter' && mark.kind === 'glyph' ? [mark.name] : [],
    );
    expect(signs).toEqual(['sharp', 'flat']);
  });
  test('blank has empty lines, one a string', () => {
    const { pages } = sheet(tune, { sheet: 'blank' });
    const heights = inked(pages).flatMap(({ mark }) =>
      mark.role === 'tab-line' && mark.kind === 'line' ? [mark.y1] : [],
    );
    expect(new Set(heights.map(y => y.toFixed(3))).size).toBe(4);
    expect(texts(pages, 'digit')).toEqual([]);
  });
  test.each(['blank', 'quiz', 'names'] as const)('%s is the same wherever notes are played', kind => {
    const slurred = { ...tune, slurs: [{ from: 1, to: 5, placement: undefined }] };
    const low = lowestPlaces(slurred, instrument('ukulele'));
    const high = new Map([...low.placements].map(([id, place]) => [id, { ...place, string: 1, fret: 9 }]));
    const sheets = [low, { ...low, placements: high }].map(
      each => engrave(slurred, each, { sheet: kind }).pages,
    );
    expect(inked(sheets[0]!).some(({ mark }) => mark.role === 'slur')).toBe(true);
    expect(sheets[1]).toEqual(sheets[0]);
  });
  test('a quiz has boxes for letters where they are asked for', () => {
    const boxed = sheet(tune, { sheet: 'quiz', letterBoxes: true }).pages;
    expect(inked(boxed).filter(({ mark }) => mark.role === 'answer').length).toBe(3 * 4);
  });
});

describe('what may be asked for', () => {
  test('a number of measures a system', () => {
    const { pages } = sheet(tuneOf(scale), { measuresPerSystem: 2 });
    for (const system of breaks(pages).flat()) expect(system.trim().split(' ').length).toBe(2);
  });
  test('the breaks of the file', () => {
    const specs = scale.map((spec, i) =>
      i === 3 || i === 6 ? { ...spec, breakBefore: 'system' as const } : spec,
    );
    const starts = breaks(sheet(tuneOf(specs), { keepBreaks: true }).pages)
      .flat()
      .map(each => each.trim().split(' ')[0]);
    expect(starts).toEqual(expect.arrayContaining(['1', '4', '7']));
  });
  test('a title, a subtitle, a footer of one’s own', () => {
    const { pages } = sheet(tuneOf(scale, { title: 'Old' }), {
      title: 'New',
      subtitle: 'Week 3',
      footer: 'Evening class',
    });
    expect(texts(pages, 'heading')).toEqual(expect.arrayContaining(['New', 'Week 3', 'Evening class']));
    expect(texts(pages, 'heading')).not.toContain('Old');
  });
  test('the size of the staff and the margins', () => {
    const { pages } = sheet(tuneOf(scale), { staffSize: 6, margin: 20 });
    const lines = inked(pages).filter(({ mark }) => mark.role === 'staff');
    const [first, last] = [lines[0]!, lines[4]!];
    expect(last.box.top - first.box.top).toBeCloseTo(6, 3);
    expect(first.box.left).toBeCloseTo(20, 3);
  });
  test('landscape paper', () => {
    const { width, height } = sheet(tuneOf(scale), { landscape: true }).pages[0]!;
    expect([width, height]).toEqual([297, 210]);
  });
  test('fingers clear of the stems before them, however tight the beams', () => {
    const leaps = tuneOf(Array.from({ length: 8 }, () => ({ notes: 'B4s D4s F4s B4s B4h B4q' })));
    expect(collisions(sheet(leaps, { fingers: 'all', measuresPerSystem: 8 }).pages, 0.06)).toEqual([]);
  });
  test('fingers on every note, or where the hand moves', () => {
    const tune = tuneOf([{ notes: 'C4q D4q E4q F4q' }]);
    expect(texts(sheet(tune, { fingers: 'all' }).pages, 'finger')).toEqual(['0', '1', '0', '1']);
    expect(texts(sheet(tune, { fingers: 'none' }).pages, 'finger')).toEqual([]);
    expect(texts(sheet(tune, { fingers: 'changes' }).pages, 'finger')).toEqual(['1']);
  });
  test('fingers over the staff for single notes, at the left of the heads of a chord', () => {
    const marks = inked(
      sheet(lastAsChord(tuneOf([{ notes: 'C4q B4q F5q C4q G4q' }])), { fingers: 'all' }).pages,
    );
    const top = Math.min(...marks.filter(({ mark }) => mark.role === 'staff').map(({ box }) => box.top));
    const heads = marks.filter(({ mark }) => mark.role === 'head').map(({ box }) => box);
    const fingers = marks.filter(({ mark }) => mark.role === 'finger').map(({ box }) => box);
    const over = fingers.filter(({ bottom }) => bottom < top);
    const beside = fingers.filter(({ bottom }) => bottom >= top);
    expect(over.map(centre)).toEqual(heads.slice(0, 3).map(box => expect.closeTo(centre(box), 3)));
    expect(beside.length).toBe(2);
    for (const [i, { left, right, top, bottom }] of beside.entries()) {
      const head = heads[3 + i]!;
      expect(right).toBeLessThan(head.left);
      expect(left).toBeGreaterThan(heads[2]!.right);
      expect((top + bottom) / 2).toBeCloseTo((head.top + head.bottom) / 2, 1);
    }
  });
  test('positions as Roman numerals, where they change, each over the middle of its note and its finger', () => {
    const { pages } = sheet(tuneOf(scale), { positions: true, fingers: 'changes' });
    expect(texts(pages, 'position')).toEqual(['I']);
    const [position, finger] = ['position', 'finger'].map(
      role => inked(pages).find(({ mark }) => mark.role === role)!.box,
    );
    expect(centre(position!)).toBeCloseTo(centre(finger!), 1);
    expect(position!.bottom).toBeLessThan(finger!.top);
  });
});

describe('verse numbers', () => {
  const verse = (name: string, text: string) =>
    ({ verse: name, text, syllabic: 'single', extend: false }) as const;
  /** A tune whose notes have these syllables, each a verse's name and text. */
  function sung(...lyrics: readonly (readonly (readonly [string, string])[])[]): Tune {
    const tune = tuneOf([{ notes: lyrics.map(() => 'E4q').join(' ') }]);
    const [measure] = tune.measures;
    const events = measure!.events.map((event, i) =>
      event.kind === 'note' ? { ...event, lyrics: lyrics[i]!.map(each => verse(...each)) } : event,
    );
    return { ...tune, measures: [{ ...measure!, events }] };
  }
  /** Right edges of numbers, and left edge of the first word. */
  function edges(tune: Tune) {
    const lyrics = inked(sheet(tune).pages).filter(({ mark }) => mark.role === 'lyric');
    const isNumber = ({ mark }: (typeof lyrics)[number]) => /^\d+\.$/.test((mark as TextMark).text);
    const words = lyrics.filter(each => !isNumber(each));
    return {
      numbers: lyrics.filter(isNumber).map(({ box }) => box.right),
      word: Math.min(...words.map(({ box }) => box.left)),
    };
  }
  test.each([
    [
      'that begin together',
      sung([
        ['1', 'Oh'],
        ['2', 'Softly'],
      ]),
      2,
    ],
    [
      'one of which begins later',
      sung(
        [['1', 'Oh']],
        [
          ['1', 'row'],
          ['2', 'help'],
        ],
      ),
      2,
    ],
    [
      'whose numbers are in the text',
      sung([
        ['1', '1. Oh'],
        ['2', '2. I'],
      ]),
      2,
    ],
    ['of which there is but one', sung([['1', 'Oh']]), 0],
  ] as const)('of verses %s stand under each other before the first word', (_, tune, count) => {
    const { numbers, word } = edges(tune);
    expect(numbers.length).toBe(count);
    for (const right of numbers) {
      expect(right).toBeCloseTo(numbers[0]!, 3);
      expect(right).toBeLessThan(word);
    }
  });
});

describe('note letters', () => {
  test.each(['names', 'quiz'] as const)('on %s keep clear of flags over them, accidentals too', kind => {
    const tune = tuneOf([{ notes: 'C5q Bb4e Db5e C#5e Bb4e C5q' }]);
    const { pages } = sheet(tune, { sheet: kind, letterBoxes: true, staffSize: 4 });
    const boxes = (...roles: readonly string[]) =>
      inked(pages).flatMap(({ mark, box }) => (roles.includes(mark.role) ? [box] : []));
    const letters = boxes('letter', 'answer');
    expect(letters.length).toBeGreaterThan(0);
    for (const letter of letters)
      for (const over of boxes('flag', 'stem', 'head', 'beam'))
        if (over.left < letter.right && over.right > letter.left)
          expect(letter.top - over.bottom).toBeGreaterThan(0.45);
  });
});

describe('empty measures', () => {
  const rests = [{ notes: 'C4w' }, ...Array.from({ length: 5 }, () => ({ notes: 'rw' })), { notes: 'C4w' }];
  test('are set as one, with their number, and ids go on counting', () => {
    const { pages } = sheet(tuneOf(rests));
    const numbers = inked(pages).flatMap(({ mark }) =>
      mark.role === 'number' && mark.kind === 'glyph' ? [mark.name] : [],
    );
    expect(numbers).toEqual(['time5']);
    expect(breaks(pages).flat()).toEqual([' 1 2 7']);
  });
});
