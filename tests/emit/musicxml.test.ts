/** The tune as read, written and read again; and what the schema says about it. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { toMusicXml } from '../../src/emit/musicxml.ts';
import type { Arrangement, Placement } from '../../src/fingering/arrangement.ts';
import { findInstrument } from '../../src/instrument/define.ts';
import type { Instrument } from '../../src/instrument/instrument.ts';
import { readScore } from '../../src/read/read.ts';
import { Refusal } from '../../src/score/diagnostic.ts';
import { chooseMelody } from '../../src/score/melody.ts';
import { midi } from '../../src/score/pitch.ts';
import type { Tune } from '../../src/score/tune.ts';
import { corpusBytes, corpusFiles, describeCorpus } from '../support/corpus.ts';
import { attributes, bytesOf, melodyOf, note, partWise } from '../support/musicxml.ts';
import { schemaErrors } from '../support/musicxml-schema.ts';

const GUITAR = findInstrument('guitar');

/** Some place for each head, whether or not it can be played: this is about the file. */
const somewhere = (tune: Tune, instrument: Instrument = GUITAR): Arrangement => {
  const placements = new Map<number, Placement>();
  for (const event of tune.measures.flatMap(measure => measure.events)) {
    if (event.kind !== 'note') continue;
    for (const head of event.heads) {
      const frets = instrument.strings.map(open => midi(head.pitch) - midi(open));
      const string = Math.max(
        0,
        frets.findIndex(fret => fret >= 0),
      );
      const fret = Math.max(0, frets[string]!);
      placements.set(head.id, { string: string + 1, fret, finger: 1, position: fret, fit: 'inside' });
    }
  }
  return { instrument, window: undefined, windows: [], placements, misfits: [], cost: 0, costs: new Map() };
};

type Staves = 1 | 2;

const written = (tune: Tune, staves: Staves = 1): string => toMusicXml(tune, somewhere(tune), { staves });
const readBack = (xml: string): Tune => chooseMelody(readScore(bytesOf(xml)).score, { chords: 'all' }).tune;

/** What must be the same again: all but lines, marked numbers, clefs, and the names of part and voice. */
const essence = (tune: Tune): unknown => {
  const plain = JSON.parse(
    JSON.stringify(tune, (key, value) =>
      ['source', 'marked', 'clef', 'part', 'voice', 'staff'].includes(key) ? undefined : value,
    ),
  ) as Tune;
  const measures = plain.measures.map(measure => ({
    ...measure,
    changes: measure.changes.filter(change => change.key !== undefined || change.time !== undefined),
  }));
  return { ...plain, measures };
};

const expectSame = (tune: Tune, staves?: Staves): void =>
  expect(essence(readBack(written(tune, staves)))).toEqual(essence(tune));

/** One measure with nearly everything that a tune can hold. */
const RICH = partWise(
  `${attributes('<key><fifths>-1</fifths><mode>major</mode></key><time symbol="common"><beats>4</beats><beat-type>4</beat-type></time>')}
  <barline location="left"><bar-style>heavy-light</bar-style><repeat direction="forward"/></barline>
  <direction placement="above"><direction-type><words>Slow &amp; "sweet"</words></direction-type><sound tempo="66.5"/></direction>
  <direction><direction-type><segno/></direction-type></direction>
  <direction placement="below"><direction-type><dynamics><mf/></dynamics></direction-type></direction>
  <harmony><root><root-step>B</root-step><root-alter>-1</root-alter></root><kind text="7">dominant</kind><bass><bass-step>D</bass-step></bass><degree><degree-value>9</degree-value><degree-alter>-1</degree-alter><degree-type>add</degree-type></degree></harmony>
  <harmony><root><root-step>C</root-step></root><kind text="">none</kind><offset>9</offset></harmony>
  ${note('A4', 0, { before: '<grace slash="yes"/>', rest: '<type>eighth</type><notations><slur type="start" number="1"/></notations>' })}
  ${note('Bb4', 8, { rest: '<type>quarter</type><time-modification><actual-notes>3</actual-notes><normal-notes>2</normal-notes></time-modification><stem>down</stem><notations><slur type="stop" number="1"/><tuplet type="start" bracket="yes" show-number="both"/><articulations><staccato/><breath-mark/></articulations></notations><lyric number="1"><syllabic>begin</syllabic><text>O</text></lyric><lyric name="last time"><syllabic>end</syllabic><text>a</text><elision>‿</elision><syllabic>single</syllabic><text>b</text><extend/></lyric>' })}
  ${note('F#4', 4, { rest: '<type>eighth</type><accidental>sharp</accidental><time-modification><actual-notes>3</actual-notes><normal-notes>2</normal-notes></time-modification><notations><tuplet type="stop"/><fermata/></notations>' })}
  ${note('r', 12, { rest: '<type>quarter</type><notations><fermata/></notations>' })}
  ${note('C5', 24, { after: '<tie type="start"/>', rest: '<type>half</type><accidental cautionary="yes">natural</accidental>' })}${note('E4', 24, { before: '<chord/>', rest: '<type>half</type>' })}`,
  `<print new-system="yes"/><barline location="left"><ending number="1, 2" type="start">1.-2.</ending></barline>
  ${note('C5', 36, { after: '<tie type="stop"/>', rest: '<type>half</type><dot/>' })}
  <attributes><key><fifths>2</fifths></key></attributes>${note('C#5', 6, { rest: '<type>eighth</type><beam number="1">begin</beam>' })}${note('D5', 6, { rest: '<type>eighth</type><beam number="1">end</beam>' })}
  <barline location="right"><bar-style>light-heavy</bar-style><ending number="1, 2" type="stop"/><repeat direction="backward" times="3"/></barline>`,
  `<barline location="left"><ending number="" type="start"/></barline><attributes><time><beats>3+2</beats><beat-type>8</beat-type><beats>1</beats><beat-type>4</beat-type></time></attributes><note><rest measure="yes"/><duration>42</duration></note>
  <direction><direction-type><words>D.S. al Coda</words></direction-type><sound dalsegno="1"/></direction>
  <direction><direction-type><metronome><beat-unit>quarter</beat-unit><beat-unit-dot/><per-minute>60</per-minute></metronome></direction-type></direction>
  <direction><direction-type><octave-shift type="down" size="8"/></direction-type></direction>
  <barline location="right"><ending number="" type="discontinue"/></barline>`,
);

