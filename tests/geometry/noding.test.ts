import { describe, expect, test } from 'vitest';
import { circleRing, type Plan, type Ring, ringArea } from '../../geometry/index.ts';
import { type Noded, nodeSegments } from '../../geometry/noding.ts';
import { randomNumbers } from '../random/numbers.ts';
import { box, line, made } from './made.ts';

type Cell = readonly [number, number];
type Segment = readonly [Cell, Cell];

/** Nodes segments, each with two slots of its own. */
function noded(segments: readonly Segment[]): Noded & { readonly chain: (i: number) => Cell[] } {
  const points = segments.flat();
  const column = (of: (i: number) => number, length = points.length) =>
    Int32Array.from({ length }, (_, i) => of(i));
  const result = nodeSegments(
    column((i) => 2 * i, segments.length),
    column((i) => i ^ 1),
    column((i) => points[i]![0]),
    column((i) => points[i]![1]),
  );
  const { x, y, chains, first } = result;
  return { ...result, chain: (i) => chains.slice(first[i]!, first[i + 1]!).map((v) => [x[v]!, y[v]!]) };
}

/** Whether a segment comes into the half-open cell about c, by the times at which it is between each pair of its sides; exact. */
function entersCell([[ax, ay], [bx, by]]: Segment, [cx, cy]: Cell): boolean {
  // Times as fractions n/d of the way, and whether that moment itself is left out.
  let low = { n: 0, d: 1, open: false };
  let high = { n: 1, d: 1, open: false };
  for (const [p, q] of [
    [2 * (ax - cx), 2 * (bx - cx)],
    [2 * (ay - cy), 2 * (by - cy)],
  ] as const) {
    const d = q - p;
    if (d === 0) {
      if (p < -1 || p >= 1) return false;
      continue;
    }
    // −1 ≤ p + t·d < 1.
    const size = Math.abs(d);
    const closed = { n: d > 0 ? -1 - p : p + 1, d: size, open: false };
    const open = { n: d > 0 ? 1 - p : p - 1, d: size, open: true };
    const [from, to] = d > 0 ? [closed, open] : [open, closed];
    const later = from.n * low.d - low.n * from.d;
    if (later > 0 || (later === 0 && from.open)) low = from;
    const sooner = to.n * high.d - high.n * to.d;
    if (sooner < 0 || (sooner === 0 && to.open)) high = to;
  }
  const room = high.n * low.d - low.n * high.d;
  return room > 0 || (room === 0 && !low.open && !high.open);
}

/** Twice the area of a triangle of cells, exact. */
const turn = ([ax, ay]: Cell, [bx, by]: Cell, [cx, cy]: Cell): bigint =>
  BigInt(bx - ax) * BigInt(cy - ay) - BigInt(by - ay) * BigInt(cx - ax);

const crosses = ([a, b]: Segment, [c, d]: Segment): boolean => {
  const [p, q, r, s] = [turn(a, b, c), turn(a, b, d), turn(c, d, a), turn(c, d, b)];
  return ((p > 0n && q < 0n) || (p < 0n && q > 0n)) && ((r > 0n && s < 0n) || (r < 0n && s > 0n));
};

const apart = ([a, b]: Segment, [c, d]: Segment, by: number): boolean =>
  [0, 1].some(
    (k) =>
      Math.min(a[k]!, b[k]!) - by > Math.max(c[k]!, d[k]!) ||
      Math.min(c[k]!, d[k]!) - by > Math.max(a[k]!, b[k]!),
  );

