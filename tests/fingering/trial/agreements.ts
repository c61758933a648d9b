/** Notes that must be fingered alike: one place a pitch, and measures that return. */
import type { Grip } from '../../../src/fingering/grip.ts';
import type { Strike } from '../../../src/fingering/strikes.ts';
import type { Place } from '../../../src/instrument/instrument.ts';
import type { Tune } from '../../../src/score/tune.ts';
import type { Ask } from './asks.ts';

/** Two strikes whose grips must agree. */
export interface Agreement {
  readonly later: number;
  readonly earlier: number;
  readonly agree: (later: Grip, earlier: Grip) => boolean;
}

const placeOf = ({ touches }: Grip, n: number): string => `${touches[n]!.string}:${touches[n]!.fret}`;

/** One note of a pitch after the other agrees with the one before. */
export const onePlaceAgreements = (strikes: readonly Strike[]): readonly Agreement[] => {
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
export const repeatAgreements = (
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
