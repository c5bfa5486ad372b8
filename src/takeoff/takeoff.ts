import {
  type Frame,
  labelPoint,
  type Partition,
  Site,
  type SitePart,
  sameFrame,
  secondOpinion,
  toFrame,
  type Zone,
} from '../../geometry/index.ts';
import { byId, nameSorter } from '../job/order.ts';
import type { Cut, Id, Job, Sheet, Slab, Tag, Void, VoidShape } from '../job/types.ts';
import type { Metres, SheetPoint } from '../units/types.ts';
import { kept, sameItems } from '../working/kept.ts';
import { describeZones, type MeasuredGroup, type MeasuredPart, slopeOf } from './describe.ts';
import { solveFit } from './fits/fits.ts';
import type { SolvedFit } from './fits/solved-fit.ts';
import { tapeFigures } from './fits/tape-figure.ts';
import { cutOnGround, slabOnGround, voidOnGround } from './ground.ts';
import { measureValue } from './measure-values.ts';
import type { SheetTakeoff, SlabTakeoff, Takeoff, ZoneTakeoff } from './zone.ts';

/** What one sheet's site was last told, and what its parts came to. */
interface SheetMemory {
  readonly frame: Frame;
  readonly weldM: Metres;
  readonly site: Site;
  readonly slabs: Map<Id, KnownSlab>;
  readonly voids: Map<Id, VoidShape>;
  readonly measured: Map<SitePart, MeasuredPart>;
}

/** The things of the job that a slab was drawn from, the same again if nothing has changed, and whether it shows ground. */
interface KnownSlab {
  readonly from: readonly unknown[];
  readonly fit: SolvedFit;
  readonly seen: boolean;
}

/** Remembers the last job measured, so that one moved corner measures only the slabs about it again. */
export interface TakeoffMemory {
  readonly sheets: Map<Id, SheetMemory>;
  readonly sortSlabs: ReturnType<typeof nameSorter>;
  readonly sortZones: ReturnType<typeof nameSorter>;
}

export const newTakeoffMemory = (): TakeoffMemory => ({
  sheets: new Map(),
  sortSlabs: nameSorter(),
  sortZones: nameSorter(),
});

/**
 * Measures a job: zones, areas and attributed boundaries, in metres.
 *
 * @param memory kept between calls by whoever measures the same job again and again
 */
export function takeoff(job: Job, memory: TakeoffMemory = newTakeoffMemory()): Takeoff {
  const { groups, unscaled, unseen, sheets } = measureSheets(job, memory);
  const slabs: SlabTakeoff[] = [];
  const zones: ZoneTakeoff[] = [];
  const insideOf = new Map<Id, number>(
    Object.keys(job.voids)
      .sort()
      .map((id) => [id, 0]),
  );
  const overlaps: Array<Takeoff['overlaps'][number]> = [];
  for (const group of groups) {
    const { partition: parts } = group;
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
    zones.push(...describeZones(job, group));
  }
  const voids = [...insideOf].map(([id, insideAreaM2]) => ({ id, insideAreaM2 }));
  return {
    slabs: memory.sortSlabs(slabs),
    zones: memory.sortZones(zones),
    voids,
    overlaps,
    unscaled,
    unseen,
    sheets,
    figures: tapeFigures(job),
  };
}

interface MeasuredSheets {
  readonly groups: MeasuredGroup[];
  readonly unscaled: Id[];
  readonly unseen: Id[];
  readonly sheets: SheetTakeoff[];
}

/** The slabs of each sheet that has a way to the ground, group by group in the order of ids. */
function measureSheets(job: Job, memory: TakeoffMemory): MeasuredSheets {
  const groups: MeasuredGroup[] = [];
  const unscaled: Id[] = [];
  const unseen: Id[] = [];
  const sheets: SheetTakeoff[] = [];
  const cutsOf = bySlab(job.cuts);
  const tagsOf = bySlab(job.tags);
  for (const id of memory.sheets.keys()) if (!job.sheets[id]) memory.sheets.delete(id);
  for (const sheet of Object.values(job.sheets).sort(byId)) {
    const drawn = Object.values(job.slabs).filter((s) => s.sheetId === sheet.id);
    const fit = solveFit(job, sheet);
    sheets.push({ id: sheet.id, fit });
    if (!('frame' in fit)) {
      unscaled.push(...drawn.sort(byId).map((s) => s.id));
      memory.sheets.delete(sheet.id);
      continue;
    }
    const weldM = isTraced(sheet) ? measureValue(job, 'measure.weld').value / 1000 : 0;
    const known = sheetMemory(memory, sheet.id, fit.frame, weldM);
    const out = Object.values(job.voids).filter((v) => v.sheetId === sheet.id);
    const slabs = new Map(
      drawn.map((slab) => [
        slab.id,
        knownSlab(job, slab, cutsOf.get(slab.id) ?? [], fit, known.slabs.get(slab.id)),
      ]),
    );
    const voids = out.filter((v) => shapePoints(v.shape).every((p) => shows(fit, p)));
    unseen.push(...[...slabs].filter(([, { seen }]) => !seen).map(([id]) => id));
    unseen.push(...out.filter((v) => !voids.includes(v)).map((v) => v.id));
    tellSite(job, slabs, voids, cutsOf, known);
    for (const [part, measured] of known.measured) {
      const mine = part.slabs.map((id) => job.slabs[id]!);
      groups.push({
        frame: fit.frame,
        slabs: mine,
        cuts: part.cuts.map((c) => cutsOf.get(c.slab)![c.index]!),
        voids: part.voids.map((id) => job.voids[id]!),
        tags: mine.flatMap((slab) => tagsOf.get(slab.id) ?? []),
        sheet,
        fit,
        ...measured,
      });
    }
  }
  const first = (g: MeasuredGroup) => `${g.slabs[0]!.sheetId} ${g.slabs[0]!.id}`;
  return { groups: groups.sort((a, b) => (first(a) < first(b) ? -1 : 1)), unscaled, unseen, sheets };
}

