import { fail, ok, type Result } from '../../geometry/result.ts';
import type { Problem } from '../problem.ts';
import { findStructureProblem, slabProblem, tapeCorners } from './integrity.ts';
import type { Id, Job } from './types.ts';

/** Maps whose entries are merged one by one: entities by id, values, prices and packs by key. */
const MAPS = [
  'sheets',
  'corners',
  'slabs',
  'cuts',
  'voids',
  'tags',
  'tapes',
  'values',
  'packs',
  'trials',
  'readings',
  'prices',
  'records',
  'settings',
  'business',
  'customer',
] as const;
type MapName = (typeof MAPS)[number];

/** What is changed whole. */
const WHOLES = ['name', 'note', 'weather', 'offer'] as const;

/** Something that both changed, each in another way; undefined is taken away or not there. */
export interface Conflict {
  readonly map: MapName | (typeof WHOLES)[number];
  /** The entity or key in its map; empty for what is changed whole. */
  readonly id: Id;
  readonly base: unknown;
  readonly a: unknown;
  readonly b: unknown;
}

/** Both sets of changes where they touch different things; where they touch the same, the base until somebody decides. */
export interface Merged {
  readonly job: Job;
  readonly conflicts: readonly Conflict[];
}

type Entries = Readonly<Record<Id, unknown>>;
type Draft = Record<MapName, Record<Id, unknown>>;

const same = (x: unknown, y: unknown): boolean => x === y || JSON.stringify(x) === JSON.stringify(y);
const entriesOf = (job: Job, map: MapName): Entries => (job[map] ?? {}) as Entries;

/**
 * Merges two copies of a job that were changed apart from one base. What `a` and `b` are called does not matter: the other
 * way round gives the same job, and the same conflicts with their sides changed.
 * @returns a problem only when no sound job can be made of them, which undoing one side's changes mends
 */
export function mergeJobs(base: Job, a: Job, b: Job): Result<Merged, Problem> {
  const conflicts: Conflict[] = [];
  const pick = (map: Conflict['map'], id: Id, x: unknown, p: unknown, q: unknown): unknown => {
    if (same(p, q) || same(q, x)) return p;
    if (same(p, x)) return q;
    conflicts.push({ map, id, base: x, a: p, b: q });
    return x;
  };
  const draft = Object.fromEntries(
    MAPS.map((map) => {
      const [x, p, q] = [base, a, b].map((job) => entriesOf(job, map)) as [Entries, Entries, Entries];
      const ids = [...new Set([...Object.keys(x), ...Object.keys(p), ...Object.keys(q)])].sort();
      const merged = ids.map((id) => [id, pick(map, id, x[id], p[id], q[id])] as const);
      return [map, Object.fromEntries(merged.filter(([, value]) => value !== undefined))];
    }),
  ) as Draft;
  const wholes = Object.fromEntries(
    WHOLES.map((key) => [key, pick(key, '', base[key], a[key], b[key])] as const).filter(
      ([, value]) => value !== undefined,
    ),
  );
  const assembled = (): Job => jobOf(base, draft, wholes, [a, b]);
  bringBack(draft, [a, b, base], conflicts);
  settleOutlines(draft, assembled, [base, a, b], conflicts);
  bringBack(draft, [a, b, base], conflicts);
  const job = assembled();
  const problem = findStructureProblem(job);
  return problem ? fail(problem) : ok({ job, conflicts });
}

/** A map that no copy has stays away; one that is empty now was there. */
function jobOf(base: Job, draft: Draft, wholes: object, copies: readonly [Job, Job]): Job {
  const maps = MAPS.filter(
    (map) => Object.keys(draft[map]).length > 0 || [base, ...copies].some((job) => job[map] !== undefined),
  );
  const { weather: _w, offer: _o, ...rest } = base;
  return { ...rest, ...Object.fromEntries(maps.map((map) => [map, draft[map]])), ...wholes } as Job;
}

