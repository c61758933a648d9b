/** The arrangement for other programs, checked with another validator and with arithmetic of its own. */
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, test } from 'vitest';
import * as z from 'zod/mini';
import type { ArrangementDocument, FractionText } from '../../src/emit/json/document.ts';
import { fraction } from '../../src/emit/json/fraction.ts';
import { arrangementSchema } from '../../src/emit/json/json-schema.ts';
import { documentSchema } from '../../src/emit/json/schema.ts';
import { toJson } from '../../src/emit/json.ts';
import { arrangeEditions } from '../../src/fingering/editions.ts';
import { rulesFrom, wholeTune } from '../../src/fingering/rules.ts';
import { findInstrument, withCapo } from '../../src/instrument/define.ts';
import { readScore } from '../../src/read/read.ts';
import { chooseMelody } from '../../src/score/melody.ts';
import type { Tune } from '../../src/score/tune.ts';
import { corpusBytes, corpusFiles } from '../support/corpus.ts';
import { attributes, note, tuneFrom } from '../support/musicxml.ts';
import { unlessRefused } from '../support/refused.ts';
import { exampleTunes, realTunes } from '../support/tunes.ts';

const INSTRUMENTS = [findInstrument('guitar'), withCapo(findInstrument('ukulele-low-g'), 1)];

/** What is written for each edition of a tune, and what the arrangement says itself; none where it is refused. */
const editionsOf = (tune: Tune, windows = wholeTune(2, 9)) =>
  INSTRUMENTS.flatMap(
    instrument =>
      unlessRefused(() => {
        const asked = {
          instruments: [instrument],
          rules: rulesFrom({ windows }),
          transpose: 0,
          match: false,
        };
        const { tune: moved, editions } = arrangeEditions(tune, asked);
        return editions.map(({ arrangement, diagnostics }) => {
          const json = toJson(moved, arrangement, diagnostics);
          return { moved, arrangement, diagnostics, json, data: JSON.parse(json) as ArrangementDocument };
        });
      }) ?? [],
  );

/** A fraction as a number, near enough to compare moments of different bars. */
const size = (text: FractionText): number => {
  const [upper, lower = 1] = text.split('/').map(Number) as [number, number?];
  return upper / lower;
};

const thousandths = (points: number): number => Math.round(1000 * points);

const ajv = new Ajv2020({ strict: true });
const allowed = ajv.compile(arrangementSchema());
/** The same schema with every field named: nothing is written that it does not describe. */
const named = ajv.compile(z.toJSONSchema(documentSchema()) as object);

/** Notation that is awkward on purpose. */
const awkward = corpusFiles('reader').flatMap(name => {
  const bytes = corpusBytes('reader', name);
  const tune = unlessRefused(() => chooseMelody(readScore(bytes).score, { chords: 'all' }).tune);
  return tune ? [{ name, tune }] : [];
});

describe('real tunes', () => {
  const editions = [...realTunes('all'), ...awkward].flatMap(({ name, tune }) =>
    editionsOf(tune).map(edition => ({ name, ...edition })),
  );

  test('there are some', () => expect(editions.length).toBeGreaterThanOrEqual(3));

  test('are as the printed schema says, and hold nothing else', () => {
    for (const { name, data } of editions) {
      expect(allowed(data), `${name}: ${ajv.errorsText(allowed.errors)}`).toBe(true);
      expect(named(data), `${name}: ${ajv.errorsText(named.errors)}`).toBe(true);
    }
  });

  test('cost what their notes cost', () => {
    for (const { name, data, arrangement } of editions) {
      const sum = data.notes.reduce((points, each) => points + thousandths(each.cost ?? 0), 0);
      expect(sum, name).toBe(thousandths(data.cost));
      expect(sum, name).toBe(arrangement.cost);
      // A cost for every moment at which something is struck.
      const struck = new Set(data.notes.filter(each => each.tiedFrom === undefined).map(each => each.event));
      const paid = data.notes.filter(each => each.cost !== undefined).map(each => each.event);
      expect(paid, name).toEqual([...struck]);
    }
  });

  test('sound what they say where they say it', () => {
    for (const { name, data } of editions) {
      const { strings, capo } = data.instrument;
      for (const { string, fret, pitch, finger, id } of data.notes) {
        expect(strings[string - 1]!.midi + capo + fret, `${name}, note ${id}`).toBe(pitch.midi);
        expect(finger === 0, `${name}, note ${id}`).toBe(fret === 0);
      }
    }
  });

  test('lie end to end: notes and rests fill their measures, and measures the tune', () => {
    for (const { name, data } of editions) {
      let end = 0;
      for (const measure of data.measures) {
        expect(size(measure.onset), name).toBeCloseTo(end, 9);
        end += size(measure.duration);
        const events = new Map(
          [...data.notes, ...data.rests]
            .filter(each => each.measure === measure.index)
            .map(each => [each.event, each]),
        );
        let at = size(measure.onset);
        for (const [, { onset, duration }] of [...events].sort(([a], [b]) => a - b)) {
          expect(size(onset), `${name}, measure ${measure.number}`).toBeCloseTo(at, 9);
          at += size(duration);
        }
        expect(at, `${name}, measure ${measure.number}`).toBeCloseTo(end, 9);
      }
    }
  });

  test('pass warnings on with their codes', () => {
    const warned = editions.filter(({ diagnostics }) => diagnostics.length > 0);
    expect(warned.length).toBeGreaterThan(0);
    for (const { data, diagnostics } of warned) {
      expect(data.warnings.map(each => each.code)).toEqual(diagnostics.map(each => each.code));
    }
  });
});

