import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { displayWidth } from '../../src/emit/text/width.ts';
import { type TextOptions, toText } from '../../src/emit/text.ts';
import type { Arrangement } from '../../src/fingering/arrangement.ts';
import { PLAIN_BARLINE } from '../../src/score/model/barline.ts';
import type { Tune } from '../../src/score/tune.ts';
import { tunes, widths } from './text/arbitrary.ts';
import { readSheet } from './text/reading.ts';
import { instrument, lowestPlaces, tuneOf } from './text/tunes.ts';

const PLAIN: TextOptions = { sheet: 'tab', width: 80, ascii: false, paint: (_, text) => text };
const sheet = (
  tune: Tune,
  options: Partial<TextOptions> = {},
  arrangement: Arrangement = lowestPlaces(tune),
) => toText(tune, arrangement, { ...PLAIN, ...options });

/** Struck notes as the arrangement places them, in playing order. */
const struck = (tune: Tune, { placements }: Arrangement) =>
  tune.measures
    .flatMap(measure => measure.events)
    .flatMap(event => (event.kind === 'note' ? event.heads.filter(head => head.tieFrom === undefined) : []))
    .map(head => placements.get(head.id)!)
    .map(({ string, fret }) => ({ string, fret }));

describe('the grid', () => {
  it('has lines of one width in each system', () => {
    fc.assert(
      fc.property(tunes, widths, (tune, width) => {
        for (const { lines } of readSheet(sheet(tune, { width }), 4))
          expect(new Set(lines.map(displayWidth)).size).toBe(1);
      }),
    );
  });

  it('has each figure in the column of a head, and all struck notes in order', () => {
    fc.assert(
      fc.property(tunes, widths, (tune, width) => {
        const arrangement = lowestPlaces(tune, instrument('ukulele'), { low: 2, high: 9 });
        const systems = readSheet(sheet(tune, { width }, arrangement), 4);
        for (const { heads, figures } of systems)
          for (const { column } of figures) expect(heads).toContain(column);
        const figures = systems.flatMap(system => system.figures);
        expect(figures.map(({ string, fret }) => ({ string, fret }))).toEqual(struck(tune, arrangement));
      }),
    );
  });

  it('breaks the quiz where it breaks the tab, and draws the same notation', () => {
    fc.assert(
      fc.property(tunes, widths, (tune, width) => {
        const tab = readSheet(sheet(tune, { width }), 4);
        const quiz = readSheet(sheet(tune, { width, sheet: 'quiz' }), 0);
        expect(quiz.map(system => system.lines)).toEqual(tab.map(system => system.lines.slice(0, -4)));
      }),
    );
  });
});

describe('seven bits', () => {
  it('hold the whole sheet, whatever the file says', () => {
    fc.assert(
      fc.property(tunes, fc.string({ unit: 'grapheme' }), (tune, title) => {
        const text = sheet({ ...tune, title, rights: [title] }, { ascii: true });
        expect(text).toMatch(/^[\n\x20-\x7e]*$/);
      }),
    );
  });

  it('leave every figure where Unicode has it', () => {
    const tune = tuneOf([
      { notes: 'C4q/a- F#4e/b Bb4e C5q. rq G4e', right: { ...PLAIN_BARLINE, repeat: true } },
    ]);
    const tablature = (text: string) => text.split('\n').filter(line => /^[A-G] [┌├└|]/.test(line));
    const masked = (text: string) => tablature(text).map(line => line.replaceAll(/[^\dA-G]/g, ' '));
    expect(masked(sheet(tune, { ascii: true }))).toEqual(masked(sheet(tune)));
  });
});

describe('paint', () => {
  it('colours without changing a character', () => {
    const tune = tuneOf([{ notes: 'C4q/a- F#4e~/b_ F#4e C5q. rq', chords: { 0: 'C7' } }], { title: 'Tune' });
    const painted = sheet(tune, { paint: (role, text) => `<${role}>${text}</${role}>` });
    expect(painted.replaceAll(/<\/?[a-z]+>/g, '')).toBe(sheet(tune));
    for (const role of ['heading', 'chord', 'staff', 'head', 'rhythm', 'lyric', 'string', 'digit', 'legend'])
      expect(painted).toContain(`<${role}>`);
  });
});

