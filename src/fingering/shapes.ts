/** Chords as shapes: one string a note, at most four fingers, barres where they are possible. */
import type { Place } from '../instrument/instrument.ts';
import type { Finger } from './arrangement.ts';
import { agrees, type Demand } from './demand.ts';
import type { FitPlace, Grip, Touch } from './grip.ts';
import { canReach, type Hand, span } from './hand.ts';

/** How many frets a finger may be drawn in behind its own when a chord is held. */
const CHORD_SQUEEZE = 3;

/**
 * Every shape for the notes of a chord, each of which may lie at the places given (in the order of the
 * demand's notes). Touches keep that order.
 */
export const chordGrips = (
  hand: Hand,
  demand: Demand,
  places: readonly (readonly FitPlace[])[],
  rest: readonly number[],
  lowest: number,
): readonly Grip[] =>
  onDistinctStrings(places).flatMap(chosen => {
    const fit = chosen.some(place => place.fit === 'outside')
      ? 'outside'
      : chosen.some(place => place.fit === 'open')
        ? 'open'
        : 'inside';
    return holdings(hand, chosen, rest, lowest)
      .filter(({ touches }) => touches.every((touch, index) => agrees(touch, demand.fixed[index])))
      .map((holding): Grip => ({ ...holding, fit, astray: 0 }));
  });

/**
 * Every way to hold places on different strings: with which fingers, from which position. Touches keep
 * the order of the places. `rest` are the positions where the hand may be if all strings are open.
 */
export const holdings = (
  hand: Hand,
  places: readonly Place[],
  rest: readonly number[] = [1],
  lowest = 1,
): readonly Pick<Grip, 'touches' | 'position'>[] =>
  fingerings(places)
    .filter(touches => spreads(hand, touches))
    .flatMap(touches => positionsFor(hand, touches, rest, lowest).map(position => ({ touches, position })));

/** Every choice of one place a note with no string used twice. */
const onDistinctStrings = (places: readonly (readonly FitPlace[])[]): readonly (readonly FitPlace[])[] => {
  let chosen: readonly (readonly FitPlace[])[] = [[]];
  for (const options of places) {
    chosen = chosen.flatMap(before =>
      options
        .filter(option => !before.some(({ string }) => string === option.string))
        .map(option => [...before, option]),
    );
  }
  return chosen;
};

/**
 * Every way to finger a set of places: fingers ascend with the frets; at one fret they ascend from the
 * lower string to the higher, or one finger lies across as a barre.
 */
const fingerings = (places: readonly Place[]): readonly (readonly Touch[])[] => {
  const order = places
    .map((_, index) => index)
    .filter(index => places[index]!.fret > 0)
    .sort((a, b) => places[a]!.fret - places[b]!.fret || places[b]!.string - places[a]!.string);
  const found: (readonly Touch[])[] = [];
  const fingers: Finger[] = places.map(() => 0);
  const assign = (k: number): void => {
    if (k === order.length) {
      found.push(places.map(({ string, fret }, index) => ({ string, fret, finger: fingers[index]! })));
      return;
    }
    const before = order[k - 1];
    const sameFret = before !== undefined && places[before]!.fret === places[order[k]!]!.fret;
    const last = before === undefined ? 0 : fingers[before]!;
    for (let finger = sameFret ? Math.max(1, last) : last + 1; finger <= 4; finger++) {
      fingers[order[k]!] = finger as Finger;
      assign(k + 1);
    }
  };
  assign(0);
  return found.filter(barresLieFlat);
};

/** No string under a barre may sound at a lower fret than the barre's. */
const barresLieFlat = (touches: readonly Touch[]): boolean =>
  touches.every(a =>
    touches.every(
      b =>
        a.finger === 0 ||
        a.finger !== b.finger ||
        touches.every(({ string, fret }) => fret >= a.fret || (string - a.string) * (string - b.string) > 0),
    ),
  );

/** No two fingers stand farther apart than they spread. */
const spreads = (hand: Hand, touches: readonly Touch[]): boolean =>
  touches.every(a =>
    touches.every(
      b =>
        a.finger === 0 ||
        a.finger >= b.finger ||
        span(hand, a.fret, b.fret) <= hand.practical[5 * a.finger + b.finger]!,
    ),
  );

/** From where a shape can be held: where the index finger stands, if it is used; anywhere if all is open. */
const positionsFor = (
  hand: Hand,
  touches: readonly Touch[],
  rest: readonly number[],
  lowest: number,
): readonly number[] => {
  const stopped = touches.filter(({ finger }) => finger > 0);
  if (stopped.length === 0) return rest;
  const index = stopped.find(({ finger }) => finger === 1);
  const least = Math.min(...stopped.map(({ fret }) => fret));
  const from = index ? index.fret : lowest;
  const positions: number[] = [];
  for (let position = Math.max(from, lowest); position <= least; position++) {
    const held = stopped.every(({ finger, fret }) => canReach(hand, position, finger, fret, CHORD_SQUEEZE));
    if (held) positions.push(position);
  }
  return positions;
};
