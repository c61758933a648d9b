/** `<note>`: notes and rests, in the order of elements that the schema asks for. */
import type { Placement } from '../../fingering/arrangement.ts';
import type { Articulation, Head, MusicEvent, NoteEvent, RestEvent } from '../../score/model/event.ts';
import type { Pitch } from '../../score/pitch.ts';
import { lyricElement } from './lyric.ts';
import type { SpanMarks } from './spans.ts';
import { timeModification, typeElements } from './value.ts';
import { type Child, element, empty, leaf, type XmlNode } from './xml.ts';

/** What notes need to know beyond themselves. */
export interface NoteContext {
  readonly placements: ReadonlyMap<number, Placement>;
  readonly marks: SpanMarks;
  /** Ids of the heads that need an accidental in their measure. */
  readonly accidentals: ReadonlySet<number>;
  /** Whether a tablature staff shows the places: here they are then known, and not printed. */
  readonly linked: boolean;
}

export const noteElements = (event: MusicEvent, context: NoteContext): readonly XmlNode[] =>
  event.kind === 'rest'
    ? [restElement(event, context)]
    : event.heads.map((head, index) => headElement(event, head, index, context));

const VOICE = leaf('voice', 1);
const STAFF = leaf('staff', 1);

const restElement = (rest: RestEvent, { marks, linked }: NoteContext): XmlNode =>
  element(
    'note',
    {},
    element('rest', { measure: rest.wholeMeasure ? 'yes' : undefined }),
    leaf('duration', rest.duration),
    VOICE,
    rest.value && typeElements(rest.value, 'type'),
    rest.value && timeModification(rest.value),
    linked ? STAFF : undefined,
    notations(rest.fermata ? empty('fermata') : undefined, marks.get(rest.id)),
  );

/** Notations of the whole event stand on the first head of a chord. */
const headElement = (event: NoteEvent, head: Head, index: number, context: NoteContext): XmlNode => {
  const isFirst = index === 0;
  const technical = technicalElement(context.placements.get(head.id));
  return element(
    'note',
    {},
    ...headOpening(event, head, isFirst, VOICE),
    accidentalElement(head, context.accidentals),
    timeModification(event.value),
    leaf('stem', event.stem),
    context.linked ? STAFF : undefined,
    isFirst ? event.beams.map((beam, level) => leaf('beam', beam, { number: level + 1 })) : undefined,
    notations(
      tieElements('tied', head),
      isFirst ? context.marks.get(event.id) : undefined,
      context.linked ? undefined : technical,
      isFirst ? articulationsElement(event.articulations) : undefined,
      isFirst && event.fermata ? empty('fermata') : undefined,
    ),
    context.linked ? unprinted(technical) : undefined,
    isFirst ? event.lyrics.map(lyricElement) : undefined,
  );
};

/** What every note begins with, in the order of the standard: what it is, sounds, lasts and looks like. */
export const headOpening = (
  event: NoteEvent,
  head: Head,
  isFirst: boolean,
  voice: XmlNode,
): readonly Child[] => [
  event.grace && element('grace', { slash: event.grace === 'slashed' ? 'yes' : undefined }),
  isFirst ? undefined : empty('chord'),
  pitchElement(head.pitch),
  event.grace ? undefined : leaf('duration', event.duration),
  tieElements('tie', head),
  voice,
  typeElements(event.value, 'type'),
];

const pitchElement = ({ step, alter, octave }: Pitch): XmlNode =>
  element(
    'pitch',
    {},
    leaf('step', step),
    alter === 0 ? undefined : leaf('alter', alter),
    leaf('octave', octave),
  );

/** Loose ends are written as they were read. */
export const tieElements = (
  name: 'tie' | 'tied',
  { tieFrom, tieTo, looseTies = [] }: Head,
): readonly XmlNode[] => {
  const stops = tieFrom !== undefined || looseTies.includes('stop');
  const starts = tieTo !== undefined || looseTies.includes('start');
  return [
    ...(stops ? [element(name, { type: 'stop' })] : []),
    ...(starts ? [element(name, { type: 'start' })] : []),
  ];
};

const ACCIDENTALS: Readonly<Record<number, string>> = {
  [-2]: 'flat-flat',
  [-1]: 'flat',
  0: 'natural',
  1: 'sharp',
  2: 'double-sharp',
};

const accidentalElement = (head: Head, needed: ReadonlySet<number>): XmlNode | undefined => {
  if (!head.courtesy && !needed.has(head.id)) return undefined;
  return leaf('accidental', ACCIDENTALS[head.pitch.alter], { cautionary: head.courtesy ? 'yes' : undefined });
};

export const technicalElement = (placement: Placement | undefined): XmlNode | undefined =>
  placement &&
  element(
    'technical',
    {},
    leaf('fingering', placement.finger),
    leaf('string', placement.string),
    leaf('fret', placement.fret),
  );

const ARTICULATIONS: Readonly<Record<Articulation, string>> = {
  staccato: 'staccato',
  staccatissimo: 'staccatissimo',
  tenuto: 'tenuto',
  accent: 'accent',
  marcato: 'strong-accent',
  breath: 'breath-mark',
  caesura: 'caesura',
};

const articulationsElement = (articulations: readonly Articulation[]): XmlNode | undefined =>
  articulations.length === 0
    ? undefined
    : element(
        'articulations',
        {},
        articulations.map(each => empty(ARTICULATIONS[each])),
      );

/** Undefined where there is nothing to put into it. */
export const notations = (...children: readonly Child[]): XmlNode | undefined => {
  const node = element('notations', {}, ...children);
  return node.content.length === 0 ? undefined : node;
};

/** Notations may represent how a note is played without appearing in the score (MusicXML 3.0, `print-object`). */
const unprinted = (technical: XmlNode | undefined): XmlNode | undefined =>
  technical && element('notations', { 'print-object': 'no' }, technical);
