import geographiclib from 'geographiclib-geodesic';
import { describe, expect, test } from 'vitest';
import {
  adjustFigure,
  applyMatrix,
  depthOf,
  distance,
  distort,
  type Frame,
  fitScale,
  frameDistance,
  frameScale,
  fromFrame,
  invertMatrix,
  type KnownLine,
  type Lens,
  lensFrom,
  localPlane,
  type Matrix3,
  matrixStep,
  multiplyMatrix,
  nextMeasure,
  type Observation,
  type Point,
  parameterSlopes,
  rectify,
  sameFrame,
  simpsonArea,
  toFrame,
  trapezoidArea,
  undistort,
} from '../../geometry/index.ts';
import { normal, randomNumbers } from '../random/numbers.ts';
import { box, line } from './made.ts';

// Expected values are by hand, from the mean of two measures and the law of propagation, unless a source is named.

const near = (p: Point, x: number, y: number, digits = 9): void => {
  expect(p.x).toBeCloseTo(x, digits);
  expect(p.y).toBeCloseTo(y, digits);
};

describe('a scale', () => {
  const known = (dx: number, dy: number, length: number, over: Partial<KnownLine> = {}): KnownLine => ({
    dx,
    dy,
    length,
    deviation: 0.002,
    readDeviation: 0,
    ...over,
  });

  test('of one line: nothing checks it, and both errors go in', () => {
    const fit = fitScale([known(300, 400, 5, { readDeviation: 1 })], false)!;
    expect(fit.x).toBeCloseTo(0.01, 12);
    expect(fit.y).toBe(fit.x);
    const variance = (0.002 ** 2 + 0.01 ** 2) / 500 ** 2;
    for (const v of fit.covariance) expect(v / variance).toBeCloseTo(1, 9);
    expect(fit).toMatchObject({ redundancy: 0, standardised: [0], suspects: [] });
    expect(fit.squares).toBeCloseTo(0, 12);
    expect(fit.read[0]).toBeCloseTo(5, 12);
  });

  test('of two that disagree: the mean, both suspect, and as uncertain as they are apart', () => {
    const fit = fitScale([known(100, 0, 1), known(100, 0, 1.02)], false)!;
    expect(fit.x).toBeCloseTo(0.0101, 12);
    expect(fit.read).toEqual([fit.x * 100, fit.x * 100]);
    // Each is out by 0.01, of which half can show: 0.01 / (0.002 / √2).
    expect(fit.standardised[0]).toBeCloseTo(7.0711, 3);
    expect(fit.standardised[1]).toBeCloseTo(-7.0711, 3);
    expect(fit.squares).toBeCloseTo(50, 6);
    expect(fit.suspects).toEqual([0, 1]);
    expect(fit.covariance[0]).toBeCloseTo((50 * (0.002 ** 2 / 2)) / 100 ** 2, 14);
    // Apart by what can be: no one is blamed, and the mean is better known than one.
    const agreed = fitScale([known(100, 0, 1), known(100, 0, 1.004)], false)!;
    expect(agreed.suspects).toEqual([]);
    expect(agreed.covariance[0]).toBeCloseTo(0.002 ** 2 / 2 / 100 ** 2, 16);
  });

  test('the surer line counts for more, by the square', () => {
    const fit = fitScale([known(100, 0, 1, { deviation: 0.001 }), known(100, 0, 1.003)], false)!;
    expect(fit.x).toBeCloseTo((4 * 1 + 1.003) / 500, 12);
  });

  test('across and up, each by its own lines', () => {
    const fit = fitScale([known(200, 0, 2), known(0, 400, 4.4, { deviation: 0.004 })], true)!;
    near(fit, 0.01, 0.011, 12);
    expect(fit.covariance[0]).toBeCloseTo((0.002 / 200) ** 2, 16);
    expect(fit.covariance[1]).toBeCloseTo(0, 16);
    expect(fit.covariance[2]).toBeCloseTo((0.004 / 400) ** 2, 16);
    expect(fit.redundancy).toBe(0);
    // Both wider where lines contradict each other, and what ties them too.
    const torn = [known(300, 400, 5), known(0, 100, 1), known(400, 300, 5.05), known(100, 0, 1)];
    const calm = torn.map((l, i) => (i === 2 ? { ...l, length: 5 } : l));
    const [wide, narrow] = [fitScale(torn, true)!, fitScale(calm, true)!];
    expect(wide.suspects).toEqual([2]);
    const grown = wide.squares / wide.redundancy;
    expect(grown).toBeGreaterThan(50);
    wide.covariance.forEach((v, i) => {
      expect(v / narrow.covariance[i]! / grown).toBeCloseTo(1, 1);
    });
    // A slanting one with an upright one fixes both.
    const slant = fitScale([known(300, 400, 5), known(0, 100, 1)], true)!;
    near(slant, 0.01, 0.01, 9);
    expect(slant.covariance[1]).toBeLessThan(0);
  });

  test('none, where lines do not fix it', () => {
    expect(fitScale([known(0, 0, 1)], false)).toBeNull();
    expect(fitScale([known(100, 0, 0)], false)).toBeNull();
    expect(fitScale([known(300, 400, 5), known(30, 40, 0.5)], true)).toBeNull();
    expect(fitScale([known(0, 400, 4), known(0, 100, 1)], true)).toBeNull();
    expect(fitScale([known(Number.NaN, 400, 4)], false)).toBeNull();
  });
});

