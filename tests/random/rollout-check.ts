import { insidePoints, type Point } from '../../geometry/index.ts';
import type { Rollout } from '../../src/days/rollout/rollout.ts';

/*
 * Walks a roll-out order bay by bay, and shares nothing with what plans it: its own raster at another size and place,
 * its own inside test (the geometry's, by rings), its own flood fill of what is still unpainted.
 */

/** Half of the passage, and how far an edge of two rasters may lie apart. */
const CLEARANCE_M = 0.25;

interface Raster {
  readonly step: number;
  readonly columns: number;
  readonly points: readonly Point[];
  readonly inside: Uint8Array;
}

function rasterOf(rings: readonly Point[][], step: number): Raster {
  const all = rings.flat();
  const x0 = Math.min(...all.map((p) => p.x)) - 0.6 - step * 0.37;
  const y0 = Math.min(...all.map((p) => p.y)) - 0.6 - step * 0.61;
  const columns = Math.ceil((Math.max(...all.map((p) => p.x)) + 0.6 - x0) / step);
  const rows = Math.ceil((Math.max(...all.map((p) => p.y)) + 0.6 - y0) / step);
  const points: Point[] = [];
  const inside = new Uint8Array(columns * rows);
  const boxed = rings.map((ring) => {
    const [xs, ys] = [ring.map((p) => p.x), ring.map((p) => p.y)];
    const [left, right, low, high] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
    return { ring, left, right, low, high };
  });
  for (let j = 0; j < rows; j++) {
    for (let i = 0; i < columns; i++) {
      const p = { x: x0 + i * step, y: y0 + j * step };
      let holds = false;
      for (const { ring, left, right, low, high } of boxed) {
        if (p.x < left || p.x > right || p.y < low || p.y > high) continue;
        if (insidePoints(ring, p)) holds = !holds;
      }
      inside[points.length] = holds ? 1 : 0;
      points.push(p);
    }
  }
  return { step, columns, points, inside };
}

const segmentDistance = (p: Point, a: Point, b: Point): number => {
  const [dx, dy] = [b.x - a.x, b.y - a.y];
  const t = Math.min(1, Math.max(0, ((p.x - a.x) * dx + (p.y - a.y) * dy) / (dx * dx + dy * dy || 1)));
  return Math.hypot(p.x - a.x - t * dx, p.y - a.y - t * dy);
};

/** How far each point is from a way out; infinite beyond a reach. */
function exitDistances(
  raster: Raster,
  exits: ReadonlyArray<readonly [Point, Point]>,
  reach: number,
): Float64Array {
  const distances = new Float64Array(raster.points.length).fill(Infinity);
  for (const [a, b] of exits) {
    const [x0, x1] = [Math.min(a.x, b.x) - reach, Math.max(a.x, b.x) + reach];
    const [y0, y1] = [Math.min(a.y, b.y) - reach, Math.max(a.y, b.y) + reach];
    raster.points.forEach((p, i) => {
      if (p.x < x0 || p.x > x1 || p.y < y0 || p.y > y1) return;
      const d = segmentDistance(p, a, b);
      if (d <= reach && d < distances[i]!) distances[i] = d;
    });
  }
  return distances;
}

/** Which bay each point belongs to: the nearest cell of a bay within a cell and a half. */
function baysAt(raster: Raster, rollout: Rollout): Int32Array {
  const { cellM, middle } = rollout.floor!;
  const cells = rollout.bays.flatMap((bay, i) => bay.cells.map((cell) => ({ ...middle(cell), bay: i })));
  const column = (x: number) => Math.floor(x / cellM);
  const least = (of: (c: Point) => number) => cells.reduce((m, c) => Math.min(m, column(of(c))), Infinity);
  const most = (of: (c: Point) => number) => cells.reduce((m, c) => Math.max(m, column(of(c))), -Infinity);
  const [i0, j0] = [least((c) => c.x), least((c) => c.y)];
  const [width, height] = [most((c) => c.x) - i0 + 1, most((c) => c.y) - j0 + 1];
  // Cells by the square they lie in: the first of each square, and after each the next.
  const firsts = new Int32Array(Math.max(0, width * height)).fill(-1);
  const nexts = new Int32Array(cells.length);
  cells.forEach((c, n) => {
    const square = (column(c.y) - j0) * width + column(c.x) - i0;
    nexts[n] = firsts[square]!;
    firsts[square] = n;
  });
  const bays = new Int32Array(raster.points.length).fill(-1);
  raster.points.forEach((q, index) => {
    if (!raster.inside[index]) return;
    let best = -1;
    let near = (1.5 * cellM) ** 2;
    const [i, j] = [column(q.x) - i0, column(q.y) - j0];
    // Whatever lies beyond the next squares is more than a cell away.
    for (let reach = 1; reach <= 2 && near > cellM ** 2; reach++) {
      for (let v = Math.max(0, j - reach); v <= Math.min(height - 1, j + reach); v++) {
        for (let u = Math.max(0, i - reach); u <= Math.min(width - 1, i + reach); u++) {
          for (let n = firsts[v * width + u]!; n >= 0; n = nexts[n]!) {
            const c = cells[n]!;
            const d = (c.x - q.x) ** 2 + (c.y - q.y) ** 2;
            if (d >= near) continue;
            near = d;
            best = c.bay;
          }
        }
      }
    }
    bays[index] = best;
  });
  return bays;
}

