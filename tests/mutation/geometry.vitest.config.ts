import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

/** The quick tests of geometry/, which are what a mutant has to get past. */
export default defineConfig({
  root: fileURLToPath(new URL('../../', import.meta.url)),
  test: {
    include: ['tests/mutation/geometry-tests.ts', 'tests/mutation/fits-tests.ts'],
    env: { SLABWRIGHT_PLANS: '80', SLABWRIGHT_RUNS: '8' },
  },
});