describe('a figure', () => {
  const tape = (a: number, b: number, length: number, deviation = 0.01): Observation => ({
    kind: 'distance',
    a,
    b,
    length,
    deviation,
  });
  const known = (point: number, x: number, y: number, deviation = 0.01): Observation => ({
    kind: 'known',
    point,
    at: { x, y },
    deviation,
  });
  const deviation = (C: readonly (readonly number[])[], g: readonly number[]): number =>
    Math.sqrt(g.reduce((s, a, i) => s + g.reduce((t, b, j) => t + a * C[i]![j]! * b, 0), 0));

  test('of which nothing is measured is as it was drawn, and can move in every way but as a whole', () => {
    const fit = adjustFigure(box(0, 0, 4, 3), []);
    expect(fit).toMatchObject({ points: box(0, 0, 4, 3), loose: 5, redundancy: 0, squares: 0, moves: [] });
    expect(fit.observations).toEqual([]);
    expect(fit.covariance).toHaveLength(8);
    expect(fit.covariance.flat().every((v) => v === 0)).toBe(true);
    expect(adjustFigure(line([0, 0]), []).loose).toBe(0);
  });

  test('one distance is shared between its ends', () => {
    const fit = adjustFigure(line([0, 0], [4, 3]), [tape(0, 1, 10)]);
    near(fit.points[0]!, -2, -1.5, 6);
    near(fit.points[1]!, 6, 4.5, 6);
    expect(fit).toMatchObject({ loose: 0, redundancy: 0, suspects: [] });
    expect(fit.observations[0]).toMatchObject({ checked: 0, standardised: 0 });
    expect(deviation(fit.covariance, [-0.8, -0.6, 0.8, 0.6])).toBeCloseTo(0.01, 9);
    expect(deviation(fit.covariance, [0.8, 0.6, 0, 0])).toBeCloseTo(0.005, 9);
  });

  test('measured twice: the mean, half of an error shows in each', () => {
    const fit = adjustFigure(line([0, 0], [5, 0]), [tape(0, 1, 5), tape(0, 1, 5.02)]);
    expect(distance(fit.points[0]!, fit.points[1]!)).toBeCloseTo(5.01, 9);
    expect(fit.redundancy).toBe(1);
    expect(fit.squares).toBeCloseTo(2, 6);
    const [first, second] = fit.observations;
    expect(first!.residual).toBeCloseTo(0.01, 9);
    expect(second!.residual).toBeCloseTo(-0.01, 9);
    expect(first!.checked).toBeCloseTo(0.5, 9);
    expect(first!.standardised).toBeCloseTo(Math.SQRT2, 6);
    expect(second!.standardised).toBeCloseTo(-Math.SQRT2, 6);
    expect(deviation(fit.covariance, [-1, 0, 1, 0])).toBeCloseTo(0.01 / Math.SQRT2, 9);
  });

  test('far apart: both may be wrong, and the figure is as unsure as they are apart', () => {
    const fit = adjustFigure(line([0, 0], [5, 0]), [tape(0, 1, 5), tape(0, 1, 5.1)]);
    expect(fit.suspects).toEqual([0, 1]);
    // 5 deviations each: squares 50 over one check.
    expect(fit.squares).toBeCloseTo(50, 4);
    expect(deviation(fit.covariance, [-1, 0, 1, 0])).toBeCloseTo((0.01 / Math.SQRT2) * Math.sqrt(50), 6);
  });

  test('at the edge of chance, 3.29 deviations', () => {
    const apart = (d: number) => adjustFigure(line([0, 0], [5, 0]), [tape(0, 1, 5), tape(0, 1, 5 + d)]);
    // Standardised residuals are d / (0.01·√2).
    expect(apart(3.28 * 0.01 * Math.SQRT2).suspects).toEqual([]);
    expect(apart(3.3 * 0.01 * Math.SQRT2).suspects).toEqual([0, 1]);
  });

  test('points of known place hold it; two hold its turn as well', () => {
    const sides = [tape(0, 1, 4), tape(1, 2, 3), tape(0, 2, 5)];
    const triangle = line([0, 0], [4, 0], [4, 3]);
    const held = adjustFigure(triangle, [...sides, known(0, 10, 20)]);
    near(held.points[0]!, 10, 20, 6);
    expect(held).toMatchObject({ loose: 0, redundancy: 0 });
    const both = adjustFigure(triangle, [...sides, known(0, 0, 0), known(1, 0, 4)]);
    near(both.points[2]!, -3, 4, 6);
    expect(both).toMatchObject({ loose: 0, redundancy: 1 });
    // Twice known, half-way: each out by 0.01 in x, −0.02 in y, of which half can show.
    const twice = adjustFigure(line([0, 0]), [known(0, 1, 1), known(0, 1.02, 0.96)]);
    near(twice.points[0]!, 1.01, 0.98, 9);
    expect(twice.redundancy).toBe(2);
    expect(twice.observations[0]!.residual).toBeCloseTo(-0.02, 9);
    expect(twice.observations[1]!.residual).toBeCloseTo(0.02, 9);
    expect(twice.observations[1]!.standardised).toBeCloseTo(2 * Math.SQRT2, 6);
    // One held point and one loose: round it goes, and away.
    expect(adjustFigure(line([0, 0], [4, 0]), [known(0, 0, 0)])).toMatchObject({ loose: 1 });
  });

  test('a square corner that measures otherwise, and an offset that does', () => {
    const ends = [known(0, 0, 0, 1e-6), known(1, 4, 0, 1e-6), known(2, 0.04, 3, 1e-6)];
    const out = adjustFigure(line([0, 0], [4, 0], [0.04, 3]), [
      ...ends,
      { kind: 'square', at: 0, a: 1, b: 2, deviation: 0.01 },
      { kind: 'offset', a: 0, b: 1, point: 2, along: 0.02, off: 3.03, deviation: 0.02 },
    ]);
    expect(out.observations[3]!.residual).toBeCloseTo(Math.atan2(3, 0.04) - Math.PI / 2, 6);
    // 0.02 along, −0.03 off: the larger.
    expect(out.observations[4]!.residual).toBeCloseTo(-0.03, 6);
    expect(out.observations[4]!.standardised).toBeCloseTo(-1.5, 4);
    expect(out.redundancy).toBe(3);
  });

  test('an offset from a line that slants: along it, and to its left', () => {
    const fit = adjustFigure(line([0, 0], [3, 4], [0, 2]), [
      known(0, 1, 1, 1e-6),
      known(1, 4, 5, 1e-6),
      { kind: 'offset', a: 0, b: 1, point: 2, along: 2, off: 1, deviation: 0.01 },
    ]);
    near(fit.points[2]!, 1 + 1.2 - 0.8, 1 + 1.6 + 0.6, 6);
    expect(fit.loose).toBe(0);
  });

  test('what can still be moved, as unit moves that no tape notices', () => {
    const square = box(0, 0, 4, 3);
    const sides = [tape(0, 1, 4), tape(1, 2, 3), tape(2, 3, 4), tape(3, 0, 3)];
    const fit = adjustFigure(square, sides);
    expect(fit.moves).toHaveLength(1);
    const [move] = fit.moves;
    expect(Math.hypot(...move!)).toBeCloseTo(1, 9);
    // Neither shifted nor turned: sums and the moment are nothing; no side grows.
    expect(move!.filter((_, i) => i % 2 === 0).reduce((a, b) => a + b)).toBeCloseTo(0, 9);
    expect(move!.filter((_, i) => i % 2 === 1).reduce((a, b) => a + b)).toBeCloseTo(0, 9);
    expect(
      square.reduce((s, p, i) => s + (p.x - 2) * move![2 * i + 1]! - (p.y - 1.5) * move![2 * i]!, 0),
    ).toBeCloseTo(0, 9);
    for (const [a, b] of [
      [0, 1],
      [1, 2],
      [2, 3],
      [3, 0],
    ]) {
      const d = (square[b!]!.x - square[a!]!.x) * (move![2 * b!]! - move![2 * a!]!);
      const e = (square[b!]!.y - square[a!]!.y) * (move![2 * b! + 1]! - move![2 * a! + 1]!);
      expect(d + e).toBeCloseTo(0, 9);
    }
    const next = nextMeasure(fit, sides, () => 0.01, new Array(8).fill(0))!;
    // A diagonal of a 3-4-5 figure: how much of the unit move goes along it.
    const along = 0.8 * (move![4]! - move![0]!) + 0.6 * (move![5]! - move![1]!);
    expect(next.worth).toBeCloseTo(Math.abs(along), 9);
    expect(adjustFigure(square, sides.slice(0, 3))).toMatchObject({ loose: 2 });
    expect(adjustFigure(square, sides.slice(0, 3)).moves).toHaveLength(2);
  });

  test('nothing left to measure, and points on one spot are not measured', () => {
    const triangle = line([0, 0], [4, 0], [4, 3]);
    const sides = [tape(1, 0, 4), tape(1, 2, 3), tape(2, 0, 5)];
    expect(nextMeasure(adjustFigure(triangle, sides), sides, () => 0.01, new Array(6).fill(1))).toBeNull();
    const same = adjustFigure(line([0, 0], [0, 0]), []);
    expect(nextMeasure(same, [], () => 0.01, new Array(4).fill(0))).toBeNull();
    // Tapes that start at a point on the same spot as its end draw it apart.
    const apart = adjustFigure(line([0, 0], [1e-9, 0], [3, 0]), [
      tape(0, 1, 1),
      tape(1, 2, 3),
      tape(0, 2, 4),
    ]);
    expect(apart.points.every((p) => Number.isFinite(p.x) && Number.isFinite(p.y))).toBe(true);
  });
});

