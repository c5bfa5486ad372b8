import { enclosesGround, type Point, type Ring, selfCrossing } from '../../geometry/index.ts';
import type { Problem } from '../problem.ts';
import { tr } from '../words/tr.ts';
import { voidCalled } from './names.ts';
import { cutPath, sideIndex, slabRing } from './outline.ts';
import { LARGEST_COORDINATE } from './schema.ts';
import type { Cut, Id, Job, Sheet, Slab, Tape, Void } from './types.ts';

/**
 * The first thing in a job that could not be worked with: a name that leads nowhere, a scale or an outline that is
 * none, a coordinate that is no site's.
 * @param before the job as it was, sound; only what changed since is looked at closely
 */
export function findStructureProblem(job: Job, before: Job | null = null): Problem | null {
  const moved = (ids: readonly Id[]) => !before || ids.some((id) => job.corners[id] !== before.corners[id]);
  const cornersOf = (slabId: Id) => job.slabs[slabId]?.corners.map((c) => c.cornerId) ?? [];
  const sameSlab = (id: Id) => before?.slabs[id] === job.slabs[id];
  const slabs = Object.values(job.slabs).filter((s) => !sameSlab(s.id) || moved(cornersOf(s.id)));
  const cuts = Object.values(job.cuts).filter(
    (c) =>
      before?.cuts[c.id] !== c ||
      !sameSlab(c.slabId) ||
      moved([...cornersOf(c.slabId), ...c.points.map((p) => p.cornerId)]),
  );
  const voids = Object.values(job.voids).filter((v) => before?.voids[v.id] !== v);
  return (
    findKeyProblem(job) ??
    findReferenceProblem(job) ??
    first(Object.values(job.sheets), sheetProblem) ??
    first(Object.values(job.corners), (c) =>
      isFar(c) ? { code: 'coordinate/too-large', what: tr`A corner` } : null,
    ) ??
    first(slabs, (slab) => slabProblem(job, slab)) ??
    first(voids, (v) => voidProblem(v)) ??
    first(cuts, (cut) => cutProblem(job, cut))
  );
}

function first<T>(items: readonly T[], check: (item: T) => Problem | null): Problem | null {
  for (const item of items) {
    const problem = check(item);
    if (problem) return problem;
  }
  return null;
}

/** Any number in it that is larger than a coordinate or size may be. */
const isFar = (value: unknown): boolean =>
  typeof value === 'number'
    ? !(Math.abs(value) <= LARGEST_COORDINATE)
    : typeof value === 'object' && value !== null && Object.values(value).some(isFar);

/** Metres per unit of a sheet that a site can have. */
const SMALLEST_SCALE = 1e-6;
const LARGEST_SCALE = 1000;

/** What is wrong with a sheet's fit, or null. */
function sheetProblem({ fit }: Sheet): Problem | null {
  if (fit?.kind === 'marks' && fit.known.type === 'tapes') {
    const count = fit.marks.length;
    const odd = fit.known.tapes.find(({ a, b }) => a === b || a >= count || b >= count);
    return odd ? { code: 'marks/tape', a: odd.a + 1, b: odd.b + 1, count } : null;
  }
  if (fit?.kind !== 'scale') return null;
  for (const { a, b, lengthM } of fit.lengths) {
    if (!(lengthM > 0)) return { code: 'scale/zero', what: 'length' };
    const d = Math.hypot(b.x - a.x, b.y - a.y);
    if (!(d > 1e-6)) return { code: 'scale/zero', what: 'line' };
    const scale = lengthM / d;
    if (!(scale >= SMALLEST_SCALE && scale <= LARGEST_SCALE)) {
      const what = tr`The scale, in metres for each unit of the sheet,`;
      return { code: 'value/out-of-range', what, low: SMALLEST_SCALE, high: LARGEST_SCALE };
    }
  }
  return null;
}

/** The corners that a tape is laid between. */
export const tapeCorners = (t: Tape): readonly Id[] =>
  t.kind === 'distance' ? [t.a, t.b] : t.kind === 'square' ? [t.at, t.a, t.b] : [t.a, t.b, t.corner];

function findKeyProblem(job: Job): Problem | null {
  for (const map of ['sheets', 'corners', 'slabs', 'cuts', 'voids', 'tags', 'tapes'] as const) {
    for (const [key, entity] of Object.entries(job[map] ?? {})) {
      if (entity.id !== key) return { code: 'job/reference', path: `job.${map}.${key}.id`, id: entity.id };
    }
  }
  return null;
}

