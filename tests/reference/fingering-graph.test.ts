/**
 * The solver against a general-purpose shortest-path library (ngraph.path, A* without a heuristic, which
 * is Dijkstra's algorithm) on the graph of every real tune: a node for each grip of each note, an edge for
 * each move between neighbouring notes.
 */
import createGraph from 'ngraph.graph';
import { aStar } from 'ngraph.path';
import { describe, expect, test } from 'vitest';
import { type Problem, problemOf, solveProblem } from '../../src/fingering/problem.ts';
import { type Rules, rulesFrom, wholeTune } from '../../src/fingering/rules.ts';
import { findInstrument } from '../../src/instrument/define.ts';
import { transposeTune } from '../../src/score/transpose-tune.ts';
import { unlessRefused } from '../support/refused.ts';
import { realTunes } from '../support/tunes.ts';

/** Added to every step: the library takes no negative weights, and all paths have as many steps. */
const LIFT = 1_000;

const START = -1;
const END = -2;

/** Cost of the shortest path as the library finds it, thousandths of a point. */
const shortest = ({ lattice: { layers, moves } }: Problem): number => {
  const graph = createGraph<undefined, number>();
  let first = 0;
  layers.forEach(({ costs }, k) => {
    const next = first + costs.length;
    costs.forEach((cost, i) => {
      if (k === 0) graph.addLink(START, i, cost + LIFT);
      if (k === layers.length - 1) graph.addLink(first + i, END, LIFT);
      layers[k + 1]?.costs.forEach((onward, j, { length }) => {
        graph.addLink(first + i, next + j, moves[k]![i * length + j]! + onward + LIFT);
      });
    });
    first = next;
  });
  // The library lists a path from its end to its start.
  const path = aStar(graph, { oriented: true, distance: (_from, _to, link) => link.data }).find(START, END);
  let cost = 0;
  for (let n = path.length - 1; n > 0; n--) {
    cost += graph.getLink(path[n]!.id, path[n - 1]!.id)!.data - LIFT;
  }
  return cost;
};

const CASES: readonly (readonly [string, number, Partial<Rules>])[] = [
  ['ukulele-low-g', 0, { windows: wholeTune(4, 8) }],
  ['ukulele', 0, { windows: wholeTune(0, 5), level: 'first' }],
  ['guitar', -12, { windows: wholeTune(2, 6), open: 'never' }],
  [
    'mandolin',
    0,
    { windows: [...wholeTune(0, 7), { measures: { from: 5, to: 8 }, window: { low: 5, high: 12 } }] },
  ],
];

const tunes = realTunes();

describe('the cost of every real tune is that of a library’s shortest path', () => {
  test.each(CASES)('%s', { timeout: 120_000 }, (id, semitones, said) => {
    let compared = 0;
    for (const { name, tune } of tunes) {
      const moved = transposeTune(tune, semitones);
      const rules = rulesFrom({ ...said, repeats: 'free' });
      const problem = unlessRefused(() => problemOf(moved, findInstrument(id), rules));
      if (!problem) continue;
      const { cost, proven } = solveProblem(problem);
      expect(proven).toBe(true);
      expect(Math.abs(cost - shortest(problem)) / 1000, name).toBeLessThan(1e-9);
      compared++;
    }
    expect(compared).toBeGreaterThanOrEqual(0.7 * tunes.length);
  });
});