describe('maps by matrix', () => {
  const view: Matrix3 = [2, 0.5, 3, -0.25, 1.5, 4, 0.01, 0.02, 1];
  const move: Matrix3 = [1, 0, 5, 0, 1, -7, 0, 0, 1];

  test('of a point, forth and back, and one after the other', () => {
    const p = { x: 10, y: 20 };
    near(applyMatrix(view, p), (20 + 10 + 3) / 1.5, (-2.5 + 30 + 4) / 1.5);
    expect(depthOf(view, p)).toBeCloseTo(1.5, 12);
    near(applyMatrix(invertMatrix(view)!, applyMatrix(view, p)), 10, 20);
    const there = applyMatrix(view, applyMatrix(move, p));
    near(applyMatrix(multiplyMatrix(view, move), p), there.x, there.y);
    const identity = multiplyMatrix(invertMatrix(view)!, view);
    [1, 0, 0, 0, 1, 0, 0, 0, 1].forEach((v, i) => {
      expect(identity[i]).toBeCloseTo(v, 12);
    });
    expect(invertMatrix([1, 2, 3, 2, 4, 6, 0, 0, 1])).toBeNull();
    expect(invertMatrix([0, 0, 0, 0, 0, 0, 0, 0, 0])).toBeNull();
    expect(invertMatrix([Number.NaN, 0, 0, 0, 1, 0, 0, 0, 1])).toBeNull();
    // Small, yet not singular.
    near(applyMatrix(invertMatrix([1e-6, 0, 0, 0, 1e-6, 0, 0, 0, 1e-6])!, p), 10, 20);
  });

  const lens: Lens = { centre: { x: 10, y: 20 }, radius: 100, k: 0.2 };

  test('a lens, by hand at half its radius', () => {
    near(undistort(lens, { x: 60, y: 20 }), 62.5, 20);
    near(undistort(lens, { x: 10, y: -40 }), 10, 20 - 60 * 1.072);
    near(undistort(lens, { x: 40, y: 60 }), 10 + 30 * 1.05, 20 + 40 * 1.05);
    near(distort(lens, { x: 62.5, y: 20 }), 60, 20);
    expect(distort(lens, lens.centre)).toBe(lens.centre);
    const p = { x: 3, y: 4 };
    expect(distort({ ...lens, k: 0 }, p)).toBe(p);
    const cushion = { ...lens, k: -0.15 };
    const q = distort(cushion, undistort(cushion, { x: 80, y: 90 }));
    near(q, 80, 90);
    // Folded over, where no way back is: finite all the same.
    expect(Number.isFinite(distort({ ...lens, k: -1 / 3 }, { x: 110, y: 20 }).x)).toBe(true);
  });

  test('frames go through their steps, and back through them from the last', () => {
    const frame: Frame = {
      steps: [{ kind: 'undistort', lens }, matrixStep(view)!, { kind: 'distort', lens: { ...lens, k: 0.1 } }],
    };
    const p = { x: 40, y: 60 };
    const byHand = distort({ ...lens, k: 0.1 }, applyMatrix(view, undistort(lens, p)));
    expect(toFrame(frame, p)).toEqual(byHand);
    near(fromFrame(frame, toFrame(frame, p)), 40, 60);
    const grow: Frame = { steps: [matrixStep([2, 0, 1, 0, 3, 1, 0, 0, 1])!] };
    expect(frameScale(grow, p)).toBeCloseTo(Math.sqrt(6), 9);
    expect(frameScale({ steps: [matrixStep([0, 2, 0, 3, 0, 0, 0, 0, 1])!] }, p)).toBeCloseTo(Math.sqrt(6), 9);
    expect(frameScale({ steps: [matrixStep([3, 2, 0, 1, 2, 0, 0, 0, 1])!] }, p, 0.5)).toBeCloseTo(2, 9);
    expect(frameDistance(grow, { x: 0, y: 0 }, { x: 2, y: 1 })).toBeCloseTo(5, 12);
    expect(matrixStep([1, 2, 3, 2, 4, 6, 0, 0, 1])).toBeNull();
    expect(sameFrame(frame, { steps: [...frame.steps] })).toBe(true);
    expect(sameFrame(frame, grow)).toBe(false);
  });
});

