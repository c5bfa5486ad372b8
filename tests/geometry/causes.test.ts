import { expect, test } from 'vitest';
import { type Plan, partition } from '../../geometry/index.ts';
import { box, line, made } from './made.ts';

/** Why each stretch is there and where it runs; each number by hand. */

/** Cause and length of each stretch of a zone, to the nanometre. */
const stretches = (p: ReturnType<typeof made>, zone: number) =>
  p.zones[zone]!.stretches.map(({ cause, length }) => [{ ...cause }, Math.round(length * 1e9) / 1e9]);

test('what touches two neighbours on one side and a third on another is told apart by side and by slab', () => {
  const p = made({
    slabs: [box(0, 0, 4, 2), box(4, 0.5, 5, 1), box(4, 1, 6, 1.5), box(1, 2, 2, 3)],
    cuts: [],
    voids: [],
  });
  expect(stretches(p, 0)).toEqual([
    [{ kind: 'side', side: 0 }, 4],
    [{ kind: 'side', side: 1 }, 1],
    [{ kind: 'side', side: 2 }, 3],
    [{ kind: 'side', side: 3 }, 2],
    [{ kind: 'slab', slab: 1, side: 1 }, 0.5],
    [{ kind: 'slab', slab: 2, side: 1 }, 0.5],
    [{ kind: 'slab', slab: 3, side: 2 }, 1],
  ]);
  // The same lines seen from the other side go by the sides of that slab.
  expect(stretches(p, 1)).toEqual([
    [{ kind: 'side', side: 0 }, 1],
    [{ kind: 'side', side: 1 }, 0.5],
    [{ kind: 'slab', slab: 2, side: 2 }, 1],
    [{ kind: 'slab', slab: 0, side: 3 }, 0.5],
  ]);
  expect(stretches(p, 3)[3]).toEqual([{ kind: 'slab', slab: 0, side: 0 }, 1]);
});

test('a side that is interrupted is one part: its length and moments are those of what is left', () => {
  const p = made({ slabs: [box(0, 0, 4, 2)], cuts: [], voids: [box(1, -1, 2, 1)] });
  const [side] = p.zones[0]!.stretches;
  expect(side!.cause).toEqual({ kind: 'side', side: 0 });
  expect(side!.length).toBeCloseTo(3, 12);
  expect(side!.runs.map((run) => run.map(({ x, y }) => [x, y]))).toEqual([
    [
      [0, 0],
      [1, 0],
    ],
    [
      [2, 0],
      [4, 0],
    ],
  ]);
  expect(side!.parts.length).toBe(1);
  const { length, moments } = side!.parts[0]!;
  expect(length).toBeCloseTo(3, 12);
  // ∫t ds over 0…1 m and 2…4 m of a side of 4 m: 1 · 1/8 + 2 · 3/4.
  expect(moments[0]).toBeCloseTo(3, 12);
  expect(moments[1]).toBeCloseTo(1 / 8 + 3 / 2, 12);
  expect(moments[2]).toBe(0);
});

/** The integrals of 1, t and 0 (or cos θ, sin θ) along each part of a zone's stretch with the cause. */
const moments = (p: ReturnType<typeof made>, zone: number, kind: string) =>
  p.zones[zone]!.stretches.filter(({ cause }) => cause.kind === kind).flatMap(({ parts }) =>
    parts.map((q) => q.moments),
  );

test('moments along a cut are positive for the zone on its left, negative on its right, whichever way it was drawn', () => {
  // Of the 4 m of the cut the slab has those from 1 to 3 m, or t from ¼ to ¾; the lower of two has ½ and ½ + 1/8.
  const up = made({ slabs: [box(0, 0, 4, 2)], cuts: [{ slab: 0, path: line([1, -1], [1, 3]) }], voids: [] });
  const left = up.zones.findIndex((z) => z.netRings[0]!.some(({ x }) => x === 0));
  expect(moments(up, left, 'cut')).toEqual([[2, 1, 0]]);
  expect(moments(up, 1 - left, 'cut')).toEqual([[-2, -1, 0]]);
  const down = made({
    slabs: [box(0, 0, 4, 2)],
    cuts: [{ slab: 0, path: line([1, 3], [1, -1]) }],
    voids: [box(0.5, 0.5, 1.5, 2.5)],
  });
  const west = down.zones.findIndex((z) => z.netRings[0]!.some(({ x }) => x === 0));
  // What is left of it runs from y = 0.5 down to 0: t from 5/8 to 6/8.
  expect(moments(down, west, 'cut')).toEqual([[-0.5, -0.5 * (11 / 16), 0]]);
  expect(moments(down, 1 - west, 'cut')).toEqual([[0.5, 0.5 * (11 / 16), 0]]);
});

