/** The tests that mutants must get past: those that speak to the mutated rooms, with fewer random cases. */
import { defineConfig } from 'vitest/config';

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
    isolate: false,
    // Stryker's copy of the project lies below node_modules, where files would not be transformed.
    server: { deps: { inline: [/\/\.cache\/stryker\//] } },
  },
});
