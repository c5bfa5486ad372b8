import {
  type Arc,
  type Box,
  boxOf,
  distance,
  flattenSide,
  type Point,
  partition,
  pointOnArc,
  type Ring,
  ringArea,
  type Side,
  sideOf,
  type Vertex,
} from '../../geometry/index.ts';
import { type DrawnLine, type DrawnOutline, drawnPoints } from './drawing.ts';

/** More open lines than this are a picture, not a plan: they are drawn under the sheet but not chained. */
export const MOST_CHAINED = 20_000;

/** The drawing is brought to this size, so that the grid it is noded on is as fine for a coin as for a harbour. */
const SPAN = 1000;
/** Ends this close are one (a hundred-thousandth of the drawing). */
const GAP = SPAN * 1e-5;
/** Faces smaller than this are drawing errors. */
const SPECK = SPAN * SPAN * 1e-9;

/**
 * The outlines that open lines and arcs enclose together: noded where they cross, loose ends left over, arcs put back on
 * the sides that came from them. The face about everything is none of them.
 */
export function chainLines(lines: readonly DrawnLine[]): DrawnOutline[] {
  if (lines.length === 0 || lines.length > MOST_CHAINED) return [];
  const box = boxOf(drawnPoints(lines));
  const span = Math.max(box.maxX - box.minX, box.maxY - box.minY);
  if (!(span > 0)) return [];
  const k = SPAN / span;
  const enter = (p: Point): Point => ({ x: (p.x - box.minX) * k, y: (p.y - box.minY) * k });
  const leave = (p: Point): Point => ({ x: p.x / k + box.minX, y: p.y / k + box.minY });
  const join = joiner();
  const sides = lines.flatMap(({ path }) =>
    sidesAlong(path.map((v) => ({ ...enter(v), via: v.via ? enter(v.via) : null }))),
  );
  const arcs = sides.flatMap((s) => (s.arc ? [s.arc] : []));
  const cuts = sides.map((s) => {
    const points = [s.a, ...flattenSide(s, (s.arc?.radius ?? 1) / 2000)];
    return { slab: 0, path: points.map((p, i) => (i === 0 || i === points.length - 1 ? join(p) : p)) };
  });
  const frame: Ring = [
    { x: -1, y: -1 },
    { x: SPAN + 1, y: -1 },
    { x: SPAN + 1, y: SPAN + 1 },
    { x: -1, y: SPAN + 1 },
  ];
  const parts = partition({ slabs: [frame], cuts: cuts.filter((c) => c.path.length > 1), voids: [] });
  if (!parts.ok) return [];
  const layer = lines[0]!.layer;
  return parts.value.zones
    .filter((z) => !z.stretches.some((s) => s.cause.kind === 'side') && z.faceArea > SPECK)
    .map((z) => {
      const outer = z.faceRings.reduce((a, b) => (Math.abs(ringArea(b)) > Math.abs(ringArea(a)) ? b : a));
      const ring = withArcs(outer, arcs).map((v) => ({ ...leave(v), via: v.via ? leave(v.via) : null }));
      return { layer, ring };
    });
}

/** Sides of an open path: one less than its vertices. */
const sidesAlong = (path: Ring): Side[] => path.slice(0, -1).map((_, i) => sideOf(path, i));

/** Brings ends that nearly meet to the first of them. */
function joiner(): (p: Point) => Point {
  const cells = new Map<string, Point[]>();
  return (p) => {
    const [i, j] = [Math.floor(p.x / GAP), Math.floor(p.y / GAP)];
    for (let di = -1; di <= 1; di++)
      for (let dj = -1; dj <= 1; dj++)
        for (const q of cells.get(`${i + di} ${j + dj}`) ?? []) if (distance(p, q) <= GAP) return q;
    const key = `${i} ${j}`;
    cells.set(key, [...(cells.get(key) ?? []), p]);
    return p;
  };
}

/** How far off its circle a noded point may lie. */
const OFF_ARC = GAP / 2;

/** A ring of points with the arcs put back that its sides came from. */
function withArcs(points: readonly Point[], arcs: readonly Arc[]): Ring {
  const n = points.length;
  const boxes = arcs.map(arcBox);
  const owner = points.map((p, i) => ownerOf(p, points[(i + 1) % n]!, arcs, boxes));
  const start = owner.findIndex((o, i) => o !== owner[(i + n - 1) % n]);
  // All on one arc: a whole circle.
  if (start < 0) return owner[0] === null ? points : halves(points, owner[0]!);
  const ring: Vertex[] = [];
  for (let i = 0; i < n; ) {
    const at = (start + i) % n;
    const arc = owner[at]!;
    let run = 1;
    while (arc && i + run < n && owner[(start + i + run) % n] === arc) run++;
    const middle = points[(at + Math.floor(run / 2)) % n]!;
    const via =
      arc && run > 1
        ? onCircle(arc, middle)
        : arc
          ? onCircle(arc, mean(points[at]!, points[(at + 1) % n]!))
          : null;
    ring.push({ ...points[at]!, via });
    i += run;
  }
  return ring;
}

const mean = (p: Point, q: Point): Point => ({ x: (p.x + q.x) / 2, y: (p.y + q.y) / 2 });

function halves(points: readonly Point[], arc: Arc): Ring {
  const n = points.length;
  const at = (i: number) => points[Math.floor((i * n) / 4)]!;
  return [
    { ...at(0), via: onCircle(arc, at(1)) },
    { ...at(2), via: onCircle(arc, at(3)) },
  ];
}

function onCircle({ centre, radius }: Arc, p: Point): Point {
  const d = distance(centre, p) || 1;
  return { x: centre.x + ((p.x - centre.x) / d) * radius, y: centre.y + ((p.y - centre.y) / d) * radius };
}

function arcBox(arc: Arc): Box {
  const points = Array.from({ length: 17 }, (_, i) => pointOnArc(arc, i / 16));
  const { minX, minY, maxX, maxY } = boxOf(points);
  const slack = arc.radius * 0.02 + OFF_ARC;
  return { minX: minX - slack, minY: minY - slack, maxX: maxX + slack, maxY: maxY + slack };
}

/** The arc that a short side was flattened from. */
function ownerOf(p: Point, q: Point, arcs: readonly Arc[], boxes: readonly Box[]): Arc | null {
  const chord = distance(p, q);
  for (let i = 0; i < arcs.length; i++) {
    const box = boxes[i]!;
    if (p.x < box.minX || p.x > box.maxX || p.y < box.minY || p.y > box.maxY) continue;
    const arc = arcs[i]!;
    // A piece of the flattened arc subtends little; a straight side between two points of the circle subtends more.
    if (chord > 0.13 * arc.radius) continue;
    const off = (v: Point) => Math.abs(distance(arc.centre, v) - arc.radius);
    if (off(p) > OFF_ARC || off(q) > OFF_ARC) continue;
    const middle = Math.atan2((p.y + q.y) / 2 - arc.centre.y, (p.x + q.x) / 2 - arc.centre.x);
    if (withinSweep(arc, middle)) return arc;
  }
  return null;
}

function withinSweep({ start, sweep }: Arc, angle: number): boolean {
  const turn = 2 * Math.PI;
  const along = sweep > 0 ? angle - start : start - angle;
  const t = ((along % turn) + turn) % turn;
  return t <= Math.abs(sweep) + 1e-6;
}
