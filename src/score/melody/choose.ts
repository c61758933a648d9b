/** Which part and which voice is the melody: as asked, or the first with notes. */
import { type Diagnostic, Refusal } from '../diagnostic.ts';
import type { MusicEvent, Part, Score, Voice, VoiceFault } from '../model.ts';
import { midi } from '../pitch.ts';

export const choosePart = (score: Score, wanted: string | undefined, diagnostics: Diagnostic[]): Part => {
  if (wanted !== undefined) return namedPart(score, wanted);
  const pitched = score.parts.filter(part => pitchedVoices(part).length > 0);
  if (pitched.length === 0) throw noNotes(score);
  if (pitched.length > 1) {
    diagnostics.push({
      severity: 'note',
      code: 'part-chosen',
      message: `of ${pitched.length} parts with notes, the first is taken: ${partLabel(pitched[0]!)}`,
      hint: `choose another with --part: ${score.parts.map(partLabel).join(', ')}`,
    });
  }
  return pitched[0]!;
};

const namedPart = (score: Score, wanted: string): Part => {
  const { parts } = score;
  const name = wanted.trim().toLowerCase();
  const part =
    parts.find(each => each.id === wanted) ??
    parts.find(each => each.name.toLowerCase() === name) ??
    parts.find(each => each.id.toLowerCase() === name) ??
    (/^\d+$/.test(name) ? parts[Number(name) - 1] : undefined);
  if (part !== undefined) return part;
  throw new Refusal({
    severity: 'error',
    code: 'unknown-part',
    message: `there is no part "${wanted}"`,
    hint: `the parts are ${parts.map(partLabel).join(', ')}`,
  });
};

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

export const chooseVoice = (part: Part, wanted: string | undefined, diagnostics: Diagnostic[]): string => {
  const voices = pitchedVoices(part);
  const place = { part: part.id };
  if (wanted !== undefined) {
    if (voices.includes(wanted)) return playable(part, wanted);
    const isSilent = voicesIn(part, () => true).includes(wanted);
    throw new Refusal({
      severity: 'error',
      code: isSilent ? 'silent-voice' : 'unknown-voice',
      message: `voice "${wanted}" of part ${partLabel(part)} ${isSilent ? 'has no notes' : 'does not exist'}`,
      hint: voices.length > 0 ? `the voices with notes are ${voices.join(', ')}` : 'choose another part',
      place,
    });
  }
  if (voices.length === 0) throw silentPart(part);
  const different = voices.filter((id, index) => index === 0 || !isCopy(part, voices[0]!, id));
  if (different.length > 1) {
    diagnostics.push({
      severity: 'note',
      code: 'voice-chosen',
      message: `of ${different.length} voices with notes, the first is taken: ${voices[0]}`,
      hint: `choose another with --voice: ${different.join(', ')}`,
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
    hint: 'check that the right file was exported',
  });
};

const silentPart = (part: Part): Refusal => {
  if (part.faults !== undefined && part.faults.length > 0) return withCount(part.faults);
  return new Refusal({
    severity: 'error',
    code: 'silent-part',
    message: `part ${partLabel(part)} has no notes`,
    hint: 'choose another part',
    place: { part: part.id },
  });
};

const playable = (part: Part, voice: string): string => {
  const faults = (part.faults ?? []).filter(each => each.voice === voice);
  if (faults.length > 0) throw withCount(faults);
  return voice;
};

/** One diagnostic for each kind of fault, at its first place. */
const withCount = (faults: readonly VoiceFault[]): Refusal => {
  const codes = [...new Set(faults.map(each => each.diagnostic.code))];
  const diagnostics = codes.map(code => {
    const same = faults.filter(each => each.diagnostic.code === code);
    const { diagnostic } = same[0]!;
    const count = same.length > 1 ? ` (${same.length} notes, the first here)` : '';
    return { ...diagnostic, message: `${diagnostic.message}${count}` };
  });
  return new Refusal(...diagnostics);
};
