import { describe, expect, test } from 'vitest';
import { FINEST_CELL, gridFor } from '../../geometry/grid.ts';
import {
  areaDeviation,
  areaWhere,
  bandArea,
  circleRing,
  coveredArea,
  evenErrors,
  lengthDeviation,
  type Plan,
  type PlanPoint,
  type Point,
  type PointErrors,
  type Ring,
  secondOpinion,
  weldRings,
  type Zone,
} from '../../geometry/index.ts';
import { offLine, straightCrossing, type TrueLine, trueCrossing } from '../../geometry/true-lines.ts';
import { box, line, made } from './made.ts';

// Expected values are by hand: rectangles, right triangles and discs.

describe('ground under several outlines', () => {
  const a = box(0, 0, 4, 4);
  const b = box(2, 1, 6, 3);
  const post = circleRing({ x: 3, y: 2 }, 0.5);

  test('union, intersection, difference, and what is wound twice', () => {
    const area = (wanted: (at: (ring: number) => boolean) => boolean) =>
      areaWhere([a, b, post], (winding) => wanted((ring) => winding(ring) !== 0));
    expect(area((at) => at(0) || at(1))).toBeCloseTo(16 + 8 - 4, 9);
    expect(area((at) => at(0) && at(1))).toBeCloseTo(4, 9);
    expect(area((at) => at(0) && !at(1))).toBeCloseTo(12, 9);
    expect(area((at) => at(1) && !at(0))).toBeCloseTo(4, 9);
    expect(area((at) => at(1) && !at(2))).toBeCloseTo(8 - Math.PI / 4, 7);
    expect(area(() => false)).toBe(0);
    // Wound twice by one outline, and the other way round.
    const twice = [...box(0, 0, 2, 2), ...box(0, 0, 2, 2)];
    expect(areaWhere([twice], (winding) => winding(0) === 2)).toBeCloseTo(4, 9);
    expect(areaWhere([[...a].reverse()], (winding) => winding(0) === -1)).toBeCloseTo(16, 9);
  });

  test('what covers leave uncovered', () => {
    expect(coveredArea([a], [b])).toBeCloseTo(4, 9);
    expect(coveredArea([a], [b, box(3, 0, 5, 4)])).toBeCloseTo(4 + 4 - 2, 9);
    expect(coveredArea([a], [])).toBe(0);
    // A hole in the region, clockwise; a cover drawn clockwise covers as well.
    const holed: Ring[] = [a, [...box(1, 1, 3, 3)].reverse()];
    expect(coveredArea(holed, [b])).toBeCloseTo(2, 9);
    expect(coveredArea(holed, [[...b].reverse()])).toBeCloseTo(2, 9);
    expect(coveredArea(holed, [box(1.5, 1.5, 2.5, 2.5)])).toBe(0);
  });
});