/** What one took away and the other still uses comes back, and is a conflict; until nothing is missed any more. */
function bringBack(draft: Draft, copies: readonly [Job, Job, Job], conflicts: Conflict[]): void {
  for (let found = true; found; ) {
    found = false;
    for (const [map, id] of missed(draft)) {
      const [a, b, base] = copies.map((job) => entriesOf(job, map)[id]) as [unknown, unknown, unknown];
      const value = base ?? [a, b].filter((v) => v !== undefined).sort(byText)[0];
      if (value === undefined) continue;
      draft[map][id] = value;
      found = true;
      if (!conflicts.some((c) => c.map === map && c.id === id)) conflicts.push({ map, id, base, a, b });
    }
  }
}

/** An order that does not depend on which side is which. */
const byText = (x: unknown, y: unknown): number => (JSON.stringify(x) < JSON.stringify(y) ? -1 : 1);

/** Names that lead nowhere in a draft. */
function missed(draft: Draft): Array<readonly [MapName, Id]> {
  const job = draft as unknown as Job;
  const names: Array<readonly [MapName, Id]> = [
    ...Object.values(job.corners).map((c) => ['sheets', c.sheetId] as const),
    ...Object.values(job.slabs).flatMap((s) => [
      ['sheets', s.sheetId] as const,
      ...s.corners.map((c) => ['corners', c.cornerId] as const),
    ]),
    ...Object.values(job.cuts).flatMap((c) => [
      ['slabs', c.slabId] as const,
      ...c.points.map((p) => ['corners', p.cornerId] as const),
    ]),
    ...Object.values(job.voids).map((v) => ['sheets', v.sheetId] as const),
    ...Object.values(job.tags).map((t) => ['slabs', t.slabId] as const),
    ...Object.values(job.tapes ?? {}).flatMap((t) => tapeCorners(t).map((c) => ['corners', c] as const)),
    ...Object.values(job.sheets).flatMap((s) =>
      s.fit?.kind === 'straightened' ? [['sheets', s.fit.sheetId] as const] : [],
    ),
  ];
  return names.filter(([map, id]) => !Object.hasOwn(draft[map], id));
}

/** An outline that both changed into one that crosses itself, or a cut whose side is gone, goes back to the base. */
function settleOutlines(
  draft: Draft,
  assembled: () => Job,
  [base, a, b]: readonly [Job, Job, Job],
  conflicts: Conflict[],
): void {
  const back = (map: MapName, id: Id) => {
    const was = entriesOf(base, map)[id];
    if (same(draft[map][id], was)) return;
    conflicts.push({ map, id, base: was, a: entriesOf(a, map)[id], b: entriesOf(b, map)[id] });
    if (was === undefined) delete draft[map][id];
    else draft[map][id] = was;
  };
  const job = assembled();
  for (const slab of Object.values(job.slabs)) {
    const cuts = Object.values(job.cuts).filter((c) => c.slabId === slab.id);
    const sides = new Set(slab.corners.map((c) => c.cornerId));
    // A corner that is new may have gone with a neighbour that it was shared with.
    const lost =
      slab.corners.some((c) => !Object.hasOwn(draft.corners, c.cornerId)) ||
      cuts.some((c) => c.points.some((p) => p.at === 'side' && !sides.has(p.cornerId)));
    if (!lost && slabProblem(job, slab) === null) continue;
    for (const { cornerId } of [...slab.corners, ...(base.slabs[slab.id]?.corners ?? [])])
      back('corners', cornerId);
    for (const cut of cuts) back('cuts', cut.id);
    back('slabs', slab.id);
  }
}

/** The merged job with one side's word taken in every conflict, as far as a sound job can be made of it. */
export function decided({ job, conflicts }: Merged, side: 'a' | 'b'): Result<Job, Problem> {
  const next: Record<string, unknown> = { ...job };
  for (const c of conflicts) {
    if (c.id === '') {
      if (c[side] === undefined) delete next[c.map];
      else next[c.map] = c[side];
      continue;
    }
    const { [c.id]: _old, ...rest } = (next[c.map] ?? {}) as Record<Id, unknown>;
    next[c.map] = c[side] === undefined ? rest : { ...rest, [c.id]: c[side] };
  }
  const decidedJob = next as unknown as Job;
  const problem = findStructureProblem(decidedJob);
  return problem ? fail(problem) : ok(decidedJob);
}
