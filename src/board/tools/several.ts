import { distance, flattenRing, frameScale, fromFrame, type Point } from '../../../geometry/index.ts';
import type { Edit } from '../../job/edits/index.ts';
import { slabRing, voidPlace } from '../../job/outline.ts';
import type { Id, Job, Slab } from '../../job/types.ts';
import { voidOnGround } from '../../takeoff/ground.ts';
import { slabIdOf } from '../../takeoff/zone.ts';
import type { Metres, SheetPoint } from '../../units/types.ts';
import { movedVoid } from './handling.ts';
import type { Item, Selection, ToolContext } from './tool.ts';

/** What is selected, thing by thing. */
export const itemsOf = (selection: Selection | null): readonly Item[] =>
  selection === null ? [] : selection.kind === 'several' ? selection.items : [selection];

/** A selection of these things: none, one or several. */
export const selectionOf = (items: readonly Item[]): Selection | null =>
  items.length > 1 ? { kind: 'several', items } : (items[0] ?? null);

export const sameItem = (a: Item, b: Item): boolean => a.kind === b.kind && a.id === b.id;

/** The selection with a thing more, or with one less where it was in it. */
export function toggled(selection: Selection | null, item: Item): Selection | null {
  const items = itemsOf(selection);
  const rest = items.filter((x) => !sameItem(x, item));
  return selectionOf(rest.length < items.length ? rest : [...items, item]);
}

/** The selection with these things more. */
export const joined = (selection: Selection | null, items: readonly Item[]): Selection | null =>
  selectionOf([
    ...itemsOf(selection),
    ...items.filter((item) => !itemsOf(selection).some((x) => sameItem(x, item))),
  ]);

/** Moves things as one, by a way on the sheet: each corner once, however many of them have it. */
export function moved(items: readonly Item[], by: Point, { job, takeoff }: ToolContext): Edit[] {
  const corners = new Set<Id>();
  const edits: Edit[] = [];
  for (const item of items) {
    const slab = item.kind === 'zone' ? job.slabs[slabIdOf(takeoff, item.id)] : undefined;
    for (const id of slab ? cornersOf(job, slab) : []) corners.add(id);
    if (item.kind === 'corner' && Object.hasOwn(job.corners, item.id)) corners.add(item.id);
    const v = item.kind === 'void' ? job.voids[item.id] : undefined;
    if (v)
      edits.push({ type: 'update-void', args: { voidId: v.id, shape: movedVoid(v.shape, by, 'whole') } });
  }
  if (corners.size === 0) return edits;
  const places = Object.fromEntries(
    [...corners].map((id) => [id, { x: job.corners[id]!.x + by.x, y: job.corners[id]!.y + by.y }]),
  );
  return [{ type: 'place-corners', args: { places } }, ...edits];
}

/** Moves what is selected by metres on the ground, as they are where the first of it lies; pixels without scale. */
export function nudged(rightM: Metres, upM: Metres, context: ToolContext): Edit[] {
  const { job, sheetId, frame, selection } = context;
  const items = itemsOf(selection);
  const at = items.map((item) => placeOf(item, context)).find((p) => p !== null);
  if (!at) return [];
  const unit = frame ? 1 / frameScale(frame, at) : 100;
  const yDown = job.sheets[sheetId]?.picture !== null;
  return moved(items, { x: rightM * unit, y: (yDown ? -upM : upM) * unit }, context);
}

function placeOf(item: Item, { job, takeoff }: ToolContext): SheetPoint | null {
  switch (item.kind) {
    case 'corner':
      return job.corners[item.id] ?? null;
    case 'void': {
      const shape = job.voids[item.id]?.shape;
      return shape ? voidPlace(shape) : null;
    }
    case 'zone':
      return job.corners[job.slabs[slabIdOf(takeoff, item.id)]?.corners[0]?.cornerId ?? ''] ?? null;
    case 'cut':
      return null;
  }
}

/** The corners of a slab's outline, and those of its cuts that lie within. */
const cornersOf = (job: Job, slab: Slab): Id[] => [
  ...slab.corners.map((c) => c.cornerId),
  ...Object.values(job.cuts)
    .filter((cut) => cut.slabId === slab.id)
    .flatMap((cut) => cut.points.flatMap((p) => (p.at === 'corner' ? [p.cornerId] : []))),
];

/** Deletes things: slabs whole, and what is not gone with them already. */
export function removal(
  items: readonly Item[],
  { job, takeoff }: Pick<ToolContext, 'job' | 'takeoff'>,
): Edit[] {
  const slabs = new Set(
    items
      .flatMap((i) => (i.kind === 'zone' ? [slabIdOf(takeoff, i.id)] : []))
      .filter((id) => Object.hasOwn(job.slabs, id)),
  );
  const edits: Edit[] = [];
  for (const item of items) {
    if (item.kind === 'void') edits.push({ type: 'remove-void', args: { voidId: item.id } });
    if (item.kind === 'cut' && !slabs.has(job.cuts[item.id]?.slabId ?? ''))
      edits.push({ type: 'remove-cut', args: { cutId: item.id } });
    if (item.kind === 'corner' && !slabs.has(item.slabId))
      edits.push({ type: 'remove-corner', args: { cornerId: item.id } });
  }
  for (const slabId of slabs) edits.push({ type: 'remove-slab', args: { slabId } });
  return edits;
}

/** Everything on a sheet that lies whole between two opposite corners of a box: zones by their slabs, and what is taken out. */
export function itemsWithin(a: SheetPoint, b: SheetPoint, context: ToolContext): Item[] {
  const { job, takeoff, sheetId, frame, reach } = context;
  const [left, right, low, high] = [
    Math.min(a.x, b.x),
    Math.max(a.x, b.x),
    Math.min(a.y, b.y),
    Math.max(a.y, b.y),
  ];
  const within = (points: readonly Point[]) =>
    points.every((p) => p.x >= left && p.x <= right && p.y >= low && p.y <= high);
  const slabs = new Set(
    Object.values(job.slabs)
      .filter((s) => s.sheetId === sheetId && within(flattenRing(slabRing(job, s), reach / 10)))
      .map((s) => s.id),
  );
  const zones = takeoff.zones.filter((z) => slabs.has(z.slabId));
  const unmeasured = [...slabs].filter((id) => !zones.some((z) => z.slabId === id));
  const voids = Object.values(job.voids).filter(
    (v) =>
      frame &&
      v.sheetId === sheetId &&
      within(flattenRing(voidOnGround(v, frame), 0.01).map((p) => fromFrame(frame, p))),
  );
  return [
    ...[...zones.map((z) => z.id), ...unmeasured].map((id): Item => ({ kind: 'zone', id })),
    ...voids.map((v): Item => ({ kind: 'void', id: v.id })),
  ];
}

/** Whether a box is more than a tap that slipped. */
export const isBox = (a: SheetPoint, b: SheetPoint, reach: number): boolean => distance(a, b) > reach / 2;
