import { readFileSync } from 'node:fs';
import area from '@turf/area';
import geographiclib from 'geographiclib-geodesic';
import { describe, expect, test } from 'vitest';
import {
  arcFromBulge,
  arcLength,
  arcThrough,
  bulgeOf,
  circleRing,
  insidePoints,
  labelPoint,
  type Point,
  partition,
  type Ring,
  ringArea,
  ringLength,
  segmentArea,
} from '../../geometry/index.ts';
import { beside } from '../shared-material.ts';

const ring = (xy: ReadonlyArray<readonly [number, number]>): Ring => xy.map(([x, y]) => ({ x, y }));

describe('areas by coordinates', () => {
  test('loop traverse: 102,935.75 sq ft', () => {
    // J. Mahun, Open Access Surveying Library, Traverse Computations ch. G, 3a example 1. READ; the area follows
    // from the two printed sums.
    const tract = ring([
      [2000, 500],
      [1561.426, 323.614],
      [1488.321, 526.996],
      [1686.956, 719.336],
    ]);
    expect(Math.abs(Math.abs(ringArea(tract)) - 102935.75)).toBeLessThan(0.11);
  });

  test('five vertices: 16.5', () => {
    // Wikipedia, "Shoelace formula", worked example. READ SECOND-HAND.
    expect(
      Math.abs(
        ringArea(
          ring([
            [1, 6],
            [3, 1],
            [7, 2],
            [4, 4],
            [8, 5],
          ]),
        ),
      ),
    ).toBeCloseTo(16.5, 12);
  });

  test('five vertices: 30', () => {
    // Rosetta Code, "Shoelace formula for polygonal area": vertices READ, the answer FROM MEMORY.
    expect(
      Math.abs(
        ringArea(
          ring([
            [3, 4],
            [5, 11],
            [12, 8],
            [9, 5],
            [5, 6],
          ]),
        ),
      ),
    ).toBeCloseTo(30, 12);
  });

  test('lot of five courses closes at 36,320 sq ft', () => {
    // University of Memphis, CIVL 1112, compass-adjusted coordinates and area. READ SECOND-HAND.
    const lot = ring([
      [0, 0],
      [-20.601, -188.388],
      [66.047, -340.641],
      [-129.423, -310.708],
      [-159.974, -171.628],
    ]);
    expect(Math.abs(Math.abs(ringArea(lot)) - 36320)).toBeLessThan(0.6);
  });

  test('regular twelve-gon in a circle of radius 8: side 4.141, area 191.98', () => {
    // Machinery's Handbook, 31st ed. (Industrial Press 2020), p. 78. READ.
    const gon = ring(
      Array.from({ length: 12 }, (_, k): [number, number] => [
        8 * Math.cos((k * Math.PI) / 6),
        8 * Math.sin((k * Math.PI) / 6),
      ]),
    );
    expect(Math.abs(ringArea(gon) - 191.98)).toBeLessThan(0.025);
    expect(Math.abs(ringLength(gon) / 12 - 4.141)).toBeLessThan(0.0006);
  });

  test('regular hexagon of side 40: 4156.8', () => {
    // Machinery's Handbook, 31st ed., p. 77. READ.
    const gon = ring(
      Array.from({ length: 6 }, (_, k): [number, number] => [
        40 * Math.cos((k * Math.PI) / 3),
        40 * Math.sin((k * Math.PI) / 3),
      ]),
    );
    expect(Math.abs(ringArea(gon) - 4156.8)).toBeLessThan(0.2);
  });

  test('triangle of sides 10, 9, 8: 34.2', () => {
    // Machinery's Handbook, 31st ed., p. 76. READ.
    const x = (10 ** 2 + 9 ** 2 - 8 ** 2) / 20;
    expect(
      Math.abs(
        ringArea(
          ring([
            [0, 0],
            [10, 0],
            [x, Math.sqrt(81 - x * x)],
          ]),
        ) - 34.2,
      ),
    ).toBeLessThan(0.02);
  });

  test('triangle of sides 5, 4, 8: 8.18', () => {
    // Machinery's Handbook, 31st ed., p. 76. READ.
    const x = (64 + 25 - 16) / 16;
    expect(
      Math.abs(
        ringArea(
          ring([
            [0, 0],
            [8, 0],
            [x, Math.sqrt(25 - x * x)],
          ]),
        ) - 8.18,
      ),
    ).toBeLessThan(0.006);
  });
});

