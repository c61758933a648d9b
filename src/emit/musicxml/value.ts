/** Note values: type, dots, ratio. */
import type { NoteValue } from '../../score/model/duration.ts';
import { element, empty, leaf, type XmlNode } from './xml.ts';

const TYPES: Readonly<Record<number, string>> = {
  0.25: 'long',
  0.5: 'breve',
  1: 'whole',
  2: 'half',
  4: 'quarter',
  8: 'eighth',
  16: '16th',
  32: '32nd',
  64: '64th',
  128: '128th',
  256: '256th',
  512: '512th',
  1024: '1024th',
};

/** `<type>` and `<dot>`s; or `<beat-unit>` and `<beat-unit-dot>`s. */
export const typeElements = (value: NoteValue, name: 'type' | 'beat-unit'): readonly XmlNode[] => {
  const dot = empty(name === 'type' ? 'dot' : 'beat-unit-dot');
  return [leaf(name, TYPES[value.base] ?? 'quarter'), ...Array.from({ length: value.dots }, () => dot)];
};

/** The ratio of a tuplet, where there is one. */
export const timeModification = ({ ratio }: NoteValue): XmlNode | undefined =>
  ratio &&
  element('time-modification', {}, leaf('actual-notes', ratio.actual), leaf('normal-notes', ratio.normal));
