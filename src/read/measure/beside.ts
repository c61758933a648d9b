/** What a note says beside its pitch and length that is not kept, or that contradicts them. */
import { type Note, NoteheadType } from 'musicxml-interfaces';
import type { Refusal } from '../../score/diagnostic.ts';
import { valueTicks } from '../../score/time.ts';
import { type Placed, refuseAt, sourceOf, type Walk } from '../draft.ts';
import { attribute, innermost, type XmlElement } from '../xml/element.ts';

/** Counts a note whose written value is not how long it lasts; where no divisions say how long, it is refused. */
export const checkLength = (
  walk: Walk,
  node: XmlElement,
  data: Note,
  { event, fills }: Placed,
  ticks: number,
): void => {
  if (ticks === 0) return;
  if (ticks !== event.duration) {
    walk.omissions.add('notes of another length than their chord', sourceOf(walk, node), event.id);
    return;
  }
  if (data.noteType === undefined || event.value === undefined || fills !== 'no') return;
  // Writers round what their divisions cannot show, by less than one division.
  const division = walk.division / walk.divisions;
  if (Math.abs(valueTicks(event.value, walk.division) - ticks) < division) return;
  if (!walk.isDivided) throw noDivisions(walk, node);
  const place = sourceOf(walk, innermost(node, 'type'));
  walk.omissions.add('note values that contradict how long their notes last', place, event.id);
};

const noDivisions = (walk: Walk, node: XmlElement): Refusal =>
  refuseAt(walk, innermost(node, 'duration'), {
    code: 'bad-divisions',
    message: 'the part has durations, but no divisions that say how long they are',
    hint: 'write <divisions> into the <attributes> of its first measure, or export the tune again',
  });

/** Counts how a note looks, and when it is played, where that is not kept. */
export const countMarks = (walk: Walk, node: XmlElement, data: Note, { event }: Placed): void => {
  const add = (what: string): void => walk.omissions.add(what, sourceOf(walk, node), event.id);
  if (data.notehead !== undefined && isUnusual(data.notehead.type)) add('shapes of noteheads');
  if (data.rest === undefined && attribute(node, 'print-object') === 'no') {
    add('marks that notes are not to be printed');
  }
  if (attribute(node, 'time-only') !== undefined) add('marks that notes are for some repeats alone');
};

const isUnusual = (type: NoteheadType): boolean => type !== NoteheadType.Normal && type !== NoteheadType.None;
