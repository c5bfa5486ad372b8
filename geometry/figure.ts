import { Matrix, pseudoInverse, SingularValueDecomposition, solve } from 'ml-matrix';
import { boxOf, cross, distance, type Point } from './point.ts';
import { SUSPECT_LIMIT, suspectsAmong, widening } from './suspects.ts';

/** Something measured between points of a figure; points by their numbers, deviations one standard deviation. */
export type Observation =
  /** Straight from one point to another. */
  | {
      readonly kind: 'distance';
      readonly a: number;
      readonly b: number;
      readonly length: number;
      readonly deviation: number;
    }
  /** The sides at–a and at–b stand square to each other; deviation in radians. */
  | {
      readonly kind: 'square';
      readonly at: number;
      readonly a: number;
      readonly b: number;
      readonly deviation: number;
    }
  /** From the line a→b: so far along it from a, and so far off it, to its left positive. */
  | {
      readonly kind: 'offset';
      readonly a: number;
      readonly b: number;
      readonly point: number;
      readonly along: number;
      readonly off: number;
      readonly deviation: number;
    }
  /** A point whose place is known. */
  | { readonly kind: 'known'; readonly point: number; readonly at: Point; readonly deviation: number };

/** One observation after adjustment. */
export interface ObservationFit {
  /** Adjusted minus observed, in the observation's unit (an angle in radians, an offset by the larger of its two). */
  readonly residual: number;
  /** By its own standard deviation; 0 where nothing checks it. */
  readonly standardised: number;
  /** Share of an error in it that would show, 0 … 1. */
  readonly checked: number;
}

/** An adjusted figure. */
export interface FigureFit {
  readonly points: readonly Point[];
  /**
   * Covariance of the coordinates, x and y of each point in turn, about the figure's own middle; widened by how badly the
   * observations disagree when one of them must be wrong.
   */
  readonly covariance: readonly (readonly number[])[];
  readonly observations: readonly ObservationFit[];
  /** Observations beyond what is needed; 0 when nothing checks anything. */
  readonly redundancy: number;
  /** Ways in which the figure can still be moved out of shape; 0 when it is rigid. */
  readonly loose: number;
  /** Weighted sum of squares of the residuals: about `redundancy` when all is well. */
  readonly squares: number;
  /** The observations most likely wrong, by number; several when nothing tells them apart. Empty when all agree. */
  readonly suspects: readonly number[];
  /** Unit moves of the points that no observation notices (2n numbers each); for saying what to measure next. */
  readonly moves: readonly (readonly number[])[];
}

/**
 * Fits a figure to what was measured of it: least squares, by Gauss and Newton with steps held back where they
 * overshoot, about a free middle (the least-moving of all solutions). Mirror images and dents are settled by where the
 * points start, so start from a rough drawing.
 * Source of the residual test: W. Baarda, A testing procedure for use in geodetic networks (1968), from memory.
 */
export function adjustFigure(start: readonly Point[], observations: readonly Observation[]): FigureFit {
  let x = start.flatMap((p) => [p.x, p.y]);
  let cost = costOf(x, observations);
  let damping = 1e-3;
  for (let round = 0; round < 200 && observations.length > 0; round++) {
    const { slopes, misses } = linearise(x, observations);
    const normal = slopes.transpose().mmul(slopes);
    const right = slopes.transpose().mmul(misses);
    const size = Math.max(...normal.diagonal(), 1e-12);
    for (let i = 0; i < normal.rows; i++) normal.set(i, i, normal.get(i, i) + damping * size * 1e-3);
    const step = solve(normal, right).to1DArray();
    const next = x.map((v, i) => v + step[i]!);
    const lower = costOf(next, observations);
    if (lower <= cost * (1 + 1e-12)) {
      const still = Math.max(...step.map(Math.abs)) < 1e-10 * spanOf(pointsOf(x));
      const done = still || cost - lower <= 1e-13 * cost;
      x = next;
      cost = lower;
      damping = Math.max(damping / 10, 1e-6);
      if (done) break;
    } else {
      damping *= 10;
      if (damping > 1e9) break;
    }
  }
  return describe(x, observations);
}