describe('circles, arcs and segments', () => {
  test('circle of diameter 2.75: area 5.9396, circumference 8.6394', () => {
    // Machinery's Handbook, 31st ed., p. 78. READ.
    const circle = circleRing({ x: 0, y: 0 }, 2.75 / 2);
    expect(Math.abs(ringArea(circle) - 5.9396)).toBeLessThan(6e-5);
    expect(Math.abs(ringLength(circle) - 8.6394)).toBeLessThan(6e-5);
  });

  test('annulus of diameters 12 and 8: 62.83', () => {
    // Machinery's Handbook, 31st ed., p. 79. READ. The hole is taken out as a void.
    const made = partition({
      slabs: [circleRing({ x: 0, y: 0 }, 6)],
      cuts: [],
      voids: [circleRing({ x: 0, y: 0 }, 4)],
    });
    if (!made.ok) throw new Error();
    expect(Math.abs(made.value.zones[0]!.netArea - 62.83)).toBeLessThan(0.006);
  });

  test('segment of radius 12 and depth 2: chord 13.27, arc 14.06, area 18.01', () => {
    // Machinery's Handbook, 31st ed., p. 50, examples 3 and 4. READ.
    const half = Math.sqrt(12 ** 2 - 10 ** 2);
    const segment: Ring = [
      { x: half, y: 10, via: { x: 0, y: 12 } },
      { x: -half, y: 10 },
    ];
    expect(Math.abs(2 * half - 13.27)).toBeLessThan(0.006);
    expect(Math.abs(ringArea(segment) - 18.01)).toBeLessThan(0.006);
    expect(Math.abs(ringLength(segment) - 2 * half - 14.06)).toBeLessThan(0.006);
  });

  test('sector of radius 7 and 30 degrees: 12.83', () => {
    // Machinery's Handbook, 31st ed., p. 50, example 2. READ.
    const at = (deg: number): Point => ({
      x: 7 * Math.cos((deg * Math.PI) / 180),
      y: 7 * Math.sin((deg * Math.PI) / 180),
    });
    expect(Math.abs(ringArea([{ x: 0, y: 0 }, { ...at(0), via: at(15) }, at(30)]) - 12.83)).toBeLessThan(
      0.006,
    );
  });

  test('sector of radius 35 and 60 degrees: 641.41', () => {
    // Machinery's Handbook, 31st ed., p. 78. READ.
    const at = (deg: number): Point => ({
      x: 35 * Math.cos((deg * Math.PI) / 180),
      y: 35 * Math.sin((deg * Math.PI) / 180),
    });
    expect(Math.abs(ringArea([{ x: 0, y: 0 }, { ...at(0), via: at(30) }, at(60)]) - 641.41)).toBeLessThan(
      0.006,
    );
  });

  test('radius from chord 16 and height 6: 8 1/3', () => {
    // Machinery's Handbook, 31st ed., p. 79. READ.
    expect(arcThrough({ x: -8, y: 0 }, { x: 0, y: 6 }, { x: 8, y: 0 })!.radius).toBeCloseTo(25 / 3, 12);
  });

  test('fillet of radius 0.7 between tangents at right angles: 0.105', () => {
    // Machinery's Handbook, 31st ed., p. 80. READ.
    const c = 0.7 - 0.7 * Math.SQRT1_2;
    const fillet: Ring = [
      { x: 0, y: 0 },
      { x: 0.7, y: 0, via: { x: c, y: c } },
      { x: 0, y: 0.7 },
    ];
    expect(Math.abs(ringArea(fillet) - 0.105)).toBeLessThan(0.0006);
  });

  test('unit segment of 90 degrees: arc 1.5708, area 0.2854', () => {
    // Table "Segments of circles for radius 1". FROM MEMORY.
    expect(Math.abs(segmentArea(1, Math.PI / 2) - 0.2854)).toBeLessThan(6e-6);
  });

  test.each([
    [180, 1],
    [-180, -1],
    [106.26020471, 0.5],
    [-106.26020471, -0.5],
    [56.14497387, 0.25],
    [-56.14497387, -0.25],
  ])('an arc of %f degrees has bulge %f', (degrees, bulge) => {
    // github:mozman/ezdxf @5ffc690 tests/test_06_math/test_601_bulge.py. READ.
    const arc = { centre: { x: 0, y: 0 }, radius: 1, start: 0, sweep: (degrees * Math.PI) / 180 };
    expect(bulgeOf(arc)).toBeCloseTo(bulge, 9);
  });

  test('bulge −1 from (0,0) to (1,0): centre (0.5, 0), radius 0.5', () => {
    // The same file, test_bulge_to_arc. READ. A negative bulge turns clockwise.
    const arc = arcFromBulge({ x: 0, y: 0 }, { x: 1, y: 0 }, -1)!;
    expect(arc.centre.x).toBeCloseTo(0.5, 12);
    expect(arc.centre.y).toBeCloseTo(0, 12);
    expect(arc.radius).toBeCloseTo(0.5, 12);
    expect(arc.sweep).toBeCloseTo(-Math.PI, 12);
  });

  test('bulge 0.57735 is an arc of 120 degrees', () => {
    // "Bulge value (code 42) in LWPolyline", read as a row of a public dataset. READ.
    const arc = arcFromBulge({ x: 0, y: 0 }, { x: 10, y: 0 }, 0.57735)!;
    expect(Math.abs((arc.sweep * 180) / Math.PI - 120)).toBeLessThan(0.0005);
  });

  test('arc through three points: length 0.6122445326877711', () => {
    // github:libgeos/geos @5b62cd0 tests/unit/geom/CircularArcTest.cpp test 2. READ.
    const arc = arcThrough({ x: 1.6, y: 0.4 }, { x: 1.6, y: 0.5 }, { x: 1.7, y: 1 })!;
    expect(arcLength(arc)).toBeCloseTo(0.6122445326877711, 9);
  });

  test.each([
    [[-2, 0], [0, 2], [2, 0], 6.283185307179586],
    [[-Math.SQRT2, Math.SQRT2], [0, -2], [Math.SQRT2, Math.SQRT2], 11.42477796076938],
    [[-Math.SQRT2, Math.SQRT2], [0, 2], [Math.SQRT2, Math.SQRT2], 1.1415926535897931],
  ])('area between arc and chord %#', (a, via, b, expected) => {
    // github:libgeos/geos @5b62cd0 tests/unit/geom/CircularArcTest.cpp test 3. READ.
    const p = ([x, y]: number[]): Point => ({ x: x!, y: y! });
    const arc = arcThrough(p(a), p(via), p(b))!;
    expect(Math.abs(segmentArea(arc.radius, arc.sweep))).toBeCloseTo(expected, 8);
  });

  test('curved outline with a curved hole: net area 9.0526564962674, edges 19.236489581872586', () => {
    // github:libgeos/geos @5b62cd0 tests/unit/geom/CurvePolygonTest.cpp lines 107-108 and 289. READ.
    const outer: Ring = [
      { x: 0, y: 0, via: { x: 2, y: 0 } },
      { x: 2, y: 1, via: { x: 2, y: 3 } },
      { x: 4, y: 3 },
      { x: 4, y: 5 },
      { x: 1, y: 4 },
    ];
    const hole: Ring = [
      { x: 1.7, y: 1, via: { x: 1.4, y: 0.4 } },
      { x: 1.6, y: 0.4, via: { x: 1.6, y: 0.5 } },
    ];
    const made = partition({ slabs: [outer], cuts: [], voids: [hole] });
    if (!made.ok) throw new Error();
    const [zone] = made.value.zones;
    expect(zone!.netArea).toBeCloseTo(9.0526564962674, 8);
    expect(zone!.boundary).toBeCloseTo(19.236489581872586, 8);
  });
});