describe('a rectification', () => {
  const toPicture: Matrix3 = [100, -40, 300, 8, -60, 500, 0.01, -0.09, 1];
  const ground = line([0, 0], [4, 0], [4, 3], [0, 3], [2, 1.4], [1, 2.5], [3, 0.7]);
  const none = (n: number, variance = 0) =>
    Array.from({ length: 2 * n }, (_, i) =>
      Array.from({ length: 2 * n }, (_, j) => (i === j ? variance : 0)),
    );
  const seenAs = (see: (p: Point) => Point, points = ground) => points.map((at) => ({ seen: see(at), at }));
  const through = (p: Point) => applyMatrix(toPicture, p);
  const fitted = (...args: Parameters<typeof rectify>) => {
    const fit = rectify(...args);
    if (!fit.ok) throw new Error(fit.problem.kind);
    return fit.value;
  };

  test('of four points is exact, and nothing checks it', () => {
    const fit = fitted(seenAs(through, ground.slice(0, 4)), { seen: 1, at: none(4) });
    expect(fit).toMatchObject({ redundancy: 0, standardised: [0, 0, 0, 0], lens: null });
    const back = invertMatrix(toPicture)!;
    fit.matrix.forEach((v, i) => {
      expect(v).toBeCloseTo(back[i]! / back[8]!, 6);
    });
    for (const r of fit.residuals) near(r, 0, 0);
    expect(fit.parameters).toHaveLength(8);
  });

  test('one mark of seven put down 60 mm off stands out', () => {
    const points = seenAs(through).map((p, i) => (i === 4 ? { ...p, at: { x: 2.06, y: 1.4 } } : p));
    const fit = fitted(points, { seen: 0.5, at: none(7, 0.002 ** 2) });
    expect(fit.redundancy).toBe(6);
    const worst = fit.standardised.indexOf(Math.max(...fit.standardised));
    expect(worst).toBe(4);
    expect(fit.standardised[4]).toBeGreaterThan(5);
    expect(fit.suspects).toEqual([4]);
    expect(fit.residuals[4]!.x).toBeLessThan(-0.02);
    // As uncertain as they are apart: by the weighted squares over the six checks.
    const good = fitted(seenAs(through), { seen: 0.5, at: none(7, 0.002 ** 2) });
    expect(good.suspects).toEqual([]);
    expect(fit.covariance[0]![0]! / good.covariance[0]![0]!).toBeGreaterThan(8);
    expect(fit.covariance[0]![0]! / good.covariance[0]![0]!).toBeLessThan(20);
    // Residuals are those of the matrix.
    points.forEach(({ seen, at }, i) => {
      const p = applyMatrix(fit.matrix, seen);
      near(fit.residuals[i]!, p.x - at.x, p.y - at.y);
    });
  });

  test('five marks say that one is wrong, but not which: any of them could be moved to where the other four have it', () => {
    const points = seenAs(through, ground.slice(0, 5));
    points[4] = { ...points[4]!, at: { x: 2.3, y: 1.4 } };
    const fit = fitted(points, { seen: 0.5, at: none(5, 0.002 ** 2) });
    expect(fit.redundancy).toBe(2);
    expect(fit.suspects).toEqual([0, 1, 2, 3, 4]);
    for (const s of fit.standardised) expect(s / fit.standardised[0]!).toBeCloseTo(1, 3);
  });

  test('a mark that is checked one way only is found out that way', () => {
    // Four marks fix it; a fifth is known north to south, and hardly east to west.
    const points = seenAs(through, ground.slice(0, 5));
    const at = none(5, 0.002 ** 2);
    at[8]![8] = 100;
    const off = (x: number, y: number) =>
      fitted(
        points.map((p, i) => (i === 4 ? { ...p, at: { x: p.at.x + x, y: p.at.y + y } } : p)),
        { seen: 0.1, at },
      ).standardised[4]!;
    expect(off(0.5, 0)).toBeLessThan(0.1);
    expect(off(0, 0.5)).toBeGreaterThan(10);
  });

  test('its standardised residuals are about one by chance: their mean square is, over fifty shaken pictures', () => {
    // Each is a length over √2 of the deviation of a coordinate; the mean of chi-square with two degrees is two.
    const random = randomNumbers(7);
    let sum = 0;
    for (let i = 0; i < 50; i++) {
      const points = seenAs((p) => {
        const q = through(p);
        return { x: q.x + normal(random), y: q.y + normal(random) };
      });
      sum += fitted(points, { seen: 1, at: none(7) }).standardised.reduce((s, v) => s + v * v, 0) / 7 / 50;
    }
    expect(sum).toBeGreaterThan(1.6);
    expect(sum).toBeLessThan(2.4);
  });

  test('with a lens finds how much it bends, held by what is known of it', () => {
    const lens: Lens = { centre: { x: 450, y: 300 }, radius: 500, k: 0.08 };
    const points = seenAs((p) => distort(lens, through(p)));
    const start = { lens: { ...lens, k: 0 }, deviation: 10 };
    const fit = fitted(points, { seen: 0.2, at: none(7, 1e-6) }, start);
    expect(fit.lens!.k).toBeCloseTo(0.08, 5);
    expect(fit.parameters).toHaveLength(9);
    for (const r of fit.residuals) near(r, 0, 0, 6);
    const held = fitted(points, { seen: 0.2, at: none(7, 1e-6) }, { ...start, deviation: 1e-6 });
    expect(Math.abs(held.lens!.k)).toBeLessThan(1e-4);
    // Its deviation comes with it; held where it is, that is what it was held by.
    const sure = fitted(points, { seen: 0.2, at: none(7, 1e-6) }, { lens, deviation: 1e-6 });
    expect(sure.suspects).toEqual([]);
    expect(Math.sqrt(sure.covariance[8]![8]!)).toBeCloseTo(1e-6, 9);
    expect(Math.sqrt(fit.covariance[8]![8]!)).toBeGreaterThan(1e-4);
    const [x, y] = parameterSlopes(fit, points[2]!.seen);
    expect([x.length, y.length]).toEqual([9, 9]);
  });

  test('how a place changes with the parameters: by its definition', () => {
    const points = seenAs(through, ground.slice(0, 4));
    const fit = fitted(points, { seen: 1, at: none(4) });
    const { seen } = points[2]!;
    const u = (seen.x - fit.frames.seen.x) * fit.frames.seen.scale;
    const v = (seen.y - fit.frames.seen.y) * fit.frames.seen.scale;
    const t = fit.parameters;
    const w = t[6]! * u + t[7]! * v + 1;
    const [X, Y] = [(t[0]! * u + t[1]! * v + t[2]!) / w, (t[3]! * u + t[4]! * v + t[5]!) / w];
    const s = fit.frames.at.scale;
    const [x, y] = parameterSlopes(fit, seen);
    [u, v, 1, 0, 0, 0, -u * X, -v * X].forEach((g, i) => {
      expect(x[i]).toBeCloseTo(g / w / s, 6);
    });
    [0, 0, 0, u, v, 1, -u * Y, -v * Y].forEach((g, i) => {
      expect(y[i]).toBeCloseTo(g / w / s, 6);
    });
    // The frames: about the middle, √2 away on average.
    const middle = ground
      .slice(0, 4)
      .reduce((m, p) => ({ x: m.x + p.x / 4, y: m.y + p.y / 4 }), { x: 0, y: 0 });
    near(fit.frames.at, middle.x, middle.y);
    expect(fit.frames.at.scale).toBeCloseTo(Math.SQRT2 / 2.5, 9);
  });

  test('none of too few, or of marks in a line, seen or on the ground', () => {
    const errors = { seen: 1, at: none(4) };
    expect(rectify(seenAs(through, ground.slice(0, 3)), errors)).toMatchObject({
      problem: { kind: 'too-few' },
    });
    const onGround = seenAs(through, ground.slice(0, 4)).map(({ seen }, i) => ({
      seen,
      at: line([0, 0], [2, 0], [4, 0], [0, 3])[i]!,
    }));
    expect(rectify(onGround, errors)).toMatchObject({ problem: { kind: 'in-line' } });
    const inPicture = ground.slice(0, 4).map((at, i) => ({
      seen: line([0, 0], [50, 0], [100, 0], [0, 80])[i]!,
      at,
    }));
    expect(rectify(inPicture, errors)).toMatchObject({ problem: { kind: 'in-line' } });
    // Four in a line and one beside it fix nothing; two beside it do, with two of the line.
    const rows = line([0, 0], [1, 0], [2, 0], [3, 0], [1, 2], [3, 2.5]);
    expect(rectify(seenAs(through, rows.slice(0, 5)), { seen: 1, at: none(5) })).toMatchObject({
      problem: { kind: 'in-line' },
    });
    expect(rectify(seenAs(through, rows), { seen: 1, at: none(6) })).toMatchObject({ ok: true });
    // A millionth off the line is on it.
    const hair = line([0, 0], [2, 1e-6], [4, 0], [0, 3]);
    expect(rectify(seenAs(through, hair), errors)).toMatchObject({ problem: { kind: 'in-line' } });
  });
});

