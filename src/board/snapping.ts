import { distance, nearestOnRing, type Point, pointOnSide, sideOf } from '../../geometry/index.ts';
import { slabRing } from '../job/outline.ts';
import type { Corner, Id, Job, Slab } from '../job/types.ts';
import type { SheetPoint } from '../units/types.ts';
import { tr } from '../words/tr.ts';

/** A place on a sheet, and what it was drawn to. */
export interface Snapped {
  readonly at: SheetPoint;
  readonly to:
    | { readonly kind: 'free' }
    | { readonly kind: 'corner'; readonly cornerId: Id }
    | { readonly kind: 'side'; readonly slabId: Id; readonly cornerId: Id; readonly t: number }
    | { readonly kind: 'line'; readonly lines: readonly GuideLine[] };
  /** Why it is there, for people; empty when free. */
  readonly reason: string;
}

/** A line through a point of the shape in hand. */
export interface GuideLine {
  readonly from: SheetPoint;
  /** Of length 1. */
  readonly direction: Point;
  readonly reason: string;
}

/** Finds the nearest end of a line of the sheet's own picture within reach. */
export type FindEnd = (p: SheetPoint, reach: number) => SheetPoint | null;

/** What there is to snap to. */
export interface SnapContext {
  readonly job: Job;
  readonly sheetId: Id;
  /** In sheet units. */
  readonly reach: number;
  /** Corners of the shape in hand, in order; guides start from the last and the first. */
  readonly path: readonly SheetPoint[];
  readonly off: boolean;
  /** Ends of lines that the sheet's picture is known to have. */
  readonly findEnd?: FindEnd | null;
}

/** Draws a place to the nearest corner, else to a crossing of guides, a side, or one guide. */
export function snap(p: SheetPoint, context: SnapContext): Snapped {
  const free: Snapped = { at: p, to: { kind: 'free' }, reason: '' };
  if (context.off) return free;
  return toCorner(p, context) ?? toEnd(p, context) ?? toSide(p, context) ?? toGuides(p, context) ?? free;
}

function toCorner(p: SheetPoint, { job, sheetId, reach }: SnapContext): Snapped | null {
  let best = null as Corner | null;
  let near = reach;
  const look = (id: Id) => {
    const corner = job.corners[id]!;
    const d = distance(p, corner);
    if (corner.sheetId !== sheetId || d > near) return;
    near = d;
    best = corner;
  };
  for (const slab of Object.values(job.slabs)) for (const c of slab.corners) look(c.cornerId);
  for (const cut of Object.values(job.cuts))
    for (const c of cut.points) if (c.at === 'corner') look(c.cornerId);
  return best && toKnown(best);
}

const toKnown = ({ id, x, y }: Corner): Snapped => ({
  at: { x, y },
  to: { kind: 'corner', cornerId: id },
  reason: tr`corner`,
});

function toEnd(p: SheetPoint, { findEnd, reach }: SnapContext): Snapped | null {
  const at = findEnd?.(p, reach);
  return at ? { at, to: { kind: 'free' }, reason: tr`end of a line on the plan` } : null;
}

function toSide(p: SheetPoint, context: SnapContext): Snapped | null {
  const { job, sheetId, reach } = context;
  let best: Snapped | null = null;
  let near = reach;
  for (const slab of Object.values(job.slabs)) {
    if (slab.sheetId !== sheetId || isBeyond(job, slab, p, near)) continue;
    const ring = slabRing(job, slab);
    const on = nearestOnRing(ring, p);
    if (!on || on.distance > near) continue;
    near = on.distance;
    const line = sideOf(ring, on.side);
    // A guide that crosses the side within reach decides where along it; so does the side's middle.
    const guided = guidesFor(context)
      .map((g) => crossSide(line, g, p, reach))
      .find((found) => found !== null);
    const middle = pointOnSide(line, 0.5);
    const t = guided ?? (distance(p, middle) <= reach / 2 ? 0.5 : on.t);
    best = {
      at: pointOnSide(line, t),
      to: { kind: 'side', slabId: slab.id, cornerId: slab.corners[on.side]!.cornerId, t },
      reason: t === 0.5 ? tr`middle of the side` : tr`on the side`,
    };
  }
  return best;
}

/** Whether a slab of straight sides lies wholly farther from a place than this; false where that takes a closer look. */
function isBeyond(job: Job, { corners }: Slab, p: SheetPoint, reach: number): boolean {
  let [left, right, low, high] = [true, true, true, true];
  for (const { cornerId, via } of corners) {
    const c = job.corners[cornerId]!;
    left &&= c.x < p.x - reach;
    right &&= c.x > p.x + reach;
    low &&= c.y < p.y - reach;
    high &&= c.y > p.y + reach;
    if (via || !(left || right || low || high)) return false;
  }
  return true;
}

/** Fraction along a straight side where a guide crosses it near p, or null. */
function crossSide(
  line: ReturnType<typeof sideOf>,
  guide: GuideLine,
  p: SheetPoint,
  reach: number,
): number | null {
  if (line.arc) return null;
  const dx = line.b.x - line.a.x;
  const dy = line.b.y - line.a.y;
  const turn = dx * guide.direction.y - dy * guide.direction.x;
  if (Math.abs(turn) < 1e-9 * Math.hypot(dx, dy)) return null;
  const t =
    ((guide.from.x - line.a.x) * guide.direction.y - (guide.from.y - line.a.y) * guide.direction.x) / turn;
  if (t < 0 || t > 1) return null;
  return distance(p, pointOnSide(line, t)) <= reach ? t : null;
}

