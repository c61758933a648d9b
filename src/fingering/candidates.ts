/** The grips among which the solver may choose for one strike: the rules narrow them before it runs. */
import type { Place } from '../instrument/instrument.ts';
import { placesOf } from '../instrument/places.ts';
import type { Fit, FretWindow } from './arrangement.ts';
import { agrees, type Demand } from './demand.ts';
import type { FitPlace, Grip } from './grip.ts';
import { canReach, type Hand, span } from './hand.ts';
import type { Rules } from './rules.ts';
import { chordGrips } from './shapes.ts';

type Policy = Pick<Rules, 'open' | 'outside'>;

/**
 * The places that the rules leave for one note of a demand. Empty where the instrument has no such
 * pitch, or where notes outside the window are to be refused. A fixed place is taken as it is.
 */
export const fitPlaces = (hand: Hand, demand: Demand, index: number, policy: Policy): readonly FitPlace[] => {
  const fixed = demand.fixed[index];
  const all = placesOf(hand.instrument, demand.sounds[index]!).filter(place => agrees(place, fixed));
  if (fixed?.string !== undefined || fixed?.fret !== undefined)
    return all.map(place => ({ ...place, fit: 'inside' }));
  const { low, high } = demand.window ?? { low: 0, high: Infinity };
  const inWindow = all.filter(
    ({ fret }) => fret >= low && fret <= high && (fret > 0 || policy.open !== 'never'),
  );
  const opened = all.filter(({ fret }) => fret === 0 && low > 0);
  if (policy.open === 'free' && inWindow.length + opened.length > 0) {
    return [...inWindow, ...opened].map(place => ({ ...place, fit: 'inside' }));
  }
  if (inWindow.length > 0) return inWindow.map(place => ({ ...place, fit: 'inside' }));
  if (policy.open === 'rescue' && opened.length > 0) return opened.map(place => ({ ...place, fit: 'open' }));
  return policy.outside === 'refuse' ? [] : anyPlaces(all, policy);
};

/** Outside the window any place will do; open ones only where they may be, or there is no other. */
const anyPlaces = (all: readonly Place[], policy: Policy): readonly FitPlace[] => {
  const stopped = all.filter(place => place.fret > 0);
  const rest = policy.open === 'never' && stopped.length > 0 ? stopped : all;
  return rest.map(place => ({ ...place, fit: 'outside' }));
};

/**
 * All grips for a demand, in the order in which equal costs are decided: by string, fret, finger,
 * position. What is stopped inside the window is played from a position inside it too. `rest` are the
 * positions where the hand may be while open strings ring.
 */
export const gripsFor = (
  hand: Hand,
  demand: Demand,
  policy: Policy,
  rest: readonly number[],
): readonly Grip[] => {
  const places = demand.sounds.map((_, index) => fitPlaces(hand, demand, index, policy));
  if (places.length > 1) return chordGripsFor(hand, demand, policy, places, rest);
  return places[0]!.flatMap(({ fit, ...place }) => {
    const astray = fit === 'outside' ? beyond(hand, place.fret, demand.window) : 0;
    if (place.fret === 0) {
      return rest.map((position): Grip => ({ touches: [{ ...place, finger: 0 }], position, fit, astray }));
    }
    return stoppedGrips(hand, place, lowestPosition(demand, fit))
      .filter(grip => agrees(grip.touches[0]!, demand.fixed[0]))
      .map(grip => ({ ...grip, fit, astray }));
  });
};

const lowestPosition = (demand: Demand, fit: Fit): number => {
  const low = demand.window?.low ?? 1;
  const chosen = demand.fixed.some(fixed => fixed?.fret !== undefined && fixed.fret < low);
  return fit === 'inside' && !chosen ? Math.max(1, low) : 1;
};

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

/** A chord's grips; where the window allows no shape, and others are allowed, those of the whole neck. */
const chordGripsFor = (
  hand: Hand,
  demand: Demand,
  policy: Policy,
  places: readonly (readonly FitPlace[])[],
  rest: readonly number[],
): readonly Grip[] => {
  const fit = places.flat().some(place => place.fit === 'outside') ? 'outside' : 'inside';
  const inside = chordGrips(hand, demand, places, rest, lowestPosition(demand, fit));
  if (inside.length > 0 || policy.outside === 'refuse') return inside.map(grip => stray(hand, demand, grip));
  const anywhere = demand.sounds.map((sound, index) =>
    anyPlaces(
      placesOf(hand.instrument, sound).filter(place => agrees(place, demand.fixed[index])),
      policy,
    ),
  );
  return chordGrips(hand, demand, anywhere, rest, 1).map(grip => stray(hand, demand, grip));
};

const stray = (hand: Hand, demand: Demand, grip: Grip): Grip =>
  grip.fit === 'outside'
    ? { ...grip, astray: grip.touches.reduce((sum, { fret }) => sum + beyond(hand, fret, demand.window), 0) }
    : grip;

/** How far a fret lies from the window, mm; an open string counts from the nut. */
const beyond = (hand: Hand, fret: number, window: FretWindow | undefined): number => {
  if (!window) return 0;
  if (fret < window.low) return span(hand, fret, Math.min(window.low, hand.fretAt.length - 1));
  return fret > window.high ? span(hand, fret, window.high) : 0;
};

/** The positions from which some note is stopped, ascending; at least one. */
export const restPositions = (hand: Hand, demands: Iterable<Demand>, policy: Policy): readonly number[] => {
  const positions = new Set<number>();
  for (const demand of demands) {
    for (const grip of gripsFor(hand, demand, policy, [])) positions.add(grip.position);
  }
  if (positions.size === 0) positions.add(1);
  return [...positions].sort((a, b) => a - b);
};
