/**
 * Fingering by trial: every way to grip every note, and every path through them, priced term by term.
 * Nothing here knows how the solver builds or walks its lattice; it shares with it what a hand is, what a
 * term measures and how long a move may take, and restates the rules.
 */
import type { Finger, FretWindow } from '../../src/fingering/arrangement.ts';
import type { Targets } from '../../src/fingering/demand.ts';
import type { Grip, MoveContext } from '../../src/fingering/grip.ts';
import { canReach, type Hand, handOn, span } from '../../src/fingering/hand.ts';
import { costModel } from '../../src/fingering/model.ts';
import type { Rules } from '../../src/fingering/rules.ts';
import { type Strike, strikesOf, timingBefore } from '../../src/fingering/strikes.ts';
import { chargeMove, toCost } from '../../src/fingering/terms/term.ts';
import { hasteOf } from '../../src/fingering/time.ts';
import type { Instrument, Place } from '../../src/instrument/instrument.ts';
import { soundAt, topFret } from '../../src/instrument/places.ts';
import type { Tune } from '../../src/score/tune.ts';

type Fit = Grip['fit'];
type Fixed = Strike['marked'][number];

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

interface Agreement {
  readonly later: number;
  readonly earlier: number;
  readonly agree: (later: Grip, earlier: Grip) => boolean;
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

/** What the rules ask of a strike. */
interface Ask {
  readonly sounds: readonly number[];
  readonly window: FretWindow | undefined;
  readonly fixed: readonly Fixed[];
}

const asksOf = (strikes: readonly Strike[], rules: Rules): readonly Ask[] => {
  let last: number | undefined;
  return strikes.map(({ source, sounds, marked, beat }) => {
    const number = Number.parseInt(source.measure, 10);
    if (!Number.isNaN(number)) last = number;
    const at = last ?? Number.NaN;
    const named = rules.windows.filter(
      ({ measures }) => measures && at >= measures.from && at <= measures.to,
    );
    const general = rules.windows.filter(({ measures }) => !measures);
    const fixed = sounds.map((sound, n): Fixed => {
      const mark = rules.keepMarked ? marked[n]! : { string: undefined, fret: undefined, finger: undefined };
      const pin = rules.pins.find(each =>
        each.kind === 'pitch'
          ? each.sound === sound
          : each.measure === source.measure && each.beat === beat && n === sounds.length - 1,
      );
      return pin ? { ...pin.place, finger: mark.finger } : mark;
    });
    return { sounds, window: (named.at(-1) ?? general.at(-1))?.window, fixed };
  });
};

/** Every place of the neck that sounds a note, as it is fixed. */
const placesByTrial = (instrument: Instrument, sound: number, fixed: Fixed): readonly Place[] => {
  const places: Place[] = [];
  for (let string = 1; string <= instrument.strings.length; string++) {
    for (let fret = 0; fret <= topFret(instrument); fret++) {
      if (soundAt(instrument, { string, fret }) !== sound) continue;
      if ((fixed.string ?? string) !== string || (fixed.fret ?? fret) !== fret) continue;
      if (fixed.finger !== undefined && (fixed.finger === 0) !== (fret === 0)) continue;
      places.push({ string, fret });
    }
  }
  return places;
};

type FitPlace = Place & { readonly fit: Fit };

/** The places of a note: as fixed; or in the window; or the open string that rescues; or anywhere. */
const allowedPlaces = (hand: Hand, ask: Ask, n: number, rules: Rules): readonly FitPlace[] => {
  const fixed = ask.fixed[n]!;
  const all = placesByTrial(hand.instrument, ask.sounds[n]!, fixed);
  const as = (fit: Fit, places: readonly Place[]) => places.map(place => ({ ...place, fit }));
  if (fixed.string !== undefined || fixed.fret !== undefined) return as('inside', all);
  const open = all.filter(({ fret }) => fret === 0);
  const stopped = all.filter(({ fret }) => fret > 0);
  const low = ask.window?.low ?? 0;
  const inside = stopped.filter(({ fret }) => fret >= low && fret <= (ask.window?.high ?? fret));
  if (rules.open === 'free' || (low === 0 && rules.open === 'rescue')) inside.push(...open);
  if (inside.length > 0) return as('inside', inside);
  if (rules.open === 'rescue' && open.length > 0) return as('open', open);
  return rules.outside === 'refuse' ? [] : anywhere(all, rules);
};

const anywhere = (all: readonly Place[], rules: Rules): readonly FitPlace[] => {
  const stopped = all.filter(({ fret }) => fret > 0);
  const chosen = rules.open === 'never' && stopped.length > 0 ? stopped : all;
  return chosen.map(place => ({ ...place, fit: 'outside' }));
};

const gripsFor = (hand: Hand, ask: Ask, rules: Rules, rest: readonly number[]): readonly Grip[] => {
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
const holdByTrial = (
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
const restsOf = (layers: readonly (readonly Grip[])[]): readonly number[] => {
  const positions = [...new Set(layers.flat().map(({ position }) => position))];
  return positions.length > 0 ? positions.sort((a, b) => a - b) : [1];
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

const placeOf = ({ touches }: Grip, n: number): string => `${touches[n]!.string}:${touches[n]!.fret}`;

/** One note of a pitch after the other agrees with the one before. */
const onePlaceAgreements = (strikes: readonly Strike[]): readonly Agreement[] => {
  const agreements: Agreement[] = [];
  strikes.forEach((strike, later) => {
    strike.sounds.forEach((sound, n) => {
      for (let earlier = 0; earlier < later; earlier++) {
        const m = strikes[earlier]!.sounds.indexOf(sound);
        if (m >= 0) agreements.push({ later, earlier, agree: (a, b) => placeOf(a, n) === placeOf(b, m) });
      }
    });
  });
  return agreements;
};

/** Measures with the same notes, in the same rhythm and slurs, asked the same, are fingered alike. */
const repeatAgreements = (
  tune: Tune,
  strikes: readonly Strike[],
  asks: readonly Ask[],
  targets: readonly (readonly (Place | undefined)[])[],
): readonly Agreement[] => {
  const describe = (index: number): { readonly what: string; readonly at: readonly number[] } => {
    const at = [...strikes.keys()].filter(k => strikes[k]!.measure === index);
    const what = at.map((k, n) => {
      const { at: time, duration, slurred } = strikes[k]!;
      return [time - tune.measures[index]!.at, duration, n > 0 && slurred, asks[k], targets[k]];
    });
    return { what: JSON.stringify(what), at };
  };
  const measures = tune.measures.map(({ index }) => describe(index));
  return measures.flatMap((later, n) =>
    measures
      .slice(0, n)
      .filter(earlier => earlier.what === later.what)
      .flatMap(earlier =>
        later.at.map((k, m) => ({
          later: k,
          earlier: earlier.at[m]!,
          agree: (a: Grip, b: Grip) => JSON.stringify(a.touches) === JSON.stringify(b.touches),
        })),
      ),
  );
};

/** Answers to one case: what a level calls best compares first to last. */
export interface Priced {
  readonly differences: number;
  /** The dearest step. */
  readonly hardest: number;
  readonly cost: number;
}

/** Calls `visit` with every path on which all agreements hold. */
export const everyPath = (trial: Trial, visit: (path: readonly number[], priced: Priced) => void): void => {
  const { layers, step, differences } = trial;
  if (sizeOf(trial) === 0) return;
  const agreements = layers.map((_, k) => trial.agreements.filter(({ later }) => later === k));
  const path: number[] = [];
  const go = (k: number, priced: Priced): void => {
    if (k === layers.length) {
      visit(path, priced);
      return;
    }
    for (let j = 0; j < layers[k]!.length; j++) {
      const grip = layers[k]![j]!;
      const agreed = agreements[k]!.every(({ earlier, agree }) =>
        agree(grip, layers[earlier]![path[earlier]!]!),
      );
      if (!agreed) continue;
      const cost = step(k, path[k - 1] ?? 0, j);
      path[k] = j;
      go(k + 1, {
        differences: priced.differences + differences(k, j),
        hardest: Math.max(priced.hardest, cost),
        cost: priced.cost + cost,
      });
    }
  };
  go(0, { differences: 0, hardest: -Infinity, cost: 0 });
};

/** Whether one fingering is better than another at a level: fewest differences always come first. */
export const isBetter = (a: Priced, b: Priced, level: Rules['level']): boolean => {
  if (a.differences !== b.differences) return a.differences < b.differences;
  if (level === 'least' && a.hardest !== b.hardest) return a.hardest < b.hardest;
  return a.cost < b.cost;
};

/** The best fingering's price; undefined where there is no fingering. */
export const bestByTrial = (trial: Trial, level: Rules['level']): Priced | undefined => {
  let best: Priced | undefined;
  everyPath(trial, (_, priced) => {
    if (!best || isBetter(priced, best, level)) best = priced;
  });
  return best;
};

/** How many paths there are, agreements aside. */
export const sizeOf = ({ layers }: Trial): number => layers.reduce((size, { length }) => size * length, 1);

/** The places of a path, as a key. */
export const placesOfPath = (
  { layers }: Pick<Trial, 'layers'>,
  path: readonly number[] | Int32Array,
): string => Array.from(path, (j, k) => placesOfGrip(layers[k]![j]!)).join(' ');

export const placesOfGrip = ({ touches }: Grip): string =>
  touches.map(({ string, fret }) => `${string}:${fret}`).join();
