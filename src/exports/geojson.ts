import {
  equalAreaPoints,
  insidePoints,
  type LonLat,
  localPlane,
  type Point,
  type Ring,
  ringArea,
} from '../../geometry/index.ts';
import { TEXTURE_NAMES, TRAFFIC_NAMES } from '../coating/values.ts';
import { tr } from '../words/tr.ts';
import { type PlanDrawing, planDrawings } from './drawing/plan-drawing.ts';
import type { Export } from './export.ts';

/** Chords of arcs leave them by no more than 2 mm; their points are moved so that areas stay true. */
const SAGITTA_M = 0.002;

/** A hundred-thousandth of a millimetre: areas of single square metres stay true to 1e-7. */
const DIGITS = 13;

const located = (d: PlanDrawing) => (d.sheet.fit?.kind === 'georeferenced' ? d.sheet.fit : null);

/** Zones as areas with holes, longitude and latitude on WGS 84, after RFC 7946; of sheets that know where they are. */
export const geojsonExport: Export = {
  ending: 'geojson',
  label: tr`Map (GeoJSON)`,
  type: 'application/geo+json',
  refuse: (results) => (planDrawings(results).some(located) ? null : { code: 'export/no-place' }),
  write: async (results) => {
    const zoneOf = new Map(results.takeoff.zones.map((z) => [z.id, z]));
    const features = planDrawings(results).flatMap((d) => {
      const fit = located(d);
      if (!fit) return [];
      const { toLonLat } = localPlane({ lon: fit.longitude, lat: fit.latitude });
      return d.zones.map((drawn) => {
        const zone = zoneOf.get(drawn.id)!;
        return {
          type: 'Feature',
          geometry: geometryOf(drawn.outlines, toLonLat),
          properties: {
            name: drawn.name,
            slab: results.job.slabs[zone.slabId]!.name,
            net_area_m2: zone.netArea.value,
            area_95_m2: zone.area95.value,
            boundary_m: zone.boundary.value,
            texture: TEXTURE_NAMES[drawn.surface.texture],
            traffic: TRAFFIC_NAMES[drawn.surface.traffic],
            colour: drawn.surface.colour,
          },
        };
      });
    });
    const collection = { type: 'FeatureCollection', name: results.job.name, features };
    return new TextEncoder().encode(`${JSON.stringify(collection, null, 1)}\n`);
  },
};

type Position = readonly [number, number];

/** Outer rings counter-clockwise with their holes; one polygon, or several where something cuts a zone in two. */
function geometryOf(outlines: readonly Ring[], toLonLat: (p: Point) => LonLat) {
  const rings = outlines
    .map((ring) => ({ area: ringArea(ring), points: equalAreaPoints(ring, SAGITTA_M) }))
    .filter(({ area }) => area !== 0);
  const closed = (points: readonly Point[]): Position[] =>
    [...points, points[0]!].map((p) => {
      const { lon, lat } = toLonLat(p);
      return [Number(lon.toFixed(DIGITS)), Number(lat.toFixed(DIGITS))];
    });
  const outers = rings.filter((r) => r.area > 0).sort((a, b) => a.area - b.area);
  const polygons = new Map(outers.map((o) => [o, [closed(o.points)]]));
  for (const hole of rings.filter((r) => r.area < 0)) {
    // The smallest outer ring that holds it; a hole that touches its ring may seem to lie outside by a hair.
    const around = outers.find((o) => hole.points.some((p) => insidePoints(o.points, p))) ?? outers[0];
    if (around) polygons.get(around)!.push(closed(hole.points));
  }
  const all = [...polygons.values()];
  return all.length === 1
    ? { type: 'Polygon', coordinates: all[0]! }
    : { type: 'MultiPolygon', coordinates: all };
}
