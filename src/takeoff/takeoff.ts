import { labelPoint, partition, secondOpinion, type Zone } from '../../geometry/index.ts';
import { byId, byName } from '../job/order.ts';
import type { Id, Job } from '../job/types.ts';
import { describeZones, type Group, type MeasuredGroup, slopeOf } from './describe.ts';
import { cutOnGround, groundFrame, slabOnGround, voidOnGround } from './ground.ts';
import { boxesMeet, touchingGroups } from './group.ts';
import type { SlabTakeoff, Takeoff, ZoneTakeoff } from './zone.ts';

/** A piece of the answer with the inputs it was worked out from; unchanged inputs give the same piece again. */
interface Kept<T> {
  readonly from: readonly unknown[];
  readonly value: T;
}

/** Remembers the groups of the last job measured, so that one moved corner measures one group again. */
export interface TakeoffMemory {
  readonly partitions: Map<string, Kept<MeasuredGroup>>;
}

export const newTakeoffMemory = (): TakeoffMemory => ({ partitions: new Map() });

/**
 * Measures a job: zones, areas and attributed boundaries, in metres.
 *
 * @param memory kept between calls by whoever measures the same job again and again
 */
export function takeoff(job: Job, memory: TakeoffMemory = newTakeoffMemory()): Takeoff {
  const { groups, unscaled } = groupSlabs(job);
  const slabs: SlabTakeoff[] = [];
  const zones: ZoneTakeoff[] = [];
  const insideOf = new Map<Id, number>(
    Object.keys(job.voids)
      .sort()
      .map((id) => [id, 0]),
  );
  const overlaps: Array<Takeoff['overlaps'][number]> = [];
  forgetAllBut(memory, groups.map(keyOf));
  for (const group of groups) {
    const measured = measureGroup(job, group, memory);
    const { partition: parts } = measured;
    group.slabs.forEach((slab, s) => {
      const k = slopeOf(slab).value;
      const { area, voidArea, netArea: net } = parts.slabs[s]!;
      slabs.push({
        id: slab.id,
        name: slab.name,
        sheetId: slab.sheetId,
        outlineAreaM2: area * k,
        voidAreaM2: voidArea * k,
        netAreaM2: net * k,
      });
    });
    group.voids.forEach((v, i) => {
      insideOf.set(v.id, insideOf.get(v.id)! + parts.voids[i]!.insideArea);
    });
    for (const { a, b, area } of parts.overlaps) {
      overlaps.push({ a: group.slabs[a]!.id, b: group.slabs[b]!.id, areaM2: area });
    }
    zones.push(...describeZones(job, group, measured));
  }
  const voids = [...insideOf].map(([id, insideAreaM2]) => ({ id, insideAreaM2 }));
  return { slabs: [...slabs].sort(byName), zones: [...zones].sort(byName), voids, overlaps, unscaled };
}

function groupSlabs(job: Job): { groups: Group[]; unscaled: Id[] } {
  const groups: Group[] = [];
  const unscaled: Id[] = [];
  for (const sheet of Object.values(job.sheets).sort(byId)) {
    const slabs = Object.values(job.slabs)
      .filter((s) => s.sheetId === sheet.id)
      .sort(byId);
    const frame = groundFrame(sheet);
    if (!frame) {
      unscaled.push(...slabs.map((s) => s.id));
      continue;
    }
    const rings = slabs.map((slab) => slabOnGround(job, slab, frame));
    const voids = Object.values(job.voids)
      .filter((v) => v.sheetId === sheet.id)
      .sort(byId)
      .map((v) => ({ v, ring: voidOnGround(v, frame) }));
    for (const indices of touchingGroups(rings)) {
      const mine = indices.map((i) => slabs[i]!);
      const ids = new Set(mine.map((s) => s.id));
      groups.push({
        frame,
        slabs: mine,
        cuts: Object.values(job.cuts)
          .filter((c) => ids.has(c.slabId))
          .sort(byId),
        voids: voids.filter(({ ring }) => indices.some((i) => boxesMeet(rings[i]!, ring))).map(({ v }) => v),
      });
    }
  }
  return { groups, unscaled };
}

const keyOf = (group: Group): string => group.slabs.map((s) => s.id).join(' ');

function forgetAllBut(memory: TakeoffMemory, keys: readonly string[]): void {
  const wanted = new Set(keys);
  for (const key of memory.partitions.keys()) if (!wanted.has(key)) memory.partitions.delete(key);
}

function measureGroup(job: Job, group: Group, memory: TakeoffMemory): MeasuredGroup {
  const { frame, slabs, cuts, voids } = group;
  const corners = [
    ...slabs.flatMap((s) => s.corners.map((c) => job.corners[c.cornerId])),
    ...cuts.flatMap((c) => c.points.map((p) => job.corners[p.cornerId])),
  ];
  const key = keyOf(group);
  const from = [
    frame.a,
    frame.f,
    ...slabs.map((s) => s.corners),
    ...cuts,
    ...voids.map((v) => v.shape),
    ...corners,
  ];
  const kept = memory.partitions.get(key);
  if (kept && kept.from.length === from.length && kept.from.every((x, i) => x === from[i])) return kept.value;
  const made = partition({
    slabs: slabs.map((s) => slabOnGround(job, s, frame)),
    cuts: cuts.map((c) => ({
      slab: slabs.findIndex((s) => s.id === c.slabId),
      path: cutOnGround(job, c, frame),
    })),
    voids: voids.map((v) => voidOnGround(v, frame)),
  });
  // The schema and every edit keep coordinates finite; anything else here is a bug.
  if (!made.ok) throw new Error(`coordinates are not finite: ${made.problem.kind} ${made.problem.index}`);
  const value: MeasuredGroup = {
    partition: made.value,
    opinions: made.value.zones.map((zone) => secondOpinion(zone)),
    labels: made.value.zones.map((zone) => labelPoint(zone.netRings, labelPrecision(zone))),
  };
  memory.partitions.set(key, { from, value });
  return value;
}

const labelPrecision = (zone: Zone): number => Math.max(0.01, Math.sqrt(Math.max(zone.netArea, 0)) / 50);
