import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { describe, expect, test } from 'vitest';
import {
  adjustFigure,
  applyMatrix,
  distance,
  distort,
  fitScale,
  invertMatrix,
  type Lens,
  lensFrom,
  nextMeasure,
  type Observation,
  type Point,
  rectify,
  simpsonArea,
  trapezoidArea,
  undistort,
} from '../../geometry/index.ts';
import { normal, randomNumbers } from '../random/numbers.ts';
import { beside } from '../shared-material.ts';

/** Figures by distances, as F. Krumm transcribes them from textbooks (Geodetic Network Adjustment Examples, rev. 3.5, 2020; read). */
interface Network {
  readonly name: string;
  readonly points: Readonly<Record<string, readonly [number, number]>>;
  readonly fixed: readonly string[];
  readonly lines: ReadonlyArray<readonly [string, string, number, number]>;
  readonly adjusted: Readonly<Record<string, readonly [number, number]>>;
}

const NETWORKS: readonly Network[] = [
  {
    name: 'W. Benning (2011) ex. 8-2: braced quadrilateral, both diagonals, one side fixed',
    points: { 1: [0, 1000], 2: [1000, 1000], 3: [0, 0], 4: [1000, 0] },
    fixed: ['1', '2'],
    lines: [
      ['1', '3', 1000.02, 0.01],
      ['1', '4', 1414.2, 0.01],
      ['2', '3', 1414.24, 0.01],
      ['2', '4', 999.98, 0.01],
      ['3', '4', 1000, 0.01],
    ],
    adjusted: { 3: [-0.0096, -0.0226], 4: [999.993, 0.0174] },
  },
  {
    name: 'W. Benning (2011) ex. 8-8: one point from five distances',
    points: {
      1: [3000, 2000],
      2: [1000, 2000],
      3: [3000, 2100],
      4: [1000, 2100],
      5: [2000, 1000],
      6: [2000, 2000],
    },
    fixed: ['1', '2', '3', '4', '5'],
    lines: [
      ['6', '1', 1000, 0.02],
      ['6', '2', 1000, 0.02],
      ['6', '3', 1005, 0.02],
      ['6', '4', 1005, 0.02],
      ['6', '5', 1000, 0.02],
    ],
    adjusted: { 6: [2000, 1999.9976] },
  },
  {
    name: 'G. Strang, K. Borre (1997) ex. 10.1: one point from three distances',
    points: { 1: [170.71, 270.71], 2: [100, 100], 3: [241.42, 100], P: [170.71, 170.71] },
    fixed: ['1', '2', '3'],
    lines: [
      ['1', 'P', 100.01, 0.01],
      ['2', 'P', 100.02, 0.01],
      ['3', 'P', 100.03, 0.01],
    ],
    adjusted: { P: [170.7029, 170.7234] },
  },
  {
    name: 'C. D. Ghilani (2010) ex. 14.5: quadrilateral, five distances, two points fixed',
    points: {
      Badger: [2410000, 390000],
      Bucky: [2411820, 386881.222],
      Wisconsin: [2415776.819, 391043.461],
      Campus: [2416892.67, 387603.45],
    },
    fixed: ['Badger', 'Bucky'],
    lines: [
      ['Badger', 'Wisconsin', 5870.302, 0.01],
      ['Badger', 'Campus', 7297.588, 0.01],
      ['Wisconsin', 'Campus', 3616.434, 0.01],
      ['Wisconsin', 'Bucky', 5742.878, 0.01],
      ['Campus', 'Bucky', 5123.76, 0.01],
    ],
    adjusted: { Wisconsin: [2415776.9044, 391043.2945], Campus: [2416892.6955, 387603.2551] },
  },
];

