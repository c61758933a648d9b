/** Every choice of a fret, or silence, for each string that sounds a chord within the reach of a hand. */
import type { FretWindow } from '../../fingering/arrangement.ts';
import { type Hand, span } from '../../fingering/hand.ts';
import { openPitches, topFret } from '../../instrument/places.ts';
import type { PitchClass } from './chord.ts';
import { soundsOf, type Voicing } from './shape.ts';
import type { ToneRules } from './tones.ts';

/** What the teacher asks of the shapes. */
export interface Wishes {
  /** Frets that stopped notes must lie in. */
  readonly window?: FretWindow;
  /** The fret near which the hand should be. */
  readonly near?: number;
  /** Whether open strings may sound. */
  readonly open?: 'never' | 'free';
}

/** Strings may be silent at the edges; one inside, at most, by leaning a finger against it. */
const MOST_SILENT_INSIDE = 1;

/** All voicings, in no particular order, each once. */
export const voicingsOf = (hand: Hand, rules: ToneRules, wishes: Wishes): readonly Voicing[] => {
  const { low, high } = wishes.window ?? { low: 1, high: Infinity };
  const top = Math.min(high, topFret(hand.instrument));
  const openToo = wishes.open !== 'never';
  const found: Voicing[] = openToo ? within(hand, rules, [], true) : [];
  for (let first = Math.max(1, low); first <= top; first++) {
    const frets = [first];
    while (frets.at(-1)! < top && reaches(hand, first, frets.at(-1)! + 1)) frets.push(frets.at(-1)! + 1);
    found.push(...within(hand, rules, frets, openToo));
  }
  return found;
};

/** How far index and little finger spread at all. */
const reaches = (hand: Hand, from: number, to: number): boolean =>
  span(hand, from, to) <= hand.practical[5 + 4]!;

/** Voicings whose stopped frets are among those given, the first one included if there are any. */
const within = (hand: Hand, rules: ToneRules, frets: readonly number[], openToo: boolean): Voicing[] => {
  const open = openPitches(hand.instrument);
  const choices = open.map(pitch =>
    [...(openToo ? [0] : []), ...frets].filter(fret => rules.allowed.has((pitch + fret) % 12)),
  );
  const found: Voicing[] = [];
  const voicing: (number | undefined)[] = [];
  const choose = (missing: ReadonlySet<PitchClass>): void => {
    const string = voicing.length;
    if (missing.size > open.length - string) return;
    if (string === open.length) {
      if (isWhole(hand, rules, frets[0], voicing)) found.push([...voicing]);
      return;
    }
    for (const fret of [...choices[string]!, undefined]) {
      voicing.push(fret);
      if (fret === undefined) choose(missing);
      else choose(without(missing, (open[string]! + fret) % 12));
      voicing.pop();
    }
  };
  choose(rules.needed);
  return found;
};

const without = (classes: ReadonlySet<PitchClass>, gone: PitchClass): ReadonlySet<PitchClass> =>
  classes.has(gone) ? new Set([...classes].filter(each => each !== gone)) : classes;

/** Whether the first fret is in use, the strings inside sound, and the bass lies below all else. */
const isWhole = (hand: Hand, { lowest }: ToneRules, first: number | undefined, voicing: Voicing): boolean => {
  if (first !== undefined && !voicing.includes(first)) return false;
  if (silentInside(voicing) > MOST_SILENT_INSIDE) return false;
  const sounds = soundsOf(hand, voicing);
  return sounds.length > 0 && (lowest === undefined || Math.min(...sounds) % 12 === lowest);
};

/** Silent strings that have a sounding string on either side. */
export const silentInside = (voicing: Voicing): number => {
  const first = voicing.findIndex(fret => fret !== undefined);
  const last = voicing.findLastIndex(fret => fret !== undefined);
  return voicing.slice(first, last + 1).filter(fret => fret === undefined).length;
};