describe('the band along runs', () => {
  const slab = [box(0, 0, 6, 4)];
  const band = (run: Point[], width = 0.5) => bandArea(slab, [run], width);

  test('a run that ends is cut square; corners to the left overlap, to the right leave a sector', () => {
    expect(band(line([1, 1], [5, 1]))).toBeCloseTo(2, 7);
    // Turning left the two strips share a square.
    expect(band(line([1, 1], [5, 1], [5, 3]))).toBeCloseTo(2 + 1 - 0.25, 7);
    // Turning right they part by a quarter of a disc.
    expect(band(line([1, 2], [3, 2], [3, 0.5]))).toBeCloseTo(1 + 0.75 + (Math.PI * 0.25) / 4, 6);
    // A point said twice is one corner.
    expect(band(line([1, 2], [3, 2], [3, 2], [3, 0.5]))).toBeCloseTo(1 + 0.75 + (Math.PI * 0.25) / 4, 6);
  });

  test('doubling back goes round the end by half a disc', () => {
    expect(band(line([1, 2], [3, 2], [1.5, 2]))).toBeCloseTo(1.75 + (Math.PI * 0.25) / 2, 6);
    expect(band(line([2, 1], [2, 3], [2, 1.5]))).toBeCloseTo(1.75 + (Math.PI * 0.25) / 2, 6);
    // There and back to where it began: both ends.
    expect(band(line([1, 2], [3, 2], [1, 2]))).toBeCloseTo(2 + Math.PI * 0.25, 6);
    // Straight on at a corner there is no gap.
    expect(band(line([1, 2], [3, 2], [4, 2]))).toBeCloseTo(1.5, 7);
  });

  test('round a closed run, its first corner as well', () => {
    const post = line([3, 2], [3, 2.2], [3.2, 2.2], [3.2, 2], [3, 2]);
    expect(band(post, 0.1)).toBeCloseTo(0.8 * 0.1 + Math.PI * 0.01, 6);
    // Not closed: the corner where it begins and ends stays open.
    expect(band(post.slice(0, 4), 0.1)).toBeCloseTo(0.6 * 0.1 + (Math.PI * 0.01) / 2, 6);
  });

  test('no width, no run', () => {
    expect(band(line([1, 1], [5, 1]), 0)).toBe(0);
    expect(band(line([1, 1], [5, 1]), -1)).toBe(0);
    expect(band(line([1, 1], [5, 1]), Number.NaN)).toBe(0);
    expect(bandArea(slab, [], 0.5)).toBe(0);
    expect(band(line([1, 1]))).toBe(0);
  });
});

describe('true crossings', () => {
  const straight = (x0: number, y0: number, x1: number, y1: number): TrueLine => ({
    a: { x: x0, y: y0 },
    b: { x: x1, y: y1 },
    arc: null,
  });
  const circle = (x: number, y: number, radius: number): TrueLine => ({
    a: { x: x + radius, y },
    b: { x, y: y + radius },
    arc: { centre: { x, y }, radius, start: 0, sweep: Math.PI / 2 },
  });
  const close = (p: Point, x: number, y: number): void => {
    expect(p.x).toBeCloseTo(x, 12);
    expect(p.y).toBeCloseTo(y, 12);
  };

  test('of two straight lines, within two cells', () => {
    const lines = [straight(0, 0, 4, 4), straight(0, 3, 4, -1)];
    close(trueCrossing(lines, { x: 1.4, y: 1.6 }, 0.1), 1.5, 1.5);
    close(trueCrossing(lines, { x: 1.25, y: 1.5 }, 0.1), 1.25, 1.5);
    close(trueCrossing(lines, { x: 1.5, y: 1.29 }, 0.1), 1.5, 1.29);
    close(straightCrossing(0, 0, 4, 4, 0, 3, 4, -1, 1.4, 1.6, 0.1), 1.5, 1.5);
    close(straightCrossing(0, 0, 4, 4, 0, 3, 4, -1, 1.25, 1.5, 0.1), 1.25, 1.5);
    close(straightCrossing(0, 0, 4, 4, 0, 3, 4, -1, 1.5, 1.71, 0.1), 1.5, 1.71);
    // Parallel ones never meet.
    close(straightCrossing(0, 0, 4, 4, 1, 1, 3, 3, 2, 2.1, 1), 2, 2.1);
    close(trueCrossing([lines[0]!, straight(0, 1e-12, 4, 4)], { x: 2, y: 2.1 }, 10), 2, 2.1);
  });

  test('of many the nearest; of one none', () => {
    const lines = [straight(0, 0, 4, 4), straight(0, 3, 4, -1), straight(0, 1.52, 4, 1.52)];
    close(trueCrossing(lines, { x: 1.53, y: 1.53 }, 0.1), 1.52, 1.52);
    close(trueCrossing(lines, { x: 1.47, y: 1.52 }, 0.1), 1.48, 1.52);
    close(trueCrossing(lines.slice(0, 1), { x: 1, y: 1 }, 0.1), 1, 1);
  });

  test('of a line and a circle, of the two places the nearer, in either order', () => {
    const round = circle(1, 1, 5);
    const flat = straight(0, 4, 9, 4);
    // 3-4-5: four to the right of the centre, three up; and four to the left.
    close(trueCrossing([round, flat], { x: 5.1, y: 4 }, 0.1), 5, 4);
    close(trueCrossing([flat, round], { x: 5.1, y: 4 }, 0.1), 5, 4);
    close(trueCrossing([round, flat], { x: -3.2, y: 4.1 }, 0.1), -3, 4);
    // As far as 64 cells, as an arc's chord leaves it by its sagitta.
    close(trueCrossing([round, flat], { x: 5.63, y: 4 }, 0.01), 5, 4);
    close(trueCrossing([round, flat], { x: 5.65, y: 4 }, 0.01), 5.65, 4);
    // A line that misses the circle, and one without length.
    close(trueCrossing([round, straight(0, 6.1, 9, 6.1)], { x: 1, y: 6 }, 1), 1, 6);
    close(trueCrossing([round, straight(6, 1, 6, 1)], { x: 5.9, y: 1 }, 1), 5.9, 1);
    // A tangent touches at one place.
    close(trueCrossing([round, straight(6, 0, 6, 2)], { x: 5.9, y: 1.1 }, 1), 6, 1);
  });

  test('of two circles', () => {
    const [p, q] = [circle(0, 0, 5), circle(8, 0, 5)];
    close(trueCrossing([p, q], { x: 4.1, y: 3.1 }, 0.1), 4, 3);
    close(trueCrossing([p, q], { x: 4.1, y: -3.1 }, 0.1), 4, -3);
    // By Pythagoras 3 along and 4 up from the smaller's centre, 8 − … of unequal ones, turned.
    const r = circle(0, Math.sqrt(80) - 0, Math.sqrt(41));
    const along = (25 - 41 + 80) / (2 * Math.sqrt(80));
    close(trueCrossing([p, r], { x: 3.4, y: 3.6 }, 0.1), Math.sqrt(25 - along ** 2), along);
    // One inside the other, apart, and on one centre.
    close(trueCrossing([p, circle(1, 0, 2)], { x: 3, y: 0 }, 10), 3, 0);
    close(trueCrossing([p, circle(11, 0, 5)], { x: 5, y: 0 }, 10), 5, 0);
    close(trueCrossing([p, circle(0, 0, 5)], { x: 5, y: 0.1 }, 10), 5, 0.1);
  });

  test('how far a point lies off its line or circle', () => {
    expect(offLine(0, 0, 4, 3, null, 4, -2)).toBeCloseTo(4, 12);
    expect(offLine(1, 1, 1, 1, null, 4, 5)).toBe(5);
    const { arc } = circle(1, 1, 5);
    expect(offLine(6, 1, 1, 6, arc, 1, 3)).toBe(3);
    expect(offLine(6, 1, 1, 6, arc, 9, 1)).toBe(3);
  });
});