function adjusted({ points, fixed, lines }: Pick<Network, 'points' | 'fixed' | 'lines'>) {
  const names = Object.keys(points);
  const start = names.map((n) => ({ x: points[n]![0], y: points[n]![1] }));
  const observations: Observation[] = [
    ...lines.map(([a, b, length, deviation]) => ({
      kind: 'distance' as const,
      a: names.indexOf(a),
      b: names.indexOf(b),
      length,
      deviation,
    })),
    ...fixed.map((n) => ({
      kind: 'known' as const,
      point: names.indexOf(n),
      at: start[names.indexOf(n)]!,
      deviation: 1e-6,
    })),
  ];
  const fit = adjustFigure(start, observations);
  return { fit, names, at: (n: string) => fit.points[names.indexOf(n)]! };
}

describe('figures by distances, against textbooks', () => {
  test.each(NETWORKS.map((n) => [n.name, n] as const))('%s', (_, network) => {
    const { at, fit } = adjusted(network);
    expect(fit.loose).toBe(0);
    for (const [name, [x, y]] of Object.entries(network.adjusted)) {
      expect(Math.abs(at(name).x - x)).toBeLessThan(1.2e-4);
      expect(Math.abs(at(name).y - y)).toBeLessThan(1.2e-4);
    }
  });

  test('C. D. Ghilani (2010) problem 21.10, by its distances alone: four sides and two diagonals', () => {
    // Inputs read; the answer is the independent one beside the project (no printed answer).
    const lines = [
      ['A', 'B', 3111.291, 0.01],
      ['B', 'C', 3726.22, 0.012],
      ['C', 'D', 3237.783, 0.01],
      ['D', 'A', 3662.372, 0.012],
      ['A', 'C', 5193.471, 0.016],
      ['B', 'D', 4524.471, 0.014],
    ] as const;
    const points = { A: [0, 0], B: [3111, 0], C: [3800, 3700], D: [800, 3600] } as const;
    const { at, fit } = adjusted({ points, fixed: [], lines });
    const expected = [3111.29208436, 3726.22177786, 3237.7840463, 3662.37379267, 5193.4665392, 4524.46802321];
    const found = lines.map(([a, b]) => distance(at(a), at(b)));
    for (const [i, d] of found.entries()) expect(d).toBeCloseTo(expected[i]!, 4);
    expect(fit.squares).toBeCloseTo(0.18991279, 5);
    expect(fit.redundancy).toBe(1);
    expect(fit.suspects).toEqual([]);
    // One check alone cannot tell one wrong length from another.
    const wrong = lines.map((l, i) => (i === 4 ? ([l[0], l[1], l[2] + 3, l[3]] as const) : l));
    expect(adjusted({ points, fixed: [], lines: wrong }).fit.suspects).toHaveLength(6);
  });

  test('W. Hoepke (1980) ex. 35.5: free network of 27 distances, and a line typed wrong by 50 mm is the one named', () => {
    const file = beside('values/geometry-values.json');
    if (!file) return;
    const all = JSON.parse(readFileSync(file, 'utf8')) as {
      items: Array<{ id: string; inputs: Record<string, never>; recomputed: Record<string, never> }>;
      blunder_study: Record<
        string,
        { largest_normalised_residuals: Array<[string, string, number, number, number]> }
      >;
    };
    const item = all.items.find((i) => i.id === 'B16')!;
    const points = item.inputs.approximate_points as unknown as Network['points'];
    const lines = item.inputs.distances_from_to_m_sigma as unknown as Network['lines'];
    const { fit, at } = adjusted({ points, fixed: [], lines });
    const residuals = item.recomputed.residuals_adjusted_minus_observed as unknown as number[];
    for (const [i, o] of fit.observations.entries()) expect(o.residual).toBeCloseTo(residuals[i]!, 5);
    const coordinates = item.recomputed.coordinates as unknown as number[][];
    Object.keys(points).forEach((n, i) => {
      const order = ['20', '75', '86', '87', '1006', '1011', '1059', '1087'];
      const [x, y] = coordinates[order.indexOf(n)]!;
      expect(Math.abs(at(n).x - x!), `${i}`).toBeLessThan(2e-3);
      expect(Math.abs(at(n).y - y!)).toBeLessThan(2e-3);
    });
    const typo = lines.map((l) =>
      l[0] === '1059' && l[1] === '75' ? ([l[0], l[1], 1789.499, l[3]] as const) : l,
    );
    const slipped = adjusted({ points, fixed: [], lines: typo });
    const [named] = slipped.fit.suspects;
    expect(slipped.fit.suspects).toHaveLength(1);
    expect(typo[named!]!.slice(0, 2)).toEqual(['1059', '75']);
    const [, , normalised] = all.blunder_study.Hoepke_1789_499!.largest_normalised_residuals[0]!;
    expect(Math.abs(slipped.fit.observations[named!]!.standardised)).toBeCloseTo(normalised, 1);
  });
});

