/**
 * Score → tune: chooses the part and the voice that is arranged, and on a chord its top note. What was
 * there to choose from is said in a note. The tune has no gaps: silences between the events of the voice
 * are filled with rests. Cue notes are played by somebody else and are left out likewise.
 *
 * A voice that moves to another staff of its part stays one voice. Marks that are written once for all
 * parts (tempo, signs, jumps, rehearsal marks, chord symbols) are taken from the first part that has any
 * where the chosen part has none.
 */
import type { Diagnostic } from './diagnostic.ts';
import { choosePart, chooseVoice } from './melody/choose.ts';
import { cuesLeftOut, topNotes } from './melody/leave.ts';
import { measuresOf } from './melody/measures.ts';
import { renumber } from './melody/renumber.ts';
import { fillGaps } from './melody/rests.ts';
import type { Part, Score } from './model.ts';
import type { Tune } from './tune.ts';

/** Which melody of a score is taken; the first part and voice with notes where nothing is said. */
export interface MelodyChoice {
  /** A part's id, its name, or its number counted from 1. */
  readonly part?: string;
  /** A voice's id. */
  readonly voice?: string;
  /** `top` keeps the highest note of every chord. */
  readonly chords: 'top' | 'all';
}

/** The tune that was chosen, and what was chosen or left out on the way. */
export interface Melody {
  readonly tune: Tune;
  readonly diagnostics: readonly Diagnostic[];
}

/** The tune in a score. Throws a Refusal where there is none, or where the chosen one cannot be played. */
export const chooseMelody = (score: Score, choice: MelodyChoice): Melody => {
  const diagnostics: Diagnostic[] = [];
  const part = choosePart(score, choice.part, diagnostics);
  const voice = chooseVoice(score, part, choice.voice, diagnostics);
  const { division, parts: _, ...heading } = score;
  let measures = cuesLeftOut(measuresOf(score, part, voice), diagnostics);
  if (choice.chords === 'top') measures = topNotes(measures, diagnostics);
  diagnostics.push(...leftOutWarnings(part));
  const tune: Tune = {
    ...heading,
    division,
    part: part.id,
    partName: part.name,
    voice,
    measures: measures.map(measure => fillGaps(measure, division)),
    slurs: part.slurs,
    tuplets: part.tuplets,
  };
  return { tune: renumber(tune), diagnostics };
};

const leftOutWarnings = (part: Part): readonly Diagnostic[] =>
  (part.leftOut ?? []).map(({ what, count, first }) => ({
    severity: 'warning',
    code: 'left-out',
    message: `left out: ${what} (${count}${count > 1 ? ', the first here' : ''})`,
    place: first,
  }));
