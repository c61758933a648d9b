/** The root element → parts and measures, the same for part-wise and time-wise scores. By index, not by number. */
import { Refusal } from '../score/diagnostic.ts';
import { attribute, child, type XmlElement } from './xml/element.ts';

/** A measure of one part, as it is in the file. */
export interface RawMeasure {
  readonly number: string;
  readonly implicit: boolean;
  readonly line: number;
  /** Notes, attributes, bar lines, …: what is in the measure, for this part. */
  readonly content: readonly XmlElement[];
}

/** A part, as it is in the file. */
export interface RawPart {
  readonly id: string;
  readonly line: number;
  readonly measures: readonly RawMeasure[];
}

/** Cuts a score into its parts. Throws a Refusal where the document is no score or has no parts. */
export const cutIntoParts = (root: XmlElement): readonly RawPart[] => {
  const cut = LAYOUTS.get(root.nodeName);
  if (cut === undefined) throw notMusicXml(root);
  const parts = cut(root);
  if (parts.length === 0) throw noParts(root);
  return parts;
};

const partWise = (root: XmlElement): RawPart[] =>
  elements(root, 'part').map(part => ({
    id: attribute(part, 'id') ?? '',
    line: part.line,
    measures: elements(part, 'measure').map((measure, index) => rawMeasure(measure, index, measure.children)),
  }));

/** A few lines of time-wise XML can name a part in every measure, which every measure then has. */
const MOST_PART_MEASURES = 1_000_000;

const timeWise = (root: XmlElement): RawPart[] => {
  const parts = new Map<string, { id: string; line: number; measures: RawMeasure[] }>();
  const measures = elements(root, 'measure');
  for (const [index, measure] of measures.entries()) {
    if (parts.size * index > MOST_PART_MEASURES) throw tooManyParts(measure);
    for (const part of elements(measure, 'part')) {
      const id = attribute(part, 'id') ?? '';
      const known = parts.get(id) ?? { id, line: part.line, measures: [] };
      parts.set(id, known);
      // A part that sits measures out is silent there.
      while (known.measures.length < index) {
        const at = known.measures.length;
        known.measures.push(rawMeasure(measures[at]!, at, []));
      }
      known.measures[index] = rawMeasure(measure, index, part.children);
    }
  }
  return [...parts.values()];
};

const LAYOUTS: ReadonlyMap<string, (root: XmlElement) => RawPart[]> = new Map([
  ['score-partwise', partWise],
  ['score-timewise', timeWise],
]);

const elements = (parent: XmlElement, name: string): readonly XmlElement[] =>
  parent.children.filter(each => each.nodeName === name);

const rawMeasure = (measure: XmlElement, index: number, content: readonly XmlElement[]): RawMeasure => ({
  number: attribute(measure, 'number') ?? String(index + 1),
  implicit: attribute(measure, 'implicit') === 'yes',
  line: measure.line,
  content,
});

const notMusicXml = (root: XmlElement): Refusal =>
  new Refusal({
    severity: 'error',
    code: 'not-musicxml',
    message:
      root.nodeName === 'opus'
        ? 'this is a MusicXML opus, a list of scores, and not a score'
        : `this is XML, but not MusicXML: its root element is <${root.nodeName}>`,
    hint:
      root.nodeName === 'opus'
        ? 'give the scores that it lists instead'
        : 'export the tune as MusicXML (.mxl or .musicxml)',
    place: { line: root.line },
  });

const tooManyParts = (measure: XmlElement): Refusal =>
  new Refusal({
    severity: 'error',
    code: 'too-many-parts',
    message: 'the score has more parts and measures than any score',
    hint: 'export only the part with the melody',
    place: { line: measure.line },
  });

const noParts = (root: XmlElement): Refusal =>
  new Refusal({
    severity: 'error',
    code: 'no-parts',
    message:
      child(root, 'part-list') === undefined
        ? 'the score has neither a list of parts nor parts'
        : 'the score lists parts, but holds none',
    hint: 'export the tune again as MusicXML; the file may have been cut off',
    place: { line: root.line },
  });
