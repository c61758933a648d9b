/** Text sheets of whole tunes: the examples, and a corpus of lead sheets where it is at hand. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { displayWidth } from '../../src/emit/text/width.ts';
import { toText } from '../../src/emit/text.ts';
import { arrange } from '../../src/fingering/arrange.ts';
import type { Arrangement } from '../../src/fingering/arrangement.ts';
import { rulesFrom, wholeTune } from '../../src/fingering/rules.ts';
import { findInstrument } from '../../src/instrument/define.ts';
import { readScore } from '../../src/read/read.ts';
import { chooseMelody } from '../../src/score/melody.ts';
import type { Tune } from '../../src/score/tune.ts';
import { readSheet } from './text/reading.ts';
import { lowestPlaces } from './text/tunes.ts';

const folder = (path: string): string => fileURLToPath(new URL(path, import.meta.url));
const EXAMPLES = folder('../../examples/tunes/');
const CORPUS = folder('../../../shared/corpus/tunes/');

const tuneIn = (file: string): Tune =>
  chooseMelody(readScore(readFileSync(file)).score, { chords: 'top' }).tune;
const filesIn = (path: string): readonly string[] =>
  existsSync(path) ? readdirSync(path).map(name => `${path}${name}`) : [];

const sheetOf = (tune: Tune, arrangement: Arrangement, width: number, ascii = false): string =>
  toText(tune, arrangement, { sheet: 'tab', width, ascii, paint: (_, text) => text });

/** Everything that holds for every sheet, at the widths of a narrow, a usual and a wide terminal. */
const checkSheet = (tune: Tune, arrangement: Arrangement): void => {
  const struck = tune.measures
    .flatMap(measure => measure.events)
    .flatMap(event => (event.kind === 'note' ? event.heads : []))
    .filter(head => head.tieFrom === undefined)
    .map(head => arrangement.placements.get(head.id)!)
    .map(({ string, fret }) => ({ string, fret }));
  for (const width of [40, 80, 120]) {
    const sheet = sheetOf(tune, arrangement, width);
    const systems = readSheet(sheet, arrangement.instrument.strings.length);
    for (const { lines, heads, figures } of systems) {
      expect(new Set(lines.map(displayWidth)).size).toBe(1);
      for (const { column } of figures) expect(heads).toContain(column);
    }
    const figures = systems.flatMap(system => system.figures);
    expect(figures.map(({ string, fret }) => ({ string, fret }))).toEqual(struck);
    if (width === 120) expect(Math.max(...sheet.split('\n').map(displayWidth))).toBeLessThanOrEqual(120);
    expect(sheetOf(tune, arrangement, width, true)).toMatch(/^[\n\x20-\x7e]*$/);
  }
};

describe.each(filesIn(EXAMPLES))('%s', file => {
  it.each(['ukulele', 'ukulele-low-g'])('reads back right for %s in frets 4-8', id => {
    const tune = tuneIn(file);
    const rules = rulesFrom({ windows: wholeTune(4, 8) });
    checkSheet(tune, arrange(tune, findInstrument(id), rules).arrangement);
  });
});

describe.skipIf(!existsSync(CORPUS))(`the corpus (skipped where ${CORPUS} is absent)`, () => {
  it.each(filesIn(CORPUS).map(file => file.slice(CORPUS.length)))('%s reads back right for guitar', name => {
    const tune = tuneIn(`${CORPUS}${name}`);
    checkSheet(tune, lowestPlaces(tune, findInstrument('guitar')));
  });
});
