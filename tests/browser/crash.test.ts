import { expect, test } from 'vitest';
import { crash } from '../crash/crash.ts';

const ROUNDS = Number(process.env.SLABWRIGHT_KILLS ?? 100);

test(`${ROUNDS} kills at random moments, and stores damaged by them, lose no more than the last step, and the way back is there`, async () => {
  const tally = await crash(ROUNDS, console.log);
  expect(tally.lost).toBe(0);
  expect(tally.rounds).toBe(ROUNDS);
  // The stores that were damaged on purpose were thrown away, and came back from the second.
  if (ROUNDS >= 40) expect(tally.thrownAway).toBeGreaterThan(0);
  expect(tally.steps).toBeGreaterThan(ROUNDS);
}, 900_000);
