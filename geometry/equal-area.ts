import { distance, type Point } from './point.ts';
import { type Ring, type Side, sidesOf } from './ring.ts';

/**
 * An outline as points whose polygon encloses exactly the area of the outline, arcs and all: the corners stay, and the
 * points between them on an arc lie a hair outside its circle. For files that know no arcs.
 * @param sagitta no chord of the arc itself would leave it by more; in the unit of the coordinates
 */
export const equalAreaPoints = (ring: Ring, sagitta: number): Point[] =>
  sidesOf(ring).flatMap((side) => [{ x: side.a.x, y: side.a.y }, ...between(side, sagitta)]);

/** Points of an arc between its ends; none of a straight side. Source: the fan of triangles about the centre equals the sector. */
function between({ a, arc }: Side, sagitta: number): Point[] {
  if (!arc) return [];
  const turn = Math.abs(arc.sweep);
  const step = 2 * Math.acos(Math.max(0, 1 - sagitta / arc.radius));
  const pieces = Math.max(2, Math.ceil(turn / Math.max(step, 1e-3)), Math.ceil(turn / (Math.PI / 3)));
  const wanted = turn / Math.sin(turn / pieces);
  const inner = pieces - 2;
  const share = inner === 0 ? wanted / 2 : (Math.sqrt(1 + inner * wanted) - 1) / inner;
  const radius = share * distance(arc.centre, a);
  return Array.from({ length: pieces - 1 }, (_, i) => {
    const angle = arc.start + (arc.sweep * (i + 1)) / pieces;
    return { x: arc.centre.x + radius * Math.cos(angle), y: arc.centre.y + radius * Math.sin(angle) };
  });
}