describe('places', () => {
  test('points in polygons agree with their stated answers', (context) => {
    // 171 cases of point-in-polygon-hao, Turf, robust-point-in-polygon, scikit-image and GEOS, confirmed in rational
    // arithmetic (values/cases/README.md). READ. Ours answers inside or outside only: points on an edge are left out.
    const path = beside('values/cases/point-in-polygon.json');
    if (!path) return context.skip();
    const { cases } = JSON.parse(readFileSync(path, 'utf8')) as {
      cases: Array<{ name: string; polygon: number[][][]; point: [number, number]; exact_rational: string }>;
    };
    let asked = 0;
    for (const { polygon, point, exact_rational, name } of cases) {
      if (exact_rational === 'boundary') continue;
      const p = { x: point[0], y: point[1] };
      const hits = polygon.filter((r) =>
        insidePoints(
          r.map(([x, y]) => ({ x: x!, y: y! })),
          p,
        ),
      ).length;
      expect(hits % 2 === 1 ? 'inside' : 'outside', name).toBe(exact_rational);
      asked++;
    }
    expect(asked).toBeGreaterThan(60);
  });

  test.each([
    [
      [
        [100, 200],
        [200, 200],
        [200, 100],
        [100, 100],
      ],
      150,
      150,
      50,
    ],
    [
      [
        [150, 250],
        [50, 150],
        [150, 50],
        [250, 150],
      ],
      150,
      150,
      70.71,
    ],
  ])('largest inscribed circle %#', (points, x, y, radius) => {
    // github:libgeos/geos @5b62cd0 tests/unit/algorithm/construct/MaximumInscribedCircleTest.cpp. READ.
    const outer = points.map(([px, py]) => ({ x: px!, y: py! }));
    const turned = ringArea(outer) > 0 ? outer : outer.reverse();
    const found = labelPoint([turned], 0.001)!;
    expect(Math.hypot(found.point.x - x, found.point.y - y)).toBeLessThan(0.05);
    expect(Math.abs(found.clearance - radius)).toBeLessThan(0.01);
  });
});

