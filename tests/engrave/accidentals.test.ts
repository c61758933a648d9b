/** Rules of common practice: an accidental holds to the bar line in its own octave; ties carry it over. */
import { describe, expect, test } from 'vitest';
import { accidentals } from '../../src/engrave/content/accidentals.ts';
import { bounds } from '../../src/engrave/drawing/mark.ts';
import type { Tune } from '../../src/score/tune.ts';
import { type MeasureSpec, tuneOf } from '../emit/text/tunes.ts';
import { inked } from './layout.ts';
import { sheet } from './sheets.ts';

/** Printed accidentals in order of the notes: "#", "b", "n", in brackets where courtesy; "." for none. */
function printed(measures: readonly (string | MeasureSpec)[]): string {
  const tune = tuneOf(measures.map(each => (typeof each === 'string' ? { notes: each } : each)));
  const found = accidentals(tune);
  return tune.measures
    .map(({ events }) =>
      events
        .flatMap(event => (event.kind === 'note' ? event.heads : []))
        .map(({ id }) => {
          const sign = found.get(id);
          if (!sign) return '.';
          const name = { '-1': 'b', 0: 'n', 1: '#' }[sign.alter]!;
          return sign.bracketed ? `(${name})` : name;
        })
        .join(' '),
    )
    .join(' | ');
}

const key = (fifths: number) => ({ key: { fifths, mode: undefined } });

describe('accidentals', () => {
  test('hold to the bar line', () => expect(printed(['F#4q F#4q F4q F4q'])).toBe('# . n .'));
  test('hold in their own octave only', () => expect(printed(['F#4q F#5q G4q F#5q'])).toBe('# # . .'));
  test('remind in the next measure, once', () =>
    expect(printed(['F#4h G4h', 'F4h F4h'])).toBe('# . | (n) .'));
  test('remind in another octave of the measure', () => expect(printed(['F#4h F5h'])).toBe('# (n)'));
  test('do not remind two measures later', () => expect(printed(['F#4w', 'G4w', 'F4w'])).toBe('# | . | .'));
  test('are repeated after the bar line', () => expect(printed(['F#4w', 'F#4w'])).toBe('# | #'));
  test('are carried by a tie, not by its measure', () =>
    expect(printed(['F#4w~', 'F#4h F#4h'])).toBe('# | . #'));
  test('remind after a tie over the bar line', () =>
    expect(printed(['F#4w~', 'F#4h F4h'])).toBe('# | . (n)'));
  test('remind in the measure after the one that a tie goes into', () =>
    expect(printed(['F#4w~', 'F#4w', 'F4w'])).toBe('# | . | (n)'));
  test('stand at the end of a tie where it is spelt otherwise', () =>
    expect(printed(['G#4w~', 'Ab4h A4h'])).toBe('# | b n'));
  test('stand again in a second ending that is tied to what is before the first', () => {
    const tune = tuneOf([{ notes: 'F#4w~' }, { notes: 'F#4w' }, { notes: 'F#4w' }]);
    const [before, , second] = tune.measures.map(({ events: [event] }) => event);
    if (before?.kind !== 'note' || second?.kind !== 'note') throw new Error('no notes');
    const heads = second.heads.map(head => ({ ...head, tieFrom: before.heads[0]!.id }));
    const measures = [...tune.measures.slice(0, 2), { ...tune.measures[2]!, events: [{ ...second, heads }] }];
    expect([...accidentals({ ...tune, measures }).keys()]).toEqual([before, second].map(e => e.heads[0]!.id));
  });
  test('remind after a key that changes in the measure', () => {
    const changes = [{ at: 96, key: { fifths: -1, mode: undefined } }];
    expect(printed([{ notes: 'F#4h F4q Bb4q', changes }])).toBe('# (n) .');
  });
  test('follow the key', () => expect(printed([{ notes: 'F#4q F4q Bb4q B4q', ...key(1) }])).toBe('. n b n'));
  test('cancel a flat of the key', () => expect(printed([{ notes: 'Bb4h B4h', ...key(-1) }])).toBe('. n'));
});

describe('a chord with two alterations of one step', () => {
  /** A tune of one chord, its heads as named. */
  const chord = (...names: readonly string[]): Tune => {
    const tune = tuneOf([{ notes: `C5q ${names.map(name => `${name}q`).join(' ')}` }]);
    const [first, ...others] = tune.measures[0]!.events;
    if (first?.kind !== 'note') throw new Error('no note');
    const heads = others.flatMap(event => (event.kind === 'note' ? event.heads : []));
    const events = [first, { ...first, id: others[0]!.id, at: others[0]!.at, heads }];
    return { ...tune, measures: [{ ...tune.measures[0]!, events }] };
  };

  test('has a sign for each', () => {
    const signs = [...accidentals(chord('F4', 'F#4')).values()];
    expect(signs).toEqual([
      { alter: 0, bracketed: false },
      { alter: 1, bracketed: false },
    ]);
  });

  test.each([
    ['F4', 'F#4'],
    ['F5', 'F#5'],
  ])('has the signs of %s and %s in the order of their heads', (...names) => {
    const marks = inked(sheet(chord(...names), { sheet: 'quiz' }).pages).map(({ mark }) => mark);
    const fromLeft = (role: string) =>
      marks
        .filter(mark => mark.role === role && mark.kind === 'glyph')
        .sort((a, b) => bounds(a).left - bounds(b).left);
    const signs = fromLeft('accidental').map(mark => mark.kind === 'glyph' && mark.name);
    const [, left, right] = fromLeft('head');
    expect(bounds(right!).left).toBeGreaterThan(bounds(left!).left + 1);
    expect(signs).toEqual(['natural', 'sharp']);
  });
});
