import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  circleRing,
  type Partition,
  type Plan,
  type Point,
  partition,
  type Ring,
  rectangleRing,
  ringArea,
  ringLength,
  secondOpinion,
} from '../../geometry/index.ts';

/** Fewer plans where the same is asked many times over. */
const RUNS = process.env.SLABWRIGHT_RUNS ? Number(process.env.SLABWRIGHT_RUNS) : null;

const coordinate = fc.integer({ min: 0, max: 2000 }).map((n) => n / 100);
const point: fc.Arbitrary<Point> = fc.record({ x: coordinate, y: coordinate });

/** A star-shaped outline about (10, 10): simple whatever the radii; some sides bulge a little outward or inward. */
const outline: fc.Arbitrary<Ring> = fc
  .array(fc.record({ r: fc.integer({ min: 30, max: 100 }), bend: fc.integer({ min: -8, max: 8 }) }), {
    minLength: 3,
    maxLength: 12,
  })
  .map((spokes) => {
    const at = (k: number): Point => {
      const angle = (2 * Math.PI * k) / spokes.length;
      const r = spokes[k % spokes.length]!.r / 10;
      return { x: 10 + r * Math.cos(angle), y: 10 + r * Math.sin(angle) };
    };
    return spokes.map(({ bend }, k) => {
      const a = at(k);
      const b = at(k + 1);
      const d = { x: b.x - a.x, y: b.y - a.y };
      const via = { x: (a.x + b.x) / 2 + (d.y * bend) / 100, y: (a.y + b.y) / 2 - (d.x * bend) / 100 };
      return bend === 0 ? a : { ...a, via };
    });
  });

const aVoid: fc.Arbitrary<Ring> = fc.oneof(
  fc.record({ c: point, r: fc.integer({ min: 2, max: 300 }) }).map(({ c, r }) => circleRing(c, r / 100)),
  fc
    .record({
      c: point,
      l: fc.integer({ min: 2, max: 800 }),
      w: fc.integer({ min: 2, max: 300 }),
      turn: fc.integer({ min: 0, max: 7 }),
    })
    .map(({ c, l, w, turn }) => rectangleRing(c, l / 100, w / 100, (turn * Math.PI) / 8)),
  fc.array(point, { minLength: 3, maxLength: 7 }),
);

const plan: fc.Arbitrary<Plan> = fc.record({
  slabs: fc.array(outline, { minLength: 1, maxLength: 2 }),
  cuts: fc.array(fc.record({ slab: fc.constant(0), path: fc.array(point, { minLength: 2, maxLength: 4 }) }), {
    maxLength: 3,
  }),
  voids: fc.array(aVoid, { maxLength: 5 }),
});

function made(p: Plan): Partition {
  const result = partition(p);
  if (!result.ok) throw new Error('a finite plan has a partition');
  return result.value;
}

const close = (a: number, b: number, scale: number) =>
  expect(Math.abs(a - b)).toBeLessThanOrEqual(1e-9 * scale);
const sum = (numbers: readonly number[]) => numbers.reduce((a, b) => a + b, 0);

describe('for any plan', () => {
  test('zones and what is taken out of them add up to the slab', () => {
    fc.assert(
      fc.property(plan, (p) => {
        const { zones, slabs } = made(p);
        slabs.forEach((slab, s) => {
          const mine = zones.filter((z) => z.slab === s);
          close(sum(mine.map((z) => z.netArea)) + sum(mine.map((z) => z.voidArea)), slab.area, slab.area);
          for (const z of mine) close(z.netArea + z.voidArea, z.faceArea, slab.area);
        });
      }),
      { numRuns: RUNS ?? 400, seed: 1 },
    );
  });

  test('a slab alone has the area of its outline, arcs and all, within what the grid may bend', () => {
    fc.assert(
      fc.property(plan, (p) => {
        const { slabs, cell } = made(p);
        p.slabs.forEach((ring, s) => {
          const drawn = Math.abs(ringArea(ring));
          // Each line may be bent by a cell where others come close; 200 m of lines is more than any plan here has.
          expect(Math.abs(slabs[s]!.area - drawn)).toBeLessThanOrEqual(cell * 200);
        });
      }),
      { numRuns: RUNS ?? 400, seed: 2 },
    );
  });

  test('stretches add up to the boundary, and what two zones share is one length', () => {
    fc.assert(
      fc.property(plan, (p) => {
        const { zones } = made(p);
        const shared = (from: number, to: number) =>
          sum(
            zones[from]!.stretches.filter((s) => s.cause.kind === 'cut' && s.cause.zone === to).map(
              (s) => s.length,
            ),
          );
        zones.forEach((zone, i) => {
          close(sum(zone.stretches.map((s) => s.length)), zone.boundary, zone.boundary + 1);
          zones.forEach((_, j) => {
            close(shared(i, j), shared(j, i), 100);
          });
        });
      }),
      { numRuns: RUNS ?? 300, seed: 3 },
    );
  });

  test('outlines with their arcs enclose the net area and are as long as the boundary', () => {
    fc.assert(
      fc.property(plan, (p) => {
        const { zones, cell } = made(p);
        for (const z of zones) {
          close(sum(z.netOutlines.map((ring) => ringArea(ring))), z.netArea, 100);
          // An arc that the grid has bent is measured by the angle it turns; its three points tell it to a cell.
          const bent = z.bentArea > 0 ? 8 * cell : 0;
          const around = sum(z.netOutlines.map((ring) => ringLength(ring)));
          expect(Math.abs(around - z.boundary)).toBeLessThanOrEqual(1e-7 + bent);
        }
      }),
      { numRuns: RUNS ?? 400, seed: 7 },
    );
  });

  test('an engine that shares no code comes to the same net areas', () => {
    fc.assert(
      fc.property(plan, (p) => {
        const result = made(p);
        for (const zone of result.zones) expect(secondOpinion(zone)).toBe('agree');
      }),
      { numRuns: RUNS ?? 300, seed: 4 },
    );
  });

  test('moving everything by whole cells changes nothing, turning it the other way round neither', () => {
    fc.assert(
      fc.property(plan, (p) => {
        const shift = <P extends Point>(q: P): P => ({ ...q, x: q.x + 512, y: q.y - 256 });
        const shiftRing = (ring: Ring): Ring =>
          ring.map((v) => ({ ...shift(v), via: v.via ? shift(v.via) : null }));
        const there = made({
          slabs: p.slabs.map(shiftRing),
          cuts: p.cuts.map((c) => ({ ...c, path: c.path.map(shift) })),
          voids: p.voids.map(shiftRing),
        });
        const here = made(p);
        const nets = (r: Partition) => r.slabs.map((s) => s.netArea);
        nets(here).forEach((area, s) => {
          expect(Math.abs(nets(there)[s]! - area)).toBeLessThan(1e-3);
        });
      }),
      { numRuns: RUNS ?? 150, seed: 5 },
    );
  });
});
