/**
 * The example sheets look as they did when a person last looked at them: small grey pictures, compared
 * with a tolerance. `UPDATE_GOLDENS=1` paints them anew; look at each before it is kept.
 */
import { existsSync, mkdirSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { PNG } from 'pngjs';
import { describe, expect, test } from 'vitest';
import { pagesToPng } from '../../src/emit/png.ts';
import { fontsWith } from '../../src/emit/type/fonts.ts';
import { engrave, type Page, type SheetOptions } from '../../src/engrave/engrave.ts';
import { arrange } from '../../src/fingering/arrange.ts';
import { rulesFrom, wholeTune } from '../../src/fingering/rules.ts';
import { findInstrument } from '../../src/instrument/define.ts';
import { readScore } from '../../src/read/read.ts';
import { chooseMelody } from '../../src/score/melody.ts';

const TUNES = fileURLToPath(new URL('../../examples/tunes/', import.meta.url));
const GOLDENS = fileURLToPath(new URL('./goldens/', import.meta.url));
const UPDATE = process.env.UPDATE_GOLDENS === '1';

const DPI = 60;
/** Greys of a golden: few, so that files stay small. */
const LEVELS = 16;
/** A pixel has changed when it is so much lighter or darker, of 255. */
const CHANGED = 72;
/** So many changed pixels in a million are the rasteriser's or the processor's, not ours. */
const TOLERATED = 200;

interface Golden {
  readonly tune: string;
  readonly instrument: string;
  readonly options: SheetOptions;
}

const plain = (tune: string, sheet: SheetOptions['sheet']): [string, Golden] => [
  `${tune}.${sheet}`,
  { tune, instrument: 'ukulele-low-g', options: { sheet } },
];

const CASES: readonly (readonly [string, Golden])[] = [
  plain('amazing-grace', 'tab'),
  plain('amazing-grace', 'quiz'),
  plain('michael-row-the-boat-ashore', 'tab'),
  plain('michael-row-the-boat-ashore', 'names'),
  plain('row-row-row-your-boat', 'tab'),
  plain('row-row-row-your-boat', 'blank'),
  [
    'amazing-grace.fingers',
    {
      tune: 'amazing-grace',
      instrument: 'guitar',
      options: { sheet: 'tab', fingers: 'all', positions: true, paper: 'letter' },
    },
  ],
  [
    'michael-row-the-boat-ashore.boxes',
    {
      tune: 'michael-row-the-boat-ashore',
      instrument: 'ukulele',
      options: { sheet: 'quiz', letterBoxes: true, landscape: true, staffSize: 9 },
    },
  ],
];

function pagesOf({ tune: name, instrument, options }: Golden): readonly Page[] {
  const { score } = readScore(readFileSync(`${TUNES}${name}.musicxml`));
  const { tune } = chooseMelody(score, { chords: 'top' });
  const { arrangement } = arrange(tune, findInstrument(instrument), rulesFrom({ windows: wholeTune(4, 8) }));
  return engrave(tune, arrangement, options).pages;
}

/** The first page in greys. */
async function paint(golden: Golden): Promise<PNG> {
  const [bytes] = await pagesToPng(pagesOf(golden), fontsWith(undefined), { dpi: DPI, transparent: false });
  const picture = PNG.sync.read(Buffer.from(bytes!));
  const step = 255 / (LEVELS - 1);
  const greyed = (value: number): number => Math.round(Math.round(value / step) * step);
  picture.data = Buffer.from(picture.data.map((value, i) => (i % 4 === 3 ? 255 : greyed(value))));
  return picture;
}

const write = (path: string, picture: PNG): void =>
  writeFileSync(path, PNG.sync.write(picture, { colorType: 0, filterType: 0 }));

/** Pixels of a million that differ. */
function changed(a: PNG, b: PNG): number {
  let count = 0;
  for (let i = 0; i < a.data.length; i += 4) if (Math.abs(a.data[i]! - b.data[i]!) > CHANGED) count++;
  return (1e6 * count) / (a.width * a.height);
}

describe('the example sheets look as they did', () => {
  test.each(CASES)('%s', { timeout: 20_000 }, async (name, golden) => {
    const path = join(GOLDENS, `${name}.png`);
    const now = await paint(golden);
    if (UPDATE) {
      mkdirSync(GOLDENS, { recursive: true });
      write(path, now);
    }
    expect(existsSync(path), `${path} is missing: run with UPDATE_GOLDENS=1, and look at it`).toBe(true);
    const then = PNG.sync.read(readFileSync(path));
    expect([now.width, now.height]).toEqual([then.width, then.height]);
    const difference = changed(now, then);
    if (difference <= TOLERATED) return;
    const shown = join(mkdtempSync(join(tmpdir(), 'fretward-golden-')), `${name}.png`);
    write(shown, now);
    expect.fail(`${Math.round(difference)} pixels in a million differ; it now looks like ${shown}`);
  });

  test('a note that is moved by half a staff space is seen', async () => {
    const golden = CASES[4]![1];
    const now = await paint(golden);
    const moved = await paint({ ...golden, options: { ...golden.options, staffSize: 8.2 } });
    expect(changed(now, moved)).toBeGreaterThan(TOLERATED);
  });
});