describe('a small tune', () => {
  const tune = tuneFrom(
    `${attributes('<key><fifths>-1</fifths><mode>major</mode></key><time><beats>3</beats><beat-type>8</beat-type></time>')}
    <direction><direction-type><words>Slowly</words></direction-type><direction-type><metronome><beat-unit>quarter</beat-unit><beat-unit-dot/><per-minute>50</per-minute></metronome></direction-type></direction>
    <harmony><root><root-step>B</root-step><root-alter>-1</root-alter></root><kind>major</kind></harmony>
    ${note('Bb4', 6, { rest: '<type>eighth</type><notations><articulations><accent/></articulations><fermata/></notations><lyric number="1"><text>Ah</text></lyric>' })}
    ${note('r', 4, { rest: '<type>eighth</type><time-modification><actual-notes>3</actual-notes><normal-notes>2</normal-notes></time-modification>' })}
    ${note('C5', 8, { after: '<tie type="start"/>', rest: '<type>quarter</type><time-modification><actual-notes>3</actual-notes><normal-notes>2</normal-notes></time-modification>' })}`,
    `${note('C5', 18, { after: '<tie type="stop"/>', rest: '<type>quarter</type><dot/>' })}<barline location="right"><repeat direction="backward" times="3"/></barline>`,
  );
  const { data } = editionsOf(tune, [])[0]!;

  test('has exact times', () => {
    expect(data.notes.map(({ onset, beat, duration }) => [onset, beat, duration])).toEqual([
      ['0', '1', '1/8'],
      ['5/24', '8/3', '1/6'],
      ['3/8', '1', '3/8'],
    ]);
    expect(data.rests).toMatchObject([{ onset: '1/8', duration: '1/12' }]);
  });

  test('names its pitches, values, ties, words and chords', () => {
    const [first, second, third] = data.notes;
    expect(first).toMatchObject({
      pitch: { name: 'Bb4', midi: 70 },
      value: { note: '1/8', dots: 0 },
      articulations: ['accent'],
      fermata: true,
      lyrics: [{ verse: '1', text: 'Ah', syllabic: 'single' }],
    });
    expect(second!.value).toEqual({ note: '1/4', dots: 0, ratio: { actual: 3, normal: 2 } });
    expect(third).toMatchObject({ tiedFrom: second!.id, value: { note: '1/4', dots: 1 } });
    expect(third).not.toHaveProperty('cost');
    expect(data.marks).toEqual([
      {
        measure: 0,
        onset: '0',
        kind: 'tempo',
        text: 'Slowly',
        beat: { note: '1/4', dots: 1 },
        perMinute: 50,
      },
    ]);
    expect(data.chordSymbols).toEqual([{ measure: 0, onset: '0', root: 'Bb', kind: 'major' }]);
  });

  test('says how it is counted and repeated', () => {
    expect(data.measures).toMatchObject([
      { number: '1', metre: '3/8', key: { fifths: -1, mode: 'major' }, repeatEnds: false },
      { number: '2', onset: '3/8', duration: '3/8', repeatEnds: true, times: 3 },
    ]);
  });
});

test('an edition that was matched says which notes lie elsewhere', () => {
  const { tune } = exampleTunes()[0]!;
  const asked = {
    instruments: [findInstrument('ukulele-low-g'), findInstrument('ukulele')],
    rules: rulesFrom({ windows: wholeTune(7, 11) }),
    transpose: 2,
    match: true,
  };
  const { tune: moved, editions } = arrangeEditions(tune, asked);
  const { arrangement } = editions[1]!;
  const data = JSON.parse(toJson(moved, arrangement)) as ArrangementDocument;
  expect(data.tune.transposition).toBe(2);
  expect(data.matchedWith).toBe('ukulele-low-g');
  const elsewhere = data.notes.filter(each => each.elsewhere).map(each => each.id);
  expect(elsewhere.length).toBeGreaterThan(0);
  expect(new Set(elsewhere)).toEqual(arrangement.matched!.differences);
});

describe('fractions', () => {
  test.each([
    [6, 16, '3/8'],
    [48, 48, '1'],
    [0, 7, '0'],
    [14, 4, '7/2'],
  ])('%i/%i is %s', (upper, lower, text) => expect(fraction(upper, lower)).toBe(text));

  test.each([
    [0.5, 1],
    [1, 0],
    [-1, 4],
  ])('%d/%d is none', (upper, lower) => expect(() => fraction(upper, lower)).toThrow(RangeError));
});