/** What is the matter with noded segments, by the definition of snap rounding; nothing when all is well. */
function faults(segments: readonly Segment[]): string[] {
  const found: string[] = [];
  const result = noded(segments);
  const chains = segments.map((_, i) => result.chain(i));
  const key = (c: Cell) => `${c[0]} ${c[1]}`;
  const vertices = result.x.map((x, v): Cell => [x, result.y[v]!]);
  if (new Set(vertices.map(key)).size !== vertices.length) found.push('a vertex twice');
  const pieces = new Map<string, Segment>();
  chains.forEach((chain, i) => {
    const [a, b] = segments[i]!;
    if (key(chain[0]!) !== key(a) || key(chain[chain.length - 1]!) !== key(b))
      found.push(`${i}: another end`);
    if (key(a) === key(b) && chain.length !== 1) found.push(`${i}: a point is no piece`);
    for (let k = 1; k < chain.length; k++) {
      const ends = [chain[k - 1]!, chain[k]!];
      if (key(ends[0]!) === key(ends[1]!)) found.push(`${i}: a piece of no length`);
      pieces.set(ends.map(key).sort().join(' '), [ends[0]!, ends[1]!]);
    }
  });
  const all = [...pieces.values()];
  const run = new Set(chains.flat().map(key));
  for (const v of vertices) if (!run.has(key(v))) found.push(`nothing runs through ${v}`);
  all.forEach((p, i) => {
    for (const q of all.slice(i + 1)) if (!apart(p, q, 0) && crosses(p, q)) found.push(`${p} crosses ${q}`);
    for (const v of vertices) {
      if (key(v) === key(p[0]) || key(v) === key(p[1]) || apart(p, [v, v], 1)) continue;
      if (entersCell(p, v)) found.push(`${p} enters ${v}`);
    }
  });
  // Where two of the segments cross both run through one vertex, in the cell of the crossing.
  segments.forEach((p, i) => {
    segments.slice(i + 1).forEach((q, n) => {
      if (apart(p, q, 0) || !crosses(p, q)) return;
      const [[a, b], [c, d]] = [p, q];
      const t = Number(turn(a, b, c)) / Number(turn(a, b, c) - turn(a, b, d));
      const at = [c[0] + (d[0] - c[0]) * t, c[1] + (d[1] - c[1]) * t];
      const near = (v: Cell) => Math.max(Math.abs(v[0] - at[0]!), Math.abs(v[1] - at[1]!)) <= 0.5 + 1e-6;
      const shared = new Set(chains[i + 1 + n]!.filter(near).map(key));
      if (!chains[i]!.some((v) => shared.has(key(v)))) found.push(`${p} and ${q} do not meet`);
    });
  });
  return found;
}

function randomSegments(seed: number, count: number, reach: number, longest = reach): Segment[] {
  const random = randomNumbers(seed);
  const whole = (low: number, high: number) => low + Math.floor(random() * (high - low + 1));
  return Array.from({ length: count }, () => {
    const a: Cell = [whole(-reach, reach), whole(-reach, reach)];
    return [a, [a[0] + whole(-longest, longest), a[1] + whole(-longest, longest)]];
  });
}

