/** Layout rules over the examples, and over real lead sheets: the data sets named in ../shared/corpus/README.md. */
import { describe, expect, test } from 'vitest';
import { bounds } from '../../src/engrave/drawing/mark.ts';
import { engrave, type Page, type SheetName } from '../../src/engrave/engrave.ts';
import { arrange } from '../../src/fingering/arrange.ts';
import { rulesFrom } from '../../src/fingering/rules.ts';
import { readScore } from '../../src/read/read.ts';
import { Refusal } from '../../src/score/diagnostic.ts';
import { chooseMelody } from '../../src/score/melody.ts';
import type { Tune } from '../../src/score/tune.ts';
import { EXAMPLES, example, pagesOf as examplePages } from '../emit/typeset.ts';
import { corpusBytes, corpusFiles, describeCorpus } from '../support/corpus.ts';
import { breaks, centre, collisions, inked, outside } from './layout.ts';
import {
  beamFaults,
  crossedStems,
  endingFaults,
  letterFaults,
  stemFaults,
  tabSlurFaults,
  tieFaults,
} from './rules.ts';
import { instrument, lowestPlaces } from './sheets.ts';

const files = corpusFiles('tunes');
/** One awkward notation each, of the public MusicXML test suite. */
const cases = corpusFiles('reader');

/** Millimetres a staff space of the staff the page was set on: 8 mm or, to save a page, 7.5 mm. */
const space = (pages: readonly Page[]) => {
  const head = inked(pages).find(({ mark }) => mark.role === 'head')!.mark;
  return head.kind === 'glyph' ? head.size : Number.NaN;
};

const MARGIN = 15;
const SHEETS: readonly SheetName[] = ['tab', 'quiz', 'names', 'blank'];

function set(file: string) {
  const { score } = readScore(corpusBytes('tunes', file));
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

describeCorpus('sheets of the corpus', () => {
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
        expect(letterFaults(all)).toEqual([]);
        expect(endingFaults(all)).toEqual([]);
        expect(tieFaults(tune, all)).toEqual([]);
        expect(crossedStems(all)).toEqual([]);
      }
      expect(breaks(second)).toEqual(breaks(tab));
      expect(tabSlurFaults(tune, tab)).toEqual([]);
      checkDigits(tune, tab, sp);
      checkSystems(tab);
    },
    20_000,
  );
});

describe('sheets of the examples', () => {
  test.each(EXAMPLES.flatMap(name => SHEETS.map(kind => [name, kind] as const)))('%s, %s', (name, kind) => {
    const tune = example(name);
    const pages = (sheet: SheetName) => examplePages(tune, { sheet });
    checkMarks(tune, pages(kind));
    expect(breaks(pages(kind))).toEqual(breaks(pages('tab')));
    if (kind !== 'tab') return;
    checkDigits(tune, pages('tab'), space(pages('tab')));
    checkSystems(pages('tab'));
  });
});

describeCorpus('sheets of awkward cases', () => {
  /** The pages of a case with all its notes, as chords; none where no melody is in it, or no guitar plays it. */
  function pagesOf(file: string): { tune: Tune; pages: readonly Page[] } | undefined {
    try {
      const { tune } = chooseMelody(readScore(corpusBytes('reader', file)).score, { chords: 'all' });
      const { arrangement } = arrange(tune, instrument('guitar'), rulesFrom({}));
      return { tune, pages: engrave(tune, arrangement, { sheet: 'tab', fingers: 'all' }).pages };
    } catch (error) {
      if (error instanceof Refusal) return undefined;
      throw error;
    }
  }

  test('most have one', () => {
    expect(cases.filter(file => pagesOf(file) !== undefined).length).toBeGreaterThan(30);
  });

  test.each(cases)('%s', file => {
    const set = pagesOf(file);
    if (set) checkMarks(set.tune, set.pages);
  });
});

/** Nothing collides or leaves the margins; stems, beams and ties are as they must be. */
function checkMarks(tune: Tune, pages: readonly Page[]) {
  expect(collisions(pages, 0.06 * space(pages))).toEqual([]);
  expect(outside(pages, MARGIN)).toEqual([]);
  expect(stemFaults(pages)).toEqual([]);
  expect(beamFaults(pages)).toEqual([]);
  expect(tieFaults(tune, pages)).toEqual([]);
}

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
