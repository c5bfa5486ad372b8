import {
  carryAlong,
  distance,
  fractionOnSide,
  pointOnSide,
  type Side,
  sideOf,
} from '../../../geometry/index.ts';
import { fail } from '../../../geometry/result.ts';
import type { SheetPoint } from '../../units/types.ts';
import { tr } from '../../words/tr.ts';
import { sideIndex, slabRing } from '../outline.ts';
import type { Cut, CutPoint, Id, Job, Slab, SlabCorner } from '../types.ts';
import { type EditKind, need, put, without, withoutLooseCorners, withSoundOutlines } from './edit.ts';

/** Moves a corner, and with it every slab and cut that meets there; arcs keep their shape on the new chord. */
export const moveCorner: EditKind<{ readonly cornerId: Id } & SheetPoint> = {
  label: () => tr`Move a corner`,
  apply: (job, { cornerId, x, y }) => {
    const corner = need(job, 'corners', cornerId);
    if (!corner.ok) return corner;
    const moved = put(job, 'corners', { ...corner.value, x, y });
    const slabs = { ...job.slabs };
    for (const slab of Object.values(job.slabs)) {
      if (!slab.corners.some((c) => c.cornerId === cornerId)) continue;
      const corners = carryArcs(job, moved, slab, cornerId);
      if (!corners) return fail({ code: 'corner/coincides' });
      slabs[slab.id] = { ...slab, corners };
    }
    return withSoundOutlines({ ...moved, slabs }, [cornerId]);
  },
};

/** The slab's corners with the arcs at the moved corner carried along; null when a side would lose its length. */
function carryArcs(before: Job, after: Job, slab: Slab, cornerId: Id): SlabCorner[] | null {
  const next = (k: number) => slab.corners[(k + 1) % slab.corners.length]!.cornerId;
  const corners: SlabCorner[] = [];
  for (const [k, c] of slab.corners.entries()) {
    if (c.cornerId !== cornerId && next(k) !== cornerId) {
      corners.push(c);
      continue;
    }
    const a = after.corners[c.cornerId]!;
    const b = after.corners[next(k)]!;
    if (a.x === b.x && a.y === b.y) return null;
    const via = c.via && carryAlong(before.corners[c.cornerId]!, before.corners[next(k)]!, c.via, a, b);
    corners.push({ ...c, via });
  }
  return corners;
}

/**
 * Puts a new corner on the side that leaves a corner, in every slab that has that side; arcs stay the same
 * curve, in two parts, and cuts that end on the side stay where they are.
 */
export const insertCorner: EditKind<{
  readonly slabId: Id;
  readonly cornerId: Id;
  readonly newId: Id;
  readonly t: number;
}> = {
  label: () => tr`Insert a corner`,
  apply: (job, { slabId, cornerId, newId, t }) => {
    const found = need(job, 'slabs', slabId);
    if (!found.ok) return found;
    const k = sideIndex(found.value, cornerId);
    if (k < 0) return fail({ code: 'entity/missing', what: tr`side`, id: cornerId });
    if (!(t > 0 && t < 1)) return fail({ code: 'corner/coincides' });
    const ends = [cornerId, found.value.corners[(k + 1) % found.value.corners.length]!.cornerId] as const;
    const { x, y } = pointOnSide(sideOf(slabRing(job, found.value), k), t);
    let next = put(job, 'corners', { id: newId, sheetId: found.value.sheetId, x, y });
    for (const slab of Object.values(job.slabs)) {
      const own = slab.id === slabId ? k : sameSide(job, slab, { x, y }, ends);
      if (own >= 0) next = splitSide(job, next, slab, own, ends[0], newId, t);
    }
    return withSoundOutlines(next, [newId]);
  },
};

/** A neighbour's side between the same corners that runs through the same place, so along the same line; −1 when there is none. */
function sameSide(job: Job, slab: Slab, through: SheetPoint, ends: readonly [Id, Id]): number {
  const ring = slabRing(job, slab);
  return slab.corners.findIndex(({ cornerId }, i) => {
    const next = slab.corners[(i + 1) % slab.corners.length]!.cornerId;
    const between = (cornerId === ends[0] && next === ends[1]) || (cornerId === ends[1] && next === ends[0]);
    if (!between) return false;
    const side = sideOf(ring, i);
    const near = pointOnSide(side, fractionOnSide(side, through));
    return distance(near, through) <= 1e-6 * distance(side.a, side.b);
  });
}

