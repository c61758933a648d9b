/** Which option a diagnostic is about, by its code: where a file sets that option, the file is at fault. */
import type { OptionName } from './options.ts';

export const BLAMED = {
  'window-off-the-neck': 'frets',
  'window-without-measures': 'frets',
  'no-note-to-place': 'place',
  'unknown-part': 'part',
  'silent-part': 'part',
  'unknown-voice': 'voice',
  'silent-voice': 'voice',
  'cannot-reach-key': 'transpose',
  'unknown-scale': 'key',
  'key-beyond-seven': 'key',
  'no-room-for-octaves': 'octaves',
  'focus-outside': 'focus',
} as const satisfies Record<string, OptionName>;