describe('the grid', () => {
  test('as fine as it gets up to 512 units from its middle, then coarser by halves', () => {
    expect(gridFor([], [])).toEqual({ originX: 0, originY: 0, cell: FINEST_CELL });
    expect(FINEST_CELL).toBe(1 / 16384);
    expect(gridFor([0, 4], [0, 3])).toEqual({ originX: 2, originY: 1.5, cell: FINEST_CELL });
    expect(gridFor([-512, 512], [0, 1]).cell).toBe(FINEST_CELL);
    expect(gridFor([0, 1], [-512, 512.01]).cell).toBe(2 * FINEST_CELL);
    expect(gridFor([0, 5000], [0, 1])).toMatchObject({ originX: 2500, cell: 8 * FINEST_CELL });
    // The origin on a whole cell.
    const { originX, originY } = gridFor([0, 0.3], [7, 7.1]);
    expect(originX).toBe(Math.round(0.15 * 16384) / 16384);
    expect(originY).toBe(Math.round(7.05 * 16384) / 16384);
  });
});

describe('outlines brought together', () => {
  const first = box(0, 0, 4, 4);

  test('by corner before side; the nearest corner; none beyond the tolerance', () => {
    const second: Ring = line([4.004, 0.003], [8, 0], [8, 4], [4.003, 3.997]);
    const [, b] = weldRings([first, second], 0.005);
    expect(b!.ring.map(({ x, y }) => [x, y])).toEqual([
      [4, 0],
      [8, 0],
      [8, 4],
      [4, 4],
    ]);
    expect(b!.sides).toEqual([0, 1, 2, 3]);
    const far = weldRings([first, line([4.006, 1], [8, 0], [8, 4])], 0.005)[1]!;
    expect(far.ring[0]).toMatchObject({ x: 4.006, y: 1 });
    // Onto the side where no corner is near.
    const onSide = weldRings([first, line([4.004, 1], [8, 0], [8, 4])], 0.005)[1]!;
    expect(onSide.ring[0]).toMatchObject({ x: 4, y: 1 });
    // Of two corners the nearer.
    const stepped = line([0, 0], [4, 0], [4.004, 0.002], [4.004, 4], [0, 4]);
    const [, c] = weldRings([stepped, line([4.003, 0.002], [8, 0], [8, 4])], 0.005);
    expect(c!.ring[0]).toMatchObject({ x: 4.004, y: 0.002 });
  });

  test('a side is led through the corners that it passes, in the order it comes to them', () => {
    const stairs = line([0, 0], [6, 0], [6, 2], [4, 2.001], [2, 1.999], [0, 2]);
    const above = line([0, 2.002], [6, 2.002], [6, 5], [0, 5]);
    const [, b] = weldRings([stairs, above], 0.005);
    expect(b!.ring.map(({ x, y }) => [x, y])).toEqual([
      [0, 2],
      [2, 1.999],
      [4, 2.001],
      [6, 2],
      [6, 5],
      [0, 5],
    ]);
    expect(b!.sides).toEqual([0, 0, 0, 1, 2, 3]);
  });

  test('arcs keep their third point and are not led anywhere, nor is anything moved onto them', () => {
    const bowed: Ring = [...line([0, 0], [4, 0]), { x: 4, y: 4, via: { x: 2, y: 4.002 } }, { x: 0, y: 4 }];
    const over: Ring = [{ x: 0.5, y: 4.003, via: { x: 2, y: 4.5 } }, ...line([3, 4.003], [3, 6], [0.5, 6])];
    const [a, b] = weldRings([bowed, over], 0.005);
    expect(a!.ring).toBe(bowed);
    expect(b!.ring.map(({ x, y, via }) => [x, y, via ?? null])).toEqual([
      [0.5, 4.003, { x: 2, y: 4.5 }],
      [3, 4.003, null],
      [3, 6, null],
      [0.5, 6, null],
    ]);
    expect(b!.sides).toEqual([0, 1, 2, 3]);
    // An arc that passes a corner closely.
    const [, c] = weldRings(
      [box(1, 0, 2, 2.001), [{ x: 0, y: 2, via: { x: 1.5, y: 2.002 } }, ...line([3, 2], [3, 5])]],
      0.01,
    );
    expect(c!.sides).toEqual([0, 1, 2]);
  });

  test('one outline alone, or no tolerance, or nothing to weld to, stays as it is', () => {
    expect(weldRings([first], 1)).toEqual([{ ring: first, sides: [0, 1, 2, 3] }]);
    expect(weldRings([first, box(4.001, 0, 8, 4)], Number.NaN)[1]!.ring[0]).toEqual({ x: 4.001, y: 0 });
    const [empty, own] = weldRings([[], first], 0.01);
    expect(empty).toEqual({ ring: [], sides: [] });
    expect(own!.ring).toBe(first);
  });
});