function splitSide(before: Job, job: Job, slab: Slab, k: number, from: Id, newId: Id, t: number): Job {
  const start = slab.corners[k]!;
  const share = start.cornerId === from ? t : 1 - t;
  const side = sideOf(slabRing(before, slab), k);
  const via = (u: number) => (side.arc ? pointOnSide(side, u) : null);
  const halves: SlabCorner[] = [
    { ...start, via: via(share / 2) },
    { cornerId: newId, via: via((1 + share) / 2), beyond: start.beyond },
  ];
  const corners = [...slab.corners.slice(0, k), ...halves, ...slab.corners.slice(k + 1)];
  const onSplit = (p: CutPoint): CutPoint => {
    if (p.at !== 'side' || p.cornerId !== start.cornerId) return p;
    if (p.t <= share) return { ...p, t: p.t / share };
    return { at: 'side', cornerId: newId, t: (p.t - share) / (1 - share) };
  };
  return mapCutPoints(put(job, 'slabs', { ...slab, corners }), slab.id, onSplit);
}

/** Deletes a corner from every slab that has it; the sides it joined become one straight side. */
export const removeCorner: EditKind<{ readonly cornerId: Id }> = {
  label: () => tr`Delete a corner`,
  apply: (job, { cornerId }) => {
    const corner = need(job, 'corners', cornerId);
    if (!corner.ok) return corner;
    let next: Job = job;
    const neighbours: Id[] = [];
    for (const slab of Object.values(job.slabs)) {
      const k = sideIndex(slab, cornerId);
      if (k < 0) continue;
      if (slab.corners.length <= 3) return fail({ code: 'corner/needed', slab: slab.name });
      const merged = mergeSides(job, next, slab, k);
      next = merged.job;
      neighbours.push(merged.startId);
    }
    next = dropFromCuts(next, cornerId);
    return withSoundOutlines(withoutLooseCorners(next), neighbours);
  },
};

function mergeSides(
  before: Job,
  job: Job,
  slab: Slab,
  k: number,
): { readonly job: Job; readonly startId: Id } {
  const n = slab.corners.length;
  const previous = (k + n - 1) % n;
  const start = slab.corners[previous]!;
  const removed = slab.corners[k]!;
  const corners = slab.corners
    .map((c, i) => (i === previous ? { ...c, via: null } : c))
    .filter((_, i) => i !== k);
  const ring = slabRing(before, slab);
  const whole: Side = { a: ring[previous]!, b: ring[(k + 1) % n]!, arc: null };
  const onMerged = (p: CutPoint): CutPoint => {
    if (p.at !== 'side') return p;
    const side = p.cornerId === start.cornerId ? previous : p.cornerId === removed.cornerId ? k : -1;
    if (side < 0) return p;
    const was = pointOnSide(sideOf(ring, side), p.t);
    return { at: 'side', cornerId: start.cornerId, t: fractionOnSide(whole, was) };
  };
  const next = mapCutPoints(put(job, 'slabs', { ...slab, corners }), slab.id, onMerged);
  return { job: next, startId: start.cornerId };
}

/** Takes a corner out of the cuts that run through it; a cut left with one point goes with it. */
function dropFromCuts(job: Job, cornerId: Id): Job {
  const cuts: Record<Id, Cut> = {};
  for (const cut of Object.values(job.cuts)) {
    const points = cut.points.filter((p) => p.at === 'side' || p.cornerId !== cornerId);
    if (points.length >= 2) cuts[cut.id] = points.length === cut.points.length ? cut : { ...cut, points };
  }
  return without({ ...job, cuts }, 'corners', [cornerId]);
}

function mapCutPoints(job: Job, slabId: Id, map: (p: CutPoint) => CutPoint): Job {
  const cuts = { ...job.cuts };
  for (const cut of Object.values(job.cuts)) {
    if (cut.slabId === slabId) cuts[cut.id] = { ...cut, points: cut.points.map(map) };
  }
  return { ...job, cuts };
}
