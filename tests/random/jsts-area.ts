import Coordinate from 'jsts/org/locationtech/jts/geom/Coordinate.js';

import GeometryFactory from 'jsts/org/locationtech/jts/geom/GeometryFactory.js';
import OverlayOp from 'jsts/org/locationtech/jts/operation/overlay/OverlayOp.js';
import type { Plan, Ring } from '../../geometry/index.ts';

const factory = new GeometryFactory();

function polygon(ring: Ring): ReturnType<typeof factory.createPolygon> {
  const o = ring.map((p) => new Coordinate(p.x, p.y));
  return factory.createPolygon([...o, o[0]!]);
}

/** The first slab less all voids by JSTS (a port of the Java topology suite), or null where it gives up. */
export function jstsNetArea(plan: Plan): number | null {
  try {
    let left = polygon(plan.slabs[0]!);
    for (const v of plan.voids) left = OverlayOp.difference(left, polygon(v));
    return left.getArea();
  } catch {
    return null;
  }
}

/** The part of an outline within a slab, less voids, or null where JSTS gives up. */
export function jstsZoneArea(slab: Ring, outline: Ring, voids: readonly Ring[]): number | null {
  try {
    let left = OverlayOp.intersection(polygon(slab), polygon(outline));
    for (const v of voids) left = OverlayOp.difference(left, polygon(v));
    return left.getArea();
  } catch {
    return null;
  }
}
