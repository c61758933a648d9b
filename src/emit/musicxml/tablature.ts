/**
 * The tablature staff of a measure: the same notes once more, in a voice of their own. Rhythm, words and
 * signs stand over the notation; what is kept here is what the left hand does: places, ties, slurs.
 */
import type { Placement } from '../../fingering/arrangement.ts';
import type { Head, MusicEvent, NoteEvent } from '../../score/model/event.ts';
import type { TuneMeasure } from '../../score/tune.ts';
import { headOpening, notations, technicalElement, tieElements } from './note.ts';
import type { SpanMarks } from './spans.ts';
import { TAB_STAFF } from './tab-staff.ts';
import { timeModification, typeElements } from './value.ts';
import { element, leaf, type XmlNode } from './xml.ts';

/** Where notes lie, and what slurs say at them. */
export interface TabContext {
  readonly placements: ReadonlyMap<number, Placement>;
  readonly marks: SpanMarks;
}

/** Goes back to the start of the measure and writes its notes on the lower staff. */
export const tablatureElements = ({ events }: TuneMeasure, context: TabContext): readonly XmlNode[] => {
  const filled = events.reduce((sum, event) => sum + event.duration, 0);
  return [
    ...(filled > 0 ? [element('backup', {}, leaf('duration', filled))] : []),
    ...events.flatMap(event => eventElements(event, context)),
  ];
};

const VOICE = leaf('voice', 2);
const STAFF = leaf('staff', TAB_STAFF);

const eventElements = (event: MusicEvent, context: TabContext): readonly XmlNode[] =>
  event.kind === 'rest'
    ? [
        element(
          'note',
          { 'print-object': 'no' },
          element('rest', { measure: event.wholeMeasure ? 'yes' : undefined }),
          leaf('duration', event.duration),
          VOICE,
          event.value && typeElements(event.value, 'type'),
          event.value && timeModification(event.value),
          STAFF,
        ),
      ]
    : event.heads.map((head, index) => headElement(event, head, index === 0, context));

const headElement = (
  event: NoteEvent,
  head: Head,
  isFirst: boolean,
  { placements, marks }: TabContext,
): XmlNode =>
  element(
    'note',
    {},
    ...headOpening(event, head, isFirst, VOICE),
    timeModification(event.value),
    leaf('stem', 'none'),
    STAFF,
    notations(
      tieElements('tied', head),
      isFirst ? marks.get(event.id) : undefined,
      technicalElement(placements.get(head.id)),
    ),
  );
