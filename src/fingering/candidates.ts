/** The grips among which the solver may choose for one note: the rules narrow them before it runs. */
import type { Place } from '../instrument/instrument.ts';
import { placesOf } from '../instrument/places.ts';
import type { Finger, FretWindow } from './arrangement.ts';
import type { Grip } from './grip.ts';
import { canReach, type Hand, span } from './hand.ts';
import type { Rules } from './rules.ts';

interface FitPlace extends Place {
  readonly fit: Grip['fit'];
}

/**
 * The places that the rules leave for a pitch. Empty where the instrument has no such pitch, or where
 * notes outside the window are to be refused.
 */
export const fitPlaces = (hand: Hand, sound: number, rules: Rules): readonly FitPlace[] => {
  const all = placesOf(hand.instrument, sound);
  const { low, high } = rules.window ?? { low: 0, high: Infinity };
  const inWindow = all.filter(
    ({ fret }) => fret >= low && fret <= high && (fret > 0 || rules.open !== 'never'),
  );
  const rings = rules.open === 'free' || (rules.open === 'rescue' && inWindow.length === 0);
  const opened = rings ? all.filter(({ fret }) => fret === 0 && low > 0) : [];
  if (inWindow.length + opened.length > 0) {
    return [
      ...inWindow.map(place => ({ ...place, fit: 'inside' as const })),
      ...opened.map(place => ({ ...place, fit: 'open' as const })),
    ];
  }
  if (rules.outside === 'refuse') return [];
  const stopped = all.filter(place => place.fret > 0);
  const rest = rules.open === 'never' && stopped.length > 0 ? stopped : all;
  return rest.map(place => ({ ...place, fit: 'outside' as const }));
};

/**
 * All grips for a pitch, in the order in which equal costs are decided: by string, fret, finger,
 * position. A stopped note inside the window is played from a position inside it too.
 * `rest` are the positions where the hand may be while an open string rings.
 */
export const gripsFor = (hand: Hand, sound: number, rules: Rules, rest: readonly number[]): readonly Grip[] =>
  fitPlaces(hand, sound, rules).flatMap(({ fit, ...place }) => {
    const astray = fit === 'outside' && rules.window ? beyond(hand, place.fret, rules.window) : 0;
    if (place.fret === 0) {
      return rest.map(position => ({ touches: [{ ...place, finger: 0 as Finger }], position, fit, astray }));
    }
    const lowest = fit === 'inside' ? (rules.window?.low ?? 1) : 1;
    return stoppedGrips(hand, place, Math.max(1, lowest)).map(grip => ({ ...grip, fit, astray }));
  });

/** Every finger that can stop a place, from every position at or above `lowest`. */
const stoppedGrips = (hand: Hand, place: Place, lowest: number): Pick<Grip, 'touches' | 'position'>[] => {
  const grips: Pick<Grip, 'touches' | 'position'>[] = [];
  for (const finger of [1, 2, 3, 4] as const) {
    const highest = Math.min(place.fret + 1, hand.fretAt.length - 1);
    for (let position = lowest; position <= highest; position++) {
      if (canReach(hand, position, finger, place.fret))
        grips.push({ touches: [{ ...place, finger }], position });
    }
  }
  return grips;
};

/** How far a fret lies from the window, mm; an open string counts from the nut. */
const beyond = (hand: Hand, fret: number, window: FretWindow): number => {
  const top = hand.fretAt.length - 1;
  if (fret < window.low) return span(hand, fret, Math.min(window.low, top));
  return fret > window.high ? span(hand, fret, window.high) : 0;
};

/** The positions from which some note of the tune is stopped, ascending; at least one. */
export const restPositions = (hand: Hand, sounds: Iterable<number>, rules: Rules): readonly number[] => {
  const positions = new Set<number>();
  for (const sound of sounds)
    for (const grip of gripsFor(hand, sound, rules, [])) positions.add(grip.position);
  if (positions.size === 0)
    positions.add(Math.max(1, Math.min(rules.window?.low ?? 1, hand.fretAt.length - 1)));
  return [...positions].sort((a, b) => a - b);
};
