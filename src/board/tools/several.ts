import { distance, flattenRing, frameScale, fromFrame, type Point } from '../../../geometry/index.ts';
import { carriedBy } from '../../job/arrange.ts';
import type { Edit } from '../../job/edits/index.ts';
import { slabRing, voidPlace } from '../../job/outline.ts';
import type { Id, Job } from '../../job/types.ts';
import { voidOnGround } from '../../takeoff/ground.ts';
import { slabIdOf } from '../../takeoff/zone.ts';
import type { Metres, SheetPoint } from '../../units/types.ts';
import { movedVoid } from './handling.ts';
import type { Item, Selection, ToolContext } from './tool.ts';

/** What is selected, thing by thing. */
export const itemsOf = (selection: Selection | null): readonly Item[] =>
  selection === null ? [] : selection.kind === 'several' ? selection.items : [selection];

/** A selection of these things: none, one or several, each once. */
export function selectionOf(all: readonly Item[]): Selection | null {
  const items = all.filter((item, i) => all.findIndex((other) => sameItem(other, item)) === i);
  return items.length > 1 ? { kind: 'several', items } : (items[0] ?? null);
}

export const sameItem = (a: Item, b: Item): boolean => a.kind === b.kind && a.id === b.id;

/** The selection with a thing more, or with one less where it was in it. */
export function toggled(selection: Selection | null, item: Item): Selection | null {
  const items = itemsOf(selection);
  const rest = items.filter((x) => !sameItem(x, item));
  return selectionOf(rest.length < items.length ? rest : [...items, item]);
}

/** The selection with these things more. */
export const joined = (selection: Selection | null, items: readonly Item[]): Selection | null =>
  selectionOf([...itemsOf(selection), ...items]);

/** Things to move, by what they are made of: they go by that while zones come and go under the pointer. */
export interface Load {
  readonly slabs: readonly Id[];
  readonly corners: readonly Id[];
  readonly voids: readonly Id[];
}

/** What is to be moved of things on the sheet in view. */
export function loadOf(
  items: readonly Item[],
  { job, takeoff, sheetId }: Pick<ToolContext, 'job' | 'takeoff' | 'sheetId'>,
): Load {
  const ids = (kind: Item['kind']) => items.flatMap((item) => (item.kind === kind ? [item.id] : []));
  const slabs = new Set(ids('zone').map((id) => slabIdOf(takeoff, id)));
  return {
    slabs: [...slabs].filter((id) => job.slabs[id]?.sheetId === sheetId),
    corners: ids('corner').filter((id) => job.corners[id]?.sheetId === sheetId),
    voids: ids('void').filter((id) => job.voids[id]?.sheetId === sheetId),
  };
}

/**
 * Moves things as one, by a way on the sheet: slabs with their cuts, tags and all that is taken out of them; each corner
 * once, however many slabs share it.
 */
export function moved(load: Load, by: Point, job: Job): Edit[] {
  const carried = load.slabs.flatMap((id) => carriedBy(job, job.slabs[id]!));
  const corners = new Set([...carried.flatMap((c) => c.corners), ...load.corners]);
  const voids = new Set([...carried.flatMap((c) => c.voids.map((v) => v.id)), ...load.voids]);
  const shift = <P extends SheetPoint>(p: P): SheetPoint => ({ x: p.x + by.x, y: p.y + by.y });
  const edits: Edit[] = [];
  if (corners.size > 0) {
    const places = Object.fromEntries([...corners].map((id) => [id, shift(job.corners[id]!)]));
    edits.push({ type: 'place-corners', args: { places } });
  }
  for (const tag of carried.flatMap((c) => c.tags))
    edits.push({ type: 'set-tag', args: { ...tag, anchor: shift(tag.anchor) } });
  for (const id of voids)
    edits.push({
      type: 'update-void',
      args: { voidId: id, shape: movedVoid(job.voids[id]!.shape, by, 'whole') },
    });
  return edits;
}

/** Moves what is selected by metres on the ground, as they are where the first of it lies; pixels without scale. */
export function nudged(rightM: Metres, upM: Metres, context: ToolContext): Edit[] {
  const { job, sheetId, frame, selection } = context;
  const items = itemsOf(selection);
  const at = items.map((item) => placeOf(item, context)).find((p) => p?.sheetId === sheetId);
  if (!at) return [];
  const unit = frame ? 1 / frameScale(frame, at) : 100;
  const yDown = job.sheets[sheetId]?.picture !== null;
  const by = { x: rightM * unit, y: (yDown ? -upM : upM) * unit };
  return moved(loadOf(items, context), by, job);
}

function placeOf(item: Item, { job, takeoff }: ToolContext): (SheetPoint & { readonly sheetId: Id }) | null {
  switch (item.kind) {
    case 'corner':
      return job.corners[item.id] ?? null;
    case 'void': {
      const v = job.voids[item.id];
      return v ? { ...voidPlace(v.shape), sheetId: v.sheetId } : null;
    }
    case 'zone':
      return job.corners[job.slabs[slabIdOf(takeoff, item.id)]?.corners[0]?.cornerId ?? ''] ?? null;
    case 'cut':
      return null;
  }
}

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
  const edits: Edit[] = [...slabs].map((slabId) => ({ type: 'remove-slab', args: { slabId } }));
  // Cuts before corners: a corner may go with the last cut that has it.
  for (const { kind, id } of items) {
    if (kind === 'void') edits.push({ type: 'remove-void', args: { voidId: id } });
    if (kind === 'cut' && !slabs.has(job.cuts[id]?.slabId ?? ''))
      edits.push({ type: 'remove-cut', args: { cutId: id } });
  }
  for (const item of items)
    if (item.kind === 'corner' && !slabs.has(item.slabId))
      edits.push({ type: 'remove-corner', args: { cornerId: item.id } });
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
