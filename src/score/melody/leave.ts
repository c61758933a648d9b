/** What a melody leaves out of its voice: cue notes, and the lower notes of chords. */

import type { Diagnostic } from '../diagnostic.ts';
import type { MusicEvent, NoteEvent, RestEvent } from '../model/event.ts';
import { counted } from '../numbers.ts';
import type { TuneMeasure } from '../tune.ts';

type Measures = readonly TuneMeasure[];

/** Puts rests in the place of cue notes, which somebody else plays. */
export const cuesLeftOut = (measures: Measures, diagnostics: Diagnostic[]): Measures => {
  const cues = notesWhere(measures, event => event.cue);
  if (cues.length === 0) return measures;
  diagnostics.push({
    severity: 'warning',
    code: 'cue-notes',
    message: `${counted(cues.length, 'cue note')} left out, with rests in their place`,
    place: cues[0]!.source,
  });
  return measures.map(measure => ({ ...measure, events: measure.events.flatMap(restForCue) }));
};

const restForCue = (event: MusicEvent): readonly MusicEvent[] => {
  if (event.kind === 'rest' || !event.cue) return [event];
  if (event.duration === 0) return [];
  const { id, at, duration, value, fermata, source } = event;
  const rest: RestEvent = { kind: 'rest', id, at, duration, value, fermata, source, wholeMeasure: false };
  return [rest];
};

/** Keeps the highest note of every chord. */
export const topNotes = (measures: Measures, diagnostics: Diagnostic[]): Measures => {
  const chords = notesWhere(measures, event => event.heads.length > 1);
  if (chords.length === 0) return measures;
  diagnostics.push({
    severity: 'note',
    code: 'top-notes',
    message: `of ${counted(chords.length, 'chord')}, the top note is kept`,
    place: chords[0]!.source,
  });
  return measures.map(measure => ({ ...measure, events: measure.events.map(topNote) }));
};

const topNote = (event: MusicEvent): MusicEvent =>
  event.kind === 'note' ? { ...event, heads: event.heads.slice(-1) } : event;

const notesWhere = (measures: Measures, holds: (event: NoteEvent) => boolean): readonly NoteEvent[] =>
  measures.flatMap(measure => measure.events.filter(event => event.kind === 'note')).filter(holds);
