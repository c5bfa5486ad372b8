import { distance, distanceToSegment, type Point, sideOf } from '../../../geometry/index.ts';
import { movedShape } from '../../job/arrange.ts';
import type { Edit } from '../../job/edits/index.ts';
import { slabRing } from '../../job/outline.ts';
import type { Id, Job, Slab, VoidShape } from '../../job/types.ts';
import { slabIdOf } from '../../takeoff/zone.ts';
import type { SheetPoint } from '../../units/types.ts';
import { tr } from '../../words/tr.ts';
import type { ToolContext } from './tool.ts';

/** What dragging the middle of a side does. */
export const MIDDLES = [
  { id: 'corner', label: tr`Add corner`, key: 'a', hint: tr`adds one` },
  { id: 'bend', label: tr`Bend`, key: 'b', hint: tr`bends it; back on its line it is straight again` },
  { id: 'move', label: tr`Move side`, key: 'l', hint: tr`moves the whole side, square to itself` },
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
  const moved = movedShape(
    shape,
    (p) => ({ x: p.x + by.x, y: p.y + by.y }),
    (angle) => angle,
  );
  if (shape.type !== 'line' || moved.type !== 'line' || part === 'whole') return moved;
  return part === 'a' ? { ...moved, b: shape.b } : { ...moved, a: shape.a };
}

/** The slab whose handles are shown. */
export function slabInHand({ job, selection, takeoff }: ToolContext): Slab | null {
  if (!selection) return null;
  if (selection.kind === 'corner') return job.slabs[selection.slabId] ?? null;
  if (selection.kind !== 'zone') return null;
  return job.slabs[slabIdOf(takeoff, selection.id)] ?? null;
}
