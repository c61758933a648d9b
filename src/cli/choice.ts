/** From `--part`, `--voice` and `--chords` to what is taken from a score. */
import type { MelodyChoice } from '../score/melody.ts';
import type { Options } from './options/options.ts';

export const choiceOf = ({ part, voice, chords }: Options<'part' | 'voice' | 'chords'>): MelodyChoice => ({
  ...(part !== undefined && { part }),
  ...(voice !== undefined && { voice }),
  chords: chords ?? 'top',
});
