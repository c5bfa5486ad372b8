import { describe, expect, test } from 'vitest';
import { circlePieces, fractionOnArc, pointOnArc } from '../../geometry/arc.ts';
import {
  arcFromBulge,
  arcLength,
  arcThrough,
  bulgeOf,
  carryAlong,
  circleRing,
  distanceToSegment,
  enclosesGround,
  equalAreaPoints,
  flattenRing,
  flattenSide,
  fractionOnSide,
  insidePoints,
  labelPoint,
  nearestOnRing,
  type Point,
  pointOnSide,
  type Ring,
  rectangleRing,
  ringArea,
  ringBox,
  ringLength,
  selfCrossing,
  sideLength,
  sideOf,
  stripRing,
} from '../../geometry/index.ts';
import { joinSteps } from '../../geometry/outline.ts';
import { box, line } from './made.ts';

// Expected values are by hand, from the unit circle and right triangles.

const near = (p: Point, x: number, y: number): void => {
  expect(p.x).toBeCloseTo(x, 12);
  expect(p.y).toBeCloseTo(y, 12);
};
const HALF = Math.SQRT1_2;

describe('arcs', () => {
  test.each([
    ['a quarter counter-clockwise', [1, 0], [HALF, HALF], [0, 1], Math.PI / 2],
    ['the same clockwise', [0, 1], [HALF, HALF], [1, 0], -Math.PI / 2],
    ['three quarters', [1, 0], [-HALF, HALF], [0, -1], 1.5 * Math.PI],
    ['three quarters clockwise', [0, -1], [-HALF, HALF], [1, 0], -1.5 * Math.PI],
    ['over the angle where atan2 jumps', [-HALF, HALF], [-1, 0], [-HALF, -HALF], Math.PI / 2],
    ['and back over it', [-HALF, -HALF], [-1, 0], [-HALF, HALF], -Math.PI / 2],
  ])('through three points: %s', (_, a, via, b, sweep) => {
    const at = ([x, y]: number[]): Point => ({ x: 3 + 2 * x!, y: -1 + 2 * y! });
    const arc = arcThrough(at(a), at(via), at(b))!;
    near(arc.centre, 3, -1);
    expect(arc.radius).toBeCloseTo(2, 12);
    expect(arc.sweep).toBeCloseTo(sweep, 12);
    expect(arc.start).toBeCloseTo(Math.atan2(a[1]!, a[0]!), 12);
    expect(arcLength(arc)).toBeCloseTo(2 * Math.abs(sweep), 12);
    const end = pointOnArc(arc, 1);
    near(end, at(b).x, at(b).y);
    const middle = pointOnArc(arc, 0.5);
    near(middle, at(via).x, at(via).y);
    expect(fractionOnArc(arc, middle)).toBeCloseTo(0.5, 12);
    expect(fractionOnArc(arc, pointOnArc(arc, 0.9))).toBeCloseTo(0.9, 12);
    expect(fractionOnArc(arc, pointOnArc(arc, -0.1))).toBeCloseTo(-0.1, 12);
  });

  test('three points on a line, or two at one place, are straight', () => {
    const at = (x: number, y: number): Point => ({ x, y });
    expect(arcThrough(at(0, 0), at(1, 1), at(2, 2))).toBeNull();
    expect(arcThrough(at(0, 0), at(5, 5), at(2, 2))).toBeNull();
    expect(arcThrough(at(1, 0), at(1, 0), at(3, 2))).toBeNull();
    // A rise of a billionth of the chord is none; ten times that is one, of a radius of 12 million.
    expect(arcThrough(at(0, 0), at(1, 0.9e-9), at(2, 0))).toBeNull();
    expect(arcThrough(at(0, 0), at(1, 4e-8), at(2, 0))!.radius).toBeCloseTo(1 / 8e-8, 0);
    // Seen from a third point far off, two ends close together are a line.
    expect(arcThrough(at(0, 0), at(1000, 0), at(1e-7, 1e-7))).toBeNull();
  });

  test('from a bulge, tan of a quarter of the turn', () => {
    const arc = arcFromBulge({ x: 1, y: 1 }, { x: 1, y: 5 }, 1)!;
    near(arc.centre, 1, 3);
    near(pointOnArc(arc, 0.5), 3, 3);
    const back = arcFromBulge({ x: 1, y: 1 }, { x: 1, y: 5 }, -0.3)!;
    expect(bulgeOf(back)).toBeCloseTo(-0.3, 12);
    near(pointOnArc(back, 1), 1, 5);
    expect(pointOnArc(back, 0.5).x).toBeCloseTo(1 - 0.3 * 2, 12);
    expect(arcFromBulge({ x: 1, y: 1 }, { x: 1, y: 5 }, 0)).toBeNull();
    expect(arcFromBulge({ x: 1, y: 1 }, { x: 1, y: 1 }, 0.5)).toBeNull();
  });

  test.each([
    [1, 2, 16],
    [1, 1, 16],
    // 2·acos(1 − s) is the turn of a chord with sagitta s on the unit circle: 0.2831 for 0.01, over 2π/32 = 0.1963.
    [1, 0.01, 32],
    [10, 0.1, 32],
    [1, 0.001, 128],
    // Exactly a sixteenth of the circle.
    [1, 1 - Math.cos(Math.PI / 16) + 1e-12, 16],
    [1, 1 - Math.cos(Math.PI / 16) - 1e-12, 32],
    [1e6, 1e-6, 16384],
  ])('a circle of radius %f within %f is cut in %i', (radius, sagitta, pieces) => {
    expect(circlePieces(radius, sagitta)).toBe(pieces);
  });
});

