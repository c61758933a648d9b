/** Tempo: metronome marks, words that carry a sounding tempo, and tempos that only sound. */
import type { Direction } from '../../score/model/direction.ts';
import type { NoteValue } from '../../score/model/duration.ts';
import { attribute, childText, type XmlElement } from '../xml/element.ts';

type Tempo = Omit<Direction & { readonly kind: 'tempo' }, 'at' | 'source' | 'staff'>;

interface TempoMarks {
  readonly marks: readonly Tempo[];
  /** The direction's words are the tempo mark's. */
  readonly usesWords: boolean;
  /** False for a metronome mark that is no number: a relation between note values. */
  readonly readable: boolean;
}

const BASES: ReadonlyMap<string, number> = new Map([
  ['long', 0.25],
  ['breve', 0.5],
  ['whole', 1],
  ['half', 2],
  ['quarter', 4],
  ['eighth', 8],
  ['16th', 16],
  ['32nd', 32],
]);

const QUARTER: NoteValue = { base: 4, dots: 0, ratio: undefined };

/** The tempo marks of one direction: an equation, words with a sounding tempo, or a sounding tempo alone. */
export const printedTempo = (
  marks: readonly XmlElement[],
  words: string,
  sound: XmlElement | undefined,
): TempoMarks => {
  const metronome = marks.find(mark => mark.nodeName === 'metronome');
  const sounding = sound && soundingTempo(sound);
  if (metronome === undefined) return withoutEquation(marks, words, sounding);
  const equation = equationOf(metronome);
  if (attribute(metronome, 'print-object') === 'no') {
    const hidden: Tempo | undefined = equation && {
      kind: 'tempo',
      ...equation,
      text: undefined,
      printed: false,
    };
    const others = marks.filter(mark => mark !== metronome);
    return withoutEquation(others, words, hidden ?? sounding);
  }
  if (equation === undefined) {
    return { marks: sounding === undefined ? [] : [sounding], usesWords: false, readable: false };
  }
  const text = words === '' ? undefined : words;
  return { marks: [{ kind: 'tempo', ...equation, text, printed: true }], usesWords: true, readable: true };
};

/** Words with a sounding tempo are a tempo mark, unless they are there for something else. */
const withoutEquation = (
  marks: readonly XmlElement[],
  words: string,
  sounding: Tempo | undefined,
): TempoMarks => {
  if (sounding === undefined) return { marks: [], usesWords: false, readable: true };
  const isMark = words !== '' && marks.every(mark => mark.nodeName === 'words');
  const mark: Tempo = { kind: 'tempo', perMinute: undefined, beat: QUARTER, text: words, printed: true };
  return { marks: isMark ? [mark, sounding] : [sounding], usesWords: isMark, readable: true };
};

/** A note value and how many of it there are in a minute: "c. 66", "66-72" count as 66. */
const equationOf = (metronome: XmlElement): Pick<Tempo, 'perMinute' | 'beat'> | undefined => {
  const units = metronome.children.filter(each => each.nodeName === 'beat-unit');
  const base = BASES.get(childText(metronome, 'beat-unit') ?? '');
  const perMinute = Number(/\d+(\.\d+)?/.exec(childText(metronome, 'per-minute') ?? '')?.[0]);
  if (units.length !== 1 || base === undefined || !(perMinute > 0)) return undefined;
  const dots = metronome.children.filter(each => each.nodeName === 'beat-unit-dot').length;
  return { perMinute, beat: { base, dots, ratio: undefined } };
};

/** The tempo that a `<sound>` sets, in quarters a minute, with nothing printed. */
export const soundingTempo = (sound: XmlElement): Tempo | undefined => {
  const perMinute = Number(attribute(sound, 'tempo'));
  if (!(perMinute > 0) || !Number.isFinite(perMinute)) return undefined;
  return { kind: 'tempo', perMinute, beat: QUARTER, text: undefined, printed: false };
};
