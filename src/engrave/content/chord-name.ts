/** A chord symbol as pieces of text: what stands on the line, and what is raised. */
import type { ChordDegree, ChordNote, ChordSymbol } from '../../score/model/chord-symbol.ts';
import { accidentalSign } from '../../score/pitch.ts';

export interface ChordPiece {
  readonly text: string;
  readonly raised: boolean;
}

/** MusicXML's kind-values: the part on the line, then the raised part. */
const KINDS: Readonly<Record<string, readonly [string, string]>> = {
  major: ['', ''],
  minor: ['m', ''],
  augmented: ['', '+'],
  diminished: ['', '°'],
  dominant: ['', '7'],
  'major-seventh': ['', 'maj7'],
  'minor-seventh': ['m', '7'],
  'diminished-seventh': ['', '°7'],
  'augmented-seventh': ['', '+7'],
  'half-diminished': ['', 'ø7'],
  'major-minor': ['m', 'maj7'],
  'major-sixth': ['', '6'],
  'minor-sixth': ['m', '6'],
  'dominant-ninth': ['', '9'],
  'major-ninth': ['', 'maj9'],
  'minor-ninth': ['m', '9'],
  'dominant-11th': ['', '11'],
  'major-11th': ['', 'maj11'],
  'minor-11th': ['m', '11'],
  'dominant-13th': ['', '13'],
  'major-13th': ['', 'maj13'],
  'minor-13th': ['m', '13'],
  'suspended-second': ['', 'sus2'],
  'suspended-fourth': ['', 'sus4'],
  power: ['', '5'],
  pedal: ['', 'ped'],
  Neapolitan: ['', 'N6'],
  Italian: ['', 'It6'],
  French: ['', 'Fr6'],
  German: ['', 'Ger6'],
  Tristan: ['', 'Tristan'],
};

const noteName = ({ step, alter }: ChordNote) => `${step}${accidentalSign(alter)}`;

function degreeText({ value, alter, type }: ChordDegree): string {
  if (type === 'subtract') return `no${value}`;
  const sign = accidentalSign(alter);
  return type === 'add' && sign === '' ? `add${value}` : `${sign}${value}`;
}

/**
 * The plain seventh, ninth and thirteenth that are added to a suspended chord, which stand before the
 * word: 7sus4, 9sus4. Each needs those below it.
 */
function beforeSus({ kind, degrees }: ChordSymbol): readonly ChordDegree[] {
  if (!kind.startsWith('suspended-')) return [];
  const plain = [7, 9, 13].map(value =>
    degrees.find(degree => degree.type === 'add' && degree.value === value && degree.alter === 0),
  );
  const end = plain.indexOf(undefined);
  return (end < 0 ? plain : plain.slice(0, end)) as readonly ChordDegree[];
}

export function chordPieces(symbol: ChordSymbol): ChordPiece[] {
  const { root, kind, text, bass, degrees } = symbol;
  if (!root) return [{ text: 'N.C.', raised: false }];
  const extensions = beforeSus(symbol);
  const [line, plain] = KINDS[kind] ?? [text ?? '', ''];
  const raised = `${extensions.at(-1)?.value ?? ''}${plain}`;
  const rest = degrees.filter(degree => !extensions.includes(degree));
  const altered = rest.length > 0 ? `(${rest.map(degreeText).join(',')})` : '';
  return [
    { text: noteName(root) + line, raised: false },
    { text: raised + altered, raised: true },
    { text: bass ? `/${noteName(bass)}` : '', raised: false },
  ].filter(piece => piece.text !== '');
}
