/** What the rules ask of each strike, and the places that they allow; restated, not taken from the solver. */
import type { FretWindow } from '../../../src/fingering/arrangement.ts';
import type { Grip } from '../../../src/fingering/grip.ts';
import type { Hand } from '../../../src/fingering/hand.ts';
import type { Rules } from '../../../src/fingering/rules.ts';
import type { Strike } from '../../../src/fingering/strikes.ts';
import type { Instrument, Place } from '../../../src/instrument/instrument.ts';
import { soundAt, topFret } from '../../../src/instrument/places.ts';

type Fit = Grip['fit'];

type Fixed = Strike['marked'][number];

/** What the rules ask of a strike. */
export interface Ask {
  readonly sounds: readonly number[];
  readonly window: FretWindow | undefined;
  readonly fixed: readonly Fixed[];
}

export const asksOf = (strikes: readonly Strike[], rules: Rules): readonly Ask[] => {
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
export const placesByTrial = (instrument: Instrument, sound: number, fixed: Fixed): readonly Place[] => {
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

export type FitPlace = Place & { readonly fit: Fit };

/** The places of a note: as fixed; or in the window; or the open string that rescues; or anywhere. */
export const allowedPlaces = (hand: Hand, ask: Ask, n: number, rules: Rules): readonly FitPlace[] => {
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

export const anywhere = (all: readonly Place[], rules: Rules): readonly FitPlace[] => {
  const stopped = all.filter(({ fret }) => fret > 0);
  const chosen = rules.open === 'never' && stopped.length > 0 ? stopped : all;
  return chosen.map(place => ({ ...place, fit: 'outside' }));
};
