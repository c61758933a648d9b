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
import { beamFaults, stemFaults, tieFaults } from './rules.ts';
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
  // Each tune as tablature, and as one of the other kinds in turn.
  test.each(files.map((file, i) => [file, SHEETS[1 + (i % 3)]!] as const))(
    '%s, tab and %s',
    (file, other) => {
      const { tune, pages } = set(file);
      const tab = pages('tab');
      const second = pages(other);
      const sp = space(tab);
      for (const all of [tab, second]) {
        expect(collisions(all, 0.06 * sp)).toEqual([]);
        expect(outside(all, MARGIN)).toEqual([]);
        expect(stemFaults(all)).toEqual([]);
        expect(beamFaults(all)).toEqual([]);
        expect(tieFaults(tune, all)).toEqual([]);
      }
      expect(breaks(second)).toEqual(breaks(tab));
      checkDigits(tune, tab, sp);
      checkSystems(tab);
    },
    20_000,
  );
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
