import { describe, expect, test } from 'vitest';
import {
  arcLength,
  arcThrough,
  areaDeviation as areaDeviations,
  bandArea,
  circleRing,
  evenErrors,
  lengthDeviation as lengthDeviations,
  type Partition,
  type Plan,
  type PlanPoint,
  type Point,
  partition,
  type Ring,
  weldRings,
  type Zone,
} from '../../geometry/index.ts';
import { normal, randomNumbers } from '../random/numbers.ts';

const made = (plan: Plan): Partition => {
  const result = partition(plan);
  if (!result.ok) throw new Error('finite');
  return result.value;
};
const rectangle = (w: number, h: number): Ring => [
  { x: 0, y: 0 },
  { x: w, y: 0 },
  { x: w, y: h },
  { x: 0, y: h },
];

type Even = Parameters<typeof evenErrors>[0];
const areaDeviation = (plan: Plan, zones: Partition['zones'], even: Even): number =>
  areaDeviations(plan, zones, evenErrors(even)).own;
const lengthDeviation = (
  plan: Plan,
  zone: Partition['zones'][number],
  stretches: Partition['zones'][number]['stretches'],
  even: Even,
): number => lengthDeviations(plan, zone, stretches, evenErrors(even)).own;

/** Draws of the Monte Carlo check; fewer where only a coarse answer is wanted. */
const DRAWS = process.env.SLABWRIGHT_PLANS ? 300 : 4000;
/** How near they then know a deviation. */
const KNOWN = 2.8 / Math.sqrt(DRAWS);

