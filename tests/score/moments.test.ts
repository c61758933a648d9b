import { describe, expect, it } from 'vitest';
import {
  measureLabel,
  measureName,
  measureRanges,
  momentName,
  momentNames,
  momentsInShort,
  stretchName,
} from '../../src/score/moments.ts';

const at = (measure: string, ...beats: readonly number[]) => beats.map(beat => ({ measure, beat }));

describe('a place in a tune', () => {
  it('is a measure by its printed number, or the pickup, and a beat', () => {
    expect(['0', '1', '12a', 'X1'].map(measureName)).toEqual([
      'pickup',
      'measure 1',
      'measure 12a',
      'measure X1',
    ]);
    expect(['0', '10'].map(measureLabel)).toEqual(['pickup', '10']);
    expect(momentName({ measure: '0', beat: 4 })).toBe('pickup beat 4');
    expect(momentName({ measure: '3', beat: 11 / 3 })).toBe('measure 3 beat 3.67');
  });

  it('reaches from one measure to another', () => {
    expect(stretchName('1', '8')).toBe('measures 1–8');
    expect(stretchName('8', '8', '-')).toBe('measure 8');
    expect(stretchName('0', '8')).toBe('pickup to measure 8');
    expect(stretchName('0', '0')).toBe('pickup');
  });

  it('is told with the others of its measure', () =>
    expect(momentNames([...at('0', 4), ...at('4', 1, 2, 3.5), ...at('12', 1)])).toBe(
      'pickup beat 4; measure 4 beats 1, 2 and 3.5; measure 12 beat 1',
    ));
});

describe('many places', () => {
  it('are counted, with their measures', () => {
    const eight = at('1', 1, 2, 3, 4, 5, 6, 7, 8);
    expect(momentsInShort(eight)).toBe(momentNames(eight));
    expect(momentsInShort([...at('0', 4), ...eight, ...at('2', 1), ...at('3', 1)])).toBe(
      '11 notes in pickup, measures 1-3',
    );
  });

  it('have measures that follow each other in ranges, in the order given', () => {
    expect(measureRanges(['1', '2', '3', '4', '5', '8', '10', '11', '12'])).toBe('measures 1-5, 8, 10-12');
    expect(measureRanges(['4'])).toBe('measure 4');
    expect(measureRanges(['0'])).toBe('pickup');
    expect(measureRanges(['0', '1'])).toBe('pickup, measure 1');
    expect(measureRanges(['7', '8'])).toBe('measures 7, 8');
    expect(measureRanges(['X1', '1', '2', '2a', '3', '4', '5'])).toBe('measures X1, 1, 2, 2a, 3-5');
  });

  it('are cut where the list would be long, and the rest is counted', () => {
    const odd = Array.from({ length: 20 }, (_, index) => String(2 * index + 1));
    expect(measureRanges(odd)).toBe('measures 1, 3, 5, 7, 9, 11, 13, 15 and 12 more');
    expect(measureRanges([...odd.slice(0, 8), '16', '17', '18'])).toBe(
      'measures 1, 3, 5, 7, 9, 11, 13, 15-18',
    );
  });
});
