import type { Arc } from './arc.ts';
import type { Point } from './point.ts';

/** A straight line through two points, or the circle it is a chord of. */
export interface TrueLine {
  readonly a: Point;
  readonly b: Point;
  readonly arc: Arc | null;
}

/** How far a crossing of two straight lines may lie from the cell it was rounded to, in cells. */
const STRAIGHT_REACH = 2;

/** The same where one of them is an arc, which its chord leaves by its sagitta. */
const ARC_REACH = 64;

/**
 * Where two of the true lines through a cell meet, of all such places the nearest, or the cell itself when none is near.
 * Lines almost parallel may truly meet a long way along: there the cell stays, or it would carry any third line with it.
 */
export function trueCrossing(through: readonly TrueLine[], at: Point, cell: number): Point {
  let best = at;
  let least = Infinity;
  for (let i = 0; i < through.length; i++) {
    for (let j = i + 1; j < through.length; j++) {
      const p = meet(through[i]!, through[j]!, at);
      if (!p) continue;
      const reach = (through[i]!.arc || through[j]!.arc ? ARC_REACH : STRAIGHT_REACH) * cell;
      const off = Math.max(Math.abs(p.x - at.x), Math.abs(p.y - at.y));
      if (off > reach || off >= least) continue;
      least = off;
      best = p;
    }
  }
  return best;
}

/** `trueCrossing` of two straight lines, a–b and c–d, at the cell about (x, y): what nearly all crossings are. */
export function straightCrossing(
  ax: number,
  ay: number,
  bx: number,
  by: number,
  cx: number,
  cy: number,
  dx: number,
  dy: number,
  x: number,
  y: number,
  cell: number,
): Point {
  const p = meetStraight(ax, ay, bx, by, cx, cy, dx, dy);
  const isNear = p && Math.max(Math.abs(p.x - x), Math.abs(p.y - y)) <= STRAIGHT_REACH * cell;
  return isNear ? p : { x, y };
}

function meet(p: TrueLine, q: TrueLine, near: Point): Point | null {
  if (!p.arc && !q.arc) return meetLines(p, q);
  if (p.arc && q.arc) return meetCircles(p.arc, q.arc, near);
  return p.arc ? meetLineCircle(q, p.arc, near) : meetLineCircle(p, q.arc!, near);
}

const meetLines = (p: TrueLine, q: TrueLine): Point | null =>
  meetStraight(p.a.x, p.a.y, p.b.x, p.b.y, q.a.x, q.a.y, q.b.x, q.b.y);

function meetStraight(
  ax: number,
  ay: number,
  bx: number,
  by: number,
  cx: number,
  cy: number,
  dx: number,
  dy: number,
): Point | null {
  const ux = bx - ax;
  const uy = by - ay;
  const vx = dx - cx;
  const vy = dy - cy;
  const turn = ux * vy - uy * vx;
  if (Math.abs(turn) <= 1e-9 * root2(ux, uy) * root2(vx, vy)) return null;
  const t = ((cx - ax) * vy - (cy - ay) * vx) / turn;
  return { x: ax + ux * t, y: ay + uy * t };
}

function meetLineCircle(line: TrueLine, arc: Arc, near: Point): Point | null {
  const dx = line.b.x - line.a.x;
  const dy = line.b.y - line.a.y;
  const d2 = dx * dx + dy * dy;
  if (d2 === 0) return null;
  const fx = arc.centre.x - line.a.x;
  const fy = arc.centre.y - line.a.y;
  const foot = (fx * dx + fy * dy) / d2;
  const off = (fx * dy - fy * dx) / Math.sqrt(d2);
  const half2 = arc.radius * arc.radius - off * off;
  if (half2 < 0) return null;
  const half = Math.sqrt(half2 / d2);
  return nearest(
    near,
    { x: line.a.x + dx * (foot - half), y: line.a.y + dy * (foot - half) },
    { x: line.a.x + dx * (foot + half), y: line.a.y + dy * (foot + half) },
  );
}

function meetCircles(p: Arc, q: Arc, near: Point): Point | null {
  const dx = q.centre.x - p.centre.x;
  const dy = q.centre.y - p.centre.y;
  const d2 = dx * dx + dy * dy;
  if (d2 <= 1e-18 * p.radius * p.radius) return null;
  const along = (p.radius * p.radius - q.radius * q.radius + d2) / (2 * d2);
  const half2 = (p.radius * p.radius) / d2 - along * along;
  if (half2 < 0) return null;
  const half = Math.sqrt(half2);
  const mx = p.centre.x + dx * along;
  const my = p.centre.y + dy * along;
  return nearest(near, { x: mx - dy * half, y: my + dx * half }, { x: mx + dy * half, y: my - dx * half });
}

const nearest = (p: Point, a: Point, b: Point): Point =>
  (a.x - p.x) ** 2 + (a.y - p.y) ** 2 <= (b.x - p.x) ** 2 + (b.y - p.y) ** 2 ? a : b;

/** How far the point (px, py) lies from the line through a and b, or from its circle. */
export function offLine(
  ax: number,
  ay: number,
  bx: number,
  by: number,
  arc: Arc | null,
  px: number,
  py: number,
): number {
  if (arc) return Math.abs(root2(px - arc.centre.x, py - arc.centre.y) - arc.radius);
  const dx = bx - ax;
  const dy = by - ay;
  const d = root2(dx, dy);
  return d === 0 ? root2(px - ax, py - ay) : Math.abs((px - ax) * dy - (py - ay) * dx) / d;
}

/** `Math.hypot` guards against overflow, which coordinates below 1e9 cannot reach, and takes many times longer. */
const root2 = (x: number, y: number): number => Math.sqrt(x * x + y * y);