describe('uncertainty', () => {
  const curved: Plan = {
    slabs: [
      [
        { x: 0, y: 0 },
        { x: 8, y: 0, via: { x: 9.5, y: 2.5 } },
        { x: 8, y: 5 },
        { x: 3, y: 6 },
        { x: 0, y: 4 },
      ],
    ],
    cuts: [
      {
        slab: 0,
        path: [
          { x: 4, y: -1 },
          { x: 4.5, y: 7 },
        ],
      },
    ],
    voids: [
      [
        { x: 1, y: 1 },
        { x: 2, y: 1 },
        { x: 2, y: 2.5 },
        { x: 1, y: 2.5 },
      ],
      // Over the edge, and over the cut.
      [
        { x: 3, y: -0.5 },
        { x: 6, y: -0.5 },
        { x: 6, y: 0.7 },
        { x: 3, y: 0.7 },
      ],
      circleRing({ x: 6.5, y: 3 }, 0.6),
    ],
  };
  const sigma = { slab: 0.01, cut: 0.006, void: 0.004 };

  function shaken(plan: Plan, deviate: () => number): Plan {
    const point = <T extends { x: number; y: number }>(p: T, s: number): T => ({
      ...p,
      x: p.x + s * deviate(),
      y: p.y + s * deviate(),
    });
    const ring = (r: Ring, s: number): Ring =>
      r.map((v) => ({ ...point({ x: v.x, y: v.y }, s), via: v.via ? point(v.via, s) : null }));
    return {
      slabs: plan.slabs.map((r) => ring(r, sigma.slab)),
      cuts: plan.cuts.map((c) => ({ ...c, path: c.path.map((p) => point(p, sigma.cut)) })),
      voids: plan.voids.map((r) => ring(r, sigma.void)),
    };
  }

  test('of a square by its four corners: s·σ·√(…)', () => {
    // By hand from A = ½ Σ x_i (y_{i+1} − y_{i−1}): ∂A/∂x_i = half a diagonal's rise; four corners give σ √(Σ d²/4 · …).
    const plan: Plan = { slabs: [rectangle(8, 5)], cuts: [], voids: [] };
    const { zones } = made(plan);
    const byHand = 0.01 * Math.sqrt((4 * (8 ** 2 + 5 ** 2)) / 4);
    expect(areaDeviation(plan, zones, { slab: 0.01, cut: 0, void: 0 })).toBeCloseTo(byHand, 10);
  });

  test('closed form against shaken plans, zone by zone, with arcs, cuts and voids across them', () => {
    // Monte Carlo as in JCGM 101:2008 (from memory); 4,000 draws know a deviation to 1.1 %.
    const random = randomNumbers(11);
    const deviate = () => normal(random);
    const { zones } = made(curved);
    const key = (z: (typeof zones)[number]) => (z.netRings[0]!.some((p) => p.x < 0.1) ? 'left' : 'right');
    const areas: Record<string, number[]> = { left: [], right: [], all: [] };
    const lengths: Record<string, number[]> = { left: [], right: [] };
    for (let i = 0; i < DRAWS; i++) {
      const drawn = made(shaken(curved, deviate)).zones;
      let all = 0;
      const sums = { left: 0, right: 0 };
      const around = { left: 0, right: 0 };
      for (const z of drawn) {
        const xs = z.netRings[0]!.map((p) => p.x);
        const side = xs.reduce((a, b) => a + b, 0) / xs.length < 4.3 ? 'left' : 'right';
        sums[side] += z.netArea;
        around[side] += z.boundary;
        all += z.netArea;
      }
      areas.left!.push(sums.left);
      areas.right!.push(sums.right);
      areas.all!.push(all);
      lengths.left!.push(around.left);
      lengths.right!.push(around.right);
    }
    const deviation = (xs: readonly number[]) => {
      const mean = xs.reduce((a, b) => a + b, 0) / xs.length;
      return Math.sqrt(xs.reduce((s, x) => s + (x - mean) ** 2, 0) / (xs.length - 1));
    };
    expect(zones).toHaveLength(2);
    for (const z of zones) {
      expect(Math.abs(areaDeviation(curved, [z], sigma) / deviation(areas[key(z)]!) - 1)).toBeLessThan(KNOWN);
    }
    expect(Math.abs(areaDeviation(curved, zones, sigma) / deviation(areas.all!) - 1)).toBeLessThan(KNOWN);
  }, 120_000);

  test('each point by itself: as fast as the area changes when it is moved, arcs and all', () => {
    // Central differences of the areas themselves, which know nothing of the closed form.
    const h = 1e-4;
    const moved = (wanted: PlanPoint, dx: number, dy: number): Plan => {
      const is = (kind: PlanPoint['kind'], index: number, vertex: number, via: boolean) =>
        wanted.kind === kind && wanted.index === index && wanted.vertex === vertex && wanted.via === via;
      const by = <T extends { x: number; y: number }>(p: T, here: boolean): T =>
        here ? { ...p, x: p.x + dx, y: p.y + dy } : p;
      const ring = (kind: 'slab' | 'void') => (r: Ring, index: number) =>
        r.map((v, k) => ({
          ...by(v, is(kind, index, k, false)),
          via: v.via ? by(v.via, is(kind, index, k, true)) : null,
        }));
      return {
        slabs: curved.slabs.map(ring('slab')),
        cuts: curved.cuts.map((c, i) => ({
          ...c,
          path: c.path.map((p, k) => by(p, is('cut', i, k, false))),
        })),
        voids: curved.voids.map(ring('void')),
      };
    };
    const isLeft = (z: Zone) => z.netRings[0]!.some((p) => p.x < 0.1);
    const area = (plan: Plan, left: boolean) => made(plan).zones.find((z) => isLeft(z) === left)!.netArea;
    const points: PlanPoint[] = [];
    const gather = (kind: 'slab' | 'void') => (r: Ring, index: number) => {
      r.forEach((v, vertex) => {
        points.push({ at: v, kind, index, vertex, via: false });
        if (v.via) points.push({ at: v.via, kind, index, vertex, via: true });
      });
    };
    curved.slabs.forEach(gather('slab'));
    curved.voids.forEach(gather('void'));
    curved.cuts[0]!.path.forEach((at, vertex) => {
      points.push({ at, kind: 'cut', index: 0, vertex, via: false });
    });
    const { zones } = made(curved);
    for (const p of points) {
      for (const zone of zones) {
        const slope = (dx: number, dy: number) =>
          (area(moved(p, dx, dy), isLeft(zone)) - area(moved(p, -dx, -dy), isLeft(zone))) / (2 * h);
        const [gx, gy] = [slope(h, 0), slope(0, h)];
        const own = (xx: number, xy: number, yy: number) =>
          areaDeviations(curved, [zone], {
            own: (q) =>
              q.kind === p.kind && q.index === p.index && q.vertex === p.vertex && q.via === p.via
                ? [xx, xy, yy]
                : [0, 0, 0],
            shared: null,
          }).own;
        const name = `${p.kind} ${p.index} ${p.vertex} ${p.via}`;
        expect(own(1, 0, 0), `${name} x`).toBeCloseTo(Math.abs(gx), 5);
        expect(own(0, 0, 1), `${name} y`).toBeCloseTo(Math.abs(gy), 5);
        // And both together, with their signs.
        expect(own(1, 1, 1), `${name} x + y`).toBeCloseTo(Math.abs(gx + gy), 5);
      }
    }
  });

  test('of an arc’s length, as fast as it changes when one of its three points is moved', () => {
    const arcPlan = (a: Point, via: Point, b: Point): Plan => ({
      slabs: [[{ ...a, via }, b, { x: 2, y: -3 }]],
      cuts: [],
      voids: [],
    });
    const start = { a: { x: 5, y: 1 }, via: { x: 4, y: 3 }, b: { x: 0, y: 2 } };
    const plan = arcPlan(start.a, start.via, start.b);
    const zone = made(plan).zones[0]!;
    const arc = zone.stretches.filter((s) => s.cause.kind === 'side' && s.cause.side === 0);
    const length = (p: typeof start) => arcLength(arcThrough(p.a, p.via, p.b)!);
    const h = 1e-5;
    for (const [name, vertex, via] of [
      ['a', 0, false],
      ['via', 0, true],
      ['b', 1, false],
    ] as const) {
      const slope = (dx: number, dy: number) => {
        const at = (s: number) =>
          length({ ...start, [name]: { x: start[name].x + s * dx, y: start[name].y + s * dy } });
        return (at(h) - at(-h)) / (2 * h);
      };
      const own = (xx: number, xy: number, yy: number) =>
        lengthDeviations(plan, zone, arc, {
          own: (q) => (q.vertex === vertex && q.via === via ? [xx, xy, yy] : [0, 0, 0]),
          shared: null,
        }).own;
      expect(own(1, 0, 0), name).toBeCloseTo(Math.abs(slope(1, 0)), 5);
      expect(own(0, 0, 1), name).toBeCloseTo(Math.abs(slope(0, 1)), 5);
      expect(own(1, 1, 1), name).toBeCloseTo(Math.abs(slope(1, 1)), 5);
    }
  });

  test('of lengths: a straight side between two corners, and a whole circle', () => {
    const plan: Plan = { slabs: [rectangle(8, 5)], cuts: [], voids: [circleRing({ x: 4, y: 2 }, 0.5)] };
    const zone = made(plan).zones[0]!;
    const side = zone.stretches.filter((s) => s.cause.kind === 'side' && s.cause.side === 0);
    expect(lengthDeviation(plan, zone, side, { slab: 0.01, cut: 0, void: 0 })).toBeCloseTo(
      0.01 * Math.SQRT2,
      10,
    );
    // Adjoining sides at a right angle share a corner but no direction there; all four: each corner is pulled twice.
    const all = zone.stretches.filter((s) => s.cause.kind === 'side');
    expect(lengthDeviation(plan, zone, all, { slab: 0.01, cut: 0, void: 0 })).toBeCloseTo(
      0.01 * Math.sqrt(8),
      10,
    );
    const round = zone.stretches.filter((s) => s.cause.kind === 'void');
    const u = lengthDeviation(plan, zone, round, { slab: 0, cut: 0, void: 0.002 });
    expect(u).toBeGreaterThan(0.002 * 2);
    expect(u).toBeLessThan(0.002 * 8);
  });
});

