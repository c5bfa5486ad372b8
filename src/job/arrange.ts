import {
  distance,
  type Frame,
  flattenRing,
  fromFrame,
  insidePoints,
  type Point,
  toFrame,
} from '../../geometry/index.ts';
import type { Metres, Radians, SheetPoint } from '../units/types.ts';
import { tr } from '../words/tr.ts';
import type { Edit } from './edits/index.ts';
import { freeName } from './names.ts';
import { outlinePoints, slabRing, voidPlace } from './outline.ts';
import type { Id, Job, Slab, Tag, Void, VoidShape } from './types.ts';

/** A place on the ground, moved; and what becomes of a direction there. */
interface GroundMove {
  readonly place: (p: Point) => Point;
  readonly angle: (rad: Radians) => Radians;
}

const turn = (centre: Point, rad: Radians): GroundMove => ({
  place: (p) => ({
    x: centre.x + (p.x - centre.x) * Math.cos(rad) - (p.y - centre.y) * Math.sin(rad),
    y: centre.y + (p.x - centre.x) * Math.sin(rad) + (p.y - centre.y) * Math.cos(rad),
  }),
  angle: (a) => a + rad,
});

const mirror = (centre: Point, across: 'left-right' | 'top-bottom'): GroundMove => ({
  place: (p) =>
    across === 'left-right' ? { x: 2 * centre.x - p.x, y: p.y } : { x: p.x, y: 2 * centre.y - p.y },
  angle: (a) => (across === 'left-right' ? Math.PI - a : -a),
});

const shift = (by: Point): GroundMove => ({
  place: (p) => ({ x: p.x + by.x, y: p.y + by.y }),
  angle: (a) => a,
});

/** The middle of a slab's extent on the ground. */
function middleOf(job: Job, slab: Slab, frame: Frame): Point {
  const points = slab.corners.map((c) => toFrame(frame, job.corners[c.cornerId]!));
  const middle = (of: (p: Point) => number) =>
    (Math.min(...points.map(of)) + Math.max(...points.map(of))) / 2;
  return { x: middle((p) => p.x), y: middle((p) => p.y) };
}

/**
 * Turns a slab about its middle, with its cuts, tags and all that is taken out of it; it no longer shares corners then.
 * @param rad on the ground, counter-clockwise as it is seen
 */
export const turnedSlab = (job: Job, slab: Slab, frame: Frame, rad: Radians, newId: NewId): Edit[] =>
  movedSlab(job, slab, frame, turn(middleOf(job, slab, frame), rad), newId);

/** Mirrors a slab about its middle, with its cuts, tags and all that is taken out of it. */
export const mirroredSlab = (
  job: Job,
  slab: Slab,
  frame: Frame,
  across: 'left-right' | 'top-bottom',
  newId: NewId,
): Edit[] => movedSlab(job, slab, frame, mirror(middleOf(job, slab, frame), across), newId);

type NewId = (prefix: string) => Id;

/** What goes where a slab goes: the corners of its outline and its cuts, its tags, and all that is taken out of it. */
export function carriedBy(
  job: Job,
  slab: Slab,
): { readonly corners: readonly Id[]; readonly tags: readonly Tag[]; readonly voids: readonly Void[] } {
  const cuts = Object.values(job.cuts).filter((c) => c.slabId === slab.id);
  const corners = new Set([
    ...slab.corners.map((c) => c.cornerId),
    ...cuts.flatMap((c) => c.points.flatMap((p) => (p.at === 'corner' ? [p.cornerId] : []))),
  ]);
  const outline = outlinePoints(slabRing(job, slab));
  return {
    corners: [...corners],
    tags: Object.values(job.tags).filter((t) => t.slabId === slab.id),
    voids: Object.values(job.voids).filter(
      (v) => v.sheetId === slab.sheetId && insidePoints(outline, voidPlace(v.shape)),
    ),
  };
}