describe('a figure that can still move', () => {
  const square: Point[] = [
    { x: 0, y: 0 },
    { x: 4, y: 0.2 },
    { x: 4.1, y: 3 },
    { x: 0.1, y: 3.1 },
  ];
  const sides: Observation[] = [
    [0, 1, 4],
    [1, 2, 3],
    [2, 3, 4],
    [3, 0, 3],
  ].map(([a, b, length]) => ({ kind: 'distance', a: a!, b: b!, length: length!, deviation: 0.003 }));

  test('four sides leave one way to move; a diagonal stops it (rigidity of frameworks: 2n − 3 bars)', () => {
    const fit = adjustFigure(square, sides);
    expect(fit.loose).toBe(1);
    const next = nextMeasure(fit, sides, () => 0.003, new Array(8).fill(0))!;
    expect([next.a, next.b].sort()).toSatisfy((p: number[]) => p.join() === '0,2' || p.join() === '1,3');
    const braced = adjustFigure(square, [
      ...sides,
      { kind: 'distance', a: next.a, b: next.b, length: 5, deviation: 0.003 },
    ]);
    expect(braced.loose).toBe(0);
    expect(distance(braced.points[0]!, braced.points[2]!)).toBeCloseTo(5, 6);
  });

  test('a right angle, or offsets from a baseline, hold it as well', () => {
    const squared = adjustFigure(square, [...sides, { kind: 'square', at: 0, a: 1, b: 3, deviation: 0.002 }]);
    expect(squared.loose).toBe(0);
    expect(distance(squared.points[0]!, squared.points[2]!)).toBeCloseTo(5, 6);
    const offset = adjustFigure(square, [
      { kind: 'distance', a: 0, b: 1, length: 4, deviation: 0.003 },
      { kind: 'offset', a: 0, b: 1, point: 2, along: 4, off: 3, deviation: 0.003 },
      { kind: 'offset', a: 0, b: 1, point: 3, along: 0, off: 3, deviation: 0.003 },
    ]);
    expect(offset.loose).toBe(0);
    expect(distance(offset.points[2]!, offset.points[3]!)).toBeCloseTo(4, 6);
  });

  test('of a rigid figure the next measure is the one that helps the area most, as trying each shows', () => {
    const all: Observation[] = [...sides, { kind: 'distance', a: 0, b: 2, length: 5, deviation: 0.01 }];
    const fit = adjustFigure(square, all);
    const slopes = fit.points.flatMap((_, i) => {
      const before = fit.points[(i + 3) % 4]!;
      const after_ = fit.points[(i + 1) % 4]!;
      return [(after_.y - before.y) / 2, (before.x - after_.x) / 2];
    });
    const next = nextMeasure(fit, all, () => 0.003, slopes)!;
    expect([next.a, next.b]).toEqual([1, 3]);
    const then = adjustFigure(square, [
      ...all,
      { kind: 'distance', a: 1, b: 3, length: 5, deviation: 0.003 },
    ]);
    const variance = slopes.reduce(
      (s, g, i) => s + slopes.reduce((t, h, j) => t + g * then.covariance[i]![j]! * h, 0),
      0,
    );
    expect(next.worth).toBeCloseTo(Math.sqrt(variance), 5);
  });
});

