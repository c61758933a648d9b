/**
 * Arranges a tune: strikes → candidate grips → lattice → cheapest path → a place and finger for every
 * head. The rules narrow the candidates; what they leave without a place is listed or refused.
 */
import type { Instrument } from '../instrument/instrument.ts';
import { placesOf, topFret } from '../instrument/places.ts';
import { type Diagnostic, Refusal } from '../score/diagnostic.ts';
import type { Tune } from '../score/tune.ts';
import type { Arrangement, Misfit, Placement } from './arrangement.ts';
import { fitPlaces, gripsFor, restPositions } from './candidates.ts';
import { type Hand, handOn } from './hand.ts';
import { type Lattice, latticeBuilder } from './lattice.ts';
import { misfitDiagnostics, refusedDiagnostics, unplayableDiagnostics } from './misfits.ts';
import type { Rules } from './rules.ts';
import { solve } from './solver.ts';
import { type Strike, strikesOf, timingBefore } from './strikes.ts';
import { hasteOf } from './time.ts';

export interface Arranged {
  readonly arrangement: Arrangement;
  readonly diagnostics: readonly Diagnostic[];
}

/**
 * Finds the cheapest fingering of a tune under the rules. Throws a Refusal that lists every note the
 * instrument cannot sound, or that has no place in the window where those are to be refused.
 */
export const arrange = (tune: Tune, instrument: Instrument, rules: Rules): Arranged => {
  const hand = handOn(instrument);
  const { strikes, struckBy } = strikesOf(tune);
  checkWindow(instrument, rules);
  checkPlayable(hand, strikes, rules);
  const lattice = buildLattice(tune, hand, strikes, rules);
  const { path, cost } = solve(lattice);
  const placements = new Map<number, Placement>();
  strikes.forEach((strike, k) => {
    const grip = lattice.layers[k]!.grips[path[k]!]!;
    strike.heads.forEach((head, index) => {
      const touch = grip.touches[index]!;
      placements.set(head, { ...touch, position: grip.position, fit: grip.fit });
    });
  });
  for (const [head, struck] of struckBy) placements.set(head, placements.get(struck)!);
  const misfits = misfitsOf(strikes, placements, 'outside');
  const rescued = misfitsOf(strikes, placements, 'open');
  return {
    arrangement: { instrument, window: rules.window, placements, misfits, cost },
    diagnostics: misfitDiagnostics(instrument, rules, strikes, misfits, rescued),
  };
};

/** The lattice of a tune under the rules. Every strike must have a place. */
export const buildLattice = (tune: Tune, hand: Hand, strikes: readonly Strike[], rules: Rules): Lattice => {
  const build = latticeBuilder(hand);
  const rest = restPositions(hand, new Set(strikes.flatMap(strike => strike.sounds)), rules);
  const layers = strikes.map(strike =>
    build.layer(strike.sounds.join(), () => gripsFor(hand, strike.sounds[0]!, rules, rest)),
  );
  const moves = layers.slice(1).map((layer, k) => {
    const timing = timingBefore(tune.division, strikes[k]!, strikes[k + 1]!);
    return build.moves(layers[k]!, layer, { ...hasteOf(timing), slurred: strikes[k + 1]!.slurred });
  });
  return { layers, moves };
};

/** Refuses a window that lies off the neck or is upside down. */
const checkWindow = (instrument: Instrument, { window }: Rules): void => {
  if (!window || (window.low <= window.high && window.low >= 0 && window.low <= topFret(instrument))) return;
  throw new Refusal({
    severity: 'error',
    code: 'window-off-the-neck',
    message: `frets ${window.low}-${window.high} are no window on ${instrument.name}`,
    hint: `the neck has frets 0 to ${topFret(instrument)}; write the lower fret first`,
  });
};

const checkPlayable = (hand: Hand, strikes: readonly Strike[], rules: Rules): void => {
  const { instrument } = hand;
  const unplayable = strikes.filter(({ sounds }) =>
    sounds.some(sound => placesOf(instrument, sound).length === 0),
  );
  if (unplayable.length > 0) throw new Refusal(...unplayableDiagnostics(instrument, strikes, unplayable));
  const placeless = strikes.filter(({ sounds }) =>
    sounds.some(sound => fitPlaces(hand, sound, rules).length === 0),
  );
  if (placeless.length > 0) throw new Refusal(...refusedDiagnostics(instrument, rules, strikes, placeless));
};

const misfitsOf = (
  strikes: readonly Strike[],
  placements: ReadonlyMap<number, Placement>,
  fit: Placement['fit'],
): readonly Misfit[] =>
  strikes.flatMap(strike =>
    strike.heads.flatMap((head, index) => {
      const placement = placements.get(head)!;
      if (placement.fit !== fit) return [];
      return [{ head, pitch: strike.pitches[index]!, source: strike.source, beat: strike.beat, placement }];
    }),
  );