function describe(x: readonly number[], observations: readonly Observation[]): FigureFit {
  const points = pointsOf(x);
  const known = observations.filter((o) => o.kind === 'known').length;
  const gauge = known === 0 ? 3 : known === 1 ? 1 : 0;
  if (observations.length === 0) {
    return {
      points,
      covariance: x.map(() => x.map(() => 0)),
      observations: [],
      redundancy: 0,
      loose: Math.max(0, x.length - gauge),
      squares: 0,
      suspects: [],
      moves: [],
    };
  }
  const { slopes, misses, owners, deviations } = linearise(x, observations);
  const { rank, moves } = looseness(slopes, deviations, x, gauge);
  const covariance = pseudoInverse(slopes.transpose().mmul(slopes));
  const redundancy = owners.length - rank;
  const squares = misses.to1DArray().reduce((s, v) => s + v * v, 0);
  const fit = slopes.mmul(covariance).mmul(slopes.transpose());
  const rows = owners.map((owner, i) => {
    const checked = Math.min(1, Math.max(0, 1 - fit.get(i, i)));
    const miss = -misses.get(i, 0);
    return {
      owner,
      residual: miss * deviations[i]!,
      checked: checked < 1e-6 ? 0 : checked,
      standardised: checked < 1e-6 ? 0 : miss / Math.sqrt(checked),
    };
  });
  const perObservation = observations.map((_, o) => {
    const own = rows.filter((r) => r.owner === o);
    return own.reduce(
      (worst, r) => (Math.abs(r.standardised) > Math.abs(worst.standardised) ? r : worst),
      own[0]!,
    );
  });
  const suspects = suspectsAmong(
    perObservation.map((o) => o.standardised),
    SUSPECT_LIMIT,
  );
  return {
    points,
    covariance: Matrix.mul(covariance, widening(suspects, squares, redundancy)).to2DArray(),
    observations: perObservation.map(({ residual, standardised, checked }) => ({
      residual,
      standardised,
      checked,
    })),
    redundancy,
    loose: Math.max(0, x.length - rank - gauge),
    squares,
    suspects,
    moves,
  };
}

/** Rank of the figure, and the moves that nothing notices besides shifting and turning it as a whole. */
function looseness(
  slopes: Matrix,
  deviations: readonly number[],
  x: readonly number[],
  gauge: number,
): { rank: number; moves: number[][] } {
  const plain = slopes.clone();
  for (let r = 0; r < plain.rows; r++)
    for (let c = 0; c < plain.columns; c++) plain.set(r, c, plain.get(r, c) * deviations[r]!);
  // Square: rows of nought give it as many singular vectors as there are coordinates.
  const square = Matrix.zeros(Math.max(plain.rows, x.length), x.length);
  square.setSubMatrix(plain, 0, 0);
  const svd = new SingularValueDecomposition(square);
  const largest = Math.max(...svd.diagonal);
  const free = svd.diagonal.flatMap((s, i) => (s <= 1e-6 * largest ? [i] : []));
  const rank = x.length - free.length;
  if (free.length <= gauge) return { rank, moves: [] };
  // Out of the moves that nothing notices take shifts and turns, and keep what is left.
  const rigid = gauge === 3 ? rigidMoves(x) : [];
  const moves: number[][] = [];
  for (const i of free) {
    const move = svd.rightSingularVectors.getColumn(i);
    for (const other of [...rigid, ...moves]) {
      const share = dot(move, other);
      for (let k = 0; k < move.length; k++) move[k]! -= share * other[k]!;
    }
    const size = Math.sqrt(dot(move, move));
    if (size > 1e-3) moves.push(move.map((v) => v / size));
  }
  return { rank, moves };
}

const dot = (a: readonly number[], b: readonly number[]): number => a.reduce((s, v, i) => s + v * b[i]!, 0);

/** Shifts along x and y and a turn about the middle, as orthonormal moves. */
function rigidMoves(x: readonly number[]): number[][] {
  const points = pointsOf(x);
  const n = points.length;
  const mx = points.reduce((s, p) => s + p.x, 0) / n;
  const my = points.reduce((s, p) => s + p.y, 0) / n;
  const all = [
    points.flatMap(() => [1, 0]),
    points.flatMap(() => [0, 1]),
    points.flatMap((p) => [-(p.y - my), p.x - mx]),
  ];
  return all.map((m) => m.map((v) => v / (Math.sqrt(dot(m, m)) || 1)));
}

const pointsOf = (x: readonly number[]): Point[] =>
  Array.from({ length: x.length / 2 }, (_, i) => ({ x: x[2 * i]!, y: x[2 * i + 1]! }));

/** What an observation would read at points as they are, less what it read, by its deviation: one row or two. */
function missesOf(points: readonly Point[], o: Observation): number[] {
  switch (o.kind) {
    case 'distance':
      return [(distance(points[o.a]!, points[o.b]!) - o.length) / o.deviation];
    case 'square': {
      const at = points[o.at]!;
      const [a, b] = [points[o.a]!, points[o.b]!];
      const along = (a.x - at.x) * (b.x - at.x) + (a.y - at.y) * (b.y - at.y);
      return [(Math.atan2(Math.abs(cross(at, a, b)), along) - Math.PI / 2) / o.deviation];
    }
    case 'offset': {
      const [a, b, p] = [points[o.a]!, points[o.b]!, points[o.point]!];
      const d = distance(a, b) || 1e-12;
      const along = ((p.x - a.x) * (b.x - a.x) + (p.y - a.y) * (b.y - a.y)) / d;
      return [(along - o.along) / o.deviation, (cross(a, b, p) / d - o.off) / o.deviation];
    }
    case 'known': {
      const p = points[o.point]!;
      return [(p.x - o.at.x) / o.deviation, (p.y - o.at.y) / o.deviation];
    }
  }
}

