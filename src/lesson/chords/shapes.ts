/**
 * Chord shapes for any stringing: every voicing within reach, the easiest way to hold each, in order.
 * The search is exhaustive; the order is that of `order.ts`, ties fall to the lower frets.
 */

import type { Grip } from '../../fingering/grip.ts';
import type { Hand } from '../../fingering/hand.ts';
import { holdings } from '../../fingering/shapes.ts';
import type { Place } from '../../instrument/instrument.ts';
import type { Chord } from './chord.ts';
import { holdingCost, voice, voicingCost } from './order.ts';
import { barresSpareSilence, type ChordShape, shapeOf, type Voicing } from './shape.ts';
import { toneRules } from './tones.ts';
import { voicingsOf, type Wishes } from './voicings.ts';

/** The shapes of a chord, the best first; at most `count`. Empty where no hand can play it. */
export const chordShapes = (
  hand: Hand,
  chord: Chord,
  wishes: Wishes,
  count: number,
): readonly ChordShape[] => {
  const rules = toneRules(chord, hand.instrument);
  const ranked = voicingsOf(hand, rules, wishes)
    .map(frets => ({ frets, cost: voicingCost(voice(hand, chord, wishes, frets)) }))
    .sort((a, b) => a.cost - b.cost || compareFrets(a.frets, b.frets));
  return distinct(withHoldings(hand, ranked, chord, wishes, count), count);
};

interface Ranked {
  readonly frets: Voicing;
  readonly cost: number;
}

/** How many shapes to keep for each one asked for: some are dropped as parts of others. */
const SPARE = 12;

/**
 * The best shapes with their holdings. Holding never costs less than nothing, so that the search may end
 * where the voicing alone costs more than the worst that is kept.
 */
const withHoldings = (
  hand: Hand,
  ranked: readonly Ranked[],
  chord: Chord,
  wishes: Wishes,
  count: number,
): readonly ChordShape[] => {
  const kept: ChordShape[] = [];
  for (const { frets, cost } of ranked) {
    const worst = kept[SPARE * count - 1];
    if (worst && cost > worst.cost) break;
    const held = easiestHolding(hand, frets, wishes);
    if (!held) continue;
    const shape = shapeOf(hand, chord, frets, held.grip, cost + held.cost);
    const at = kept.findIndex(other => compareShapes(shape, other) < 0);
    kept.splice(at < 0 ? kept.length : at, 0, shape);
  }
  return kept;
};

const compareShapes = (a: ChordShape, b: ChordShape): number =>
  a.cost - b.cost || compareFrets(a.frets, b.frets);

/** A silent string counts as higher than any fret. */
const compareFrets = (a: Voicing, b: Voicing): number => {
  for (let string = a.length - 1; string >= 0; string--) {
    const difference = (a[string] ?? 99) - (b[string] ?? 99);
    if (difference !== 0) return difference;
  }
  return 0;
};

/** The cheapest way to hold a voicing; undefined where no hand can. The first of equals. */
const easiestHolding = (
  hand: Hand,
  frets: Voicing,
  wishes: Wishes,
): { readonly grip: Grip; readonly cost: number } | undefined => {
  const places = frets.flatMap((fret, index): Place[] =>
    fret === undefined ? [] : [{ string: index + 1, fret }],
  );
  let best: { readonly grip: Grip; readonly cost: number } | undefined;
  for (const holding of holdings(hand, places)) {
    if (!barresSpareSilence(frets, holding.touches)) continue;
    const grip: Grip = { ...holding, fit: 'inside', astray: 0 };
    const cost = holdingCost(hand, grip, wishes);
    if (!best || cost < best.cost) best = { grip, cost };
  }
  return best;
};

/**
 * The first shapes that are worth learning beside each other: none is an earlier one with a string
 * silenced, added or changed.
 */
const distinct = (shapes: readonly ChordShape[], count: number): readonly ChordShape[] => {
  const chosen: ChordShape[] = [];
  for (const shape of shapes) {
    if (chosen.length === count) break;
    if (chosen.every(other => changes(other.frets, shape.frets) >= LEAST_CHANGES)) chosen.push(shape);
  }
  return chosen;
};

const LEAST_CHANGES = 2;

/** Strings that two voicings stop differently; on one or two strings any change counts. */
const changes = (a: Voicing, b: Voicing): number => {
  const differing = a.filter((fret, index) => fret !== b[index]);
  const sounding = a.filter(
    (fret, index) => fret !== undefined && b[index] !== undefined && fret !== b[index],
  );
  if (a.length < 4) return differing.length > 0 ? LEAST_CHANGES : 0;
  return sounding.length;
};
