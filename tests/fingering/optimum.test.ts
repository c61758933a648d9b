/** The solver against exhaustive enumeration: every fingering of small tunes, priced term by term. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { arrange } from '../../src/fingering/arrange.ts';
import { unlessRefused } from '../support/refused.ts';
import { type Case, cases, smallEnough } from './cases.ts';
import { shareOf } from './share.ts';
import { bestByTrial, isBetter, type Priced } from './trial/paths.ts';
import type { Trial } from './trial/trial.ts';

/** Largest number of paths that a case may have; longer tunes are cut. */
const MOST_PATHS = 3_000;

/** Some are refused, as they must be; of those that have an answer there are more than 5,000. */
const CASES = shareOf(7_800);
const SOLVED = shareOf(5_000);
/** Cases are drawn in a few tests, so that each is well inside a test's time. */
const PARTS = 4;

/** What the tune is arranged to, or undefined where it is refused. */
const answered = ({ tune, instrument, rules, targets }: Case) =>
  unlessRefused(() => arrange(tune, instrument, rules, targets));

/** The price of the answer, from the trial's own prices. */
const priceOf = (trial: Trial, answer: NonNullable<ReturnType<typeof answered>>): Priced => {
  const { found, problem } = answer;
  let before = 0;
  const priced = { differences: 0, hardest: -Infinity, cost: 0 };
  found.path.forEach((index, k) => {
    const chosen = JSON.stringify(problem.lattice.layers[k]!.grips[index]);
    const here = trial.layers[k]!.findIndex(grip => sorted(grip) === sorted(JSON.parse(chosen)));
    expect(here, `grip ${chosen} of strike ${k}`).toBeGreaterThanOrEqual(0);
    const cost = trial.step(k, before, here);
    priced.differences += trial.differences(k, here);
    priced.hardest = Math.max(priced.hardest, cost);
    priced.cost += cost;
    before = here;
  });
  return priced;
};

const sorted = (grip: object): string =>
  JSON.stringify(Object.entries(grip).sort(([a], [b]) => (a < b ? -1 : 1)));

describe('the optimum under all rules', () => {
  test.each(Array.from({ length: PARTS }, (_, n) => n + 1))(
    'equals exhaustive enumeration, cost for cost (part %i)',
    { timeout: 120_000 },
    part => {
      const seen = { solved: 0, refused: 0, long: 0, tied: 0 };
      fc.assert(
        fc.property(cases, drawn => {
          const found = smallEnough(drawn, MOST_PATHS);
          fc.pre(found !== undefined);
          const { small, trial } = found!;
          const answer = answered(small);
          const best = pinsMiss(small, trial) ? undefined : bestByTrial(trial, small.rules.level);
          if (!best || !answer) {
            seen.refused++;
            expect(answer?.arrangement.cost).toBe(best?.cost);
            return;
          }
          expect(answer.found.proven).toBe(true);
          const priced = priceOf(trial, answer);
          expect(priced).toEqual({ ...best, hardest: priced.hardest });
          expect(isBetter(best, priced, small.rules.level)).toBe(false);
          expect(answer.arrangement.cost).toBe(best.cost);
          seen.solved++;
          if (trial.layers.length > 2) seen.long++;
          if (trial.agreements.length > 0) seen.tied++;
        }),
        { numRuns: Math.ceil(CASES / PARTS), seed: part },
      );
      expect(seen.solved).toBeGreaterThan(SOLVED / PARTS);
      expect(seen.long).toBeGreaterThan((0.25 * CASES) / PARTS);
      expect(seen.tied).toBeGreaterThan((0.12 * CASES) / PARTS);
    },
  );
});

/** Whether a pin finds no note, or contradicts another: such tunes are refused. */
const pinsMiss = ({ rules }: Case, { strikes }: Trial): boolean => {
  const hits = rules.pins.map(pin =>
    strikes.flatMap(({ sounds, source, beat }, k) =>
      sounds.flatMap((sound, n) => {
        const here =
          pin.kind === 'pitch'
            ? pin.sound === sound
            : pin.measure === source.measure && pin.beat === beat && n === sounds.length - 1;
        return here ? [`${k},${n}`] : [];
      }),
    ),
  );
  return (
    hits.some(notes => notes.length === 0) ||
    hits.some((notes, a) =>
      hits.some((others, b) => {
        const [here, there] = [rules.pins[a]!.place, rules.pins[b]!.place];
        return (
          (here.string !== there.string || here.fret !== there.fret) &&
          notes.some(note => others.includes(note))
        );
      }),
    )
  );
};
