import { partition, type Ring, ringArea, secondOpinion } from '../../geometry/index.ts';
import { jstsNetArea } from './jsts-area.ts';
import { type RandomPlan, randomPlan } from './plans.ts';
import { scanbeamArea } from './scanbeam.ts';

/** What came of many random plans. */
export interface Tally {
  plans: number;
  /** Net areas further from the reference than the stated bound. */
  wrong: number;
  thrown: number;
  /** Sums over zones or stretches that do not hold. */
  unbalanced: number;
  /** Zones on which the second engine disagreed. */
  disagreed: number;
  /** Plans JSTS answered, and on how many of them it differs from the scanbeam reference. */
  jstsAnswered: number;
  jstsDiffers: number;
  /** Largest difference from the reference, m². */
  largest: number;
  /** The first few plans at fault, as family and index. */
  readonly faults: string[];
}

export const newTally = (): Tally => ({
  plans: 0,
  wrong: 0,
  thrown: 0,
  unbalanced: 0,
  disagreed: 0,
  jstsAnswered: 0,
  jstsDiffers: 0,
  largest: 0,
  faults: [],
});

/** Rounding of doubles at coordinates up to 1e6, and corners that poke less than a cell through a line across them. */
const ROUNDING = 1e-7;

/** Measures one plan and compares it with references that share nothing with it. */
export function comparePlan(seed: number, index: number, tally: Tally): void {
  const random = randomPlan(seed, index);
  tally.plans++;
  const fault = (what: string) => {
    if (tally.faults.length < 10) tally.faults.push(`${what}: seed ${seed}, plan ${index}, ${random.family}`);
  };
  try {
    const made = partition(random.plan);
    if (!made.ok) throw new Error('a finite plan has a partition');
    const { zones, slabs, cell } = made.value;
    const net = slabs[0]!.netArea;
    const reference = netArea(random);
    const off = Math.abs(net - reference);
    const bound =
      ROUNDING + zones.reduce((sum, z) => sum + z.bentArea, 0) + lostBound(zones.length === 0, cell, random);
    tally.largest = Math.max(tally.largest, off);
    if (off > bound) {
      tally.wrong++;
      fault(`off by ${off.toExponential(2)} m², stated bound ${bound.toExponential(2)}`);
    }
    if (zones.some((z) => secondOpinion(z) === 'disagree')) {
      tally.disagreed++;
      fault('the two engines disagree');
    }
    const whole = Math.abs(zones.reduce((sum, z) => sum + z.netArea + z.voidArea, 0) - slabs[0]!.area);
    const around = zones.some(
      (z) => Math.abs(z.stretches.reduce((s, x) => s + x.length, 0) - z.boundary) > 1e-9,
    );
    const outlines = zones.some(
      (z) => Math.abs(z.netOutlines.reduce((s, ring) => s + ringArea(ring), 0) - z.netArea) > ROUNDING,
    );
    if (whole > 1e-9 || around || outlines) {
      tally.unbalanced++;
      fault('sums do not hold');
    }
    const jsts = random.simple ? jstsNetArea(random.plan) : null;
    if (jsts !== null) {
      tally.jstsAnswered++;
      if (Math.abs(jsts - reference) > bound) tally.jstsDiffers++;
    }
  } catch (error) {
    tally.thrown++;
    fault(`threw ${error instanceof Error ? error.message : error}`);
  }
}

function netArea({ plan }: RandomPlan): number {
  return scanbeamArea([...plan.slabs, ...plan.voids], (w) => w[0] !== 0 && w.slice(1).every((n) => n === 0));
}

/** A zone that shrank to nothing on the grid is lost with at most a cell along its outline. */
function lostBound(noZone: boolean, cell: number, { plan }: RandomPlan): number {
  const around = (ring: Ring) =>
    ring.reduce((sum, p, i) => {
      const q = ring[(i + 1) % ring.length]!;
      return sum + Math.hypot(q.x - p.x, q.y - p.y);
    }, 0);
  return noZone ? 2 * cell * around(plan.slabs[0]!) : 0;
}
