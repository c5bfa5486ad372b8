import { enclosesGround, selfCrossing } from '../../geometry/index.ts';
import type { Problem } from '../problem.ts';
import { cutPath, sideIndex, slabRing } from './outline.ts';
import type { Cut, Job, Slab, Void } from './types.ts';

/** The first thing in a job that could not be worked with: a name that leads nowhere, or an outline that is none. */
export function findStructureProblem(job: Job): Problem | null {
  return (
    findKeyProblem(job) ??
    findReferenceProblem(job) ??
    first(Object.values(job.slabs), (slab) => slabProblem(job, slab)) ??
    first(Object.values(job.voids), (v) => voidProblem(v)) ??
    first(Object.values(job.cuts), (cut) => cutProblem(job, cut))
  );
}

function first<T>(items: readonly T[], check: (item: T) => Problem | null): Problem | null {
  for (const item of items) {
    const problem = check(item);
    if (problem) return problem;
  }
  return null;
}

function findKeyProblem(job: Job): Problem | null {
  for (const map of ['sheets', 'corners', 'slabs', 'cuts', 'voids', 'tags'] as const) {
    for (const [key, entity] of Object.entries(job[map])) {
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
        first([...s.corners.keys()], (k) =>
          refer(`slabs.${s.id}.corners.${k}.cornerId`, job.corners, s.corners[k]!.cornerId),
        ),
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
    first(Object.values(job.tags), (t) => refer(`tags.${t.id}.slabId`, job.slabs, t.slabId))
  );
}

/** What is wrong with a slab's outline, or null. */
export function slabProblem(job: Job, slab: Slab): Problem | null {
  const what = `The slab “${slab.name}”`;
  const ring = slabRing(job, slab);
  if (ring.length < 3 && !ring.some((v) => v.via)) return { code: 'outline/too-few', what };
  const at = selfCrossing(ring);
  if (at) return { code: 'outline/self-crossing', what, x: at.x, y: at.y };
  return enclosesGround(ring) ? null : { code: 'outline/no-area', what };
}

/** What is wrong with a void's shape, or null. */
export function voidProblem(v: Void): Problem | null {
  const what = `The ${v.kind} “${v.name}”`;
  const { shape } = v;
  if (shape.type === 'line' && shape.a.x === shape.b.x && shape.a.y === shape.b.y)
    return { code: 'void/no-size', what };
  if (shape.type !== 'outline') return null;
  if (shape.corners.length < 3 && !shape.corners.some((c) => c.via)) return { code: 'outline/too-few', what };
  const at = selfCrossing(shape.corners);
  if (at) return { code: 'outline/self-crossing', what, x: at.x, y: at.y };
  return enclosesGround(shape.corners) ? null : { code: 'outline/no-area', what };
}

/** What is wrong with a cut, or null. */
export function cutProblem(job: Job, cut: Cut): Problem | null {
  const path = cutPath(job, cut);
  const start = path[0];
  const moved = start && path.some((p) => p.x !== start.x || p.y !== start.y);
  const name = job.slabs[cut.slabId]?.name ?? cut.slabId;
  return moved ? null : { code: 'cut/too-short', what: `The cut across “${name}”` };
}
