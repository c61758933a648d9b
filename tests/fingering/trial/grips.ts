/** Every way to grip a strike: all strings, fingers and positions, without those that no hand can do. */
import type { Finger } from '../../../src/fingering/arrangement.ts';
import type { Grip } from '../../../src/fingering/grip.ts';
import { canReach, type Hand, span } from '../../../src/fingering/hand.ts';
import type { Rules } from '../../../src/fingering/rules.ts';
import type { Place } from '../../../src/instrument/instrument.ts';
import { topFret } from '../../../src/instrument/places.ts';
import { type Ask, allowedPlaces, anywhere, type FitPlace, placesByTrial } from './asks.ts';

export const gripsFor = (hand: Hand, ask: Ask, rules: Rules, rest: readonly number[]): readonly Grip[] => {
  const places = ask.sounds.map((_, n) => allowedPlaces(hand, ask, n, rules));
  const outside = places.flat().some(({ fit }) => fit === 'outside');
  const belowWindow = ask.fixed.some(({ fret }) => fret !== undefined && fret < (ask.window?.low ?? 1));
  const lowest = outside || belowWindow ? 1 : Math.max(1, ask.window?.low ?? 1);
  const grips = holdByTrial(hand, ask, places, rest, lowest);
  if (grips.length > 0 || ask.sounds.length === 1 || rules.outside === 'refuse') return grips;
  const all = ask.sounds.map((sound, n) =>
    anywhere(placesByTrial(hand.instrument, sound, ask.fixed[n]!), rules),
  );
  return holdByTrial(hand, ask, all, rest, 1);
};

/** Every string, finger and position for the notes at once, those thrown away that no hand can do. */
export const holdByTrial = (
  hand: Hand,
  ask: Ask,
  places: readonly (readonly FitPlace[])[],
  rest: readonly number[],
  lowest: number,
): readonly Grip[] => {
  const grips: Grip[] = [];
  const held: (FitPlace & { readonly finger: Finger })[] = [];
  const positions = Array.from({ length: topFret(hand.instrument) }, (_, n) => n + 1);
  const choose = (n: number): void => {
    if (n < places.length) {
      for (const place of places[n]!) {
        for (const finger of (place.fret === 0 ? [0] : [1, 2, 3, 4]) as Finger[]) {
          if ((ask.fixed[n]!.finger ?? finger) !== finger) continue;
          held.push({ ...place, finger });
          choose(n + 1);
          held.pop();
        }
      }
      return;
    }
    if (!isShape(hand, held)) return;
    const fits = held.map(({ fit }) => fit);
    const fit = fits.includes('outside') ? 'outside' : fits.includes('open') ? 'open' : 'inside';
    const astray = fit === 'outside' ? held.reduce((sum, { fret }) => sum + beyond(hand, ask, fret), 0) : 0;
    const touches = held.map(({ string, fret, finger }) => ({ string, fret, finger }));
    const open = held.every(({ finger }) => finger === 0);
    for (const position of open ? rest : positions) {
      if (open || isHeldFrom(hand, held, position, lowest)) grips.push({ touches, position, fit, astray });
    }
  };
  choose(0);
  return grips;
};

const beyond = (hand: Hand, { window }: Ask, fret: number): number => {
  if (!window) return 0;
  if (fret > window.high) return span(hand, fret, window.high);
  return fret < window.low ? span(hand, fret, Math.min(window.low, topFret(hand.instrument))) : 0;
};

type Held = readonly (Place & { readonly finger: Finger })[];

/** One string a note; fingers in order; one finger on two strings only as a barre; no pair too far apart. */
const isShape = (hand: Hand, held: Held): boolean =>
  held.every(a =>
    held.every(b => {
      if (a === b) return true;
      if (a.string === b.string) return false;
      if (a.finger === 0 || b.finger === 0) return true;
      if (a.finger === b.finger) return a.fret === b.fret && !soundsBelow(held, a, b);
      if (Math.abs(hand.fretAt[a.fret]! - hand.fretAt[b.fret]!) > hand.practical[5 * a.finger + b.finger]!)
        return false;
      if (a.fret === b.fret) return a.finger < b.finger === a.string > b.string;
      return a.finger < b.finger === a.fret < b.fret;
    }),
  );

/** Whether a string under the barre sounds at a lower fret. */
const soundsBelow = (held: Held, a: Place, b: Place): boolean =>
  held.some(
    ({ string, fret }) =>
      string >= Math.min(a.string, b.string) && string <= Math.max(a.string, b.string) && fret < a.fret,
  );

/** A chord's index finger stands at the position itself; a single note may draw it back. */
const isHeldFrom = (hand: Hand, held: Held, position: number, lowest: number): boolean => {
  if (position < lowest) return false;
  const stopped = held.filter(({ finger }) => finger > 0);
  if (held.length === 1) return canReach(hand, position, held[0]!.finger, held[0]!.fret);
  return stopped.every(
    ({ finger, fret }) =>
      position <= fret && (finger > 1 || position === fret) && canReach(hand, position, finger, fret, 3),
  );
};

/** Wherever some note is stopped from, the hand may wait while open strings ring. */
export const restsOf = (layers: readonly (readonly Grip[])[]): readonly number[] => {
  const positions = [...new Set(layers.flat().map(({ position }) => position))];
  return positions.length > 0 ? positions.sort((a, b) => a - b) : [1];
};
