/**
 * Mutation testing of the rooms that decide what is right: score, instrument, fingering. By hand only:
 * `npm run mutation`, or a part of it with `npm run mutation -- --mutate 'src/score/**'`.
 */
const CACHE = 'node_modules/.cache/stryker';

/** @type {import('@stryker-mutator/core').PartialStrykerOptions} */
export default {
  testRunner: 'vitest',
  vitest: { configFile: 'tests/mutation/vitest.config.ts', related: false },
  coverageAnalysis: 'perTest',
  plugins: ['@stryker-mutator/vitest-runner', './tests/mutation/prose.mjs'],
  mutate: ['src/score/**/*.ts', 'src/instrument/**/*.ts', 'src/fingering/**/*.ts'],
  // Sentences for people are not mutated; see the plugin.
  ignorers: ['prose'],
  // Constants that are computed once, at import: they cannot be switched from test to test, so each would
  // need every test to run in a fresh process. They are tables, which the tests of the terms cover.
  ignoreStatic: true,
  incremental: true,
  incrementalFile: `${CACHE}/incremental.json`,
  tempDirName: CACHE,
  // Stryker would rewrite the paths in it, which nothing here needs.
  tsconfigFile: 'none',
  ignorePatterns: ['dist', 'out', 'coverage'],
  reporters: ['clear-text', 'progress-append-only', 'json'],
  clearTextReporter: { logTests: false, reportTests: false, reportScoreTable: true },
  jsonReporter: { fileName: `${CACHE}/report.json` },
  // Generous: a search that a mutant sends astray is not to be taken for one on a busy machine.
  timeoutMS: 20_000,
  timeoutFactor: 2,
  concurrency: 1,
  thresholds: { high: 90, low: 85, break: 85 },
};
