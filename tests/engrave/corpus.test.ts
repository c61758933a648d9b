/** Layout rules over real lead sheets: the published data set named in ../shared/corpus/README.md. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { bounds } from '../../src/engrave/drawing/mark.ts';
import { engrave, type Page, type SheetName } from '../../src/engrave/engrave.ts';
import { readScore } from '../../src/read/read.ts';
import { chooseMelody } from '../../src/score/melody.ts';
import type { Tune } from '../../src/score/tune.ts';
import { breaks, centre, collisions, inked, outside } from './layout.ts';
import { instrument, lowestPlaces } from './sheets.ts';

const CORPUS = fileURLToPath(new URL('../../../shared/corpus/tunes/', import.meta.url));
const files = existsSync(CORPUS) ? readdirSync(CORPUS).filter(file => file.endsWith('.mxl')) : [];
if (files.length === 0) console.warn(`skipped: no corpus at ${CORPUS}`);

/** Millimetres a staff space of the staff the page was set on: 8 mm or, to save a page, 7.5 mm. */
const space = (pages: readonly Page[]) => {
  const head = inked(pages).find(({ mark }) => mark.role === 'head')!.mark;
  return head.kind === 'glyph' ? head.size : Number.NaN;
};

const MARGIN = 15;
const SHEETS: readonly SheetName[] = ['tab', 'quiz', 'names', 'blank'];

function set(file: string) {
  const { score } = readScore(readFileSync(CORPUS + file));
  const { tune } = chooseMelody(score, { chords: 'top' });
  const arrangement = lowestPlaces(tune, instrument('guitar'));
  const pages = (sheet: SheetName) => engrave(tune, arrangement, { sheet }).pages;
  return { tune, pages };
}

const struckHeads = (tune: Tune) =>
  tune.measures
    .flatMap(({ events }) => events)
    .flatMap(event => (event.kind === 'note' ? event.heads : []))
    .filter(head => head.tieFrom === undefined);

describe.skipIf(files.length === 0)('sheets of the corpus', () => {
  test.each(files)('%s', file => {
    const { tune, pages } = set(file);
    const tab = pages('tab');
    const sp = space(tab);
    for (const sheet of SHEETS) {
      const all = pages(sheet);
      expect(collisions(all, 0.06 * sp), sheet).toEqual([]);
      expect(outside(all, MARGIN), sheet).toEqual([]);
      expect(breaks(all), sheet).toEqual(breaks(tab));
    }
    checkDigits(tune, tab, sp);
    checkSystems(tab);
  });
});

/** Every struck note has a figure, its middle under its head's within 0.02 sp. */
function checkDigits(tune: Tune, pages: readonly Page[], sp: number) {
  const marks = inked(pages);
  const heads = new Map(
    marks
      .filter(({ mark }) => mark.role === 'head' || mark.role === 'grace')
      .map(each => [each.mark.of, each]),
  );
  const digits = new Map(marks.filter(({ mark }) => mark.role === 'digit').map(each => [each.mark.of, each]));
  for (const { id } of struckHeads(tune)) {
    const digit = digits.get(id);
    expect(digit, `head ${id} has no figure`).toBeDefined();
    expect(Math.abs(centre(digit!.box) - centre(heads.get(id)!.box))).toBeLessThan(0.02 * sp);
  }
}

/** All systems but the last end at the same right edge. */
function checkSystems(pages: readonly Page[]) {
  const edges = pages.flatMap(({ groups }) =>
    groups
      .filter(({ className }) => className === 'system')
      .map(({ marks }) =>
        Math.max(...marks.filter(({ role }) => role === 'staff').map(mark => bounds(mark).right)),
      ),
  );
  for (const edge of edges.slice(0, -1)) expect(edge).toBeCloseTo(pages[0]!.width - MARGIN, 2);
}