describe('longitude and latitude', () => {
  test.each([
    [0, 0.00449],
    [30, 0.00113],
    [40, -0.00106],
    [50, -0.00339],
    [60, -0.00557],
  ])('at %f° the spherical area is off by %f of the geodesic one', (latitude, expected) => {
    // A 20 m × 10 m rectangle by GeographicLib against @turf/area (a sphere of 6,371,008.8 m). COMPUTED with both
    // libraries; it says why lon/lat areas come from the ellipsoid and are never taken from plain metres.
    const geodesic = geographiclib.Geodesic.WGS84;
    const start = { lat: latitude, lon: 10 };
    const east = geodesic.Direct(start.lat, start.lon, 90, 20);
    const up = (p: { lat: number; lon: number }) => geodesic.Direct(p.lat, p.lon, 0, 10);
    const corners = [start, { lat: east.lat2!, lon: east.lon2! }].flatMap((p) => [
      p,
      { lat: up(p).lat2!, lon: up(p).lon2! },
    ]);
    const order = [corners[0]!, corners[2]!, corners[3]!, corners[1]!];
    const polygon = geodesic.Polygon(false);
    for (const p of order) polygon.AddPoint(p.lat, p.lon);
    const truth = Math.abs(polygon.Compute(false, true).area!);
    const coordinates = [[...order, order[0]!].map((p) => [p.lon, p.lat])];
    const sphere = area({ type: 'Polygon', coordinates });
    expect(truth).toBeCloseTo(200, 1);
    expect(sphere / truth - 1).toBeCloseTo(expected, 4);
  });
});
