/** `<notations>`: what hangs on a note. */
import {
  type Articulations,
  type Notations,
  type Note,
  StartStop,
  StartStopContinue,
} from 'musicxml-interfaces';
import { type Articulation, type Marked, UNMARKED } from '../../score/model/event.ts';
import { type Placed, sourceOf, type TieMark, type Walk } from '../draft.ts';
import { attribute, type XmlElement } from '../xml/element.ts';

const ARTICULATIONS: readonly (readonly [keyof Articulations, Articulation])[] = [
  ['staccato', 'staccato'],
  ['staccatissimo', 'staccatissimo'],
  ['tenuto', 'tenuto'],
  ['accent', 'accent'],
  ['strongAccent', 'marcato'],
  ['breathMark', 'breath'],
  ['caesura', 'caesura'],
];

/** Notations that are left out, by the library's name for them. */
const LEFT_OUT: readonly (readonly [keyof Notations, string])[] = [
  ['ornaments', 'ornaments'],
  ['slides', 'slides and glissandos'],
  ['glissandos', 'slides and glissandos'],
  ['arpeggiates', 'arpeggio signs'],
  ['nonArpeggiates', 'arpeggio signs'],
  ['dynamics', 'dynamics written on a note'],
  ['accidentalMarks', 'accidental marks'],
  ['otherNotations', 'other notations'],
];

const ARTICULATIONS_LEFT_OUT: readonly (keyof Articulations)[] = [
  'detachedLegato',
  'spiccato',
  'scoop',
  'plop',
  'doit',
  'falloff',
  'stress',
  'unstress',
  'otherArticulations',
];

/** Adds the notations of a note to its event; spans are collected for when both ends are known. */
export const readNotations = (
  walk: Walk,
  node: XmlElement,
  placed: Placed,
  all: readonly Notations[],
): void => {
  const { event } = placed;
  for (const notations of all) {
    if (notations.fermatas !== undefined) event.fermata = true;
    if (event.kind === 'note') addArticulations(walk, node, event.articulations, notations);
    for (const [name, what] of LEFT_OUT) {
      if (notations[name] !== undefined) walk.omissions.add(what, sourceOf(walk, node));
    }
  }
  for (const element of node.children) {
    if (element.nodeName !== 'notations') continue;
    for (const mark of element.children) {
      if (mark.nodeName === 'slur' || mark.nodeName === 'tuplet') addSpan(walk, mark, placed);
    }
  }
};

const addArticulations = (walk: Walk, node: XmlElement, list: Articulation[], notations: Notations): void => {
  for (const marks of notations.articulations ?? []) {
    for (const [name, articulation] of ARTICULATIONS) {
      if (marks[name] !== undefined && !list.includes(articulation)) list.push(articulation);
    }
    if (ARTICULATIONS_LEFT_OUT.some(name => marks[name] !== undefined)) {
      walk.omissions.add('less common articulations', sourceOf(walk, node));
    }
  }
};

const addSpan = (walk: Walk, node: XmlElement, { event, voice }: Placed): void => {
  const type = attribute(node, 'type');
  if (type !== 'start' && type !== 'stop') return;
  const number = attribute(node, 'number') ?? '1';
  const marks = node.nodeName === 'slur' ? walk.slurs : walk.tuplets;
  marks.push({ type, number, voice, event: event.id, node, source: sourceOf(walk, node) });
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

/** String, fret and finger that the file gives for a note. */
export const readMarked = (data: Note): Marked => {
  let { string, fret, finger } = UNMARKED;
  for (const { technicals } of data.notations ?? []) {
    for (const technical of technicals ?? []) {
      string = whole(technical.string?.stringNum, 1) ?? string;
      fret = whole(technical.fret?.fret, 0) ?? fret;
      finger = whole(technical.fingering?.finger, 0) ?? finger;
    }
  }
  return string === undefined && fret === undefined && finger === undefined
    ? UNMARKED
    : { string, fret, finger };
};

const whole = (value: number | undefined, least: number): number | undefined =>
  value !== undefined && Number.isInteger(value) && value >= least ? value : undefined;
