import {
  insidePoints,
  labelPoint,
  type Partition,
  type Point,
  partition,
  type Similarity,
  secondOpinion,
  transform,
  type Zone,
} from '../../geometry/index.ts';
import { byId, byName } from '../job/order.ts';
import type { Cut, Id, Job, Slab, Tag, Void } from '../job/types.ts';
import { derive, found, leaf, type Quantity, total } from '../working/quantity.ts';
import { entered } from '../working/source.ts';
import { cutRule, EDGE_RULES_SOURCE, SIDE_RULES, VOID_RULES } from './edge-rules.ts';
import { netArea, slopeFactor } from './formulas.ts';
import { cutOnGround, groundFrame, slabOnGround, voidOnGround } from './ground.ts';
import { boxesMeet, touchingGroups } from './group.ts';
import type { SlabTakeoff, StretchTakeoff, Takeoff, ZoneTakeoff } from './zone.ts';

/** Slabs that may touch, with all that lies on them: what is worked out in one go. */
interface Group {
  readonly frame: Similarity;
  readonly slabs: readonly Slab[];
  readonly cuts: readonly Cut[];
  readonly voids: readonly Void[];
}

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

interface MeasuredGroup {
  readonly partition: Partition;
  readonly opinions: ReadonlyArray<ZoneTakeoff['secondOpinion']>;
  readonly labels: ReadonlyArray<ZoneTakeoff['label']>;
}

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

function measureGroup(job: Job, group: Group, memory: TakeoffMemory): MeasuredGroup {
  const { frame, slabs, cuts, voids } = group;
  const corners = [
    ...slabs.flatMap((s) => s.corners.map((c) => job.corners[c.cornerId])),
    ...cuts.flatMap((c) => c.points.map((p) => job.corners[p.cornerId])),
  ];
  const key = slabs.map((s) => s.id).join(' ');
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
    opinions: made.value.zones.map((zone) => secondOpinion(made.value, zone)),
    labels: made.value.zones.map((zone) => labelPoint(zone.netRings, labelPrecision(zone))),
  };
  memory.partitions.set(key, { from, value });
  return value;
}

const labelPrecision = (zone: Zone): number => Math.max(0.01, Math.sqrt(Math.max(zone.netArea, 0)) / 50);

const slopeOf = (slab: Slab): Quantity =>
  derive('slope factor', slopeFactor, { g: leaf('rise over run', 'g', slab.slope, '1', entered) });

function describeZones(job: Job, group: Group, measured: MeasuredGroup): ZoneTakeoff[] {
  const { partition: parts } = measured;
  const tagsOf = parts.zones.map((zone) => tagsIn(job, group, zone));
  const identities = parts.zones.map((zone, z) => identify(group, parts.zones, zone, z, tagsOf[z]!));
  return parts.zones.map((zone, z) => {
    const { id, name, tag } = identities[z]!;
    const slab = group.slabs[zone.slab]!;
    const surface = { ...slab.surface, ...tag?.surface };
    const surfaceOf = (other: number) => ({ ...slab.surface, ...identities[other]!.tag?.surface });
    const stretches = zone.stretches.map((stretch): StretchTakeoff => {
      const { cause, length, runs } = stretch;
      const common = { lengthM: length, runs };
      switch (cause.kind) {
        case 'side': {
          const { cornerId, beyond } = slab.corners[cause.side]!;
          const refName = `side ${cause.side + 1}`;
          return {
            kind: 'side',
            ref: cornerId,
            refName,
            beyond,
            ...SIDE_RULES[beyond ?? 'unknown'],
            ...common,
          };
        }
        case 'slab': {
          const other = group.slabs[cause.slab]!;
          // What the user says stands there, such as a wall between the two, goes before the slab that lies beyond.
          const beyond = slab.corners[cause.side]!.beyond ?? 'slab';
          return {
            kind: 'slab',
            ref: other.id,
            refName: other.name,
            beyond,
            ...SIDE_RULES[beyond],
            ...common,
          };
        }
        case 'cut': {
          const other = surfaceOf(cause.zone);
          const same = other.systemId === surface.systemId && other.colour === surface.colour;
          const { id: ref, name: refName } = identities[cause.zone]!;
          return { kind: 'cut', ref, refName, beyond: null, ...cutRule(same), ...common };
        }
        case 'void': {
          const v = group.voids[cause.void]!;
          return { kind: 'void', ref: v.id, refName: v.name, beyond: null, ...VOID_RULES[v.kind], ...common };
        }
      }
    });
    const k = slopeOf(slab);
    return {
      id,
      slabId: slab.id,
      sheetId: slab.sheetId,
      tagId: tag?.id ?? null,
      tagIds: tagsOf[z]!.map((t) => t.id),
      name,
      surface,
      netArea: areaQuantity(job, group, slab, zone, k),
      faceAreaM2: zone.faceArea * k.value,
      voidAreaM2: zone.voidArea * k.value,
      voids: zone.voids.map(({ void: v, area }) => {
        const { id: voidId, name: voidName } = group.voids[v]!;
        return { id: voidId, name: voidName, areaM2: area * k.value };
      }),
      stretches,
      boundary: lengthQuantity('boundary', 'B', stretches, () => true),
      cutIn: lengthQuantity('cut-in length', 'c', stretches, (s) => s.brushed),
      masked: lengthQuantity('masked length', 'm', stretches, (s) => s.masked),
      label: measured.labels[z]!,
      netRings: zone.netRings,
      faceRings: zone.faceRings,
      secondOpinion: measured.opinions[z]!,
    };
  });
}