/** Lines worth following: square to and along the last side, level and upright, and square with the start. */
function guidesFor({ path }: SnapContext): GuideLine[] {
  const last = path[path.length - 1];
  if (!last) return [];
  const level: GuideLine[] = [
    { from: last, direction: { x: 1, y: 0 }, reason: tr`level` },
    { from: last, direction: { x: 0, y: 1 }, reason: tr`upright` },
  ];
  const guides: GuideLine[] = [];
  const before = path[path.length - 2];
  const first = path[0]!;
  if (before) {
    const length = distance(before, last);
    if (length > 0) {
      const u = { x: (last.x - before.x) / length, y: (last.y - before.y) / length };
      guides.push({ from: last, direction: { x: -u.y, y: u.x }, reason: tr`right angle` });
      guides.push({ from: last, direction: u, reason: tr`straight on` });
      const second = path[1]!;
      const firstLength = distance(first, second);
      if (path.length > 2 && firstLength > 0) {
        const v = { x: (second.x - first.x) / firstLength, y: (second.y - first.y) / firstLength };
        guides.push({ from: first, direction: { x: -v.y, y: v.x }, reason: tr`square with the start` });
      } else {
        guides.push({ from: first, direction: { x: -u.y, y: u.x }, reason: tr`square with the start` });
      }
    }
  }
  return [...guides, ...level];
}

/** Directions closer than this are the same to the eye; sine of the angle between them. */
const SAME_DIRECTION = 0.01;

/** Lines of what is drawn already: along its straight sides, and through the last corner parallel to them. */
function guidesOfSides(p: SheetPoint, { job, sheetId, reach, path }: SnapContext): GuideLine[] {
  const last = path[path.length - 1];
  const along: GuideLine[] = [];
  const parallel: Array<GuideLine & { readonly away: number }> = [];
  for (const slab of Object.values(job.slabs)) {
    if (slab.sheetId !== sheetId) continue;
    slab.corners.forEach(({ cornerId, via }, k) => {
      if (via) return;
      const a = job.corners[cornerId]!;
      const b = job.corners[slab.corners[(k + 1) % slab.corners.length]!.cornerId]!;
      const length = distance(a, b);
      if (length === 0) return;
      const direction = { x: (b.x - a.x) / length, y: (b.y - a.y) / length };
      const away = Math.min(distance(a, p), distance(b, p));
      const off = Math.abs((p.x - a.x) * direction.y - (p.y - a.y) * direction.x);
      if (off <= reach) {
        const from = distance(a, p) < distance(b, p) ? a : b;
        along.push({ from: { x: from.x, y: from.y }, direction, reason: tr`in line with ${slab.name}` });
      }
      const aside = last ? Math.abs((p.x - last.x) * direction.y - (p.y - last.y) * direction.x) : 0;
      if (last && aside <= reach)
        parallel.push({ from: last, direction, reason: tr`parallel to ${slab.name}`, away });
    });
  }
  parallel.sort((x, y) => x.away - y.away);
  return [...along, ...parallel];
}

/** Whether a line runs as one of the others does. */
const runsAs = (guide: GuideLine, others: readonly GuideLine[]): boolean =>
  others.some(
    (o) =>
      Math.abs(guide.direction.x * o.direction.y - guide.direction.y * o.direction.x) < SAME_DIRECTION &&
      footDistance(o, guide.from) < 1e-6,
  );

const footDistance = (line: GuideLine, p: SheetPoint): number => distance(footOn(line, p), p);

function toGuides(p: SheetPoint, context: SnapContext): Snapped | null {
  const { reach, path } = context;
  const last = path[path.length - 1];
  const own = guidesFor(context);
  const others = guidesOfSides(p, context).filter((g) => !runsAs(g, own));
  const near = [...own, ...others]
    .map((g) => ({ g, foot: footOn(g, p) }))
    .filter(({ foot }) => distance(foot, p) <= reach && (!last || distance(foot, last) > reach / 2));
  const first = near[0];
  if (!first) return null;
  for (const other of near.slice(1)) {
    const at = crossGuides(first.g, other.g);
    if (at && distance(at, p) <= reach) {
      const reason =
        first.g.reason === other.g.reason ? first.g.reason : `${first.g.reason}, ${other.g.reason}`;
      return { at, to: { kind: 'line', lines: [first.g, other.g] }, reason };
    }
  }
  return { at: first.foot, to: { kind: 'line', lines: [first.g] }, reason: first.g.reason };
}

function footOn({ from, direction }: GuideLine, p: SheetPoint): SheetPoint {
  const along = (p.x - from.x) * direction.x + (p.y - from.y) * direction.y;
  return { x: from.x + direction.x * along, y: from.y + direction.y * along };
}

function crossGuides(a: GuideLine, b: GuideLine): SheetPoint | null {
  const turn = a.direction.x * b.direction.y - a.direction.y * b.direction.x;
  if (Math.abs(turn) < 1e-6) return null;
  const t = ((b.from.x - a.from.x) * b.direction.y - (b.from.y - a.from.y) * b.direction.x) / turn;
  return { x: a.from.x + a.direction.x * t, y: a.from.y + a.direction.y * t };
}