describe('a second engine', () => {
  const zone = made({
    slabs: [box(0, 0, 8, 6)],
    cuts: [],
    voids: [box(1, 1, 3, 3), box(2, 2, 4, 4), box(-1, -1, 0.5, 0.5), box(20, 20, 21, 21)],
  }).zones[0]!;
  const { cells, voids } = zone;
  const off = (by: number): Zone => ({ ...zone, voids, cells: { ...cells, net: cells.net * (1 + by) } });

  test('agrees with the fragments, and would not with others', () => {
    expect(zone.netArea).toBeCloseTo(48 - 7 - 0.25, 9);
    expect(secondOpinion(zone)).toBe('agree');
    expect(secondOpinion(off(1e-6))).toBe('disagree');
    expect(secondOpinion(off(-1e-6))).toBe('disagree');
    expect(secondOpinion(off(1e-12))).toBe('agree');
    // A void forgotten by either side.
    expect(secondOpinion({ ...zone, cells, voids: voids.slice(1) })).toBe('disagree');
  });

  test('counts holes of a face, and holes that are left in it', () => {
    const ring = [...box(0, 0, 8, 6)];
    const inner = [...box(2, 2, 6, 4)];
    const holed: Zone['cells'] = {
      face: () => [ring, [...inner].reverse()],
      voids: () => [line([0, 0], [1, 0], [1, 1], [0, 1])],
      net: 48 - 8 - 1,
    };
    const doctored = (over: Partial<Zone['cells']>): Zone => ({
      ...zone,
      voids: [{ void: 0, area: 1 }],
      cells: { ...holed, ...over },
    });
    expect(secondOpinion(doctored({}))).toBe('agree');
    // The hole named first.
    expect(secondOpinion(doctored({ face: () => [[...inner].reverse(), ring] }))).toBe('agree');
    expect(secondOpinion(doctored({ net: 48 - 1 }))).toBe('disagree');
    // A void in the middle leaves a hole; one of two points is nothing.
    expect(secondOpinion(doctored({ face: () => [ring], voids: () => [inner], net: 40 }))).toBe('agree');
    expect(
      secondOpinion(doctored({ face: () => [ring], voids: () => [line([1, 1], [2, 2])], net: 48 })),
    ).toBe('agree');
    // No face: agreed where there is no area.
    expect(secondOpinion(doctored({ face: () => [], net: 0 }))).toBe('agree');
    expect(secondOpinion(doctored({ face: () => [], net: 1 }))).toBe('disagree');
    const broken = (): never => {
      throw new Error('no outline');
    };
    expect(() => secondOpinion(doctored({ voids: broken }))).toThrow('no outline');
    const unfit = [[Number.NaN, 0] as const, [1, 1] as const, [2, 0] as const].map(([x, y]) => ({ x, y }));
    expect(secondOpinion(doctored({ voids: () => [unfit] }))).not.toBe('agree');
  });
});

