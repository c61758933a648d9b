/**
 * Fingering by trial: every way to grip every note, and every path through them, priced term by term.
 * Nothing here knows how the solver builds or walks its lattice; it shares with it what a hand is, what a
 * term measures and how long a move may take, and restates the rules.
 */
import type { Targets } from '../../../src/fingering/demand.ts';
import type { Grip, MoveContext } from '../../../src/fingering/grip.ts';
import { type Hand, handOn } from '../../../src/fingering/hand.ts';
import { costModel } from '../../../src/fingering/model.ts';
import type { Rules } from '../../../src/fingering/rules.ts';
import { type Strike, strikesOf, timingBefore } from '../../../src/fingering/strikes.ts';
import { chargeMove, toCost } from '../../../src/fingering/terms/term.ts';
import { hasteOf } from '../../../src/fingering/time.ts';
import type { Instrument } from '../../../src/instrument/instrument.ts';
import type { Tune } from '../../../src/score/tune.ts';
import { type Agreement, onePlaceAgreements, repeatAgreements } from './agreements.ts';
import { asksOf } from './asks.ts';
import { gripsFor, restsOf } from './grips.ts';

/** A tune under rules: what may be played for each strike, and what it costs. */
export interface Trial {
  readonly strikes: readonly Strike[];
  readonly layers: readonly (readonly Grip[])[];
  /** Thousandths of a point for grip j of layer k, after grip i of the layer before. */
  readonly step: (k: number, i: number, j: number) => number;
  /** Notes of grip j of layer k that lie elsewhere than in the other edition. */
  readonly differences: (k: number, j: number) => number;
  /** Pairs of strikes, the later first, whose grips must agree in what the test says. */
  readonly agreements: readonly Agreement[];
}

export const trialOf = (tune: Tune, instrument: Instrument, rules: Rules, targets?: Targets): Trial => {
  const hand = handOn(instrument, rules.hand);
  const { strikes } = strikesOf(tune);
  const asks = asksOf(strikes, rules);
  const rest = restsOf(asks.map(ask => gripsFor(hand, ask, rules, [])));
  const layers = asks.map(ask => gripsFor(hand, ask, rules, rest));
  const target = strikes.map(strike => strike.heads.map(head => targets?.get(head)));
  return {
    strikes,
    layers,
    step: stepPrices(hand, rules, layers, contextsOf(tune, strikes)),
    differences: (k, j) =>
      layers[k]![j]!.touches.filter((touch, n) => {
        const there = target[k]![n];
        return there && (there.string !== touch.string || there.fret !== touch.fret);
      }).length,
    agreements: [
      ...(rules.onePlace ? onePlaceAgreements(strikes) : []),
      ...(rules.repeats === 'same' ? repeatAgreements(tune, strikes, asks, target) : []),
    ],
  };
};

const contextsOf = (tune: Tune, strikes: readonly Strike[]): readonly MoveContext[] =>
  strikes.slice(1).map((strike, k) => ({
    ...hasteOf(timingBefore(tune.division, strikes[k]!, strike)),
    slurred: strike.slurred,
  }));

/** Prices each step once, when it is first asked for. */
const stepPrices = (
  hand: Hand,
  rules: Rules,
  layers: readonly (readonly Grip[])[],
  contexts: readonly MoveContext[],
): Trial['step'] => {
  const { gripTerms, handTerms, fingerTerms } = costModel(rules);
  const known = layers.map((layer, k) =>
    new Float64Array(layer.length * (layers[k - 1]?.length ?? 1)).fill(Number.NaN),
  );
  return (k, i, j) => {
    const cell = i * layers[k]!.length + j;
    const before = known[k]![cell]!;
    if (!Number.isNaN(before)) return before;
    const grip = layers[k]![j]!;
    let cost = 0;
    for (const term of gripTerms) cost += toCost(term, term.measure(grip, hand));
    if (k > 0) {
      const from = layers[k - 1]![i]!;
      for (const term of [...handTerms, ...fingerTerms])
        cost += chargeMove(term, from, grip, hand, contexts[k - 1]!).cost;
    }
    known[k]![cell] = cost;
    return cost;
  };
};
