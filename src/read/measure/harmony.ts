/** `<harmony>`: chord symbols. */
import type { Harmony } from 'musicxml-interfaces';
import type { ChordDegree, ChordNote, ChordSymbol } from '../../score/model/chord-symbol.ts';
import { stepNamed } from '../../score/pitch.ts';
import { type Interval, transposePitch } from '../../score/transpose.ts';
import { sourceOf, type Walk } from '../draft.ts';
import { harmonyRecord } from '../library.ts';
import { attribute, child, childText, wrap, type XmlElement } from '../xml/element.ts';
import { intervalOn } from './attributes.ts';
import { offsetTicks } from './duration.ts';

/** Reads a harmony element, which may hold several chords. */
export function readHarmonies(walk: Walk, node: XmlElement): void {
  for (const single of singleChords(node)) {
    if (isSound(single)) readHarmony(walk, single, harmonyRecord(single));
    else walk.omissions.add('unreadable chord symbols', sourceOf(walk, node));
  }
}

const CHORD_STARTS: ReadonlySet<string> = new Set(['root', 'function', 'numeral']);

/** One element a chord: of several chords in one element, the library keeps the last. */
const singleChords = (harmony: XmlElement): readonly XmlElement[] => {
  const starts = harmony.children.filter(each => CHORD_STARTS.has(each.nodeName));
  if (starts.length < 2) return [harmony];
  const common = harmony.children.filter(each => each.nodeName === 'offset' || each.nodeName === 'staff');
  return starts.map((start, index) => {
    const from = harmony.children.indexOf(start);
    const to = index + 1 < starts.length ? harmony.children.indexOf(starts[index + 1]!) : undefined;
    const chord = harmony.children.slice(from, to).filter(each => !common.includes(each));
    return wrap('harmony', start.line, [...chord, ...common], harmony.attributes);
  });
};

/**
 * A symbol whose root or bass is no letter from A to G, with anything but sharps and flats, single and
 * double, or with a degree that is no number, is none.
 */
const isSound = (harmony: XmlElement): boolean =>
  harmony.children
    .flatMap(each => each.children)
    .every(({ nodeName, textContent }) => {
      const text = textContent.trim();
      if (nodeName === 'root-step' || nodeName === 'bass-step')
        return text === '' || stepNamed(text) !== undefined;
      if (nodeName === 'degree-value') return Number(text) >= 1 && Number.isInteger(Number(text));
      return !nodeName.endsWith('-alter') || [-2, -1, 0, 1, 2].includes(Number(text));
    });

const readHarmony = (walk: Walk, node: XmlElement, data: Harmony): void => {
  const { kind, text } = kindOf(node, data.kind?.data ?? '');
  const isNone = kind === 'none';
  const interval = intervalOn(walk, data.staff ?? 1);
  const root = isNone
    ? undefined
    : chordNote(data.root?.rootStep?.data, data.root?.rootAlter?.data, interval);
  if (attribute(node, 'print-object') === 'no') {
    walk.omissions.add('hidden chord symbols', sourceOf(walk, node));
    return;
  }
  if (data.frame) walk.omissions.add('chord diagrams', sourceOf(walk, node));
  if (child(node, 'bass') === undefined && Number(childText(node, 'inversion') ?? 0) > 0) {
    walk.omissions.add('inversions of chords', sourceOf(walk, node));
  }
  if (root === undefined && !isNone) {
    walk.omissions.add('chords named by degree or function', sourceOf(walk, node));
    return;
  }
  const symbol: ChordSymbol = {
    at: Math.max(0, walk.now + offsetTicks(walk, data.offset?.data)),
    root,
    kind,
    text,
    bass: chordNote(data.bass?.bassStep?.data, data.bass?.bassAlter?.data, interval),
    degrees: (data.degrees ?? []).flatMap(degreeOf),
    source: sourceOf(walk, node),
  };
  const last = walk.measure.chordSymbols.at(-1);
  if (last === undefined || !isSame(last, symbol)) walk.measure.chordSymbols.push(symbol);
};

/** Whether a file says a symbol again at the same moment: some do, for every note of a run. */
const isSame = ({ source: _, ...one }: ChordSymbol, { source: __, ...other }: ChordSymbol): boolean =>
  JSON.stringify(one) === JSON.stringify(other);

/** MusicXML 4.0, kind-value. */
const KINDS: ReadonlySet<string> = new Set(
  `
    major minor augmented diminished dominant major-seventh minor-seventh diminished-seventh
    augmented-seventh half-diminished major-minor major-sixth minor-sixth dominant-ninth
    major-ninth minor-ninth dominant-11th major-11th minor-11th dominant-13th major-13th minor-13th
    suspended-second suspended-fourth Neapolitan Italian French German pedal power Tristan other
    none
  `
    .trim()
    .split(/\s+/),
);

/** The text is read from the tree, where `text=""` (print nothing) differs from no text. */
const kindOf = (node: XmlElement, kind: string): Pick<ChordSymbol, 'kind' | 'text'> => {
  const text = child(node, 'kind')?.getAttribute('text') ?? undefined;
  if (kind === '') return { kind: 'major', text };
  return KINDS.has(kind) ? { kind, text } : { kind: 'other', text: text ?? kind };
};

const chordNote = (
  name: string | undefined,
  alter: string | number | undefined,
  interval: Interval | undefined,
): ChordNote | undefined => {
  const step = stepNamed(name ?? '');
  if (step === undefined) return undefined;
  const note = { step, alter: Number(alter ?? 0) };
  if (interval === undefined) return note;
  const moved = transposePitch({ ...note, octave: 4 }, interval);
  return { step: moved.step, alter: moved.alter };
};

const TYPES = ['add', 'alter', 'subtract'] as const satisfies readonly ChordDegree['type'][];

const degreeOf = (degree: Harmony['degrees'][number]): ChordDegree[] => {
  const value = Number(degree.degreeValue?.data);
  const alter = Number(degree.degreeAlter?.data ?? 0);
  const named = String(degree.degreeType?.data ?? 'add');
  const type = TYPES.find(each => each === named);
  return Number.isInteger(value) && type ? [{ value, alter, type }] : [];
};