describe('a lens from lines that are straight', () => {
  const centre = { x: 320, y: 240 };
  const row = (lens: Lens, a: Point, b: Point, n = 9) =>
    Array.from({ length: n }, (_, i) =>
      distort(lens, { x: a.x + ((b.x - a.x) * i) / (n - 1), y: a.y + ((b.y - a.y) * i) / (n - 1) }),
    );
  const edges = (k: number) => {
    const lens = { centre, radius: 400, k };
    return [
      row(lens, { x: 20, y: 30 }, { x: 620, y: 40 }),
      row(lens, { x: 30, y: 440 }, { x: 40, y: 20 }),
      row(lens, { x: 610, y: 30 }, { x: 590, y: 460 }),
    ];
  };

  test.each([0.4, 0.18, 0, -0.05, -0.1])('that bends by %f', (k) => {
    const fit = lensFrom(edges(k), centre, 400, 0.5)!;
    expect(fit.lens).toMatchObject({ centre, radius: 400 });
    expect(fit.lens.k).toBeCloseTo(k, 5);
    expect(fit.after).toBeLessThan(1e-4);
    if (k === 0) expect(fit.before).toBeLessThan(1e-4);
    else expect(fit.before).toBeGreaterThan(0.5);
  });

  test('as surely as the points are known, by how much a line bends with k', () => {
    const fit = lensFrom(edges(0.1), centre, 400, 0.5)!;
    expect(lensFrom(edges(0.1), centre, 400, 1)!.deviation / fit.deviation).toBeCloseTo(2, 9);
    // Straight lines through points shaken by half a pixel: k spreads by as much.
    const random = randomNumbers(3);
    const ks = Array.from({ length: 150 }, () => {
      const shaken = edges(0.1).map((l) =>
        l.map((p) => ({ x: p.x + 0.5 * normal(random), y: p.y + 0.5 * normal(random) })),
      );
      return lensFrom(shaken, centre, 400, 0.5)!.lens.k;
    });
    const spread = Math.sqrt(ks.reduce((s, k) => s + (k - 0.1) ** 2, 0) / ks.length);
    expect(spread / fit.deviation).toBeGreaterThan(0.8);
    expect(spread / fit.deviation).toBeLessThan(1.25);
    // The root mean square of the points off their lines, of 27 points by three lines and one k: σ·√(1 − 7/27) for one
    // coordinate each.
    const [one] = [
      lensFrom(
        edges(0.1).map((l) => l.map((p, i) => ({ x: p.x, y: p.y + (i % 2 ? 1 : -1) }))),
        centre,
        400,
        0.5,
      )!,
    ];
    expect(one.after).toBeGreaterThan(0.5);
    expect(one.after).toBeLessThan(1);
  });

  test('none where lines say nothing of it', () => {
    expect(lensFrom([], centre, 400, 0.5)).toBeNull();
    expect(lensFrom([edges(0.1)[0]!.slice(0, 2)], centre, 400, 0.5)).toBeNull();
    // Through the middle a line stays straight, however the lens bends.
    const through = row({ centre, radius: 400, k: 0.2 }, { x: 20, y: 240 }, { x: 620, y: 240 });
    expect(lensFrom([through], centre, 400, 0.5)).toBeNull();
    // A short one near the middle says next to nothing.
    const short = row({ centre, radius: 400, k: 0.2 }, { x: 300, y: 260 }, { x: 340, y: 260 }, 5);
    expect(lensFrom([short], centre, 400, 0.5)).toBeNull();
    // A line of two points beside good ones changes nothing.
    const more = lensFrom([...edges(0.1), line([0, 0], [5, 5])], centre, 400, 0.5)!;
    expect(more.lens.k).toBeCloseTo(0.1, 5);
    expect(more.before).toBeCloseTo(lensFrom(edges(0.1), centre, 400, 0.5)!.before, 9);
  });
});

