/** Tables and running text in terminals of any width. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Column, table } from '../../src/cli/table.ts';
import { columnsOf, NO_BREAK, wrapped } from '../../src/cli/width.ts';
import { TUNES, terminal } from './terminal.ts';

const linesOf = (text: string): readonly string[] => text.split('\n');
const widest = (text: string): number => Math.max(...linesOf(text).map(line => Array.from(line).length));

describe('a table', () => {
  type Row = readonly [note: string, count: string, why: string];
  const columns: readonly Column<Row>[] = [
    { title: 'note', align: 'left', cell: row => row[0] },
    { title: 'count', align: 'right', cell: row => row[1] },
    { title: 'why', align: 'left', flows: true, cell: row => row[2] },
  ];
  const rows: readonly Row[] = [
    ['C4', '12', 'it is an open string, and the window has none'],
    ['D♭4', '3', ''],
  ];

  it('stands on one line a row where there is room', () =>
    expect(table(columns, rows, 80)).toBe(
      [
        'note  count  why',
        'C4       12  it is an open string, and the window has none',
        'D♭4       3',
        '',
      ].join('\n'),
    ));

  it('folds its running text where there is less, and puts it below where there is little', () => {
    expect(table(columns, rows, 44)).toBe(
      [
        'note  count  why',
        'C4       12  it is an open string, and the',
        '             window has none',
        'D♭4       3',
        '',
      ].join('\n'),
    );
    expect(table(columns, rows, 28)).toBe(
      [
        'note  count',
        'C4       12',
        '    why: it is an open',
        '      string, and the window',
        '      has none',
        'D♭4       3',
        '',
      ].join('\n'),
    );
  });

  it('puts short columns that have no room below, together', () => {
    const numbers = ['one', 'two', 'three', 'four'].map(
      (title, index): Column<readonly string[]> => ({ title, align: 'right', cell: row => row[index]! }),
    );
    expect(table(numbers, [['1', '2', '3', '4']], 10)).toBe(
      ['one  two', '  1    2', '    three:', '      3;', '      four:', '      4', ''].join('\n'),
    );
    expect(table(numbers, [['1', '2', '3', '4']], 20)).toBe(
      ['one  two  three', '  1    2      3', '    four: 4', ''].join('\n'),
    );
  });

  it('is never wider than it may be, and loses no word', () => {
    const word = fc.string({ unit: fc.constantFrom('a', 'b', '♯'), minLength: 1, maxLength: 5 });
    const words = fc.array(word, { maxLength: 30 }).map(all => all.join(' '));
    fc.assert(
      fc.property(
        fc.array(fc.tuple(word, word, words), { minLength: 1, maxLength: 4 }),
        fc.integer({ min: 40, max: 120 }),
        (cells, width) => {
          const text = table(columns, cells, width);
          expect(widest(text)).toBeLessThanOrEqual(width);
          const found = text.split(/\s+/);
          for (const each of cells.flat().flatMap(cell => cell.split(' '))) expect(found).toContain(each);
        },
      ),
    );
  });
});

describe('running text', () => {
  it('goes on two columns further in, and keeps together what belongs together', () => {
    expect(wrapped('  one two three\nfour', 12)).toBe('  one two\n    three\nfour');
    expect(wrapped(`in measure${NO_BREAK}3`, 11)).toBe('in\n  measure 3');
    expect(wrapped('fits as it is', 20)).toBe('fits as it is');
  });

  it('is as wide as the terminal, 80 columns elsewhere', () => {
    expect(columnsOf({ columns: 132 })).toBe(132);
    expect(columnsOf({ columns: 20 })).toBe(40);
    expect(columnsOf({})).toBe(80);
    expect(columnsOf({ columns: 0 })).toBe(80);
  });
});

describe('what commands print', () => {
  it.each([
    'explain . -f 4-8',
    'explain . -f 4-8 --alternatives 5',
    'difficulty . -f 4-8',
    'inspect .',
    'survey . -i guitar --span 2',
    'check .',
    'codes',
    'codes window-off-the-neck',
    'config .',
    'cues amazing-grace.musicxml -f 4-8',
    'chords amazing-grace.musicxml',
    'neck amazing-grace.musicxml -f 4-8',
    'scale C major -f 4-8',
    '--help',
    'arrange --help',
    'config --help',
    'chords --help',
    'cues --help',
    'drill --help',
    'neck --help',
    'scale --help',
  ])('fretward %s is at most 80 columns wide', async words => {
    const term = terminal();
    await term.run(`cp ${TUNES}/*.musicxml .`);
    const { stdout } = await term.run(`fretward ${words}`);
    expect(stdout.length).toBeGreaterThan(20);
    expect(linesOf(stdout).filter(line => Array.from(line).length > 80)).toEqual([]);
  });
});