/** Tags of the zone's slab whose anchor lies in its face, in the order of their ids. */
function tagsIn(job: Job, group: Group, zone: Zone): Tag[] {
  const slab = group.slabs[zone.slab]!;
  return Object.values(job.tags)
    .filter(
      (tag) => tag.slabId === slab.id && insideRings(zone.faceRings, transform(group.frame, tag.anchor)),
    )
    .sort(byId);
}

const insideRings = (rings: readonly Point[][], p: Point): boolean =>
  rings.filter((ring) => insidePoints(ring, p)).length % 2 === 1;

/** A tagged zone goes by its tag; others are counted from the top left of their slab. */
function identify(group: Group, zones: readonly Zone[], zone: Zone, z: number, tags: readonly Tag[]) {
  const slab = group.slabs[zone.slab]!;
  const siblings = zones.map((other, i) => ({ other, i })).filter(({ other }) => other.slab === zone.slab);
  siblings.sort((a, b) => topLeftFirst(a.other, b.other) || a.i - b.i);
  const number = siblings.findIndex(({ i }) => i === z) + 1;
  const tag = tags[0] ?? null;
  const plainName = siblings.length === 1 ? slab.name : `${slab.name} ${number}`;
  return { id: tag?.id ?? `${slab.id}/${number}`, name: tag?.name || plainName, tag };
}

function topLeftFirst(a: Zone, b: Zone): number {
  const corner = (zone: Zone) => {
    const points = zone.faceRings.flat();
    return { x: Math.min(...points.map((p) => p.x)), y: Math.max(...points.map((p) => p.y)) };
  };
  const p = corner(a);
  const q = corner(b);
  return Math.abs(p.x - q.x) > 1e-6 ? p.x - q.x : q.y - p.y;
}

function areaQuantity(job: Job, group: Group, slab: Slab, zone: Zone, s: Quantity): Quantity {
  const sheet = job.sheets[slab.sheetId]!;
  const how = sheet.fit?.kind === 'metric' ? 'entered in metres' : `traced on “${sheet.name}”`;
  const measured = { kind: 'measured', how } as const;
  const F = found(
    'face area',
    'F',
    zone.faceArea,
    'm²',
    'outline and cuts by coordinates, with the true segment of each arc',
    measured,
  );
  const inside = zone.voids.map(({ void: v, area }) => {
    const { name } = group.voids[v]!;
    return leaf(name, `v${v + 1}`, area, 'm²', measured);
  });
  const V = found(
    'area taken out',
    'V',
    zone.voidArea,
    'm²',
    inside.length === 0 ? 'nothing lies in this zone' : 'union of what lies in the zone; overlaps count once',
    measured,
    Object.fromEntries(inside.map((q) => [q.symbol, q])),
  );
  return derive('net area', netArea, { F, V, s });
}

function lengthQuantity(
  name: string,
  symbol: string,
  stretches: readonly StretchTakeoff[],
  wanted: (s: StretchTakeoff) => boolean,
): Quantity {
  const parts = stretches
    .filter(wanted)
    .map((s, i) =>
      leaf(stretchName(s), `${symbol}${i + 1}`, s.lengthM, 'm', {
        kind: 'measured',
        how: 'along the outline',
      }),
    );
  return total(name, symbol, 'm', parts, EDGE_RULES_SOURCE);
}

/** A stretch in words: "side 2 (wall)", "cut to Forecourt 2", "post P1". */
export function stretchName(s: StretchTakeoff): string {
  switch (s.kind) {
    case 'side':
      return s.beyond ? `${s.refName} (${s.beyond})` : s.refName;
    case 'slab':
      return `along ${s.refName}`;
    case 'cut':
      return `cut to ${s.refName}`;
    case 'void':
      return `around ${s.refName}`;
  }
}
