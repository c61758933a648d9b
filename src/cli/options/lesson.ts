/** The options of what a lesson makes of its own: scales, drills, words and practice tracks. */
import * as z from 'zod/mini';
import { midiOf } from '../../instrument/define.ts';
import { GRADES, type Grade } from '../../lesson/drill/grades.ts';
import type { Focus } from '../../lesson/drill/notes.ts';
import { DIRECTIONS, PATTERN_NAMES } from '../../lesson/scale/pattern.ts';
import type { TimeSignature } from '../../score/model.ts';
import { oneOf, percent, whole } from './values.ts';

const BEATS = /^(\d{1,2})\/(1|2|4|8|16)$/;

const metre = () =>
  z
    .pipe(
      z.string().check(z.regex(BEATS, 'write a fraction such as 3/4 or 6/8')),
      z.transform((text: string) => {
        const [, beats, beatType] = BEATS.exec(text)!.map(Number) as [number, number, number];
        return { beats, beatType };
      }),
    )
    .check(z.refine(({ beats }) => beats >= 1 && beats <= 16, 'a measure has 1 to 16 beats'));

/** A fraction as a time signature. */
export const timeSignature = ({ beats, beatType }: z.output<ReturnType<typeof metre>>): TimeSignature => ({
  kind: 'metred',
  fractions: [{ beats: [beats], beatType }],
  symbol: 'fraction',
});

const grade = () =>
  z.pipe(
    oneOf(GRADES.map(String)),
    z.transform(text => Number(text) as Grade),
  );

/** "1:8", a place; "C5", a pitch. */
const FOCUS = /^(?:(\d{1,2}):(\d{1,2})|([A-Ga-g][#b♯♭]*\d))$/;

const focus = () =>
  z.pipe(
    z.string().check(z.regex(FOCUS, 'write places as string:fret, such as 1:8, or pitches, such as C5')),
    z.transform((text: string): Focus => {
      const [, string, fret, name] = FOCUS.exec(text)!;
      return name === undefined
        ? { string: Number(string), fret: Number(fret) }
        : { name, sound: midiOf(name) };
    }),
  );

export const LESSON_ROWS = {
  for: {
    flags: '--for <tune>',
    help: 'play every pitch where this tune, arranged with the same options, plays it',
    schema: () => z.string().check(z.minLength(1, 'name a MusicXML file')),
  },
  key: {
    flags: '-k, --key <name>',
    help: 'a scale or arpeggio: "C major", "Bb minor", "D dorian", "G7 arpeggio" (default: the key of the tune of --for)',
    schema: () => z.string().check(z.minLength(1, 'name a scale, such as "C major"')),
  },
  octaves: {
    flags: '--octaves <count>',
    help: 'how many octaves (default: as far as the window or the tune goes; 1 without either)',
    schema: () => whole(1, 5),
  },
  direction: {
    flags: '--direction <way>',
    help: 'up, down or both (default: both)',
    schema: () => oneOf(DIRECTIONS),
  },
  pattern: {
    flags: '--pattern <figure>',
    help: 'steps; thirds: 1 3 2 4 …; fours: 1 2 3 4 2 3 4 5 … (default: steps)',
    schema: () => oneOf(PATTERN_NAMES),
  },
  metre: {
    flags: '--metre <fraction>',
    help: 'such as 3/4 or 6/8 (default: that of the tune of --for, or 4/4)',
    schema: metre,
  },
  measures: {
    flags: '--measures <count>',
    help: 'how many measures the melody has, in phrases of four (default: 8)',
    schema: () => whole(2, 64),
  },
  grade: {
    flags: '--grade <1-5>',
    help: '1: steps; 2: skips too; 3: quicker notes too; 4: leaps and syncopation too; 5: accidentals too (default: 1)',
    schema: grade,
  },
  seed: {
    flags: '--seed <number>',
    help: 'another number is another melody; the same one gives the same melody for ever (default: 1)',
    schema: () => whole(0, 999_999),
  },
  focus: {
    flags: '--focus <notes>',
    help: 'what is to come more often: places as string:fret, or pitches: 1:8,C5',
    list: true,
    schema: () => z.array(focus()),
  },
  every: {
    flags: '--every <measures>',
    help: 'so many measures at a time (default: phrase by phrase)',
    schema: () => whole(1, 64),
  },
  strings: {
    flags: '--strings <how>',
    help: 'how strings are called: names or numbers (default: names)',
    schema: () => oneOf(['names', 'numbers']),
  },
  markdown: {
    flags: '--markdown',
    help: 'as Markdown',
    schema: () => z.boolean(),
  },
  tempo: {
    flags: '--tempo <beats>',
    help: 'in midi, beats a minute (default: the tune’s own, 90 where it has none)',
    schema: () => whole(10, 400),
  },
  slow: {
    flags: '--slow <percent>',
    help: 'in midi, how much of the tempo is played: 60% (default: 100%)',
    schema: percent,
  },
  countIn: {
    flags: '--count-in <measures>',
    help: 'in midi, measures of clicks before the tune (default: 1, and 2 before a pickup)',
    schema: () => whole(0, 8),
  },
  accompany: {
    flags: '--accompany',
    help: 'in midi, sound the chord symbols under the melody',
    schema: () => z.boolean(),
  },
} as const;
