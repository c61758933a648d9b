/** The parts of a pack, in the order in which a lesson takes them. A new part is a new row here. */
import { namesIn } from '../table.ts';

interface PartRow {
  /** Over its pages, in contents and lists. */
  readonly title: string;
  /** What help and the commented lesson file say about it. */
  readonly summary: string;
  /** Whether a lesson has it that names no parts. */
  readonly usual: boolean;
}

/** What a lesson may hand out, in the order of its pages. */
export const PARTS = {
  scale: { title: 'Warm-up scale', summary: 'the scale in the places of the tune', usual: true },
  quiz: { title: 'To read', summary: 'notation alone', usual: true },
  names: { title: 'With note names', summary: 'notation with note letters', usual: true },
  blank: { title: 'Tablature to fill in', summary: 'notation over empty tablature', usual: false },
  tab: { title: 'With tablature', summary: 'notation over tablature', usual: true },
  chords: { title: 'Chords', summary: 'shapes and the chord chart', usual: true },
  neck: { title: 'On the neck', summary: 'the places of the tune on the fingerboard', usual: true },
  cues: { title: 'In words', summary: 'the tune as a teacher says it', usual: true },
  drill: {
    title: 'Sight-reading',
    summary: 'a new melody in the same places, to read and to check',
    usual: false,
  },
} as const satisfies Record<string, PartRow>;

/** The name of a part. */
export type PartName = keyof typeof PARTS;

/** The names of all parts, in order. */
export const PART_NAMES = namesIn(PARTS);

/** The parts of a lesson that names none. */
export const USUAL_PARTS: readonly PartName[] = PART_NAMES.filter(name => PARTS[name].usual);