describe('what a reader sees', () => {
  it('is a note outside the window marked with a star, which is explained', () => {
    const tune = tuneOf([{ notes: 'C4h A4h' }]);
    const text = sheet(tune, {}, lowestPlaces(tune, instrument('ukulele-low-g'), { low: 4, high: 8 }));
    expect(text).toContain('0*');
    expect(text).toContain('* outside frets 4–8');
    expect(sheet(tune, { sheet: 'quiz' })).not.toContain('*');
  });

  it('is the position of the hand over its note, at the start of a system too', () => {
    const tune = tuneOf([{ notes: 'C5q D5q E5q F5q' }, { notes: 'C5q D5q E5q F5q' }]);
    const plain = lowestPlaces(tune);
    const placements = [...plain.placements].map(
      ([head, place], i) => [head, { ...place, finger: 1 as const, position: i < 4 ? 3 : 5 }] as const,
    );
    const moved = { ...plain, placements: new Map(placements) };
    const rows = sheet(tune, { positions: true, width: 40 }, moved).split('\n');
    for (const numeral of ['III', 'V']) {
      const over = rows.findIndex(row => new RegExp(`\\b${numeral}\\b`).test(row));
      const rhythm = rows.slice(over).find(row => /^ +q/.test(row))!;
      expect(rows[over]!.search(new RegExp(`\\b${numeral}\\b`))).toBe(rhythm.indexOf('q'));
    }
  });

  it.each([
    'Slowly at first, then as if the boat were drifting down a wide stream',
    'Gently before_a_word_that_is_as_long_as_a_line and a tail',
  ])('is a long direction from the top down: %s', text => {
    const source = { line: 1, part: 'P1', measure: '1' };
    const words = { kind: 'words', at: 0, text, placement: 'above', source } as const;
    const short = { ...words, at: 0, text: 'dolce' };
    const rows = sheet(tuneOf([{ notes: 'A4w', directions: [short, words] }]), { width: 40 }).split('\n');
    const from = rows.findIndex(row => row.includes(text.split(' ')[0]!));
    const to = rows.findIndex(row => row.includes('dolce'));
    const between = rows.slice(from, to).map(row => row.trim());
    expect(between.length).toBeGreaterThan(1);
    expect(between.join(' ')).toBe(text);
  });

  it('is a tied note without a figure', () => {
    const tune = tuneOf([{ notes: 'A4h~ A4h' }, { notes: 'A4w' }]);
    const [system] = readSheet(sheet(tune), 4);
    expect(system!.figures).toHaveLength(2);
    expect(sheet(tune)).toMatch(/h~+h +w/);
  });

  it('is a tie over the end of a system on both sides', () => {
    const tune = tuneOf(Array.from({ length: 4 }, () => ({ notes: 'A4q A4q A4q A4q~' })));
    const rows = sheet(tune, { width: 40 })
      .split('\n')
      .filter(line => /^ +~*q/.test(line));
    expect(rows.length).toBeGreaterThan(1);
    expect(rows[0]).toMatch(/q~+ ?$/);
    expect(rows[1]).toMatch(/^ +~+q/);
  });

  it('is the stringing, the strings from the top line of tablature on', () => {
    const tune = tuneOf([{ notes: 'A4w' }]);
    const text = sheet(tune);
    expect(text).toContain('G4 C4 E4 A4');
    expect(
      text
        .split('\n')
        .filter(line => /^[A-G] /.test(line))
        .map(line => line[0]),
    ).toEqual([...'AECG']);
  });

  it('is nothing that a file could steer the terminal with', () => {
    const tune = tuneOf([{ notes: 'A4w/\u001b[2Jx' }], {
      title: 'a\u001b]0;b\u0007\u202ec',
      rights: ['d\u009b'],
    });
    expect(sheet(tune)).not.toMatch(/(?!\n)[\p{Cc}\u202e]/u);
  });
});