describe('sides and outlines', () => {
  const quarter: Ring = [
    { x: 0, y: 0 },
    { x: 2, y: 0, via: { x: 2 * HALF, y: 2 * HALF } },
    { x: 0, y: 2 },
  ];

  test('the sides of a quarter of a disc', () => {
    expect(sideLength(sideOf(quarter, 0))).toBe(2);
    expect(sideLength(sideOf(quarter, 1))).toBeCloseTo(Math.PI, 12);
    expect(sideOf(quarter, 2)).toEqual({ a: quarter[2], b: quarter[0], arc: null });
    expect(ringArea(quarter)).toBeCloseTo(Math.PI, 12);
    expect(ringLength(quarter)).toBeCloseTo(4 + Math.PI, 12);
    expect(ringArea([])).toBe(0);
    expect(ringArea([...quarter].reverse().map(({ x, y }) => ({ x, y })))).toBe(-2);
    near(pointOnSide(sideOf(quarter, 1), 1 / 3), 2 * Math.cos(Math.PI / 6), 1);
    near(pointOnSide(sideOf(quarter, 0), 0.25), 0.5, 0);
  });

  test('the fraction nearest to a point stays on the side', () => {
    const arc = sideOf(quarter, 1);
    expect(fractionOnSide(arc, { x: 5, y: 5 })).toBeCloseTo(0.5, 12);
    expect(fractionOnSide(arc, { x: 3, y: -0.1 })).toBe(0);
    expect(fractionOnSide(arc, { x: -0.1, y: 3 })).toBe(1);
    // Both ends are as far: the first.
    expect(fractionOnSide(arc, { x: -1, y: -1 })).toBe(0);
    expect(fractionOnSide(arc, { x: 2, y: 0 })).toBe(0);
    const straight = sideOf(line([1, 1], [5, 4]), 0);
    expect(fractionOnSide(straight, { x: 1 + 4 * 0.3 - 3, y: 1 + 3 * 0.3 + 4 })).toBeCloseTo(0.3, 12);
    expect(fractionOnSide(straight, { x: 0, y: 0 })).toBe(0);
    expect(fractionOnSide(straight, { x: 9, y: 9 })).toBe(1);
    expect(fractionOnSide(sideOf(line([1, 1], [1, 1]), 0), { x: 4, y: 4 })).toBe(0);
  });

  test('the box around arcs is their true extent', () => {
    expect(ringBox(circleRing({ x: 3, y: -2 }, 1.5))).toEqual({
      minX: 1.5,
      minY: -3.5,
      maxX: 4.5,
      maxY: -0.5,
    });
    const boxed = (ring: Ring): number[] => {
      const { minX, minY, maxX, maxY } = ringBox(ring);
      return [minX, minY, maxX, maxY].map((v) => Math.round(v * 1e9) / 1e9 + 0);
    };
    expect(boxed(quarter)).toEqual([0, 0, 2, 2]);
    // From 45° to 135°, over the top only; then the other way round, under it.
    const cap = (via: Point): Ring => [
      { x: HALF, y: HALF, via },
      { x: -HALF, y: HALF },
    ];
    const h = Math.round(HALF * 1e9) / 1e9;
    expect(boxed(cap({ x: 0, y: 1 }))).toEqual([-h, h, h, 1]);
    expect(boxed(cap({ x: 0, y: -1 }))).toEqual([-1, -1, 1, h]);
    expect(boxed(box(1, 2, 5, 3))).toEqual([1, 2, 5, 3]);
    // A third point on the line of its side makes no arc.
    expect(
      boxed([
        { x: 0, y: 0, via: { x: 1, y: 0 } },
        { x: 2, y: 0 },
        { x: 2, y: 1 },
      ]),
    ).toEqual([0, 0, 2, 1]);
  });

  test('rectangles and strips about a line', () => {
    const turned = rectangleRing({ x: 1, y: 2 }, 4, 2, Math.PI / 2);
    [
      [2, 0],
      [2, 4],
      [0, 4],
      [0, 0],
    ].forEach(([x, y], i) => {
      near(turned[i]!, x!, y!);
    });
    const strip = stripRing({ x: 0, y: 0 }, { x: 3, y: 4 }, 0.5);
    expect(ringArea(strip)).toBeCloseTo(2.5, 12);
    near(strip[0]!, 0.25 * 0.8, -0.25 * 0.6);
    near(strip[2]!, 3 - 0.25 * 0.8, 4 + 0.25 * 0.6);
    expect(stripRing({ x: 1, y: 1 }, { x: 1, y: 1 }, 0.5)).toEqual([]);
    near(circleRing({ x: 1, y: 2 }, 3)[0]!, 4, 2);
  });

  test('arcs on one circle are cut at the same points, whichever way they run', () => {
    const whole = flattenRing(circleRing({ x: 1, y: 2 }, 1), 0.01);
    expect(whole).toHaveLength(32);
    const key = ({ x, y }: Point) => `${x} ${y}`;
    const known = new Set(whole.map(key));
    const at = (angle: number): Point => ({ x: 1 + Math.cos(angle), y: 2 + Math.sin(angle) });
    const over = flattenSide({ a: at(3), b: at(5), arc: arcThrough(at(3), at(4), at(5)) }, 0.01);
    const under = flattenSide({ a: at(5), b: at(3), arc: arcThrough(at(5), at(4), at(3)) }, 0.01);
    // Multiples of 2π/32 between 3 and 5 radians: from the 16th to the 25th; then the end.
    expect(over).toHaveLength(11);
    expect(over[10]).toEqual(at(5));
    expect(under[10]).toEqual(at(3));
    const close = (p: Point) =>
      [...known].some((k) => {
        const [x, y] = k.split(' ').map(Number);
        return Math.hypot(p.x - x!, p.y - y!) < 1e-9;
      });
    expect(over.slice(0, 10).every(close)).toBe(true);
    over.slice(0, 10).forEach((p, i) => {
      near(under[9 - i]!, p.x, p.y);
    });
    // Cut besides at a quarter of the way, in its place.
    const also = flattenSide({ a: at(3), b: at(5), arc: arcThrough(at(3), at(4), at(5)) }, 0.01, [0.25]);
    expect(also).toHaveLength(12);
    near(also[2]!, at(3.5).x, at(3.5).y);
    expect(flattenSide(sideOf(box(0, 0, 1, 1), 0), 0.01)).toEqual([{ x: 1, y: 0 }]);
    // An end a hair past one of the fixed angles makes no piece of its own.
    const step = (2 * Math.PI) / 32;
    const hair = (d: number) => ({
      a: at(step),
      b: at(4 * step + d),
      arc: arcThrough(at(step), at(2.5 * step), at(4 * step + d)),
    });
    expect(flattenSide(hair(1e-9), 0.01)).toHaveLength(3);
    expect(flattenSide(hair(1e-4), 0.01)).toHaveLength(4);
  });

  test('inside by the even-odd rule', () => {
    const bow = line([0, 0], [4, 4], [4, 0], [0, 4]);
    expect(insidePoints(bow, { x: 0.5, y: 2 })).toBe(true);
    expect(insidePoints(bow, { x: 3.5, y: 2 })).toBe(true);
    expect(insidePoints(bow, { x: 2, y: 3 })).toBe(false);
    expect(insidePoints(bow, { x: 2, y: 1 })).toBe(false);
    expect(insidePoints(bow, { x: 5, y: 2 })).toBe(false);
    expect(insidePoints([], { x: 0, y: 0 })).toBe(false);
  });

  test('the nearest place on an outline', () => {
    expect(nearestOnRing(box(0, 0, 4, 3), { x: 3.8, y: 1 })).toMatchObject({
      side: 1,
      t: 1 / 3,
      point: { x: 4, y: 1 },
    });
    expect(nearestOnRing(box(0, 0, 4, 3), { x: 1, y: -2 })!.distance).toBe(2);
    const onArc = nearestOnRing(quarter, { x: 3, y: 3 })!;
    expect(onArc.side).toBe(1);
    expect(onArc.distance).toBeCloseTo(3 * Math.SQRT2 - 2, 12);
    // As near to two sides: the first.
    expect(nearestOnRing(box(0, 0, 2, 2), { x: 1, y: 1 })!.side).toBe(0);
    expect(nearestOnRing([], { x: 1, y: 1 })).toBeNull();
    expect(distanceToSegment({ x: 5, y: 3 }, { x: 0, y: 0 }, { x: 2, y: -1 })).toBe(5);
    expect(distanceToSegment({ x: 1, y: 2 }, { x: 0, y: 0 }, { x: 4, y: 0 })).toBe(2);
  });

  test('a third point goes along with its ends, turned and grown as they are', () => {
    const [a, b, p] = line([1, 1], [3, 1], [2, 2]);
    near(carryAlong(a!, b!, p!, { x: 10, y: 0 }, { x: 10, y: 4 })!, 8, 2);
    near(carryAlong(a!, b!, p!, { x: 0, y: 0 }, { x: 3, y: 4 })!, 1.5 - 2, 2 + 1.5);
    near(carryAlong({ x: 0, y: 0 }, { x: 3, y: 4 }, { x: -0.5, y: 3.5 }, a!, b!)!, 2, 2);
    expect(carryAlong(a!, a!, p!, a!, b!)).toBeNull();
  });
});

