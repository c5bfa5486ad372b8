import turfArea from '@turf/area';
import geographiclib from 'geographiclib-geodesic';
import {
  type Box,
  boxOf,
  insidePoints,
  type LonLat,
  localPlane,
  type Ring,
  ringBox,
} from '../../geometry/index.ts';
import { fail, ok, type Result } from '../../geometry/result.ts';
import type { Sheet } from '../job/types.ts';
import type { Problem } from '../problem.ts';
import { tr } from '../words/tr.ts';
import type { Imported, NewId } from './imported.ts';
import { type NestedOutline, outlineEdits, tooMuch } from './outline-edits.ts';
import type { Area, Places } from './places/places.ts';
import { slitOpen } from './slit.ts';

/** A sheet reaches no farther than this from its middle. */
const FARTHEST_M = 900_000;

/** A sheet in metres about the middle of the places, its areas as slabs, the holes in them as voids. */
export function importPlaces(places: Places, file: string, newId: NewId): Result<Imported, Problem> {
  const { areas, openLines } = places;
  if (areas.length === 0) {
    const detail =
      places.notes[0]?.replace(/\.$/, '') ??
      (openLines > 0 ? tr`it has open lines only` : tr`it has no areas`);
    return fail({ code: 'places/empty', file, detail });
  }
  if (tooMuch(areas.map((a) => a.outer)) || tooMuch(areas.flatMap((a) => a.holes)))
    return fail({ code: 'drawing/too-large', file });
  const origin = middleOf(areas);
  const plane = localPlane(origin);
  const ring = (points: readonly LonLat[]): Ring => points.map((p) => plane.toPlane(p));
  const shapes = shapesOf(
    areas.map((a) => ({ name: a.name, outer: ring(a.outer), holes: a.holes.map(ring) })),
  );
  const box = boxOf(shapes.flatMap((o) => [...o.ring]));
  const reach = Math.max(-box.minX, box.maxX, -box.minY, box.maxY);
  const [west, east] = bounds(longitudes(areas.map((a) => a.outer)));
  const round = east - west >= 180;
  if (!(reach <= FARTHEST_M) || round)
    return fail({ code: 'places/too-far', file, km: round ? 40_000 : (2 * reach) / 1000 });
  const sheetId = newId('sheet');
  const made = outlineEdits(shapes, sheetId, newId);
  if (made.slabs === 0)
    return fail({
      code: 'places/empty',
      file,
      detail: (made.notes[0] ?? tr`nothing encloses ground`).replace(/\.$/, ''),
    });
  const sheet: Sheet = {
    id: sheetId,
    name: file.replace(/\.\w+$/, '') || tr`Places`,
    picture: null,
    fit: {
      kind: 'georeferenced',
      latitude: origin.lat,
      longitude: origin.lon,
      from: places.from,
      deviationM: null,
    },
  };
  const ellipsoid = areas.reduce(
    (s, a) => s + geodesicArea(a.outer) - a.holes.reduce((t, h) => t + geodesicArea(h), 0),
    0,
  );
  const sphere = areas.reduce((s, a) => s + sphereArea(a), 0);
  const notes = [
    tr`${made.slabs} ${made.slabs === 1 ? tr`slab` : tr`slabs`} and ${made.voids} ${made.voids === 1 ? tr`void` : tr`voids`}, ${ellipsoid.toFixed(2)} m² on the ellipsoid; a sphere would make it ${sphere.toFixed(2)} m².`,
    ...places.notes,
    ...(openLines > 0 && places.notes.length === 0
      ? [tr`${openLines} open ${openLines === 1 ? tr`line was` : tr`lines were`} left out.`]
      : []),
    ...made.notes,
  ];
  return ok({
    sheet,
    edits: [{ type: 'add-sheet', args: sheet }, ...made.edits],
    image: null,
    notes,
    layers: [],
    pages: 1,
  });
}

interface Placed {
  readonly name: string;
  readonly outer: Ring;
  readonly holes: readonly Ring[];
}

/** Areas and their holes; a hole that another area lies in is cut open instead. */
function shapesOf(areas: readonly Placed[]): NestedOutline[] {
  const boxes = areas.map((a) => ringBox(a.outer));
  return areas.flatMap(({ name, outer, holes }, i) => {
    const filled = (hole: Ring): boolean => {
      const box = ringBox(hole);
      return areas.some((other, j) => j !== i && overlap(box, boxes[j]!) && shareGround(other.outer, hole));
    };
    const open = holes.filter((h) => !filled(h));
    const whole = holes.filter((h) => !open.includes(h)).reduce((r, h) => slitOpen(r, h), outer);
    return [{ name, ring: whole, depth: 0 }, ...open.map((hole) => ({ name: '', ring: hole, depth: 1 }))];
  });
}

const overlap = (a: Box, b: Box): boolean =>
  a.minX < b.maxX && b.minX < a.maxX && a.minY < b.maxY && b.minY < a.maxY;

/** Whether corners of one lie within the other, either way. */
const shareGround = (ring: Ring, hole: Ring): boolean =>
  ring.some((p) => insidePoints(hole, p)) || hole.some((p) => insidePoints(ring, p));

/** Least and most of some numbers. */
function bounds(values: Iterable<number>): readonly [number, number] {
  let low = Infinity;
  let high = -Infinity;
  for (const v of values) {
    if (v < low) low = v;
    if (v > high) high = v;
  }
  return [low, high];
}

/** Longitudes of rings; those that cross 180° go on beyond it. */
function longitudes(rings: ReadonlyArray<readonly LonLat[]>): number[] {
  const all = rings.flatMap((ring) => ring.map((p) => p.lon));
  const [low, high] = bounds(all);
  return high - low > 180 ? all.map((v) => (v < 0 ? v + 360 : v)) : all;
}

function middleOf(areas: readonly Area[]): LonLat {
  const rings = areas.map((a) => a.outer);
  const [west, east] = bounds(longitudes(rings));
  const [south, north] = bounds(rings.flatMap((ring) => ring.map((p) => p.lat)));
  const lon = (west + east) / 2;
  return { lon: lon > 180 ? lon - 360 : lon, lat: (south + north) / 2 };
}

/** Area of a ring on the ellipsoid of WGS 84, m². Source: C. Karney's GeographicLib. */
function geodesicArea(ring: readonly LonLat[]): number {
  const polygon = geographiclib.Geodesic.WGS84.Polygon(false);
  for (const p of ring) polygon.AddPoint(p.lat, p.lon);
  return Math.abs(polygon.Compute(false, true).area ?? 0);
}

function sphereArea({ outer, holes }: Area): number {
  const closed = (ring: readonly LonLat[]) => {
    const lons = longitudes([ring]);
    const points = ring.map((p, i) => [lons[i]!, p.lat]);
    return [...points, points[0]!];
  };
  return turfArea({ type: 'Polygon', coordinates: [outer, ...holes].map(closed) });
}
