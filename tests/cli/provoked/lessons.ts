/** What a lesson hands out: lesson files, scales, chords and drills that cannot be made. */
import { measures, type Provocation, type Provocations, tune, whole } from './provocation.ts';

const scale = (words: string): Provocation => ({ line: `fretward scale ${words}` });
const drill = (words: string): Provocation => ({ line: `fretward drill ${words}` });

/** A lesson on a plain tune. */
const lesson = (text: string, rest: Partial<Provocation> = {}): Provocation => ({
  files: { ...tune(measures(whole('C4'))).files, 'a.yaml': text },
  line: 'fretward lesson a.yaml',
  at: { file: 'a.yaml', column: 1 },
  ...rest,
});

export const LESSONS: Provocations = {
  'lesson-bad-value': lesson('tune: t.musicxml\npaper: a5', {
    on: 'paper',
    at: { file: 'a.yaml', column: 8 },
  }),
  'lesson-broken': lesson('- tune', { on: '- tune' }),
  'lesson-exists': lesson('tune: t.musicxml', {
    line: 'fretward lesson --init a.yaml',
    at: { file: 'a.yaml' },
  }),
  'lesson-path-outside': lesson('tune: ../t.musicxml', { on: 'tune', at: { file: 'a.yaml', column: 7 } }),
  'lesson-unknown-key': lesson('tune: t.musicxml\nfret: 4-8', { on: 'fret' }),
  'lesson-without-chords': lesson('tune: t.musicxml\nparts: [tab, chords]\nto: svg', {
    at: { file: 't.musicxml' },
  }),
  'lesson-without-tune': lesson('lesson: Monday', { at: { file: 'a.yaml' } }),

  'hand-shifts': { ...scale('A major --octaves 1 --direction up'), at: { measure: '2', beat: 1 } },
  'key-beyond-seven': scale('G# major'),
  'no-room-for-octaves': scale('C major --octaves 4'),
  'unknown-scale': scale('H major'),
  'unknown-chord': { line: 'fretward chords Hm' },

  'focus-outside': drill('-k "C major" -f 0-3 --focus C6'),
  'notes-too-far-apart': drill('-k "F major" -f 5-5 --tuning "C3 C4 C5"'),
  'too-few-notes': drill('-k "C major" -f 5-5 --tuning "C4"'),
};