test('moments along an arc are those of 1, cos θ and sin θ about its centre', () => {
  // A quarter of a circle of 2 m about (5, 1), from θ = 0 to π/2: r·π/2, r·1, r·1; drawn the other way they change sign.
  const [a, via, b] = [
    { x: 7, y: 1 },
    { x: 5 + Math.SQRT2, y: 1 + Math.SQRT2 },
    { x: 5, y: 3 },
  ];
  const quarter = made({ slabs: [[{ ...a, via }, b, { x: 5, y: 1 }]], cuts: [], voids: [] });
  const [along] = moments(quarter, 0, 'side');
  [Math.PI, 2, 2].forEach((m, i) => {
    expect(along![i]).toBeCloseTo(m, 9);
  });
  const back = made({ slabs: [[{ ...b, via }, a, { x: 5, y: 1 }]], cuts: [], voids: [] });
  [-Math.PI, -2, -2].forEach((m, i) => {
    expect(moments(back, 0, 'side')[0]![i]).toBeCloseTo(m, 9);
  });
  // Cut at 30°: cos and sin from 0 to π/6 and from there on, r·½ and r·(1 − √3/2), and what is left of 2 and 2.
  const cut = made({
    slabs: [[{ ...a, via }, b, { x: 5, y: 1 }]],
    cuts: [{ slab: 0, path: line([5, 1], [5 + 3 * Math.cos(Math.PI / 6), 1 + 3 * Math.sin(Math.PI / 6)]) }],
    voids: [],
  });
  const low = cut.zones.findIndex((z) => z.netArea < 1.1);
  const [first] = moments(cut, low, 'side').filter(([m]) => Math.abs(m - Math.PI / 3) < 1e-9);
  expect(first![1]).toBeCloseTo(1, 9);
  expect(first![2]).toBeCloseTo(2 - Math.sqrt(3), 9);
});

test('two cuts and two voids: each stretch names the zone beyond, the cut or the void', () => {
  const p = made({
    slabs: [box(0, 0, 6, 2)],
    cuts: [
      { slab: 0, path: line([4, -1], [4, 3]) },
      { slab: 0, path: line([2, -1], [2, 3]) },
    ],
    // The second overlaps the first and shares its lower side's line; both stand on the first cut.
    voids: [box(3.5, 0.5, 4.5, 1), box(4, 0.5, 5, 1.5)],
  });
  const at = p.zones.findIndex((z) => z.netRings[0]!.some(({ x }) => x === 6));
  const middle = p.zones.findIndex((z) => z.netRings[0]!.some(({ x }) => x === 3.5));
  const left = p.zones.findIndex((z) => z.netRings[0]!.some(({ x }) => x === 0));
  expect(stretches(p, left)).toEqual([
    [{ kind: 'side', side: 0 }, 2],
    [{ kind: 'side', side: 2 }, 2],
    [{ kind: 'side', side: 3 }, 2],
    [{ kind: 'cut', cut: 1, zone: middle }, 2],
  ]);
  expect(stretches(p, middle)).toEqual([
    [{ kind: 'side', side: 0 }, 2],
    [{ kind: 'side', side: 2 }, 2],
    [{ kind: 'cut', cut: 0, zone: at }, 1],
    [{ kind: 'cut', cut: 1, zone: left }, 2],
    // 0.5 along, up, along; and the second's own left side above the first, from 1 to 1.5, lies on the cut.
    [{ kind: 'void', void: 0 }, 1.5],
    [{ kind: 'void', void: 1 }, 0.5],
  ]);
  expect(stretches(p, at)).toEqual([
    [{ kind: 'side', side: 0 }, 2],
    [{ kind: 'side', side: 1 }, 2],
    [{ kind: 'side', side: 2 }, 2],
    [{ kind: 'cut', cut: 0, zone: middle }, 1],
    // Where both are drawn the first names it: 4…4.5 below; the rest is the second's.
    [{ kind: 'void', void: 0 }, 0.5],
    [{ kind: 'void', void: 1 }, 2.5],
  ]);
  expect(p.zones[middle]!.voids).toEqual([{ void: 0, area: 0.25 }]);
  expect(p.zones[at]!.voids).toEqual([
    { void: 0, area: 0.25 },
    { void: 1, area: 1 },
  ]);
  expect(p.slabs).toEqual([{ area: 12, voidArea: 1.25, netArea: 10.75 }]);
});

test('a void drawn along a side from without, and one that ends on it, leave the side its name', () => {
  const p = made({
    slabs: [box(0, 0, 4, 2)],
    cuts: [{ slab: 0, path: line([0, 0], [4, 0]) }],
    voids: [box(1, -1, 2, 0), box(2.5, 0, 3, 1)],
  });
  expect(stretches(p, 0)).toEqual([
    [{ kind: 'side', side: 0 }, 3.5],
    [{ kind: 'side', side: 1 }, 2],
    [{ kind: 'side', side: 2 }, 4],
    [{ kind: 'side', side: 3 }, 2],
    [{ kind: 'void', void: 1 }, 2.5],
  ]);
  expect(p.voids).toEqual([{ insideArea: 0 }, { insideArea: 0.5 }]);
});