describe('outlines that cross themselves', () => {
  test('where', () => {
    near(selfCrossing(line([0, 0], [4, 4], [4, 0], [0, 4]))!, 2, 2);
    near(selfCrossing(line([100, -50], [104, -46], [104, -50], [101, -47]))!, 102, -48);
    expect(selfCrossing(box(0, 0, 4, 3))).toBeNull();
    expect(selfCrossing(circleRing({ x: 0, y: 0 }, 2))).toBeNull();
    // A side run along twice: its near end.
    expect(selfCrossing(line([0, 0], [4, 0], [4, 3], [6, 3], [4, 3], [0, 3]))).not.toBeNull();
    // Touching itself at one corner.
    near(selfCrossing(line([0, 0], [2, 2], [4, 0], [4, 4], [2, 2], [0, 4]))!, 2, 2);
    expect(selfCrossing(line([0, 0]))).toBeNull();
    expect(selfCrossing([])).toBeNull();
    expect(selfCrossing(line([0, 0], [1, 0]))).not.toBeNull();
  });

  test('whether they go round any ground', () => {
    expect(enclosesGround(box(0, 0, 4, 3))).toBe(true);
    expect(enclosesGround(circleRing({ x: 0, y: 0 }, 1))).toBe(true);
    expect(enclosesGround(line([0, 0], [4, 0], [2, 0]))).toBe(false);
    expect(enclosesGround(line([0, 0], [4, 0]))).toBe(false);
    expect(enclosesGround(line([0, 0]))).toBe(false);
    expect(enclosesGround([])).toBe(false);
  });
});