/**
 * Everything wrong with an order; empty where nothing is.
 * @param rings of what is coated, @param exits sides that may be stepped over
 */
export function faultsOf(
  rings: readonly Point[][],
  exits: ReadonlyArray<readonly [Point, Point]>,
  rollout: Rollout,
): string[] {
  const faults: string[] = [];
  const { cellM } = rollout.floor!;
  const seen = new Set<number>();
  for (const bay of rollout.bays) {
    for (const cell of bay.cells) {
      if (seen.has(cell)) faults.push(`a cell of bay ${bay.number} was rolled before`);
      seen.add(cell);
    }
  }
  const area = rollout.bays.reduce((sum, bay) => sum + bay.areaM2, 0);
  const raster = rasterOf(rings, Math.max(0.09, cellM * 0.83, Math.sqrt(area) / 75));
  const bayAt = baysAt(raster, rollout);
  const uncovered = raster.inside.reduce((n, is, i) => n + (is && bayAt[i]! < 0 ? 1 : 0), 0);
  // Between a void and a side there may be less than a cell, which the brush takes.
  if (uncovered * raster.step ** 2 > 0.12) faults.push(`${uncovered} places are in no bay`);
  // What two rasters cannot agree on: half a cell of each, on either side.
  const slack = 0.71 * (cellM + raster.step);
  const free = Math.max(0.05, CLEARANCE_M - slack);
  const exitAt = exitDistances(raster, exits, 1 + slack);
  const nearExit = exitAt.map((d) => (d <= CLEARANCE_M + slack ? 1 : 0));
  const n = Math.ceil(free / raster.step);
  const disc: number[] = [];
  for (let j = -n; j <= n; j++) {
    for (let i = -n; i <= n; i++) {
      if (Math.hypot(i, j) * raster.step <= free) disc.push(j * raster.columns + i);
    }
  }
  const around = [1, -1, raster.columns, -raster.columns];
  around.push(raster.columns + 1, raster.columns - 1, 1 - raster.columns, -1 - raster.columns);
  const standing = raster.inside.map((is, i) =>
    is === 1 && disc.every((d) => raster.inside[i + d] === 1 || nearExit[i + d] === 1) ? 1 : 0,
  );
  const doors: number[] = [];
  exitAt.forEach((d, i) => {
    if (standing[i] === 1 && d <= slack + raster.step) doors.push(i);
  });
  /** Where somebody can stand clear of wet paint now, and get to from a way out. */
  const reachable = (): Uint8Array => {
    const got = new Uint8Array(raster.points.length);
    const stack = doors.filter((i) => standing[i] === 1);
    for (const i of stack) got[i] = 1;
    while (stack.length > 0) {
      const i = stack.pop()!;
      for (const d of around) {
        const k = i + d;
        if (got[k] || !standing[k]) continue;
        got[k] = 1;
        stack.push(k);
      }
    }
    return got;
  };
  const members = rollout.bays.map(() => [] as number[]);
  bayAt.forEach((bay, i) => {
    if (bay >= 0) members[bay]!.push(i);
  });
  // A pole reaches a metre.
  const reach = Math.ceil((1 + slack) / raster.step);
  const touches = (bay: number, region: Uint8Array): boolean =>
    members[bay]!.length === 0 ||
    members[bay]!.some((i) => {
      if (region[i]) return true;
      for (let j = -reach; j <= reach; j++) {
        for (let k = -reach; k <= reach; k++) if (region[i + j * raster.columns + k]) return true;
      }
      return false;
    });
  let before = reachable();
  for (let k = 0; k < rollout.bays.length; k++) {
    if (!touches(k, before)) faults.push(`bay ${k + 1} cannot be reached over unpainted ground`);
    // It is wet now, and so near it nobody stands.
    for (const i of members[k]!) for (const d of disc) standing[i + d] = 0;
    const after = reachable();
    const offStraight = members[k]!.some((i) => exitAt[i]! <= 1 + slack);
    if (!touches(k, after) && !offStraight) faults.push(`whoever rolled bay ${k + 1} is trapped`);
    before = after;
  }
  return faults;
}
