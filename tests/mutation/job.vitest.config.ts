import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

/** The quick tests of the job, the takeoff and the coating, which are what a mutant has to get past. */
export default defineConfig({
  root: fileURLToPath(new URL('../../', import.meta.url)),
  test: {
    include: [
      'tests/job/*.test.ts',
      'tests/takeoff/{takeoff,fits}.test.ts',
      'tests/coating/*.test.ts',
      'tests/properties/{edits,fits,histories}.test.ts',
      'tests/outside/{coating,measuring}.test.ts',
      'tests/golden.test.ts',
    ],
    env: { SLABWRIGHT_PLANS: '20', SLABWRIGHT_RUNS: '1', SLABWRIGHT_STEPS: '300' },
  },
});
