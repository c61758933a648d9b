/** The tests that mutants must get past: those that speak to the mutated rooms, with fewer random cases. */
import { defineConfig } from 'vitest/config';
import { BaseSequencer, type TestSpecification } from 'vitest/node';

/** Files whose tests arrange tunes; those among them that draw many random cases or walk whole tunes. */
const ARRANGING = /\/(diagnostics|refusals|difficulty|fingering-\w+)\.test\.ts$/;
const SLOW = /\/(optimum|answers|properties|survey|solver|editions|corpus|fingering-graph)\.test\.ts$/;

/** Quick tests first: most mutants are killed by one of them, and the rest is then not run. */
class QuickFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const rank = ({ moduleId }: TestSpecification): number =>
      SLOW.test(moduleId) ? 2 : ARRANGING.test(moduleId) ? 1 : 0;
    return files.toSorted((a, b) => rank(a) - rank(b) || (a.moduleId < b.moduleId ? -1 : 1));
  }
}

export default defineConfig({
  test: {
    include: [
      'tests/score/**/*.test.ts',
      'tests/instrument/**/*.test.ts',
      'tests/fingering/**/*.test.ts',
      'tests/reference/fingering-{cases,chords,graph}.test.ts',
    ],
    setupFiles: ['tests/mutation/setup.ts'],
    env: { CASE_SHARE: '0.05' },
    // The rooms hold no state: files may share their modules, which saves loading them for each.
    isolate: false,
    // A busy machine must not kill mutants; those that never end are Stryker's business.
    testTimeout: 120_000,
    sequence: { sequencer: QuickFirst },
    // Stryker's copy of the project lies below node_modules, where files would not be transformed.
    server: { deps: { inline: [/\/\.cache\/stryker\//] } },
  },
});