describe('points inside and around', () => {
  test('a label stands farthest from every edge, holes too', () => {
    const found = labelPoint(
      [line([0, 0], [10, 0], [10, 4], [0, 4]), line([4, 0.5], [4, 3.5], [9.5, 3.5], [9.5, 0.5])],
      0.01,
    )!;
    expect(found.clearance).toBeGreaterThan(1.98);
    expect(found.point.x).toBeLessThan(2.05);
    expect(labelPoint([line([0, 0], [10, 0])], 0.01)).toBeNull();
    // A hole alone is no ground.
    expect(labelPoint([line([0, 0], [0, 4], [4, 4], [4, 0])], 0.01)).toBeNull();
    // Of two pieces the wider one, in either order.
    const [wide, thin] = [line([0, 0], [6, 0], [6, 6], [0, 6]), line([20, 0], [24, 0], [24, 1], [20, 1])];
    for (const rings of [
      [wide, thin],
      [thin, wide],
    ]) {
      expect(labelPoint(rings, 0.01)!.clearance).toBeCloseTo(3, 6);
    }
  });

  test.each([
    ['a disc', circleRing({ x: 1, y: 2 }, 3)],
    [
      'a quarter',
      [
        { x: 0, y: 0 },
        { x: 2, y: 0, via: { x: 2 * HALF, y: 2 * HALF } },
        { x: 0, y: 2 },
      ] as Ring,
    ],
    [
      'a bite out of a square',
      [
        { x: 0, y: 0, via: { x: 2, y: 1 } },
        { x: 4, y: 0 },
        { x: 4, y: 4 },
        { x: 0, y: 4 },
      ] as Ring,
    ],
    [
      'a flat arc',
      [
        { x: 0, y: 0, via: { x: 2, y: -0.01 } },
        { x: 4, y: 0 },
        { x: 2, y: 3 },
      ] as Ring,
    ],
  ])('%s as points encloses the same area', (_, ring) => {
    for (const sagitta of [0.2, 0.01, 1e-4]) {
      const points = equalAreaPoints(ring, sagitta);
      expect(ringArea(points)).toBeCloseTo(ringArea(ring), 9);
      // Nowhere farther off the outline than asked, and the corners are kept.
      for (const p of points) expect(nearestOnRing(ring, p)!.distance).toBeLessThan(2 * sagitta + 1e-9);
      for (const v of ring) expect(points.some((p) => p.x === v.x && p.y === v.y)).toBe(true);
    }
  });

  test('as many points as the sagitta asks for, six at least to a turn', () => {
    // Half circles; 2·acos(1 − 0.01) = 0.2831 goes 11.1 times into π.
    expect(equalAreaPoints(circleRing({ x: 0, y: 0 }, 1), 0.01)).toHaveLength(24);
    expect(equalAreaPoints(circleRing({ x: 0, y: 0 }, 1), 5)).toHaveLength(6);
    expect(equalAreaPoints(box(0, 0, 2, 1), 0.01)).toEqual(line([0, 0], [2, 0], [2, 1], [0, 1]));
  });

  test('pieces of one arc are joined again, by half turns', () => {
    const at = (angle: number): Point => ({ x: Math.cos(angle), y: Math.sin(angle) });
    const arc = { centre: { x: 0, y: 0 }, radius: 1, start: 0, sweep: 2 * Math.PI };
    const quarters = [0, 1, 2, 3].map((k) => ({ from: at((k * Math.PI) / 2), arc, turn: Math.PI / 2 }));
    const whole = joinSteps(quarters);
    expect(whole).toHaveLength(2);
    expect(ringArea(whole)).toBeCloseTo(Math.PI, 9);
    // Three quarters and two straight sides: more than half a turn stays in two.
    const bitten = joinSteps([
      ...quarters.slice(0, 3),
      { from: at(1.5 * Math.PI), arc: null, turn: 0 },
      { from: { x: 0, y: 0 }, arc: null, turn: 0 },
    ]);
    expect(bitten.map((v) => v.via !== undefined)).toEqual([true, true, false, false]);
    expect(ringArea(bitten)).toBeCloseTo(0.75 * Math.PI, 9);
    // The other way round it turns clockwise; a step that turns back is not joined.
    const back = joinSteps(
      [3, 2, 1, 0].map((k) => ({ from: at(((k + 1) * Math.PI) / 2), arc, turn: -Math.PI / 2 })),
    );
    expect(back).toHaveLength(2);
    expect(ringArea(back)).toBeCloseTo(-Math.PI, 9);
    // The second on a circle of its own: only the last two are still one.
    const other = { ...arc, centre: { x: 0, y: 1e-3 } };
    expect(joinSteps(quarters.map((q, k) => (k === 1 ? { ...q, arc: other } : q)))).toHaveLength(3);
    expect(joinSteps(line([0, 0], [1, 0], [0, 1]).map((from) => ({ from, arc: null, turn: 0 })))).toEqual(
      line([0, 0], [1, 0], [0, 1]),
    );
  });

  test('an arc that the grid has bent keeps its rise above the chord', () => {
    const arc = { centre: { x: 0, y: 0 }, radius: 1, start: 0, sweep: Math.PI / 2 };
    const [v] = joinSteps([
      { from: { x: 1.01, y: 0 }, arc, turn: Math.PI / 2 },
      { from: { x: 0, y: 1.01 }, arc: null, turn: 0 },
      { from: { x: 0, y: 0 }, arc: null, turn: 0 },
    ]);
    const middle = 1.01 / 2 + (1 - HALF) * HALF;
    near(v!.via!, middle, middle);
    // One foot on the circle is not enough.
    const [w] = joinSteps([
      { from: { x: 1, y: 0 }, arc, turn: Math.PI / 2 },
      { from: { x: 0, y: 1.01 }, arc: null, turn: 0 },
      { from: { x: 0, y: 0 }, arc: null, turn: 0 },
    ]);
    const chord = Math.hypot(1, 1.01);
    near(w!.via!, 0.5 + ((1 - HALF) * 1.01) / chord, 0.505 + (1 - HALF) / chord);
  });
});
