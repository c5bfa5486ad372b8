import type { Lines } from './lines.ts';

/** Pieces nearer than this many cells to another are noded; snap rounding moves nothing as far. */
export const MARGIN = 4;

/** Of two directions whose sine is below this, a line within a cell of another runs beside it rather than across it. */
const ALONG = 0.1;

/** Distance at which two lines are one. */
const SAME_LINE = 1e-10;

/** What is said of a piece that runs within a few cells of another that is not quite the same line. */
export const BESIDE = 2;

/**
 * How two pieces meet, the one in the earlier slot first: 0 when they are well apart, or one goes on from the other; 1
 * when they cross, touch, come within a few cells or fold back; or `BESIDE`. Nothing but their ends decides.
 */
export function meeting(lines: Lines, i: number, j: number): number {
  const { to } = lines;
  const near =
    to[i] === j ? foldsBack(lines, i, j) : to[j] === i ? foldsBack(lines, j, i) : comesNear(lines, i, j);
  if (!near) return 0;
  return runsBeside(lines, i, j) ? BESIDE : 1;
}

/** Whether two pieces go much the same way on lines that are truly apart. */
function runsBeside({ x, y, to }: Lines, i: number, j: number): boolean {
  const ux = x[to[i]!]! - x[i]!;
  const uy = y[to[i]!]! - y[i]!;
  const vx = x[to[j]!]! - x[j]!;
  const vy = y[to[j]!]! - y[j]!;
  const u = Math.sqrt(ux * ux + uy * uy);
  if (Math.abs(ux * vy - uy * vx) > ALONG * u * Math.sqrt(vx * vx + vy * vy)) return false;
  const off = (k: number) => Math.abs(ux * (y[k]! - y[i]!) - uy * (x[k]! - x[i]!));
  return off(j) > SAME_LINE * u || off(to[j]!) > SAME_LINE * u;
}

/** Whether piece j, which begins where piece i ends, lies back along it. */
function foldsBack({ cx, cy, to }: Lines, i: number, j: number): boolean {
  const k = to[j]!;
  if (k === i) return true;
  const ux = cx[i]! - cx[j]!;
  const uy = cy[i]! - cy[j]!;
  const vx = cx[k]! - cx[j]!;
  const vy = cy[k]! - cy[j]!;
  if (ux * vx + uy * vy <= 0) return false;
  const longest = Math.sqrt(Math.max(ux * ux + uy * uy, vx * vx + vy * vy));
  return Math.abs(ux * vy - uy * vx) <= MARGIN * longest;
}

/** False only when the line of one of them keeps the other well to one side, or their boxes are apart. */
function comesNear({ cx, cy, to }: Lines, i: number, j: number): boolean {
  const ax = cx[i]!;
  const ay = cy[i]!;
  const bx = cx[to[i]!]!;
  const by = cy[to[i]!]!;
  const px = cx[j]!;
  const py = cy[j]!;
  const qx = cx[to[j]!]!;
  const qy = cy[to[j]!]!;
  if (Math.min(ax, bx) - MARGIN > Math.max(px, qx) || Math.min(px, qx) - MARGIN > Math.max(ax, bx))
    return false;
  if (Math.min(ay, by) - MARGIN > Math.max(py, qy) || Math.min(py, qy) - MARGIN > Math.max(ay, by))
    return false;
  return !toOneSide(ax, ay, bx, by, px, py, qx, qy) && !toOneSide(px, py, qx, qy, ax, ay, bx, by);
}

function toOneSide(
  ax: number,
  ay: number,
  bx: number,
  by: number,
  px: number,
  py: number,
  qx: number,
  qy: number,
): boolean {
  const dx = bx - ax;
  const dy = by - ay;
  const p = dx * (py - ay) - dy * (px - ax);
  const q = dx * (qy - ay) - dy * (qx - ax);
  if (p > 0 !== q > 0) return false;
  const least = Math.min(Math.abs(p), Math.abs(q));
  return least * least > MARGIN * MARGIN * (dx * dx + dy * dy);
}
