import { distance, distanceToSegment, frameScale, type Point, sideOf } from '../../../geometry/index.ts';
import type { Edit } from '../../job/edits/index.ts';
import { slabRing } from '../../job/outline.ts';
import type { Id, Job, Slab, VoidShape } from '../../job/types.ts';
import type { Metres, SheetPoint } from '../../units/types.ts';
import type { ToolContext } from './tool.ts';

/** What dragging the middle of a side does. */
export const MIDDLES = [
  { id: 'corner', label: 'Add corner', key: 'a', hint: 'adds one' },
  { id: 'bend', label: 'Bend', key: 'b', hint: 'bends it; back on its line it is straight again' },
  { id: 'move', label: 'Move side', key: 'l', hint: 'moves the whole side, square to itself' },
] as const;
export type MiddleDoes = (typeof MIDDLES)[number]['id'];

/** What comes of dragging the middle of a side to a place. */
export function middleDragged(
  does: MiddleDoes,
  job: Job,
  slab: Slab,
  side: number,
  newId: Id,
  to: SheetPoint,
  reach: number,
): Edit[] {
  const { cornerId } = slab.corners[side]!;
  const nextId = slab.corners[(side + 1) % slab.corners.length]!.cornerId;
  const { a, b } = sideOf(slabRing(job, slab), side);
  switch (does) {
    case 'corner':
      return [
        { type: 'insert-corner', args: { slabId: slab.id, cornerId, newId, t: 0.5 } },
        { type: 'move-corner', args: { cornerId: newId, x: to.x, y: to.y } },
      ];
    case 'bend': {
      const via = distanceToSegment(to, a, b) <= reach / 2 ? null : { x: to.x, y: to.y };
      return sidesBetween(job, cornerId, nextId).map(
        (own): Edit => ({ type: 'update-side', args: { ...own, via } }),
      );
    }
    case 'move': {
      const length = distance(a, b);
      const normal = { x: -(b.y - a.y) / length, y: (b.x - a.x) / length };
      const from = { x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 };
      const by = (to.x - from.x) * normal.x + (to.y - from.y) * normal.y;
      const placed = (p: Point) => ({ x: p.x + normal.x * by, y: p.y + normal.y * by });
      return [{ type: 'place-corners', args: { places: { [cornerId]: placed(a), [nextId]: placed(b) } } }];
    }
  }
}

/** The side between two corners in every slab that has it, so that neighbours keep sharing it. */
function sidesBetween(job: Job, a: Id, b: Id): Array<{ readonly slabId: Id; readonly cornerId: Id }> {
  return Object.values(job.slabs).flatMap((slab) =>
    slab.corners.flatMap(({ cornerId }, k) => {
      const next = slab.corners[(k + 1) % slab.corners.length]!.cornerId;
      const same = (cornerId === a && next === b) || (cornerId === b && next === a);
      return same ? [{ slabId: slab.id, cornerId }] : [];
    }),
  );
}

/** What is taken out, moved: whole, or one end of it. */
export function movedVoid(shape: VoidShape, by: Point, part: 'whole' | 'a' | 'b'): VoidShape {
  const shift = <P extends SheetPoint>(p: P): P => ({ ...p, x: p.x + by.x, y: p.y + by.y });
  switch (shape.type) {
    case 'line':
      return {
        ...shape,
        a: part === 'b' ? shape.a : shift(shape.a),
        b: part === 'a' ? shape.b : shift(shape.b),
      };
    case 'circle':
    case 'rectangle':
      return { ...shape, centre: shift(shape.centre) };
    case 'outline':
      return { ...shape, corners: shape.corners.map((c) => ({ ...shift(c), via: c.via && shift(c.via) })) };
  }
}

/** The slab whose handles are shown. */
export function slabInHand({ job, selection, takeoff }: ToolContext): Slab | null {
  if (!selection) return null;
  if (selection.kind === 'corner') return job.slabs[selection.slabId] ?? null;
  if (selection.kind !== 'zone') return null;
  const slabId = takeoff.zones.find((z) => z.id === selection.id)?.slabId ?? selection.id;
  return job.slabs[slabId] ?? null;
}

/** Moves the selected corner, void or slab by metres on the ground, as they are where it lies. */
export function nudged(rightM: Metres, upM: Metres, context: ToolContext): Edit[] {
  const { job, selection, sheetId, frame } = context;
  if (!selection) return [];
  const yDown = job.sheets[sheetId]?.picture !== null;
  const by = (at: SheetPoint): Point => {
    const unit = frame ? 1 / frameScale(frame, at) : 100;
    return { x: rightM * unit, y: (yDown ? -upM : upM) * unit };
  };
  switch (selection.kind) {
    case 'corner': {
      const corner = job.corners[selection.id];
      if (!corner) return [];
      const { x, y } = by(corner);
      return [{ type: 'move-corner', args: { cornerId: corner.id, x: corner.x + x, y: corner.y + y } }];
    }
    case 'void': {
      const v = job.voids[selection.id];
      if (!v) return [];
      const at =
        v.shape.type === 'line'
          ? v.shape.a
          : v.shape.type === 'outline'
            ? v.shape.corners[0]!
            : v.shape.centre;
      return [{ type: 'update-void', args: { voidId: v.id, shape: movedVoid(v.shape, by(at), 'whole') } }];
    }
    case 'zone': {
      const slab = slabInHand(context);
      if (!slab) return [];
      const corners = slab.corners.map((c) => job.corners[c.cornerId]!);
      const { x, y } = by(corners[0]!);
      const places = Object.fromEntries(corners.map((c) => [c.id, { x: c.x + x, y: c.y + y }]));
      return [{ type: 'place-corners', args: { places } }];
    }
    case 'cut':
      return [];
  }
}
