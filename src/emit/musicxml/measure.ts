/** `<measure>`: events in order of time, with everything that stands between them. */
import { neededAccidentals } from '../../score/accidentals.ts';
import type { AttributeChange } from '../../score/model/attributes.ts';
import type { Ticks } from '../../score/model/duration.ts';
import type { MusicEvent } from '../../score/model/event.ts';
import type { TuneMeasure } from '../../score/tune.ts';
import { attributesElement } from './attributes.ts';
import { barlineElement } from './barline.ts';
import { directionElements } from './direction.ts';
import { harmonyElement } from './harmony.ts';
import { type NoteContext, noteElements } from './note.ts';
import { type TabContext, tablatureElements } from './tablature.ts';
import { element, leaf, type XmlNode } from './xml.ts';

/** Something between notes; written `offset` ticks before its moment. */
interface Mark {
  readonly at: Ticks;
  readonly elements: (offset: Ticks) => readonly XmlNode[];
}

/** What is the same for all measures; with a tablature staff, or without. */
export interface MeasureContext extends Omit<NoteContext, 'accidentals' | 'linked'> {
  readonly tablature: TabContext | undefined;
}

/** A measure of the tune; `opening` is what the first measure starts with. */
export const measureElement = (
  measure: TuneMeasure,
  { tablature, ...context }: MeasureContext,
  opening: XmlNode | undefined,
): XmlNode => {
  const { events, key, changes } = measure;
  const accidentals = neededAccidentals(events, key, changes);
  const marks = tablature ? marksOf(measure).map(onNotation) : marksOf(measure);
  const content: XmlNode[] = [];
  for (const event of events) {
    while (marks.length > 0 && isBefore(marks[0]!, event)) content.push(...written(marks.shift()!, event.at));
    content.push(...noteElements(event, { ...context, accidentals, linked: tablature !== undefined }));
  }
  for (const mark of marks) content.push(...written(mark, measure.length));
  if (tablature) content.push(...tablatureElements(measure, tablature));
  return element(
    'measure',
    { number: measure.number, implicit: measure.implicit ? 'yes' : undefined },
    measure.breakBefore && element('print', { [`new-${measure.breakBefore}`]: 'yes' }),
    barlineElement(measure.left, 'left'),
    opening,
    content,
    barlineElement(measure.right, 'right'),
  );
};

/** Whether a mark is due before an event ends: it is then written before the event. */
const isBefore = (mark: Mark, event: MusicEvent): boolean =>
  mark.at <= event.at || mark.at < event.at + event.duration;

const written = (mark: Mark, now: Ticks): readonly XmlNode[] => mark.elements(mark.at - now);

/** All marks of a measure in order of time; changes of key and time come first. */
const marksOf = (measure: TuneMeasure): Mark[] => {
  const marks: readonly Mark[] = [
    ...measure.changes
      .filter(change => change.key !== undefined || change.time !== undefined)
      .map(change => ({ at: change.at, elements: (offset: Ticks) => changeElements(change, offset) })),
    ...directionElements(measure.directions).map(each => ({
      at: each.at,
      elements: (offset: Ticks) => [each.element(offset)],
    })),
    ...measure.chordSymbols.map(chord => ({
      at: chord.at,
      elements: (offset: Ticks) => [harmonyElement(chord, offset)],
    })),
  ];
  return [...marks].sort((a, b) => a.at - b.at);
};

/** Over linked staves, marks say that they belong to the upper one. */
const onNotation = ({ at, elements }: Mark): Mark => ({
  at,
  elements: offset => elements(offset).map(withStaff),
});

/** The schema wants the staff after everything but the sound of a direction. */
const withStaff = (node: XmlNode): XmlNode => {
  const { name, content: children } = node;
  if (typeof children === 'string' || (name !== 'direction' && name !== 'harmony')) return node;
  const sounds = children.filter(child => child.name === 'sound');
  const others = children.filter(child => child.name !== 'sound');
  return { ...node, content: [...others, leaf('staff', 1), ...sounds] };
};

/** Attributes have no offset: a change within a note is reached by going forward, and back again. */
const changeElements = (change: AttributeChange, offset: Ticks): readonly XmlNode[] => {
  const attributes = attributesElement(change);
  if (offset === 0) return [attributes];
  const step = (name: string): XmlNode => element(name, {}, leaf('duration', Math.abs(offset)));
  return offset > 0
    ? [step('forward'), attributes, step('backup')]
    : [step('backup'), attributes, step('forward')];
};