const costOf = (x: readonly number[], observations: readonly Observation[]): number => {
  const points = pointsOf(x);
  return observations.reduce((s, o) => s + missesOf(points, o).reduce((t, v) => t + v * v, 0), 0);
};

/** The points an observation looks at. */
function pointsIn(o: Observation): number[] {
  switch (o.kind) {
    case 'distance':
      return [o.a, o.b];
    case 'square':
      return [o.at, o.a, o.b];
    case 'offset':
      return [o.a, o.b, o.point];
    case 'known':
      return [o.point];
  }
}

/** How far the points reach, never nothing. */
function spanOf(points: readonly Point[]): number {
  const { minX, minY, maxX, maxY } = boxOf(points);
  return Math.max(1e-3, maxX - minX, maxY - minY);
}

/** Slopes of all rows by all coordinates, and what is still missing in each row, both by the deviation. */
function linearise(x: readonly number[], observations: readonly Observation[]) {
  const points = pointsOf(x);
  const span = spanOf(points);
  const rows: number[][] = [];
  const misses: number[] = [];
  const owners: number[] = [];
  const deviations: number[] = [];
  observations.forEach((o, index) => {
    const now = missesOf(points, o);
    const own = now.map(() => new Array<number>(x.length).fill(0));
    if (o.kind === 'distance') {
      const [a, b] = [points[o.a]!, points[o.b]!];
      const d = (distance(a, b) || 1e-12) * o.deviation;
      const row = own[0]!;
      row[2 * o.a] = (a.x - b.x) / d;
      row[2 * o.a + 1] = (a.y - b.y) / d;
      row[2 * o.b] = (b.x - a.x) / d;
      row[2 * o.b + 1] = (b.y - a.y) / d;
    }
    for (const p of o.kind === 'distance' ? [] : new Set(pointsIn(o))) {
      for (const axis of ['x', 'y'] as const) {
        const h = 1e-7 * span;
        const moved = (d: number) =>
          missesOf(
            points.map((q, i) => (i === p ? { ...q, [axis]: q[axis] + d } : q)),
            o,
          );
        const [high, low] = [moved(h), moved(-h)];
        own.forEach((row, r) => {
          row[2 * p + (axis === 'x' ? 0 : 1)] = (high[r]! - low[r]!) / (2 * h);
        });
      }
    }
    rows.push(...own);
    misses.push(...now.map((v) => -v));
    owners.push(...now.map(() => index));
    deviations.push(...now.map(() => o.deviation));
  });
  return { slopes: new Matrix(rows), misses: Matrix.columnVector(misses), owners, deviations };
}

/** A distance worth measuring next. */
export interface NextMeasure {
  readonly a: number;
  readonly b: number;
  /** How much it holds the loosest move (0 … 1), while the figure is loose; else the deviation of the result with it. */
  readonly worth: number;
}

/**
 * The distance that would do the figure most good: the one that best stops a move nothing notices, or, in a rigid
 * figure, the one after which a result with slopes g (by coordinates) has the least deviation.
 * Null when every distance has been measured.
 * Source of the update: the normal equations with one row more (Sherman and Morrison), from memory.
 */
export function nextMeasure(
  fit: FigureFit,
  observations: readonly Observation[],
  deviation: (length: number) => number,
  slopes: readonly number[],
): NextMeasure | null {
  const done = new Set(
    observations.flatMap((o) =>
      o.kind === 'distance' ? [`${Math.min(o.a, o.b)} ${Math.max(o.a, o.b)}`] : [],
    ),
  );
  const n = fit.points.length;
  const C = new Matrix(fit.covariance.map((row) => [...row]));
  const now = Matrix.columnVector([...slopes]);
  const variance = now.transpose().mmul(C).mmul(now).get(0, 0);
  let best: NextMeasure | null = null;
  for (let a = 0; a < n; a++) {
    for (let b = a + 1; b < n; b++) {
      if (done.has(`${a} ${b}`)) continue;
      const [p, q] = [fit.points[a]!, fit.points[b]!];
      const d = distance(p, q);
      if (d < 1e-6) continue;
      const row = new Array<number>(2 * n).fill(0);
      row[2 * a] = (p.x - q.x) / d;
      row[2 * a + 1] = (p.y - q.y) / d;
      row[2 * b] = -row[2 * a]!;
      row[2 * b + 1] = -row[2 * a + 1]!;
      if (fit.loose > 0) {
        const worth = Math.sqrt(fit.moves.reduce((s, move) => s + dot(row, move) ** 2, 0));
        if (!best || worth > best.worth) best = { a, b, worth };
      } else {
        const j = Matrix.columnVector(row);
        const shared = now.transpose().mmul(C).mmul(j).get(0, 0);
        const own = j.transpose().mmul(C).mmul(j).get(0, 0) + deviation(d) ** 2;
        const worth = Math.sqrt(Math.max(0, variance - shared ** 2 / own));
        if (!best || worth < best.worth) best = { a, b, worth };
      }
    }
  }
  return best;
}
