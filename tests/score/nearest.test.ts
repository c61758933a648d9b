/** What may be meant: names that somebody mistyped. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { nearest } from '../../src/score/nearest.ts';

const NAMES = ['ukulele', 'ukulele-low-g', 'guitar', 'Mandolin', 'bass'];

describe('the name that is meant', () => {
  test('is found whatever the case, with letters changed over, missing or too many', () => {
    const typed = ['GUITAR', 'giutar', 'gutar', 'ukulelee', 'ukulele low g', 'mandolin', 'basss'];
    const meant = ['guitar', 'guitar', 'guitar', 'ukulele', 'ukulele-low-g', 'Mandolin', 'bass'];
    expect(typed.map(word => nearest(word, NAMES))).toEqual(meant);
  });

  test('is not guessed from far away: at most a third of the letters may be wrong', () => {
    expect(nearest('banjo', NAMES)).toBeUndefined();
    // Three of nine letters are wrong, four of nine.
    expect(nearest('abcdefghi', ['abcdefxyz'])).toBe('abcdefxyz');
    expect(nearest('abcdefghi', ['abcdewxyz'])).toBeUndefined();
    // One letter may always be wrong.
    expect(nearest('ab', ['ax'])).toBe('ax');
    expect(nearest('anything', [])).toBeUndefined();
  });

  test('is one of the names, and a name itself is always found', () => {
    fc.assert(
      fc.property(
        fc.uniqueArray(fc.string({ minLength: 1 }), { selector: name => name.toLowerCase() }),
        names => {
          for (const name of names) {
            // Unless others have the same letters.
            const found = nearest(name, names)!;
            expect([...found.toLowerCase()].sort()).toEqual([...name.toLowerCase()].sort());
          }
        },
      ),
    );
  });
});
