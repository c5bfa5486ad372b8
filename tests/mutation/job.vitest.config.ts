import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

/** The quick tests of each room, which are what its mutants have to get past; `ROOM` names one to look at it alone. */
const TESTS = {
  job: [
    'tests/{job,board}/*.test.ts',
    'tests/takeoff/{takeoff,fits,tape-figure}.test.ts',
    'tests/properties/{edits,histories}.test.ts',
  ],
  takeoff: [
    'tests/takeoff/{takeoff,zones,memory,fits,fit-errors,tape-figure}.test.ts',
    'tests/golden.test.ts',
    'tests/properties/fits.test.ts',
    'tests/outside/measuring.test.ts',
  ],
  coating: ['tests/coating/*.test.ts', 'tests/outside/coating.test.ts'],
};
const room = process.env.ROOM as keyof typeof TESTS | undefined;

export default defineConfig({
  root: fileURLToPath(new URL('../../', import.meta.url)),
  test: {
    include: room ? TESTS[room] : Object.values(TESTS).flat(),
    env: { SLABWRIGHT_PLANS: '20', SLABWRIGHT_RUNS: '1', SLABWRIGHT_STEPS: '300' },
  },
});