describe('the band that a brush covers', () => {
  const whole = (ring: Ring): Ring[] => [ring];
  const runs = (plan: Plan) => made(plan).zones[0]!.stretches.flatMap((s) => s.runs);

  test('round a rectangle: L·w·2 + W·w·2 − 4w²; corners counted once', () => {
    const plan: Plan = { slabs: [rectangle(6, 4)], cuts: [], voids: [] };
    expect(bandArea(whole(plan.slabs[0]!), runs(plan), 0.1)).toBeCloseTo(
      2 * 6 * 0.1 + 2 * 4 * 0.1 - 4 * 0.01,
      6,
    );
    expect(bandArea(whole(plan.slabs[0]!), runs(plan), 0)).toBe(0);
  });

  test('wider than the slab: all of it, no more', () => {
    const plan: Plan = { slabs: [rectangle(6, 0.3)], cuts: [], voids: [] };
    expect(bandArea(whole(plan.slabs[0]!), runs(plan), 0.2)).toBeCloseTo(1.8, 6);
  });

  test('about a square post: four strips and four quarter circles (Steiner: P·w + π·w²)', () => {
    const post: Ring = [
      { x: 3, y: 2 },
      { x: 3.2, y: 2 },
      { x: 3.2, y: 2.2 },
      { x: 3, y: 2.2 },
    ];
    const plan: Plan = { slabs: [rectangle(6, 4)], cuts: [], voids: [post] };
    const zone = made(plan).zones[0]!;
    const around = zone.stretches.filter((s) => s.cause.kind === 'void').flatMap((s) => s.runs);
    expect(bandArea(zone.netRings, around, 0.1)).toBeCloseTo(0.8 * 0.1 + Math.PI * 0.01, 6);
  });

  test('about a round pit: the ring π((r + w)² − r²), to the flattening of its edge', () => {
    const plan: Plan = { slabs: [rectangle(6, 4)], cuts: [], voids: [circleRing({ x: 3, y: 2 }, 0.5)] };
    const zone = made(plan).zones[0]!;
    const around = zone.stretches.filter((s) => s.cause.kind === 'void').flatMap((s) => s.runs);
    const exact = Math.PI * (0.6 ** 2 - 0.5 ** 2);
    expect(Math.abs(bandArea(zone.netRings, around, 0.1) - exact)).toBeLessThan(0.002 * exact);
  });
});