describe.each([1, 2] as const)('a tune with nearly everything, staves: %i', staves => {
  const { tune } = melodyOf(RICH, { chords: 'all' });

  test('is the same when it is read again', () => expectSame(tune, staves));
  test('is valid', async () => expect(await schemaErrors({ 'rich.xml': written(tune, staves) })).toEqual([]));
  test('is written alike every time', () => expect(written(tune, staves)).toBe(written(tune, staves)));

  test('carries string, fret and finger on every head', () => {
    const heads = readBack(written(tune, staves))
      .measures.flatMap(measure => measure.events)
      .flatMap(event => (event.kind === 'note' ? event.heads : []));
    const { placements } = somewhere(tune);
    expect(heads.map(head => head.marked)).toEqual(
      heads.map(head => {
        const { string, fret, finger } = placements.get(head.id)!;
        return { string, fret, finger };
      }),
    );
  });
});

test.each([
  ['ukulele', { sign: 'G', line: 2, octaveChange: 0 }],
  ['guitar', { sign: 'G', line: 2, octaveChange: -1 }],
  ['bass', { sign: 'F', line: 4, octaveChange: -1 }],
])('the clef of the %s', (id, clef) => {
  const { tune } = melodyOf(partWise(`${attributes()}${note('C4', 48)}`));
  const again = readBack(toMusicXml(tune, somewhere(tune, findInstrument(id))));
  expect(again.measures[0]!.clef).toEqual(clef);
  expect(essence(again)).toEqual(essence(tune));
});

test('a key that changes within a note is reached and left', () => {
  const xml = partWise(
    `${attributes()}${note('C4', 48)}<backup><duration>36</duration></backup><attributes><key><fifths>1</fifths></key></attributes><forward><duration>36</duration></forward>`,
  );
  expectSame(melodyOf(xml).tune);
});

const names = fc.constantFrom('C4', 'F#4', 'Bb4', 'Eb5', 'A5', 'r');
const rhythm = fc.constantFrom(
  [12, '<type>quarter</type>'] as const,
  [18, '<type>quarter</type><dot/>'] as const,
  [6, '<type>eighth</type>'] as const,
  [24, '<type>half</type>'] as const,
  [5, ''] as const,
);
const mark = fc.constantFrom(
  '',
  '',
  '<harmony><root><root-step>G</root-step></root><kind>major</kind><offset>3</offset></harmony>',
  '<direction><direction-type><words>x</words></direction-type><offset>-4</offset></direction>',
  '<sound tempo="100"/>',
  '<direction placement="above"><direction-type><coda/></direction-type></direction>',
  '<forward><duration>7</duration></forward>',
  '<attributes><key><fifths>-4</fifths></key></attributes>',
  '<barline location="right"><bar-style>light-light</bar-style></barline>',
);
const tieOrSlur = fc.constantFrom(
  {},
  { after: '<tie type="start"/>' },
  { after: '<tie type="stop"/>' },
  { before: '<chord/>' },
);
const measures = fc.array(
  fc
    .array(fc.tuple(names, rhythm, tieOrSlur, mark), { maxLength: 8 })
    .map(events =>
      events
        .map(
          ([name, [duration, type], parts, before]) =>
            before + note(name, duration, { ...parts, rest: type }),
        )
        .join(''),
    ),
  { minLength: 1, maxLength: 4 },
);

test('any tune is the same when it is read again', () =>
  fc.assert(
    fc.property(measures, fc.constantFrom(1, 2), (content, staves) => {
      const xml = partWise(`${attributes()}${note('C4', 12)}`, ...content);
      expectSame(melodyOf(xml, { chords: 'all' }).tune, staves);
    }),
    { numRuns: 300 },
  ));

const corpusTunes = (chords: 'top' | 'all'): readonly (readonly [string, Tune])[] =>
  (['tunes', 'reader'] as const).flatMap(room =>
    corpusFiles(room).flatMap(file => {
      try {
        const { score } = readScore(corpusBytes(room, file));
        return [[`${file}.xml`, chooseMelody(score, { chords }).tune] as const];
      } catch (error) {
        if (error instanceof Refusal) return [];
        throw error;
      }
    }),
  );

describeCorpus('the corpus', () => {
  test.each([1, 2] as const)('is the same when it is read again, staves: %i', staves => {
    const tunes = corpusTunes('all');
    expect(tunes.length).toBeGreaterThan(95);
    for (const [, tune] of tunes) expectSame(tune, staves);
  });

  test.each([1, 2] as const)(
    'is valid, staves: %i',
    async staves => {
      const files = Object.fromEntries(
        corpusTunes('top').map(([file, tune]) => [file, written(tune, staves)]),
      );
      expect(await schemaErrors(files)).toEqual([]);
    },
    30_000,
  );
});