describe('scale from known lengths', () => {
  const line = (dx: number, dy: number, length: number) => ({
    dx,
    dy,
    length,
    deviation: 0.002,
    readDeviation: 1,
  });

  test('equal weights give Σ d·L / Σ d², the regression through the origin (any textbook)', () => {
    const lines = [line(100, 0, 1.01), line(0, 200, 1.99), line(300, 0, 3.02)];
    const fit = fitScale(lines, false)!;
    expect(fit.x).toBeCloseTo((100 * 1.01 + 200 * 1.99 + 300 * 3.02) / (100 ** 2 + 200 ** 2 + 300 ** 2), 12);
    expect(fit.redundancy).toBe(2);
  });

  test('a stretched scan has two scales, and its one-scale fit cries out', () => {
    const lines = [
      line(500, 0, 5),
      line(0, 400, 4.2),
      line(300, 400, Math.hypot(3, 4.2)),
      line(0, 500, 5.25),
    ];
    const one = fitScale(lines, false)!;
    const two = fitScale(lines, true)!;
    expect(two.x).toBeCloseTo(0.01, 9);
    expect(two.y).toBeCloseTo(0.0105, 9);
    expect(two.squares).toBeLessThan(1e-6);
    expect(one.squares).toBeGreaterThan(50);
    expect(fitScale([line(500, 0, 5)], true)).toBeNull();
    expect(fitScale([], false)).toBeNull();
  });

  test('one wrong length of four is named', () => {
    const lines = [line(500, 0, 5), line(0, 420, 4.31), line(300, 400, 5), line(0, 600, 6)];
    expect(fitScale(lines, false)!.suspects).toEqual([1]);
  });
});

describe('areas by offsets, against printed examples', () => {
  const even = (offs: readonly number[], width: number) => offs.map((off, i) => ({ along: i * width, off }));

  test('Machinery’s Handbook, 31st ed., p. 73 (read)', () => {
    const offsets = even([0, 1.91, 3.18, 3.81, 4.13, 5.27, 6.35, 4.45, 1.27], 1);
    expect(Math.abs(simpsonArea(offsets)! - 30.12)).toBeLessThan(0.006);
  });

  test('handout “Area by offsets from a straight line”, problems E1 and E2 (read)', () => {
    const offsets = even([0.8, 3.6, 4.7, 5.3, 3.9, 2.7, 4.6, 5.5, 4.9, 7.6, 8.8, 5.4, 6], 3.5);
    expect(Math.abs(trapezoidArea(offsets) - 211.4)).toBeLessThan(0.06);
    expect(Math.abs(simpsonArea(offsets)! - 211.17)).toBeLessThan(0.006);
  });

  test('unequal spacing by trapezoids, published answer 50.27; Simpson’s rule does not apply', () => {
    const offsets = [0, 0.3, 1, 1.6, 2].map((along, i) => ({ along, off: [0, 24.5, 27.8, 28.3, 29][i]! }));
    expect(trapezoidArea(offsets)).toBeCloseTo(50.27, 6);
    expect(simpsonArea(offsets)).toBeNull();
    expect(simpsonArea(even([1, 2, 3, 4], 1))).toBeNull();
  });
});

const none = (n: number) => Array.from({ length: 2 * n }, () => new Array<number>(2 * n).fill(0));
const rectified = (pairs: Array<[number[], number[]]>, seen = 0, at = none(pairs.length)) => {
  const fit = rectify(
    pairs.map(([s, a]) => ({ seen: { x: s[0]!, y: s[1]! }, at: { x: a[0]!, y: a[1]! } })),
    { seen, at },
  );
  if (!fit.ok) throw new Error(fit.problem.kind);
  return fit.value;
};

