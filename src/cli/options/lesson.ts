/** The options of what a lesson makes of its own: scales, drills, words and practice tracks. */
import * as z from 'zod/mini';
import { GRADES, type Grade } from '../../lesson/drill/grades.ts';
import { DIRECTIONS, PATTERN_NAMES } from '../../lesson/scale/pattern.ts';
import { flag } from './row.ts';
import { focus, metre, named, oneOf, percent, whole } from './values.ts';

const grade = () =>
  z.pipe(
    oneOf(GRADES.map(String)),
    z.transform(text => Number(text) as Grade),
  );

export const LESSON_ROWS = {
  init: flag('--init', 'write a lesson file of that name, with comments, instead of reading one'),
  for: {
    flags: '--for <tune>',
    help: 'play every pitch where this tune, arranged with the same options, plays it',
    default: 'no tune',
    schema: () => named('a MusicXML file'),
  },
  key: {
    flags: '-k, --key <name>',
    help: 'a scale or arpeggio: "C major", "Bb minor", "D dorian", "G7 arpeggio"',
    default: 'the key of the tune',
    schema: () => named('a scale, such as "C major"'),
  },
  octaves: {
    flags: '--octaves <count>',
    help: 'how many octaves the scale has',
    default: 'as far as the window or the tune goes; 1 without either',
    schema: () => whole(1, 5, 'octaves'),
  },
  direction: {
    flags: '--direction <way>',
    help: 'the way the scale goes: up, down or both',
    default: 'both',
    schema: () => oneOf(DIRECTIONS),
  },
  pattern: {
    flags: '--pattern <figure>',
    help: 'how the scale goes: steps; thirds: 1 3 2 4 …; fours: 1 2 3 4 2 3 4 5 …',
    default: 'steps',
    schema: () => oneOf(PATTERN_NAMES),
  },
  metre: {
    flags: '--metre <fraction>',
    help: 'the metre of the drill, such as 3/4 or 6/8',
    default: 'that of the tune, or 4/4',
    schema: metre,
  },
  measures: {
    flags: '--measures <count>',
    help: 'how many measures the drill has, in phrases of four',
    default: '8',
    schema: () => whole(2, 64, 'measures'),
  },
  grade: {
    flags: '--grade <1-5>',
    help: 'how hard the drill is: 1: steps; 2: skips too; 3: quicker notes too; 4: leaps and syncopation too; 5: accidentals too',
    default: '1',
    schema: grade,
  },
  seed: {
    flags: '--seed <number>',
    help: 'another number is another drill; the same one gives the same drill for ever',
    default: '1',
    schema: () => whole(0, 999_999),
  },
  focus: {
    flags: '--focus <notes>',
    help: 'what is to come more often in the drill: places as string:fret, or pitches: 1:8,C5',
    default: 'nothing',
    list: true,
    schema: () => z.array(focus()),
  },
  every: {
    flags: '--every <measures>',
    help: 'cues for so many measures at a time',
    default: 'phrase by phrase',
    schema: () => whole(1, 64, 'measures'),
  },
  strings: {
    flags: '--strings <how>',
    help: 'how strings are called in cues: names or numbers',
    default: 'names',
    schema: () => oneOf(['names', 'numbers']),
  },
  markdown: flag('--markdown', 'cues as Markdown'),
  tempo: {
    flags: '--tempo <beats>',
    help: 'in midi, beats a minute',
    default: 'the tune’s own, 90 where it has none',
    schema: () => whole(10, 400, 'beats a minute'),
  },
  slow: {
    flags: '--slow <percent>',
    help: 'in midi, how much of the tempo is played: 60%',
    default: '100%',
    schema: percent,
  },
  countIn: {
    flags: '--count-in <measures>',
    help: 'in midi, measures of clicks before the tune',
    default: '1, and 2 before a pickup',
    schema: () => whole(0, 8, 'measures'),
  },
  accompany: flag('--accompany', 'in midi, sound the chord symbols under the melody'),
} as const;