describe('sides traced twice by eye', () => {
  /** Two slabs along one winding line of 13 corners, each tracing it with its own error; and what they truly share. */
  function traced(error: number, seed: number): { plan: Plan; shared: number } {
    const random = randomNumbers(seed);
    const deviate = () => normal(random);
    const line = Array.from({ length: 13 }, (_, i) => ({ x: i, y: 5 + Math.sin(i) * 0.8 }));
    const shaken = () => line.map((p) => ({ x: p.x + error * deviate(), y: p.y + error * deviate() }));
    const shared = line.slice(1).reduce((s, p, i) => s + Math.hypot(p.x - line[i]!.x, p.y - line[i]!.y), 0);
    const below: Ring = [{ x: 0, y: 0 }, { x: 12, y: 0 }, ...shaken().reverse()];
    const above: Ring = [...shaken(), { x: 12, y: 10 }, { x: 0, y: 10 }];
    return { plan: { slabs: [below, above], cuts: [], voids: [], weld: 5 * error }, shared };
  }

  const misattributed = (plan: Plan, shared: number): number => {
    const zones = made(plan).zones;
    const along = zones.flatMap((z) => z.stretches.filter((s) => s.cause.kind === 'slab'));
    return Math.abs(1 - along.reduce((s, x) => s + x.length, 0) / (2 * shared));
  };

  test.each([
    [0.001, 0.01],
    [0.005, 0.03],
  ])(
    'with an error of %f m at each corner, little of the shared line goes to the wrong cause',
    (error, most) => {
      let worst = 0;
      let without = 0;
      for (let seed = 1; seed <= 40; seed++) {
        const { plan, shared } = traced(error, seed);
        worst += misattributed(plan, shared) / 40;
        without += misattributed({ ...plan, weld: 0 }, shared) / 40;
      }
      expect(worst).toBeLessThan(most);
      // Without welding the two lines cross at random, and most of what they share is lost.
      expect(without).toBeGreaterThan(0.3);
    },
  );

  test('the first of two outlines stays where it is, and sides keep their numbers', () => {
    const first = rectangle(4, 4);
    const second: Ring = [
      { x: 4.002, y: 0.001 },
      { x: 8, y: 0 },
      { x: 8, y: 6 },
      { x: 3.999, y: 6 },
    ];
    const [a, b] = weldRings([first, second], 0.005);
    expect(a!.ring).toBe(first);
    expect(b!.ring[0]).toMatchObject({ x: 4, y: 0 });
    // Led through the first slab's corner at (4, 4), on its own last side.
    expect(b!.sides).toEqual([0, 1, 2, 3, 3]);
    expect(b!.ring[4]).toMatchObject({ x: 4, y: 4 });
    expect(weldRings([first, second], 0)[1]!.ring).toBe(second);
  });
});
