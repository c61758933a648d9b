/** `<notations>`: what hangs on a note. Read from the tree: the library keeps one of several, and knows not all. */
import { type Note, StartStop, StartStopContinue } from 'musicxml-interfaces';
import { type Articulation, type Marked, UNMARKED } from '../../score/model/event.ts';
import { type Placed, sourceOf, type TieMark, type Walk } from '../draft.ts';
import { attribute, type XmlElement } from '../xml/element.ts';
import { isEndOfSpan } from './span-type.ts';

/** Adds the notations of a note to its event; spans are collected for when both ends are known. */
export const readNotations = (walk: Walk, node: XmlElement, placed: Placed): void => {
  for (const mark of marksOn(node)) {
    const read = READERS.get(mark.nodeName);
    if (read) read(walk, mark, placed);
    else if (!isEndOfSpan(mark))
      leaveOut(walk, mark, placed, LEFT_OUT.get(mark.nodeName) ?? 'other notations');
  }
};

const marksOn = (node: XmlElement): readonly XmlElement[] =>
  node.children.flatMap(each => (each.nodeName === 'notations' ? each.children : []));

type Reader = (walk: Walk, mark: XmlElement, placed: Placed) => void;

const READERS: ReadonlyMap<string, Reader> = new Map<string, Reader>([
  ['fermata', (_, __, { event }) => (event.fermata = true)],
  ['articulations', readArticulations],
  ['slur', (walk, mark, placed) => addSpan(walk.slurs, walk, mark, placed)],
  ['tuplet', (walk, mark, placed) => addSpan(walk.tuplets, walk, mark, placed)],
  ['tied', readTied],
  ['technical', readTechniques],
  ['ornaments', readOrnaments],
]);

/** Counts a kind of notation that is not kept, once for a note or chord. */
const leaveOut = (walk: Walk, mark: XmlElement, { event }: Placed, what: string): void =>
  walk.omissions.add(what, sourceOf(walk, mark), event.id);

const LEFT_OUT: ReadonlyMap<string, string> = new Map([
  ['slide', 'slides and glissandos'],
  ['glissando', 'slides and glissandos'],
  ['arpeggiate', 'arpeggio signs'],
  ['non-arpeggiate', 'arpeggio signs'],
  ['dynamics', 'dynamics written on a note'],
  ['accidental-mark', 'accidental marks'],
]);

/** In the order in which a note has them, from the head outwards. */
const ARTICULATIONS: ReadonlyMap<string, Articulation> = new Map([
  ['staccato', 'staccato'],
  ['staccatissimo', 'staccatissimo'],
  ['tenuto', 'tenuto'],
  ['accent', 'accent'],
  ['strong-accent', 'marcato'],
  ['breath-mark', 'breath'],
  ['caesura', 'caesura'],
]);

function readArticulations(walk: Walk, marks: XmlElement, placed: Placed): void {
  const here = placed.event.kind === 'note' ? placed.event.articulations : [];
  const known = new Set(here);
  for (const mark of marks.children) {
    const articulation = ARTICULATIONS.get(mark.nodeName);
    if (articulation === undefined) leaveOut(walk, mark, placed, 'less common articulations');
    else known.add(articulation);
  }
  here.splice(0, here.length, ...[...ARTICULATIONS.values()].filter(each => known.has(each)));
}

/** Ties that hold notes are joined when all notes are known. */
function readTied(walk: Walk, mark: XmlElement, placed: Placed): void {
  if (attribute(mark, 'type') === 'let-ring') leaveOut(walk, mark, placed, 'let-ring ties');
}

const TECHNIQUES: ReadonlyMap<string, string> = new Map([
  ['hammer-on', 'hammer-ons and pull-offs'],
  ['pull-off', 'hammer-ons and pull-offs'],
  ['bend', 'bends'],
  ['harmonic', 'harmonics'],
]);

/** Where the file says that a note is played. */
const PLACE: ReadonlySet<string> = new Set(['string', 'fret', 'fingering']);

function readTechniques(walk: Walk, marks: XmlElement, placed: Placed): void {
  for (const mark of marks.children) {
    if (PLACE.has(mark.nodeName) || isEndOfSpan(mark)) continue;
    leaveOut(walk, mark, placed, TECHNIQUES.get(mark.nodeName) ?? 'other playing techniques');
  }
}

function readOrnaments(walk: Walk, marks: XmlElement, placed: Placed): void {
  if (!marks.children.every(isEndOfSpan)) leaveOut(walk, marks, placed, 'ornaments');
}

const addSpan = (
  spans: Walk['slurs' | 'tuplets'],
  walk: Walk,
  node: XmlElement,
  { event, voice }: Placed,
): void => {
  const type = attribute(node, 'type');
  if (type !== 'start' && type !== 'stop') return;
  const number = attribute(node, 'number') ?? '1';
  spans.push({ type, number, voice, event: event.id, node, source: sourceOf(walk, node) });
};

/** Whether a tie starts and stops at a note: by how it sounds (`tie`) or by how it looks (`tied`). */
export const readTies = (data: Note): Pick<TieMark, 'start' | 'stop'> => {
  let start = false;
  let stop = false;
  for (const { type } of data.ties ?? []) {
    if (type === StartStop.Start) start = true;
    else if (type === StartStop.Stop) stop = true;
  }
  for (const { tieds } of data.notations ?? []) {
    for (const { type } of tieds ?? []) {
      if (type === StartStopContinue.Start) start = true;
      else if (type === StartStopContinue.Stop) stop = true;
      else if (type === StartStopContinue.Continue) start = stop = true;
    }
  }
  return { start, stop };
};

/** String, fret and finger that the file gives for a note; of several fingers the first that is meant. */
export const readMarked = (node: XmlElement): Marked => {
  const marks = marksOn(node)
    .filter(each => each.nodeName === 'technical')
    .flatMap(each => each.children)
    .filter(each => attribute(each, 'alternate') !== 'yes' && attribute(each, 'substitution') !== 'yes');
  const number = (name: string, least: number): number | undefined => {
    const values = marks.filter(each => each.nodeName === name).map(each => each.textContent.trim());
    return values
      .filter(value => /^\d+$/.test(value))
      .map(Number)
      .find(value => value >= least);
  };
  if (marks.length === 0) return UNMARKED;
  return { string: number('string', 1), fret: number('fret', 0), finger: number('fingering', 0) };
};