// Hobby, Practical segment intersection with finite precision output (1999), and Guibas and Marimont (1998), from memory.
// The checks are by definition and in whole numbers, with nothing of ours in them.
describe('snap rounding', () => {
  test('a segment runs through a point of which it enters the cell, and through no other: every one of 81 by 81', () => {
    const near = Array.from({ length: 81 }, (_, i): Cell => [(i % 9) - 4, Math.floor(i / 9) - 4]);
    for (const a of near) {
      for (const b of near) {
        const through = noded([
          [a, b],
          [
            [0, 0],
            [0, 0],
          ],
        ])
          .chain(0)
          .some(([x, y]) => x === 0 && y === 0);
        if (through !== entersCell([a, b], [0, 0])) expect.fail(`${a} to ${b}: ${through}`);
      }
    }
  });

  test.each([
    ['dense', 12, 12, 12, 150],
    ['steep and flat', 20, 200, 200, 40],
    ['short', 120, 100, 12, 15],
  ])(
    '%s segments meet at vertices only, and go through all they should',
    (_, count, reach, longest, plans) => {
      for (let seed = 1; seed <= plans; seed++) {
        expect(faults(randomSegments(seed, count, reach, longest))).toEqual([]);
      }
    },
  );

  test('so do more than an index pays for, and those of the largest grid', () => {
    expect(faults(randomSegments(5, 260, 900, 160))).toEqual([]);
    expect(faults(randomSegments(6, 60, 2 ** 22, 2 ** 22))).toEqual([]);
    // Nearly parallel lines from far off, that come within a few cells of each other for a long way.
    const random = randomNumbers(9);
    const sheaf = Array.from(
      { length: 40 },
      (): Segment => [
        [-4e6, Math.floor(40 * random())],
        [4e6, Math.floor(40 * random())],
      ],
    );
    expect(faults(sheaf)).toEqual([]);
  });

  test('rounds are as many as something moves in, and one to see that nothing does', () => {
    const cross: Segment[] = [
      [
        [0, 0],
        [10, 10],
      ],
      [
        [0, 10],
        [10, 0],
      ],
    ];
    expect(noded(cross).rounds).toBe(2);
    expect(noded(cross).chain(0)).toEqual([
      [0, 0],
      [5, 5],
      [10, 10],
    ]);
    expect(noded(cross.slice(1)).rounds).toBe(1);
    // Touching end to end is no crossing.
    const corner = noded([
      [
        [0, 0],
        [4, 0],
      ],
      [
        [4, 0],
        [4, 4],
      ],
    ]);
    expect(corner.rounds).toBe(1);
    expect(corner.x).toHaveLength(3);
    // Through several vertices, in order, from either end.
    const rail: Segment = [
      [0, 0],
      [20, 0],
    ];
    const posts = [15, 3, 9].map(
      (x): Segment => [
        [x, 0],
        [x, 5],
      ],
    );
    expect(
      noded([rail, ...posts])
        .chain(0)
        .map(([x]) => x),
    ).toEqual([0, 3, 9, 15, 20]);
    expect(
      noded([[rail[1], rail[0]], ...posts])
        .chain(0)
        .map(([x]) => x),
    ).toEqual([20, 15, 9, 3, 0]);
  });
});

