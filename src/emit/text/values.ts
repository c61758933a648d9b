/** Written durations as letters, and what the letters mean. */

import type { NoteValue } from '../../score/model/duration.ts';
import type { MusicEvent } from '../../score/model/event.ts';

/** By denominator of the undotted value; w h q e s t are the ones that tunes are made of. */
const LETTERS: ReadonlyMap<number, readonly [letter: string, name: string]> = new Map([
  [0.25, ['l', 'long']],
  [0.5, ['b', 'breve']],
  [1, ['w', 'whole']],
  [2, ['h', 'half']],
  [4, ['q', 'quarter']],
  [8, ['e', 'eighth']],
  [16, ['s', '16th']],
  [32, ['t', '32nd']],
  [64, ['x', '64th']],
  [128, ['y', '128th']],
  [256, ['z', '256th']],
]);

const letterOf = ({ base, dots }: NoteValue): string => (LETTERS.get(base)?.[0] ?? '?') + '.'.repeat(dots);

/** A rest that has no value, but fills its measure. */
const SILENCE = 'rest';

/** `q.` is a dotted quarter, `rq` a quarter rest, `g` a grace note, `^` a fermata. */
export const rhythmText = (event: MusicEvent): string => {
  const fermata = event.fermata ? '^' : '';
  if (event.kind === 'note') return (event.grace ? 'g' : letterOf(event.value)) + fermata;
  return (event.value ? `r${letterOf(event.value)}` : SILENCE) + fermata;
};

/** Explains the letters and signs that these rhythm texts hold: `q quarter`, `. dotted`. */
export const explainRhythm = (texts: readonly string[]): readonly string[] => {
  const written = texts.filter(text => !text.startsWith(SILENCE));
  const has = (sign: string): boolean => written.some(text => text.includes(sign));
  const letters = new Set(written.map(text => text.replace(/^r/, '')[0]));
  return [
    ...[...LETTERS.values()].filter(([letter]) => letters.has(letter)).map(pair => pair.join(' ')),
    ...(has('.') ? ['. dotted'] : []),
    ...(has('r') ? ['r rest'] : []),
    ...(letters.has('g') ? ['g grace note'] : []),
    ...(texts.some(text => text.includes('^')) ? ['^ fermata'] : []),
  ];
};