describe('rectification of a plane seen in perspective', () => {
  test('matrix, inverse and two mapped points of a published four-point example (read)', () => {
    const fit = rectified([
      [
        [158, 64],
        [100, 500],
      ],
      [
        [494, 69],
        [152, 564],
      ],
      [
        [495, 404],
        [148, 604],
      ],
      [
        [158, 404],
        [100, 560],
      ],
    ]);
    const printed = [
      0.3869749384, 0.0426817448, 59.2427947969, 0.9589610618, 0.4562821238, 434.8644299345, 0.0012901794,
      0.0004268174, 1,
    ];
    fit.matrix.forEach((v, i) => {
      expect(Math.abs(v - printed[i]!)).toBeLessThan(5e-9 * Math.max(1, Math.abs(v)));
    });
    const forward = applyMatrix(fit.matrix, { x: 250, y: 120 });
    expect(forward.x).toBeCloseTo(117.27521, 4);
    expect(forward.y).toBeCloseTo(530.92024, 4);
    const back = applyMatrix(invertMatrix(fit.matrix)!, { x: 130, y: 570 });
    expect(back.x).toBeCloseTo(338.9946, 3);
    expect(back.y).toBeCloseTo(278.6451, 3);
  });

  test('three of the four in one line are refused (forum case, read), and so are three points', () => {
    const pair = (s: number[], a: number[]) => ({ seen: { x: s[0]!, y: s[1]! }, at: { x: a[0]!, y: a[1]! } });
    const points = [
      pair([745, 1233], [46, 50]),
      pair([1505, 1581], [949, 490]),
      pair([1502, 1212], [949, 50]),
      pair([855, 1229], [175, 50]),
    ];
    expect(rectify(points, { seen: 1, at: none(4) })).toMatchObject({
      ok: false,
      problem: { kind: 'in-line' },
    });
    expect(rectify(points.slice(1), { seen: 1, at: none(3) })).toMatchObject({
      problem: { kind: 'too-few' },
    });
  });

  /** A camera 1.6 m up, looking down a yard: from the ground to the picture. */
  const toPicture = invertMatrix([0.004, 0.0006, -2.2, 0.0002, -0.0048, 7.9, 0.00002, 0.0011, 0.35])!;
  const ground: Point[] = [
    { x: 0, y: 0 },
    { x: 4, y: 0 },
    { x: 4, y: 3 },
    { x: 0, y: 3 },
    { x: 2, y: 1.4 },
    { x: 1, y: 2.5 },
  ];

  test('more marks than needed: the deviation of a mapped point is the spread over 3,000 shaken pictures', () => {
    const random = randomNumbers(4);
    const target = applyMatrix(toPicture, { x: 5, y: 3.5 });
    const at = none(ground.length).map((row, i) => row.map((_, j) => (i === j ? 0.003 ** 2 : 0)));
    const xs: number[] = [];
    let predicted = 0;
    const draws = process.env.SLABWRIGHT_PLANS ? 200 : 3000;
    for (let i = 0; i < draws; i++) {
      const pairs = ground.map((g): [number[], number[]] => {
        const p = applyMatrix(toPicture, g);
        return [
          [p.x + 1.5 * normal(random), p.y + 1.5 * normal(random)],
          [g.x + 0.003 * normal(random), g.y + 0.003 * normal(random)],
        ];
      });
      const fit = rectified(pairs, 1.5, at);
      xs.push(applyMatrix(fit.matrix, target).x);
      if (i === 0) predicted = deviationOf(pairs, at, target);
    }
    const mean = xs.reduce((a, b) => a + b, 0) / xs.length;
    const spread = Math.sqrt(xs.reduce((s, x) => s + (x - mean) ** 2, 0) / (xs.length - 1));
    expect(Math.abs(mean - 5)).toBeLessThan((4 * spread) / Math.sqrt(draws) + 0.002);
    expect(Math.abs(predicted / spread - 1)).toBeLessThan(0.12);
  });

  function deviationOf(pairs: Array<[number[], number[]]>, at: number[][], target: Point): number {
    const fit = rectified(pairs, 1.5, at);
    const C = fit.covariance;
    const h = 1e-6;
    const move = (i: number, d: number) => {
      const parameters = fit.parameters.map((v, k) => (k === i ? v + d : v));
      const m = [...parameters, 1] as unknown as Parameters<typeof applyMatrix>[0];
      const { seen, at: plane } = fit.frames;
      const q = applyMatrix(m, { x: (target.x - seen.x) * seen.scale, y: (target.y - seen.y) * seen.scale });
      return q.x / plane.scale + plane.x;
    };
    const g = fit.parameters.map((_, i) => (move(i, h) - move(i, -h)) / (2 * h));
    return Math.sqrt(g.reduce((s, a, i) => s + g.reduce((t, b, j) => t + a * C[i]![j]! * b, 0), 0));
  }
});