describe('which face is around what', () => {
  const net = (plan: Plan): number => made(plan).zones.reduce((sum, z) => sum + z.netArea, 0);

  test('more voids than are looked at one by one: an index finds the same', () => {
    // 15 × 15 posts of eight corners in bays of a metre; none touches another.
    const posts: Ring[] = Array.from({ length: 225 }, (_, i) =>
      Array.from({ length: 8 }, (_c, k) => ({
        x: (i % 15) + 0.5 + 0.3 * Math.cos((k * Math.PI) / 4),
        y: Math.floor(i / 15) + 0.5 + 0.3 * Math.sin((k * Math.PI) / 4),
      })),
    );
    const each = Math.abs(ringArea(posts[0]!));
    const { zones } = made({ slabs: [box(0, 0, 15, 15)], cuts: [], voids: posts });
    expect(zones).toHaveLength(1);
    expect(zones[0]!.netArea).toBeCloseTo(225 - 225 * each, 9);
    expect(zones[0]!.voids).toHaveLength(225);
    // A ring of them within a ring: each void on its own slab.
    const inner = [box(2, 2, 13, 13), box(4, 4, 11, 11)];
    const nested = made({ slabs: [box(0, 0, 15, 15), ...inner], cuts: [], voids: posts });
    expect(nested.slabs.map((s) => Math.round(s.netArea * 1e6))).toEqual(
      [15, 11, 7].map((side) => Math.round((side * side - side * side * each) * 1e6)),
    );
  });

  test.each([false, true])('rings within rings, whichever way they were drawn (%s)', (backwards) => {
    const way = (r: Ring): Ring => (backwards ? [...r].reverse() : r);
    const rings = [6, 5, 4, 3, 2, 1].map((r) => way(box(-r, -r, r, r)));
    // Voids and slabs in turn: what is left is the outermost frame, as a void covers all within it.
    expect(net({ slabs: [rings[0]!], cuts: [], voids: [rings[1]!, rings[3]!] })).toBeCloseTo(144 - 100, 9);
    const all = made({ slabs: rings, cuts: [], voids: [] });
    expect(all.slabs.map((s) => s.area)).toEqual([144, 100, 64, 36, 16, 4]);
  });

  test.each([
    ['beside the lowest point of another void', line([2, 1], [3, 3], [1, 3])],
    ['the same drawn clockwise', line([2, 1], [1, 3], [3, 3])],
    ['beside the highest point', line([2, 1], [1, -0.5], [3, -0.5])],
    ['level with a side', line([1, 1], [3, 1], [3, 3])],
    ['level with a corner that points left', line([1, 1], [3, 0.2], [3, 2])],
    ['level with a corner that points right', line([3, 1], [1, 2], [1, 0.2])],
    ['beside two lines that rise from one point', line([2, 1], [2.5, 3], [2.2, 3])],
    ['the same, leaning left', line([2, 1], [1.5, 3], [1.2, 3])],
    // Needles a cell or two wide: their sides cross the row above the foot less than a thousandth of a cell apart.
    ['just above the foot of a needle', line([2, 1 - 2 ** -14], [2 + 2 ** -14, 1.5], [2 - 2 ** -14, 1.5])],
    ['just below the point of a needle', line([2, 1 + 2 ** -14], [2 - 2 ** -14, 0.5], [2 + 2 ** -14, 0.5])],
    ['just above the foot of one that leans right', line([2, 1 - 2 ** -14], [2 + 2 ** -14, 1.5], [2, 1.5])],
    ['just above the foot of one that leans left', line([2, 1 - 2 ** -14], [2, 1.5], [2 - 2 ** -14, 1.5])],
  ])('a void stands %s, and on the slab', (_, other) => {
    const own = line([5, 1], [6, 1], [6, 2], [5, 2]);
    const corner = line([5, 1], [6, 0.5], [6, 1.5]);
    const slab = box(0, -1, 8, 4);
    for (const second of [own, corner, [...own].reverse()]) {
      const gone = Math.abs(ringArea(other)) + Math.abs(ringArea(second));
      expect(net({ slabs: [slab], cuts: [], voids: [other, second] })).toBeCloseTo(40 - gone, 6);
      expect(net({ slabs: [slab], cuts: [], voids: [second, other] })).toBeCloseTo(40 - gone, 6);
      // As a slab of its own it shows whether it was thought to lie in the void.
      for (const [slabs, gap] of [
        [[second, slab], other],
        [[slab, second], other],
        [
          [slab, second],
          [other[other.length - 1]!, ...other.slice(0, -1)],
        ],
      ] as const) {
        const on = made({ slabs, cuts: [], voids: [gap] });
        expect(on.slabs[slabs.indexOf(second)]!.netArea).toBeCloseTo(Math.abs(ringArea(second)), 6);
      }
    }
  });

  test('what leans is to the left of a place where it is on its row, not where its foot is', () => {
    const post = box(8.5, 4.8, 9, 5.2);
    const areas = (slabs: readonly Ring[]) =>
      made({ slabs, cuts: [], voids: [post] }).slabs.map((s) => s.netArea);
    const leaningRight = line([0, 0], [20, 0], [20, 10], [10, 10]);
    const apart = box(-6, 2, -4, 8);
    const leaningLeft = line([10, 0], [20, 0], [20, 10], [0, 10]);
    const within = box(8, 4, 14, 6.5);
    for (const [first, second, left] of [
      [leaningRight, apart, [150 - 0.2, 12]],
      [apart, leaningRight, [12, 150 - 0.2]],
      [leaningLeft, within, [150 - 0.2, 15 - 0.2]],
      [within, leaningLeft, [15 - 0.2, 150 - 0.2]],
    ] as const) {
      expect(areas([first, second])).toEqual(left.map((area) => expect.closeTo(area, 9)));
    }
  });

  test('a void stands in the bend of others that were drawn from far to its right', () => {
    // Three that overlap make one outline, whose first corner is at the right end of an arm over the fourth.
    const bend = [box(14, 10, 17, 15), box(3, 12, 16, 14), box(2, 2, 4, 14)];
    const gone = 15 + 26 + 24 - 4 - 2;
    for (const own of [box(6, 5, 8, 7), line([6, 5], [8, 5], [8, 7])]) {
      const size = Math.abs(ringArea(own));
      for (const voids of [
        [...bend, own],
        [own, ...bend],
      ]) {
        expect(net({ slabs: [box(0, 0, 20, 20)], cuts: [], voids })).toBeCloseTo(400 - gone - size, 9);
      }
      // Beside each other on nothing at all, and one of them inside a slab of its own.
      const beside = made({ slabs: [...bend, own], cuts: [], voids: [] });
      expect(beside.slabs[3]!.netArea).toBeCloseTo(size, 9);
      expect(beside.overlaps).toHaveLength(2);
    }
  });

  test('voids one above the other, leftmost at the same place', () => {
    const column = [0, 1, 2, 3].map((k) => line([2, 2 * k + 0.5], [3, 2 * k], [3, 2 * k + 1]));
    const { zones } = made({ slabs: [box(0, -1, 8, 8)], cuts: [], voids: column });
    expect(zones[0]!.netArea).toBeCloseTo(72 - 4 * 0.5, 9);
    // Two leftmost points of one void, one above the other, with another to the left between them.
    const fork = line([4, 1], [7, 1], [7, 5], [4, 5], [6, 3]);
    const between = box(1, 2.5, 2, 3.5);
    expect(net({ slabs: [box(0, 0, 8, 8)], cuts: [], voids: [fork, between] })).toBeCloseTo(64 - 8 - 1, 9);
  });

  test('a slab a kilometre across, whose sums are too large for plain numbers, is inside its outline', () => {
    const corners = (n: number, r: number): Ring =>
      Array.from({ length: n }, (_, i) => ({
        x: r * Math.cos((2 * Math.PI * (i + 0.3)) / n),
        y: r * Math.sin((2 * Math.PI * (i + 0.3)) / n),
      }));
    for (const turned of [false, true]) {
      const round = turned ? [...corners(900, 510)].reverse() : corners(900, 510);
      const area = Math.abs(ringArea(round));
      const inner = corners(600, 400);
      const plan: Plan = {
        slabs: [round],
        cuts: [{ slab: 0, path: line([-511, 0.5], [511, 0.5]) }],
        voids: [circleRing({ x: 100, y: 100 }, 50), [...inner].reverse()],
      };
      const { zones, slabs } = made(plan);
      expect(slabs[0]!.area / area).toBeCloseTo(1, 12);
      expect(zones).toHaveLength(2);
      expect(slabs[0]!.netArea / (area - ringArea(inner))).toBeCloseTo(1, 9);
    }
  });

  test('around a corner where many lines meet they follow each other as they stand, counter-clockwise', () => {
    // Sectors of a wheel: each zone is a slice between two spokes.
    const spokes = [0, 1, 2, 3, 4, 5, 6, 7].map((k) => {
      const angle = (k * Math.PI) / 4;
      return { slab: 0, path: line([0, 0], [9 * Math.cos(angle), 9 * Math.sin(angle)]) };
    });
    for (const cuts of [spokes, [...spokes].reverse()]) {
      const { zones } = made({ slabs: [box(-4, -4, 4, 4)], cuts, voids: [] });
      expect(zones.map((z) => z.netArea)).toEqual(new Array(8).fill(expect.closeTo(8, 9)));
    }
    // In any order, and with lines a hair apart in direction.
    const thin = [0, 1e-3, 0.5, 2, 2.001, -1, -3].map((angle) => ({
      slab: 0,
      path: line([9 * Math.cos(angle), 9 * Math.sin(angle)], [0, 0]),
    }));
    const slices = made({ slabs: [box(-4, -4, 4, 4)], cuts: thin, voids: [] }).zones;
    expect(slices).toHaveLength(7);
    expect(slices.reduce((s, z) => s + z.netArea, 0)).toBeCloseTo(64, 9);
    expect(Math.min(...slices.map((z) => z.netArea))).toBeCloseTo(0.008, 4);
  });
});