test('the outline of the whole face knows no voids', () => {
  const { zones } = made({
    slabs: [box(0, 0, 4, 2)],
    cuts: [],
    voids: [box(1, -1, 2, 1), box(3, 1, 3.5, 1.5)],
  });
  const corners = (rings: ReadonlyArray<ReadonlyArray<{ x: number; y: number }>>) =>
    rings.map((ring) => ring.map(({ x, y }) => `${x} ${y}`).sort());
  expect(corners(zones[0]!.faceRings)).toEqual([['0 0', '0 2', '1 0', '2 0', '4 0', '4 2']]);
  expect(zones[0]!.faceRings).toBe(zones[0]!.faceRings);
  expect(zones[0]!.netRings.length).toBe(2);
});

test('lines a few hundredths of a millimetre apart are bent on to each other, and that is owned up to', () => {
  const p = made({ slabs: [box(0, 0, 4, 2)], cuts: [], voids: [box(1, 1e-5, 2, 1)] });
  // Twice a cell along every edge that ends at one of the void's two lower corners. About the ground: 1 m and 2 m of the
  // slab's side and the upright sides of the void; about the void: the same two, and the 1 m of the side below it.
  const upright = 1 - 1e-5;
  expect(p.zones[0]!.bentArea).toBeCloseTo(2 * p.cell * (1 + 2 + 2 * upright + 2 * upright + 1), 12);
  expect(made({ slabs: [box(0, 0, 4, 2)], cuts: [], voids: [box(1, 0.5, 2, 1)] }).zones[0]!.bentArea).toBe(0);
});

test('corners in one cell that are not in one place bend what ends there, in x as in y', () => {
  const along = (dx: number, dy: number) => {
    const p = made({ slabs: [box(0, 0, 1, 1), box(1 + dx, 1 + dy, 2, 2)], cuts: [], voids: [] });
    return p.zones.map((z) => z.bentArea / (2 * p.cell));
  };
  expect(along(0, 0)).toEqual([0, 0]);
  // Of each slab the two sides that end at the corner.
  for (const [dx, dy] of [
    [1e-5, 0],
    [0, 1e-5],
    [1e-5, 1e-5],
  ] as const) {
    for (const sides of along(dx, dy)) expect(sides).toBeCloseTo(2, 4);
  }
});

test('a third line through a crossing that it truly misses is bent to it, and one that hits it is not', () => {
  const star = (off: number) => {
    const p = made({
      slabs: [box(-1, -1, 1, 1)],
      cuts: [
        { slab: 0, path: line([-2, -2], [2, 2]) },
        { slab: 0, path: line([-2, 2], [2, -2]) },
        { slab: 0, path: line([-2, off], [2, off]) },
      ],
      voids: [],
    });
    expect(p.zones.length).toBe(6);
    return p.zones.map((z) => z.bentArea / (2 * p.cell));
  };
  expect(star(0)).toEqual([0, 0, 0, 0, 0, 0]);
  // Each zone has two edges that end in the middle: two diagonals of √2, or a diagonal and the level one of 1.
  const bent = star(1e-5).sort((a, b) => a - b);
  [1, 1, 1, 1].forEach((level, i) => {
    expect(bent[i]).toBeCloseTo(level + Math.SQRT2, 3);
  });
  expect(bent[4]).toBeCloseTo(2 * Math.SQRT2, 3);
  expect(bent[5]).toBeCloseTo(2 * Math.SQRT2, 3);
});

test('a cut along a side within a cell of it counts as bent along all of it; on the side itself it does not', () => {
  const beside = (y: number) => {
    const p = made({
      slabs: [box(0, 0, 4, 2)],
      cuts: [{ slab: 0, path: line([0.5, y], [3.5, y]) }],
      voids: [],
    });
    return p.zones[0]!.bentArea / (2 * p.cell);
  };
  expect(beside(0)).toBe(0);
  expect(beside(1)).toBe(0);
  // The side's three pieces; to its ends as well, as they end where it was bent.
  expect(beside(2e-5)).toBeCloseTo(4, 6);
});

test('what is not a number is found wherever it stands; a thousand million metres are the most', () => {
  const slab = box(0, 0, 1, 1);
  const problem = (plan: Partial<Plan>) => {
    const result = partition({ slabs: [slab], cuts: [], voids: [], ...plan });
    return result.ok ? null : result.problem;
  };
  const not = (kind: string, index: number) => ({ code: 'plan/not-finite', kind, index });
  expect(problem({})).toBe(null);
  expect(problem({ cuts: [0, Number.NaN].map((x) => ({ slab: 0, path: line([x, 0], [1, 1]) })) })).toEqual(
    not('cut', 1),
  );
  expect(problem({ voids: [slab, box(0, 0, 1, Number.POSITIVE_INFINITY)] })).toEqual(not('void', 1));
  expect(problem({ slabs: [slab, box(0, 0, 1, -1.1e9)] })).toEqual(not('slab', 1));
  expect(problem({ slabs: [box(0, 0, 1e9, 1e9)] })).toBe(null);
  expect(problem({ slabs: [[{ x: 0, y: 0, via: { x: Number.NaN, y: 1 } }, ...slab.slice(1)]] })).toEqual(
    not('slab', 0),
  );
});