describe('a lens that bends straight lines', () => {
  const lens: Lens = { centre: { x: 320, y: 240 }, radius: 400, k: 0.18 };

  test('goes and comes back', () => {
    for (const p of [
      { x: 0, y: 0 },
      { x: 320, y: 240 },
      { x: 630, y: 20 },
    ]) {
      const q = distort(lens, undistort(lens, p));
      expect(distance(p, q)).toBeLessThan(1e-9);
    }
  });

  test('is found from lines that are known to be straight', () => {
    const line = (a: Point, b: Point) =>
      Array.from({ length: 7 }, (_, i) =>
        distort(lens, { x: a.x + ((b.x - a.x) * i) / 6, y: a.y + ((b.y - a.y) * i) / 6 }),
      );
    const lines = [line({ x: 20, y: 30 }, { x: 620, y: 40 }), line({ x: 30, y: 440 }, { x: 40, y: 20 })];
    const fit = lensFrom(lines, lens.centre, lens.radius, 1)!;
    expect(fit.lens.k).toBeCloseTo(0.18, 6);
    expect(fit.after).toBeLessThan(1e-4);
    expect(fit.before).toBeGreaterThan(2);
    expect(lensFrom([lines[0]!.slice(0, 2)], lens.centre, lens.radius, 1)).toBeNull();
  });
});

describe('against a general-purpose vision library (OpenCV in WebAssembly)', () => {
  interface Vision {
    onRuntimeInitialized?: () => void;
    readonly Mat?: unknown;
    readonly CV_64FC2: number;
    readonly matFromArray: (rows: number, columns: number, type: number, data: number[]) => unknown;
    readonly findHomography: (
      from: unknown,
      to: unknown,
      method: number,
    ) => { readonly data64F: Float64Array };
  }

  test('findHomography on nine points known with errors comes to the same map', async () => {
    // It is a promise of itself for ever: never await it, nor an import of it.
    const cv = createRequire(import.meta.url)('@techstark/opencv-js') as Vision;
    if (!cv.Mat) {
      await new Promise<void>((resolve) => {
        cv.onRuntimeInitialized = () => resolve();
      });
    }
    const random = randomNumbers(21);
    const toPicture = invertMatrix([0.004, 0.0006, -2.2, 0.0002, -0.0048, 7.9, 0.00002, 0.0011, 0.35])!;
    const pairs = Array.from({ length: 9 }, (_, i): [number[], number[]] => {
      const g = { x: (i % 3) * 2 + 0.2 * random(), y: Math.floor(i / 3) * 1.5 };
      const p = applyMatrix(toPicture, g);
      return [
        [p.x, p.y],
        [g.x + 0.02 * (random() - 0.5), g.y + 0.02 * (random() - 0.5)],
      ];
    });
    const points = (side: 0 | 1) =>
      cv.matFromArray(
        9,
        1,
        cv.CV_64FC2,
        pairs.flatMap((p) => p[side]),
      );
    const theirs = [...cv.findHomography(points(0), points(1), 0).data64F];
    const at = none(9).map((row, i) => row.map((_, j) => (i === j ? 1e-4 : 0)));
    const ours = rectified(pairs, 1e-9, at);
    for (const [s] of pairs) {
      const seen = { x: s[0]!, y: s[1]! };
      const other = applyMatrix(theirs as unknown as Parameters<typeof applyMatrix>[0], seen);
      expect(distance(applyMatrix(ours.matrix, seen), other)).toBeLessThan(1e-5);
    }
  }, 60_000);
});
