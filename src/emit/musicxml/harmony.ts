/** `<harmony>`: chord symbols. */
import type { ChordDegree, ChordNote, ChordSymbol } from '../../score/model/chord-symbol.ts';
import { element, leaf, type XmlNode } from './xml.ts';

/** A chord symbol as `<harmony>`. */
export const harmonyElement = (chord: ChordSymbol, offset: number): XmlNode =>
  element(
    'harmony',
    {},
    chord.root === undefined ? NO_ROOT : noteElement('root', chord.root),
    leaf('kind', chord.kind, { text: chord.text }),
    chord.bass && noteElement('bass', chord.bass),
    chord.degrees.map(degreeElement),
    offset === 0 ? undefined : leaf('offset', offset),
  );

/** The schema wants a root for "no chord" too, with a step that is not printed. */
const NO_ROOT = element('root', {}, leaf('root-step', 'C', { text: '' }));

const noteElement = (name: 'root' | 'bass', { step, alter }: ChordNote): XmlNode =>
  element(name, {}, leaf(`${name}-step`, step), alter === 0 ? undefined : leaf(`${name}-alter`, alter));

const degreeElement = ({ value, alter, type }: ChordDegree): XmlNode =>
  element('degree', {}, leaf('degree-value', value), leaf('degree-alter', alter), leaf('degree-type', type));