/** What lies on each slab, in the order of ids. */
function bySlab<T extends Cut | Tag>(entities: Readonly<Record<Id, T>>): Map<Id, T[]> {
  const lists = new Map<Id, T[]>();
  for (const one of Object.values(entities).sort(byId)) {
    const list = lists.get(one.slabId);
    if (list) list.push(one);
    else lists.set(one.slabId, [one]);
  }
  return lists;
}

/** Whether its corners are tapped by eye, so that sides that were traced twice are to be brought together. */
const isTraced = ({ fit }: Sheet): boolean =>
  fit?.kind === 'scale' || fit?.kind === 'marks' || fit?.kind === 'straightened' || fit?.kind === 'page';

/** Ground farther than this is none that anybody stands on. */
const FARTHEST_M = 1e6;

/** Whether a place on a sheet shows ground, and where that is is a number. */
function shows({ frame, sees }: SolvedFit, p: SheetPoint): boolean {
  if (!sees(p)) return false;
  const { x, y } = toFrame(frame, p);
  return Math.abs(x) <= FARTHEST_M && Math.abs(y) <= FARTHEST_M;
}

/** What a slab is drawn from, the same as before where nothing of it has changed. */
function knownSlab(
  job: Job,
  slab: Slab,
  cuts: readonly Cut[],
  fit: SolvedFit,
  before: KnownSlab | undefined,
): KnownSlab {
  const from: unknown[] = [slab.corners, ...cuts];
  for (const c of slab.corners) from.push(job.corners[c.cornerId]);
  for (const cut of cuts) for (const p of cut.points) from.push(job.corners[p.cornerId]);
  const same = before !== undefined && sameItems(before.from, from);
  if (same && before.fit === fit) return before;
  return { from: same ? before.from : from, fit, seen: isSeen(job, slab, fit) };
}

/** Whether all corners of a slab show ground. */
const isSeen = (job: Job, slab: Slab, fit: SolvedFit): boolean =>
  slab.corners.every(({ cornerId, via }) => shows(fit, job.corners[cornerId]!) && (!via || shows(fit, via)));

/** The points of a void's shape in sheet coordinates. */
function shapePoints(shape: VoidShape): readonly SheetPoint[] {
  switch (shape.type) {
    case 'line':
      return [shape.a, shape.b];
    case 'circle':
    case 'rectangle':
      return [shape.centre];
    case 'outline':
      return shape.corners.flatMap((c) => (c.via ? [c, c.via] : [c]));
  }
}

function sheetMemory(memory: TakeoffMemory, id: Id, frame: Frame, weldM: Metres): SheetMemory {
  const known = memory.sheets.get(id);
  if (known && sameFrame(known.frame, frame) && known.weldM === weldM) return known;
  const fresh: SheetMemory = {
    frame,
    weldM,
    site: new Site(weldM),
    slabs: new Map(),
    voids: new Map(),
    measured: new Map(),
  };
  memory.sheets.set(id, fresh);
  return fresh;
}

/** Passes on what has changed since the last job and measures the parts that it touched. */
function tellSite(
  job: Job,
  slabs: ReadonlyMap<Id, KnownSlab>,
  voids: readonly Void[],
  cutsOf: ReadonlyMap<Id, readonly Cut[]>,
  { frame, site, slabs: told, voids: toldVoids, measured }: SheetMemory,
): void {
  for (const [id, known] of slabs) {
    if (!known.seen) continue;
    const before = told.get(id);
    told.set(id, known);
    if (before?.from === known.from) continue;
    const cuts = cutsOf.get(id) ?? [];
    site.setSlab(
      id,
      slabOnGround(job, job.slabs[id]!, frame),
      cuts.map((c) => cutOnGround(job, c, frame)),
    );
  }
  for (const v of voids) {
    if (toldVoids.get(v.id) === v.shape) continue;
    toldVoids.set(v.id, v.shape);
    site.setVoid(v.id, voidOnGround(v, frame));
  }
  const here = new Set(voids.map(({ id }) => id));
  for (const id of told.keys()) {
    if (slabs.get(id)?.seen) continue;
    told.delete(id);
    site.removeSlab(id);
  }
  for (const id of toldVoids.keys()) {
    if (here.has(id)) continue;
    toldVoids.delete(id);
    site.removeVoid(id);
  }
  const update = site.update();
  // The schema and every edit keep coordinates finite; anything else here is a bug.
  if (!update.ok)
    throw new Error(`coordinates are not finite: ${update.problem.kind} ${update.problem.index}`);
  for (const part of update.value.gone) measured.delete(part);
  for (const part of update.value.remade) measured.set(part, measurePart(part.partition));
}

const measurePart = (partition: Partition): MeasuredPart => ({
  partition,
  opinions: partition.zones.map((zone) => secondOpinion(zone)),
  labels: partition.zones.map((zone) => labelPoint(zone.netRings, labelPrecision(zone))),
  bands: new Map(),
  zones: kept(),
});

const labelPrecision = (zone: Zone): number => Math.max(0.01, Math.sqrt(Math.max(zone.netArea, 0)) / 50);
