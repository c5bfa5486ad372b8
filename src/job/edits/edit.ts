import { fail, ok, type Result } from '../../../geometry/result.ts';
import type { Problem } from '../../problem.ts';
import { tr } from '../../words/tr.ts';
import { cutProblem, slabProblem, tapeCorners } from '../integrity.ts';
import type { Id, Job } from '../types.ts';

/** A kind of change: a pure function from a job and its arguments to the next job, and what a person would call it. */
export interface EditKind<A> {
  readonly label: (args: A) => string;
  readonly apply: (job: Job, args: A) => Result<Job, Problem>;
}

/** The maps of a job that hold entities by id. */
type MapName = 'sheets' | 'corners' | 'slabs' | 'cuts' | 'voids' | 'tags';

/** The job with one entity put in or replaced. */
export const put = <M extends MapName>(job: Job, map: M, entity: Job[M][string]): Job => ({
  ...job,
  [map]: withEntry(job[map], entity.id, entity),
});

const keysOf = new WeakMap<object, readonly Id[]>();

/** A copy with one entry put in or replaced. By known keys: of 30,000 corners a spread takes nine times as long, with every move of a finger. */
function withEntry(map: Readonly<Record<Id, unknown>>, id: Id, entity: unknown): Record<Id, unknown> {
  const keys = keysOf.get(map) ?? Object.keys(map);
  keysOf.set(map, keys);
  const copy: Record<Id, unknown> = {};
  for (const key of keys) copy[key] = map[key];
  if (Object.hasOwn(copy, id)) keysOf.set(copy, keys);
  copy[id] = entity;
  return copy;
}

/** The job without some entities. */
export function without(job: Job, map: MapName, ids: Iterable<Id>): Job {
  const rest: Record<Id, unknown> = { ...job[map] };
  for (const id of ids) delete rest[id];
  return { ...job, [map]: rest };
}

/** The entity, or a problem that names what is missing. */
export function need<M extends MapName>(job: Job, map: M, id: Id): Result<Job[M][string], Problem> {
  const entities = job[map] as Readonly<Record<Id, unknown>> as Readonly<Record<Id, Job[M][string]>>;
  const entity = Object.hasOwn(entities, id) ? entities[id] : undefined;
  const what = {
    sheets: tr`sheet`,
    corners: tr`corner`,
    slabs: tr`slab`,
    cuts: tr`cut`,
    voids: tr`void`,
    tags: tr`tag`,
  }[map];
  return entity ? ok(entity) : fail({ code: 'entity/missing', what, id });
}

/** The job, if every slab that uses one of the corners still has a proper outline and its cuts a length. */
export function withSoundOutlines(job: Job, cornerIds: Iterable<Id>): Result<Job, Problem> {
  const touched = new Set(cornerIds);
  for (const slab of Object.values(job.slabs)) {
    if (!slab.corners.some((c) => touched.has(c.cornerId))) continue;
    const problem = slabProblem(job, slab);
    if (problem) return fail(problem);
  }
  for (const cut of Object.values(job.cuts)) {
    if (!cut.points.some((p) => touched.has(p.cornerId))) continue;
    const problem = cutProblem(job, cut);
    if (problem) return fail(problem);
  }
  return ok(job);
}

/** The job without corners that nothing uses. */
export function withoutLooseCorners(job: Job): Job {
  const used = new Set<Id>();
  for (const slab of Object.values(job.slabs)) for (const c of slab.corners) used.add(c.cornerId);
  for (const cut of Object.values(job.cuts)) for (const p of cut.points) used.add(p.cornerId);
  const loose = Object.keys(job.corners).filter((id) => !used.has(id));
  return withoutStrayTapes(loose.length === 0 ? job : without(job, 'corners', loose));
}

/** The job without tapes to corners that are gone. */
export function withoutStrayTapes(job: Job): Job {
  if (!job.tapes) return job;
  const all = Object.values(job.tapes);
  const kept = all.filter((t) => tapeCorners(t).every((id) => Object.hasOwn(job.corners, id)));
  return kept.length === all.length ? job : { ...job, tapes: Object.fromEntries(kept.map((t) => [t.id, t])) };
}
