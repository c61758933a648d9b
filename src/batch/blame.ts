/** Diagnostics that are about what was asked, and not about the tune. */

/** Which option a diagnostic is about, by its code: where a file sets that option, the file is at fault. */
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
} as const;

/** Those that are about several options, or about one and the tune together. */
const ASKED: ReadonlySet<string> = new Set([...Object.keys(BLAMED), 'impossible-place', 'rules-contradict']);

/** Whether a diagnostic's code says that the request is wrong: the same tune can be made when it is asked otherwise. */
export const isAboutRequest = (code: string): boolean => ASKED.has(code);