function movedSlab(job: Job, slab: Slab, frame: Frame, move: GroundMove, newId: NewId): Edit[] {
  const moved = (p: SheetPoint): SheetPoint => fromFrame(frame, move.place(toFrame(frame, p)));
  const carried = carriedBy(job, slab);
  const shared = Object.fromEntries(
    carried.corners.filter((id) => isShared(job, slab.id, id)).map((id) => [id, newId('c')]),
  );
  const own = (id: Id): Id => shared[id] ?? id;
  const places = Object.fromEntries(carried.corners.map((id) => [own(id), moved(job.corners[id]!)]));
  const vias = Object.fromEntries(
    slab.corners.flatMap((c) => (c.via ? [[own(c.cornerId), moved(c.via)] as const] : [])),
  );
  const voids = carried.voids.map(
    (v): Edit => ({
      type: 'update-void',
      args: { voidId: v.id, shape: movedShape(v.shape, moved, move.angle) },
    }),
  );
  const tags = carried.tags.map((t): Edit => ({ type: 'set-tag', args: { ...t, anchor: moved(t.anchor) } }));
  const loosened: Edit[] =
    Object.keys(shared).length === 0
      ? []
      : [{ type: 'loosen-slab', args: { slabId: slab.id, corners: shared } }];
  return [
    ...loosened,
    { type: 'place-corners', args: { places, vias: { [slab.id]: vias } } },
    ...voids,
    ...tags,
  ];
}

/** Whether another slab or one of its cuts meets at a corner. */
const isShared = (job: Job, slabId: Id, cornerId: Id): boolean =>
  Object.values(job.slabs).some((s) => s.id !== slabId && s.corners.some((c) => c.cornerId === cornerId)) ||
  Object.values(job.cuts).some((c) => c.slabId !== slabId && c.points.some((p) => p.cornerId === cornerId));

/** A shape with its points moved on their sheet, and what becomes of the way a rectangle lies. */
export function movedShape(
  shape: VoidShape,
  moved: (p: SheetPoint) => SheetPoint,
  angle: (rad: Radians) => Radians,
): VoidShape {
  switch (shape.type) {
    case 'line':
      return { ...shape, a: moved(shape.a), b: moved(shape.b) };
    case 'circle':
      return { ...shape, centre: moved(shape.centre) };
    case 'rectangle':
      return { ...shape, centre: moved(shape.centre), angleRad: angle(shape.angleRad) };
    case 'outline':
      return {
        ...shape,
        corners: shape.corners.map((c) => ({ ...c, ...moved(c), via: c.via && moved(c.via) })),
      };
  }
}

/** What a row of copies goes along: a direction as it is seen, or a side of a slab. */
export type RowDirection =
  | { readonly kind: 'right' | 'left' | 'up' | 'down' }
  | { readonly kind: 'side'; readonly from: Id; readonly to: Id };

/**
 * Copies of what is taken out, in a row on the ground.
 * @param count of copies besides the first
 * @param everyM from middle to middle
 */
export function rowOfCopies(
  job: Job,
  v: Void,
  frame: Frame,
  count: number,
  everyM: Metres,
  direction: RowDirection,
  newId: (prefix: string) => Id,
): Edit[] {
  const along = alongOf(job, direction, frame);
  const taken = Object.values(job.voids).map(({ name }) => ({ name }));
  return Array.from({ length: count }, (_, i): Edit => {
    const move = shift({ x: along.x * everyM * (i + 1), y: along.y * everyM * (i + 1) });
    const moved = (p: SheetPoint): SheetPoint => fromFrame(frame, move.place(toFrame(frame, p)));
    const name = freeName(v.name.replace(/ \d+$/, '') || tr`Post`, taken);
    taken.push({ name });
    return {
      type: 'add-void',
      args: { ...v, id: newId('v'), name, shape: movedShape(v.shape, moved, move.angle) },
    };
  });
}

/** A direction on the ground, of length 1. */
function alongOf(job: Job, direction: RowDirection, frame: Frame): Point {
  switch (direction.kind) {
    case 'right':
      return { x: 1, y: 0 };
    case 'left':
      return { x: -1, y: 0 };
    case 'up':
      return { x: 0, y: 1 };
    case 'down':
      return { x: 0, y: -1 };
    case 'side': {
      const a = toFrame(frame, job.corners[direction.from]!);
      const b = toFrame(frame, job.corners[direction.to]!);
      const length = distance(a, b);
      return { x: (b.x - a.x) / length, y: (b.y - a.y) / length };
    }
  }
}

/** The sides of the slab that a void lies on, both ways, by the letters of their corners: what a row can go along. */
export function sidesUnder(job: Job, v: Void): Array<{ readonly from: Id; readonly to: Id }> {
  const slab = Object.values(job.slabs).find(
    (s) => s.sheetId === v.sheetId && insidePoints(flattenRing(slabRing(job, s), 1e-3), voidPlace(v.shape)),
  );
  if (!slab) return [];
  return slab.corners.flatMap(({ cornerId, via }, k) => {
    const next = slab.corners[(k + 1) % slab.corners.length]!.cornerId;
    return via
      ? []
      : [
          { from: cornerId, to: next },
          { from: next, to: cornerId },
        ];
  });
}