function findReferenceProblem(job: Job): Problem | null {
  const refer = (path: string, map: Readonly<Record<string, unknown>>, id: string): Problem | null =>
    Object.hasOwn(map, id) ? null : { code: 'job/reference', path: `job.${path}`, id };
  return (
    first(Object.values(job.corners), (c) => refer(`corners.${c.id}.sheetId`, job.sheets, c.sheetId)) ??
    first(
      Object.values(job.slabs),
      (s) =>
        refer(`slabs.${s.id}.sheetId`, job.sheets, s.sheetId) ??
        first([...s.corners.keys()], (k) => {
          const { cornerId } = s.corners[k]!;
          const path = `slabs.${s.id}.corners.${k}.cornerId`;
          const elsewhere = job.corners[cornerId]?.sheetId !== s.sheetId;
          return (
            refer(path, job.corners, cornerId) ??
            (elsewhere ? { code: 'job/reference', path: `job.${path}`, id: cornerId } : null)
          );
        }),
    ) ??
    first(
      Object.values(job.cuts),
      (c) =>
        refer(`cuts.${c.id}.slabId`, job.slabs, c.slabId) ??
        first([...c.points.keys()], (k) => {
          const p = c.points[k]!;
          const path = `cuts.${c.id}.points.${k}.cornerId`;
          if (p.at === 'corner') return refer(path, job.corners, p.cornerId);
          const known = sideIndex(job.slabs[c.slabId]!, p.cornerId) >= 0;
          return known ? null : { code: 'job/reference', path: `job.${path}`, id: p.cornerId };
        }),
    ) ??
    first(Object.values(job.voids), (v) => refer(`voids.${v.id}.sheetId`, job.sheets, v.sheetId)) ??
    first(Object.values(job.tags), (t) => refer(`tags.${t.id}.slabId`, job.slabs, t.slabId)) ??
    first(Object.values(job.sheets), ({ id, fit }) =>
      fit?.kind === 'straightened' ? straightenedProblem(job, id, fit.sheetId) : null,
    ) ??
    first(Object.values(job.tapes ?? {}), (t) =>
      first(tapeCorners(t), (c) => refer(`tapes.${t.id}`, job.corners, c)),
    )
  );
}

/** A straightened picture leads to the photo it was made from, which is not made from another. */
function straightenedProblem(job: Job, id: Id, from: Id): Problem | null {
  const source = Object.hasOwn(job.sheets, from) ? job.sheets[from] : undefined;
  const good = source && source.fit?.kind !== 'straightened';
  return good ? null : { code: 'job/reference', path: `job.sheets.${id}.fit.sheetId`, id: from };
}

/** What is wrong with a slab's outline, or null. */
export function slabProblem(job: Job, slab: Slab): Problem | null {
  const what = tr`The slab “${slab.name}”`;
  const ring = slabRing(job, slab);
  if (ring.length < 3 && !ring.some((v) => v.via)) return { code: 'outline/too-few', what };
  const ids = slab.corners.map((c) => c.cornerId);
  const twice = ring[ids.findIndex((id, k) => ids.indexOf(id) !== k)];
  return outlineProblem(ring, what, twice ?? null);
}

/** What is wrong with a void's shape, or null. */
export function voidProblem(v: Void): Problem | null {
  const what = voidCalled(v);
  const { shape } = v;
  if (isFar(shape)) return { code: 'coordinate/too-large', what };
  if (shape.type === 'line' && shape.a.x === shape.b.x && shape.a.y === shape.b.y)
    return { code: 'void/no-size', what };
  if (shape.type !== 'outline') return null;
  if (shape.corners.length < 3 && !shape.corners.some((c) => c.via)) return { code: 'outline/too-few', what };
  return outlineProblem(shape.corners, what);
}

/** Sides of an outline without ground lie on each other everywhere: that it has none says more than where. */
function outlineProblem(ring: Ring, what: string, twice: Point | null = null): Problem | null {
  if (!twice && !enclosesGround(ring)) return { code: 'outline/no-area', what };
  const at = twice ?? selfCrossing(ring);
  return at ? { code: 'outline/self-crossing', what, x: at.x, y: at.y } : null;
}

/** What is wrong with a cut, or null. */
export function cutProblem(job: Job, cut: Cut): Problem | null {
  const path = cutPath(job, cut);
  const start = path[0];
  const moved = start && path.some((p) => p.x !== start.x || p.y !== start.y);
  const name = job.slabs[cut.slabId]?.name ?? cut.slabId;
  return moved ? null : { code: 'cut/too-short', what: tr`The cut across “${name}”` };
}
