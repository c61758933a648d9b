/** Which part and which voice is the melody: as asked, or the first with notes. */
import { type Diagnostic, Refusal } from '../diagnostic.ts';
import { groupBy } from '../groups.ts';
import type { MusicEvent } from '../model/event.ts';
import type { Part, Score, Voice, VoiceFault } from '../model.ts';
import { nearest } from '../nearest.ts';
import { shortList } from '../numbers.ts';
import { midi } from '../pitch.ts';

/** The part that is wanted, or the first with notes. Throws a Refusal where there is none. */
export const choosePart = (score: Score, wanted: string | undefined, diagnostics: Diagnostic[]): Part => {
  if (wanted !== undefined) return namedPart(score, wanted, diagnostics);
  const pitched = partsWithNotes(score);
  if (pitched.length === 0) throw noNotes(score);
  if (pitched.length > 1) {
    diagnostics.push({
      severity: 'note',
      code: 'part-chosen',
      message: `of ${pitched.length} parts with notes, the first is taken: ${partLabel(pitched[0]!)}`,
      hint: `choose another with --part: ${partLabels(pitched.slice(1))}`,
    });
  }
  return pitched[0]!;
};

const namedPart = (score: Score, wanted: string, diagnostics: Diagnostic[]): Part => {
  const { parts } = score;
  const name = wanted.trim().toLowerCase();
  const part =
    parts.find(each => each.id === wanted) ??
    firstOfName(score, name, diagnostics) ??
    parts.find(each => each.id.toLowerCase() === name) ??
    (/^\d+$/.test(name) ? parts[Number(name) - 1] : undefined);
  if (part !== undefined) return part;
  const meant = nearest(wanted.trim(), parts.map(each => each.name).filter(Boolean));
  throw new Refusal({
    severity: 'error',
    code: 'unknown-part',
    message: `there is no part "${wanted}"`,
    hint: `${meant === undefined ? '' : `is ${meant} meant? `}${listedAs('part', partLabels(parts), parts.length)}`,
  });
};

/** The first part of that name, with notes if there is one; where several have it, that is said. */
const firstOfName = (score: Score, name: string, diagnostics: Diagnostic[]): Part | undefined => {
  const namesakes = score.parts.filter(each => each.name.toLowerCase() === name);
  const pitched = namesakes.filter(part => pitchedVoices(part).length > 0);
  const [part = namesakes[0], ...others] = pitched;
  if (part && others.length > 0) {
    diagnostics.push({
      severity: 'note',
      code: 'part-chosen',
      message: `of ${pitched.length} parts called ${part.name}, the first is taken: ${part.id}`,
      hint: `choose another by its id: --part ${shortList(others.map(({ id }) => id))}`,
    });
  }
  return part;
};

const partsWithNotes = ({ parts }: Score): readonly Part[] =>
  parts.filter(part => pitchedVoices(part).length > 0);

/** "the voices are 1, 2", "the only part with notes is P1 (Melody)". */
const listedAs = (noun: string, names: string, count: number, which = ''): string =>
  count === 1 ? `the only ${noun}${which} is ${names}` : `the ${noun}s${which} are ${names}`;

const partLabels = (parts: readonly Part[]): string => shortList(parts.map(partLabel));

const partLabel = (part: Part): string => (part.name === '' ? part.id : `${part.id} (${part.name})`);

const isPitched = (event: MusicEvent): boolean => event.kind === 'note' && !event.cue;

/** Ids of all voices of a part, in the order in which they appear; or of those with notes. */
const voicesIn = (part: Part, holds: (event: MusicEvent) => boolean): readonly string[] => {
  const ids = new Set<string>();
  for (const { voices } of part.measures) {
    for (const voice of voices) if (!ids.has(voice.id) && voice.events.some(holds)) ids.add(voice.id);
  }
  return [...ids];
};

const pitchedVoices = (part: Part): readonly string[] => voicesIn(part, isPitched);

/** The voice that is wanted, or one of the part that can be played. Throws a Refusal where there is none. */
export const chooseVoice = (
  score: Score,
  part: Part,
  wanted: string | undefined,
  diagnostics: Diagnostic[],
): string => {
  const voices = pitchedVoices(part);
  const place = { part: part.id };
  if (voices.length === 0) throw silentPart(score, part);
  if (wanted !== undefined) {
    if (voices.includes(wanted)) return playable(part, wanted);
    const isSilent = voicesIn(part, () => true).includes(wanted);
    throw new Refusal({
      severity: 'error',
      code: isSilent ? 'silent-voice' : 'unknown-voice',
      message: isSilent
        ? `voice ${wanted} of part ${partLabel(part)} has no notes`
        : `there is no voice "${wanted}" in part ${partLabel(part)}`,
      hint: listedAs('voice', shortList(voices), voices.length, ' with notes'),
      place,
    });
  }
  const different = voices.filter((id, index) => index === 0 || !isCopy(part, voices[0]!, id));
  if (different.length > 1) {
    diagnostics.push({
      severity: 'note',
      code: 'voice-chosen',
      message: `of ${different.length} voices with notes, the first is taken: ${voices[0]}`,
      hint: `choose another with --voice: ${shortList(different.slice(1))}`,
      place,
    });
  }
  return playable(part, voices[0]!);
};

/** Whether a voice has the same notes as another throughout, as a tablature staff has under its notation. */
const isCopy = ({ measures }: Part, of: string, id: string): boolean =>
  measures.every(({ voices }) => notesOf(voices, of) === notesOf(voices, id));

const notesOf = (voices: readonly Voice[], id: string): string =>
  voices
    .filter(voice => voice.id === id)
    .flatMap(({ events }) => events.filter(event => event.kind === 'note'))
    .map(({ at, duration, heads }) => [at, duration, ...heads.map(({ pitch }) => midi(pitch))].join())
    .join(' ');

const noNotes = (score: Score): Refusal => {
  const faults = score.parts.flatMap(part => part.faults ?? []);
  if (faults.length > 0) return withCount(faults);
  return new Refusal({
    severity: 'error',
    code: 'no-notes',
    message: 'there are no notes in the score',
    hint: NOTHING_THERE,
  });
};

const silentPart = (score: Score, part: Part): Refusal => {
  if (part.faults !== undefined && part.faults.length > 0) return withCount(part.faults);
  return new Refusal({
    severity: 'error',
    code: 'silent-part',
    message: `part ${partLabel(part)} has no notes`,
    ...othersThan(score, part),
    place: { part: part.id },
  });
};

const othersThan = (score: Score, part: Part): Pick<Diagnostic, 'hint'> => {
  const others = partsWithNotes(score).filter(each => each !== part);
  if (others.length === 0) return { hint: NOTHING_THERE };
  return { hint: listedAs('part', partLabels(others), others.length, ' with notes') };
};

const NOTHING_THERE = 'check that the right file was exported';

const playable = (part: Part, voice: string): string => {
  const faults = (part.faults ?? []).filter(each => each.voice === voice);
  if (faults.length > 0) throw withCount(faults);
  return voice;
};

/** One diagnostic for each kind of fault, at its first place. */
const withCount = (faults: readonly VoiceFault[]): Refusal => {
  const diagnostics = groupBy(faults, ({ diagnostic }) => diagnostic.code).map(same => {
    const [{ diagnostic }] = same;
    const count = same.length > 1 ? ` (${same.length} notes, the first here)` : '';
    return { ...diagnostic, message: `${diagnostic.message}${count}` };
  });
  return new Refusal(...diagnostics);
};
