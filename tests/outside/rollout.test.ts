import { expect, test } from 'vitest';
import { rollouts } from '../../src/days/rollout/rollout.ts';
import { results } from '../../src/results.ts';
import { randomNumbers } from '../random/numbers.ts';
import { faultsOf } from '../random/rollout-check.ts';
import { randomSlab } from '../random/rollout-slabs.ts';

const SLABS = Number(process.env.SLABWRIGHT_SLABS ?? 5000);

test(`${SLABS} random slabs with voids: nobody is trapped, every place is in one bay, and a checker of its own agrees`, () => {
  const random = randomNumbers(11);
  const faults: string[] = [];
  let served = 0;
  let refused = 0;
  for (let n = 0; n < SLABS; n++) {
    const job = randomSlab(random);
    const { takeoff, coating } = results(job);
    const [rollout] = rollouts(job, takeoff, coating);
    if (!rollout) continue;
    if (rollout.problem !== null) {
      refused++;
      expect(rollout.problem).toMatch(/\.$/);
      continue;
    }
    served++;
    const zones = takeoff.zones;
    const corners = job.slabs.a!.corners;
    const exits = zones.flatMap((z) =>
      z.stretches
        .filter((s) => s.side !== null && corners[s.side]!.exit)
        .flatMap((s) => s.runs.flatMap((run) => run.slice(1).map((p, i) => [run[i]!, p] as const))),
    );
    const found = faultsOf(
      zones.flatMap((z) => z.netRings),
      exits,
      rollout,
    );
    if (found.length > 0) faults.push(`slab ${n}: ${found.join('; ')}`);
  }
  expect(faults.slice(0, 5)).toEqual([]);
  expect(served).toBeGreaterThan(0.5 * SLABS);
  expect(refused).toBeGreaterThan(0);
  console.log(`roll-out: ${served} slabs served, ${refused} refused with a sentence`);
}, 900_000);

test('the checker catches an order turned round, a bay left out, and one rolled twice', () => {
  const random = randomNumbers(23);
  let turned = 0;
  let looked = 0;
  while (looked < 20) {
    const job = randomSlab(random);
    const { takeoff, coating } = results(job);
    const [rollout] = rollouts(job, takeoff, coating);
    if (!rollout?.floor || rollout.bays.length < 4) continue;
    looked++;
    const corners = job.slabs.a!.corners;
    const exits = takeoff.zones.flatMap((z) =>
      z.stretches
        .filter((s) => s.side !== null && corners[s.side]!.exit)
        .flatMap((s) => s.runs.flatMap((run) => run.slice(1).map((p, i) => [run[i]!, p] as const))),
    );
    const rings = takeoff.zones.flatMap((z) => z.netRings);
    if (faultsOf(rings, exits, { ...rollout, bays: [...rollout.bays].reverse() }).length > 0) turned++;
    const largest = rollout.bays.reduce((a, b) => (b.areaM2 > a.areaM2 ? b : a));
    const without = rollout.bays.filter((b) => b !== largest);
    expect(faultsOf(rings, exits, { ...rollout, bays: without }).join()).toContain('in no bay');
    const twice = [...rollout.bays, rollout.bays[0]!];
    expect(faultsOf(rings, exits, { ...rollout, bays: twice }).join()).toContain('rolled before');
  }
  // A slab so small that a pole reaches all of it from outside can be rolled in any order.
  expect(turned).toBeGreaterThan(10);
});
