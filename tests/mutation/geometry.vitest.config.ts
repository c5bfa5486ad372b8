import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

/** The quick tests of geometry/, which are what a mutant has to get past. */
export default defineConfig({
  root: fileURLToPath(new URL('../../', import.meta.url)),
  test: {
    include: [
      'tests/geometry/*.test.ts',
      'tests/outside/geometry.test.ts',
      'tests/outside/differential.test.ts',
      'tests/properties/partition.test.ts',
    ],
    env: { SLABWRIGHT_PLANS: '240', SLABWRIGHT_RUNS: '12' },
  },
});
