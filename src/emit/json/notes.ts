/** Notes and rests, in exact time. */
import type { Arrangement } from '../../fingering/arrangement.ts';
import type { NoteValue } from '../../score/model/duration.ts';
import type { Head, MusicEvent, NoteEvent } from '../../score/model/event.ts';
import { midi, type Pitch, typedName } from '../../score/pitch.ts';
import type { Tune, TuneMeasure } from '../../score/tune.ts';
import type { NoteDocument, PitchDocument, RestDocument, TimeDocument, ValueDocument } from './document.ts';
import { fraction } from './fraction.ts';

/** A pitch by name, spelling and MIDI number. */
export const pitchOf = (pitch: Pitch): PitchDocument => ({
  name: typedName(pitch),
  step: pitch.step,
  alter: pitch.alter,
  octave: pitch.octave,
  midi: midi(pitch),
});

/** Every note of the tune, those that are held over too. */
export const notesOf = (tune: Tune, arrangement: Arrangement): readonly NoteDocument[] =>
  eventsOf(tune).flatMap(([measure, event]) =>
    event.kind === 'note'
      ? event.heads.map((head, index) => ({
          ...timeOf(tune, measure, event),
          id: head.id,
          value: writtenOf(event.value),
          grace: event.grace !== undefined,
          ...placeOf(head, arrangement),
          ...(index === 0 && onceOf(event)),
        }))
      : [],
  );

/** Every rest. */
export const restsOf = (tune: Tune): readonly RestDocument[] =>
  eventsOf(tune).flatMap(([measure, event]) =>
    event.kind === 'rest'
      ? [{ ...timeOf(tune, measure, event), ...(event.value && { value: writtenOf(event.value) }) }]
      : [],
  );

const eventsOf = (tune: Tune): readonly (readonly [TuneMeasure, MusicEvent])[] =>
  tune.measures.flatMap(measure => measure.events.map(event => [measure, event] as const));

const timeOf = ({ division }: Tune, measure: TuneMeasure, event: MusicEvent): TimeDocument => {
  const whole = 4 * division;
  const beatType = measure.time?.kind === 'metred' ? (measure.time.fractions[0]?.beatType ?? 4) : 4;
  return {
    event: event.id,
    measure: measure.index,
    onset: fraction(measure.at + event.at, whole),
    beat: fraction(whole + event.at * beatType, whole),
    duration: fraction(event.duration, whole),
  };
};

/** A written value. */
export const writtenOf = ({ base, dots, ratio }: NoteValue): ValueDocument => ({
  note: base < 1 ? fraction(1 / base, 1) : fraction(1, base),
  dots,
  ...(ratio && { ratio }),
});

/** The pitch of a notehead, and where it is played. */
const placeOf = ({ id, pitch, tieFrom }: Head, { placements, costs, matched }: Arrangement) => {
  const { string, fret, finger, position, fit } = placements.get(id)!;
  const cost = costs.get(id);
  return {
    pitch: pitchOf(pitch),
    ...(tieFrom !== undefined && { tiedFrom: tieFrom }),
    string,
    fret,
    finger,
    position,
    fit,
    ...(cost !== undefined && { cost: cost / 1000 }),
    ...(matched?.differences.has(id) && { elsewhere: true }),
  };
};

/** What is written once for a chord, and stands with its first note. */
const onceOf = ({ articulations, fermata, lyrics }: NoteEvent) => ({
  ...(articulations.length > 0 && { articulations }),
  ...(fermata && { fermata }),
  ...(lyrics.length > 0 && {
    lyrics: lyrics.map(({ verse, text, syllabic }) => ({ verse, text, syllabic })),
  }),
});
