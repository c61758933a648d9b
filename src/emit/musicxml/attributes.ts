/** `<attributes>`: what is in force at the start, and what changes. */
import type { ReadingClef } from '../../instrument/instrument.ts';
import type { Key, TimeSignature } from '../../score/model/attributes.ts';
import { type Child, element, empty, leaf, type XmlNode } from './xml.ts';

/** Key and time where they are new, or change. */
export const attributesElement = (
  { key, time }: { readonly key?: Key | undefined; readonly time?: TimeSignature | undefined },
  before: Child = undefined,
  after: Child = undefined,
): XmlNode => element('attributes', {}, before, key && keyElement(key), time && timeElement(time), after);

const keyElement = (key: Key): XmlNode =>
  element('key', {}, leaf('fifths', key.fifths), leaf('mode', key.mode));

const SYMBOLS: Partial<Record<string, string>> = {
  common: 'common',
  cut: 'cut',
  'single-number': 'single-number',
};

const timeElement = (time: TimeSignature): XmlNode => {
  if (time.kind === 'senza-misura') return element('time', {}, empty('senza-misura'));
  const fractions = time.fractions.flatMap(({ beats, beatType }) => [
    leaf('beats', beats.join('+')),
    leaf('beat-type', beatType),
  ]);
  return element('time', { symbol: SYMBOLS[time.symbol] }, fractions);
};

const CLEFS: Readonly<Record<ReadingClef, { sign: string; line: number; octaves: number | undefined }>> = {
  treble: { sign: 'G', line: 2, octaves: undefined },
  'treble-8': { sign: 'G', line: 2, octaves: -1 },
  'bass-8': { sign: 'F', line: 4, octaves: -1 },
};

/** Octave clefs say in which octave notes are written; the pitches in the file are what sounds. */
export const clefElement = (clef: ReadingClef, number?: number): XmlNode => {
  const { sign, line, octaves } = CLEFS[clef];
  return element(
    'clef',
    { number },
    leaf('sign', sign),
    leaf('line', line),
    leaf('clef-octave-change', octaves),
  );
};
