import { describe, expect, test } from 'vitest';
import { phraseEnds, pickupLength } from '../../src/engrave/content/phrases.ts';
import { breaks } from './layout.ts';
import { sheet, tuneOf } from './sheets.ts';

const ends = (...notes: string[]) => phraseEnds(tuneOf(notes.map(each => ({ notes: each }))));
const PLAIN = 'C4q D4q E4q F4q';

describe('where phrases end', () => {
  test('after a rest, and after a long note, more than elsewhere', () => {
    const [plain, rest, long] = ends(PLAIN, 'C4h. rq', 'C4q D4q E4h', PLAIN);
    expect(plain).toBe(0);
    expect(rest).toBeGreaterThan(0.5);
    expect(long).toBeGreaterThan(0);
  });
  test('after a full stop more than after a comma, and never within a word', () => {
    const [stop, comma, word] = ends(
      'C4q/and D4q/so E4q/it F4q/ends.',
      'C4q/and D4q/on E4q/it F4q/goes,',
      'C4q/and D4q/on E4q/in F4q/mid-',
      'C4q/dle D4q E4q F4q',
    );
    expect(stop).toBeGreaterThan(comma!);
    expect(comma).toBeGreaterThan(0);
    expect(word).toBeLessThan(0);
  });
  test('not where a tie goes over the bar line', () => {
    const [tied] = ends('C4q D4q E4h~', 'E4w', PLAIN);
    expect(tied).toBeLessThan(0.1);
  });
  test('before the pickup of the next phrase, in a tune that starts with a pickup', () => {
    const tune = tuneOf([{ notes: 'G3q' }, { notes: 'C4h. G3q' }, { notes: PLAIN }, { notes: 'C4w' }]);
    expect(pickupLength(tune)).toBe(tune.division);
    const [, long, plain] = phraseEnds(tune);
    expect(long).toBeGreaterThan(plain!);
  });
  test('a first measure that rests fill up is a pickup too; a full one is none', () => {
    const padded = tuneOf([{ notes: 'rh. G3q' }, { notes: PLAIN }]);
    expect(pickupLength(padded)).toBe(padded.division);
    expect(pickupLength(tuneOf([{ notes: PLAIN }, { notes: PLAIN }]))).toBe(0);
  });
});

describe('systems', () => {
  test('end with phrases where that costs little', () => {
    const phrase = [PLAIN, PLAIN, PLAIN, 'C4h. rq'].map(notes => ({ notes }));
    const { pages } = sheet(tuneOf([...phrase, ...phrase, ...phrase, ...phrase]));
    const last = breaks(pages)
      .flat()
      .map(system => Number(system.trim().split(' ').at(-1)));
    expect(last.filter(measure => measure % 4 !== 0)).toEqual([]);
  });
  test('of a short tune are more than one', () => {
    const { pages } = sheet(tuneOf(Array.from({ length: 10 }, () => ({ notes: 'C4h E4h' }))));
    expect(breaks(pages).flat().length).toBeGreaterThan(1);
  });
});