describe('offsets and the globe', () => {
  test('areas by offsets of few, uneven and backward rows', () => {
    const row = (...offs: number[]) => offs.map((off, i) => ({ along: 2 * i, off }));
    expect(trapezoidArea([])).toBe(0);
    expect(trapezoidArea(row(3))).toBe(0);
    expect(trapezoidArea(row(3, 5))).toBe(8);
    // A parabola 4 − x² from −2 to 2: 32/3, exactly by Simpson's rule.
    expect(simpsonArea(row(0, 4, 0))).toBeCloseTo(32 / 3, 12);
    expect(simpsonArea(row(1, 2, 3, 4, 5))).toBeCloseTo(24, 12);
    expect(simpsonArea(row(1, 2))).toBeNull();
    expect(simpsonArea(row(1))).toBeNull();
    expect(simpsonArea([])).toBeNull();
    const back = row(0, 4, 0).reverse();
    expect(simpsonArea(back)).toBeCloseTo(-32 / 3, 12);
    expect(
      simpsonArea(row(0, 4, 0).map((o, i) => ({ ...o, along: o.along + (i === 1 ? 1e-5 : 0) }))),
    ).toBeNull();
    expect(
      simpsonArea(row(0, 4, 0).map((o, i) => ({ ...o, along: o.along + (i === 1 ? 1e-7 : 0) }))),
    ).not.toBeNull();
  });

  test.each([-35, 0, 51, 68])(
    'lengths are true in the middle of the plane, east and north, at %i°',
    (lat) => {
      // By GeographicLib (C. Karney), which shares nothing with it.
      const plane = localPlane({ lon: 10, lat });
      const ends = [0, 90, 200].map((azimuth) => {
        const { lat2, lon2 } = geographiclib.Geodesic.WGS84.Direct(lat, 10, azimuth, 100);
        return plane.toPlane({ lon: lon2!, lat: lat2! });
      });
      near(ends[0]!, 0, 100, 5);
      near(ends[1]!, 100, 0, 3);
      near(ends[2]!, 100 * Math.sin((200 * Math.PI) / 180), 100 * Math.cos((200 * Math.PI) / 180), 3);
    },
  );

  test('a plane about a place: over the date line, at its own middle, and back', () => {
    const plane = localPlane({ lon: 179.999, lat: -17 });
    expect(plane.toLonLat({ x: 0, y: 0 })).toEqual({ lon: 179.999, lat: -17 });
    const east = plane.toPlane({ lon: -179.999, lat: -17 });
    const back = plane.toPlane({ lon: 179.997, lat: -17 });
    expect(east.x).toBeGreaterThan(200);
    expect(east.x).toBeLessThan(230);
    expect(back.x).toBeCloseTo(-east.x, 6);
    const again = plane.toLonLat(east);
    expect(again.lon).toBeCloseTo(180.001, 10);
    expect(again.lat).toBeCloseTo(-17, 10);
  });
});
