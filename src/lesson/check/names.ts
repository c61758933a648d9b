/** What a sound is called beside a note that should have been played. */
import { midi, type Pitch, pitchName, STEPS } from '../../score/pitch.ts';

/** The pitch of a MIDI number, with sharps, or with flats beside a note that has one. */
export const soundName = (sound: number, beside: Pitch): string => {
  const octave = Math.floor(sound / 12) - 1;
  const sign = beside.alter < 0 ? -1 : 1;
  const pitches = [0, sign].flatMap(alter => STEPS.map((step): Pitch => ({ step, alter, octave })));
  const pitch = pitches.find(each => midi(each) === sound);
  return pitch ? pitchName(pitch) : `MIDI ${sound}`;
};
