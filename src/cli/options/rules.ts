/** The options that steer the fingering, and the rules that they make. */
import * as z from 'zod/mini';
import { type Rules, rulesFrom } from '../../fingering/rules.ts';
import { namesIn } from '../../lesson/table.ts';
import { flag } from './row.ts';
import { handSize, oneOf, pin, windowRule } from './values.ts';

export const RULE_ROWS = {
  frets: {
    flags: '-f, --frets <low-high>',
    help: 'the window of frets that notes are forced into: 4-8, or by measures 1-16:4-8,17-32:10-15; pickup-8:4-8 begins with the pickup',
    default: 'the whole neck, low places first',
    list: true,
    schema: () =>
      z
        .array(windowRule())
        .check(
          z.refine(
            windows => windows.filter(({ measures }) => !measures).length < 2,
            'name one window; another one needs the measures that it is for: 4-8,17-32:10-15',
          ),
        ),
  },
  open: {
    flags: '--open <when>',
    help: 'open strings: never; rescue: where the window has no place for a note; free',
    default: 'rescue with a window, free without',
    schema: () => oneOf(['never', 'rescue', 'free']),
  },
  outside: {
    flags: '--outside <how>',
    help: 'a note without a place in the window: nearest: played as near as the hand reaches, and listed; refuse: the tune is not arranged',
    default: 'nearest',
    schema: () => oneOf(['nearest', 'refuse']),
  },
  place: {
    flags: '--place <where>',
    help: 'choose a place, string:fret: A4=2:5 for a pitch everywhere, m12.3=3:7 for the note in measure 12 on beat 3, pickup.2=3:7 for one in the pickup',
    default: 'none',
    list: true,
    schema: () => z.array(pin()),
  },
  keepMarked: flag('--keep-marked', 'obey string, fret and fingering numbers that are in the file'),
  onePlace: flag('--one-place', 'every pitch has one place throughout the tune'),
  freeRepeats: flag(
    '--free-repeats',
    'finger a passage that returns each time for itself, and not the same each time',
  ),
  campanella: flag('--campanella', 'neighbouring notes on different strings, to ring over each other'),
  level: {
    flags: '--level <level>',
    help: 'what is easy: first: low places and open strings; even: the least effort in all; least: the hardest move as easy as can be',
    default: 'even',
    schema: () => oneOf(['first', 'even', 'least']),
  },
  hand: {
    flags: '--hand <size>',
    help: 'small, medium, large, or the comfortable reach from index to little finger in mm',
    default: 'medium, 110 mm',
    schema: handSize,
  },
} as const;

export const RULE_NAMES = namesIn(RULE_ROWS);

type Checked = {
  readonly [K in keyof typeof RULE_ROWS]?: z.output<ReturnType<(typeof RULE_ROWS)[K]['schema']>> | undefined;
};

/** The rules that the options ask for. */
export const rulesOf = ({ frets, place, freeRepeats, ...rest }: Checked): Rules =>
  rulesFrom({
    ...(frets && { windows: frets }),
    ...(place && { pins: place }),
    ...(freeRepeats && { repeats: 'free' }),
    ...Object.fromEntries(
      RULE_NAMES.flatMap(name => (name in rest ? [[name, rest[name as keyof typeof rest]]] : [])),
    ),
  });