describe('how points make areas and lengths err', () => {
  const plan: Plan = {
    slabs: [box(0, 0, 8, 5)],
    cuts: [{ slab: 0, path: line([3, -1], [3, 6]) }],
    voids: [box(5, 1, 7, 2)],
  };
  const { zones } = made(plan);
  const left = zones.find((z) => z.netArea < 20)!;
  const right = zones.find((z) => z !== left)!;
  const slope = (g: Array<[number, number]>, s: number) =>
    s * Math.sqrt(g.reduce((t, [x, y]) => t + x * x + y * y, 0));

  test('of a cut, a void and a corner each by itself', () => {
    const only = (kind: 'slab' | 'cut' | 'void', s: number) =>
      evenErrors({ slab: 0, cut: 0, void: 0, [kind]: s });
    // The cut runs from −1 to 6; on the slab from 1/7 to 6/7 of its way: ∫(1 − t) over 5 m is 2.5, and so is ∫t.
    expect(areaDeviation(plan, [left], only('cut', 0.006)).own).toBeCloseTo(
      slope(
        [
          [2.5, 0],
          [2.5, 0],
        ],
        0.006,
      ),
      9,
    );
    // Half of each side that ends there, square to it.
    const corner = [0.5, 1] as [number, number];
    expect(areaDeviation(plan, [right], only('void', 0.004)).own).toBeCloseTo(
      slope([corner, corner, corner, corner], 0.004),
      9,
    );
    expect(areaDeviation(plan, zones, only('cut', 1)).own).toBeCloseTo(0, 9);
    expect(areaDeviation(plan, [left], only('void', 1)).own).toBe(0);
  });

  test('of lengths, by the share of a side that is counted', () => {
    const cut = left.stretches.filter((s) => s.cause.kind === 'cut');
    expect(cut.reduce((t, s) => t + s.length, 0)).toBeCloseTo(5, 9);
    expect(lengthDeviation(plan, left, cut, evenErrors({ slab: 0, cut: 0.007, void: 0 })).own).toBeCloseTo(
      0.007 * (5 / 7) * Math.SQRT2,
      9,
    );
    const around = right.stretches.filter((s) => s.cause.kind === 'void');
    expect(
      lengthDeviation(plan, right, around, evenErrors({ slab: 0, cut: 0, void: 0.003 })).own,
    ).toBeCloseTo(0.003 * Math.sqrt(8), 9);
    expect(lengthDeviation(plan, right, [], evenErrors({ slab: 1, cut: 1, void: 1 })).own).toBe(0);
  });

  test('of an arc: the half circle, whose length moves with its ends and middle', () => {
    // With half chord c and rise h: r = (c² + h²) / 2h and L = 4r·atan(h/c). At c = h = r = 2 its slope by h is 2 and by c
    // π − 2; an end moves c by half of its way, and the rise by half of its way across.
    const half: Plan = {
      slabs: [
        [
          { x: 2, y: 0, via: { x: 0, y: 2 } },
          { x: -2, y: 0 },
        ],
      ],
      cuts: [],
      voids: [],
    };
    const [zone] = made(half).zones;
    const arc = zone!.stretches.filter((s) => s.cause.kind === 'side' && s.cause.side === 0);
    const found = (own: PointErrors['own']) => lengthDeviation(half, zone!, arc, { own, shared: null }).own;
    const end = (p: PlanPoint) => !p.via && p.vertex === 0;
    expect(found((p) => (p.via ? [0, 0, 1] : [0, 0, 0]))).toBeCloseTo(2, 6);
    expect(found((p) => (p.via ? [1, 0, 0] : [0, 0, 0]))).toBeCloseTo(0, 6);
    expect(found((p) => (end(p) ? [1, 0, 0] : [0, 0, 0]))).toBeCloseTo(Math.PI / 2 - 1, 6);
    expect(found((p) => (end(p) ? [0, 0, 1] : [0, 0, 0]))).toBeCloseTo(1, 6);
  });

  test('what moves points together: a scale known to 1 % makes 2 % of an area, 1 % of a length; a shift nothing', () => {
    const shared = (variance: number): PointErrors => ({
      own: () => [0, 0, 0],
      shared: {
        covariance: [
          [variance, 0, 0],
          [0, 0.04, 0.03],
          [0, 0.03, 0.09],
        ],
        slopes: ({ at }) => [
          [at.x, 1, 0],
          [at.y, 0, 1],
        ],
      },
    });
    expect(areaDeviation(plan, zones, shared(1e-4)).shared).toBeCloseTo(0.02 * 38, 9);
    expect(areaDeviation(plan, zones, shared(1e-4)).own).toBe(0);
    const side = left.stretches.filter((s) => s.cause.kind === 'cut');
    expect(lengthDeviation(plan, left, side, shared(1e-4)).shared).toBeCloseTo(0.05, 9);
    expect(areaDeviation(plan, zones, shared(0)).shared).toBeCloseTo(0, 9);
    // Points known by a slanting ellipse: its covariance counts, with its sign.
    const slanting = (xy: number): PointErrors => ({ own: () => [1, xy, 1], shared: null });
    const [corner] = made({ slabs: [line([0, 0], [4, 0], [4, 3])], cuts: [], voids: [] }).zones;
    const triangle = { slabs: [line([0, 0], [4, 0], [4, 3])], cuts: [], voids: [] };
    const g = [
      [-1.5, 0],
      [1.5, -2],
      [0, 2],
    ];
    for (const xy of [0.5, -0.5]) {
      const byHand = Math.sqrt(g.reduce((t, [x, y]) => t + x! * x! + 2 * x! * y! * xy + y! * y!, 0));
      expect(areaDeviation(triangle, [corner!], slanting(xy)).own).toBeCloseTo(byHand, 9);
    }
  });
});
