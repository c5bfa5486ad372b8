import area from '@turf/area';
import geographiclib from 'geographiclib-geodesic';
import { describe, expect, test } from 'vitest';
import { type LonLat, localPlane, ringArea } from '../../geometry/index.ts';

const wgs84 = geographiclib.Geodesic.WGS84;

/** A rectangle laid out by GeographicLib (C. Karney): 20 m east, then 10 m north from both ends, as large as asked. */
function rectangle(lat: number, lon: number, size: number): LonLat[] {
  const go = (p: LonLat, azimuth: number, metres: number): LonLat => {
    const d = wgs84.Direct(p.lat, p.lon, azimuth, metres);
    return { lat: d.lat2!, lon: d.lon2! };
  };
  const a = { lat, lon };
  const b = go(a, 90, 20 * size);
  return [a, b, go(b, 0, 10 * size), go(a, 0, 10 * size)];
}

function geodesicArea(ring: readonly LonLat[]): number {
  const polygon = wgs84.Polygon(false);
  for (const p of ring) polygon.AddPoint(p.lat, p.lon);
  return polygon.Compute(false, true).area!;
}

function planeArea(ring: readonly LonLat[]): number {
  const middle = {
    lon: ring.reduce((s, p) => s + p.lon, 0) / ring.length,
    lat: ring.reduce((s, p) => s + p.lat, 0) / ring.length,
  };
  const { toPlane } = localPlane(middle);
  return ringArea(ring.map(toPlane));
}

describe('longitude and latitude', () => {
  const latitudes = [0, 10, 20, 30, 35, 40, 45, 50, 55, 60, 65, 70, -33];
  test.each(latitudes)(
    'a slab of 10 × 20 m at %d°: to 1e-8 of the geodesic area; the sphere beside it',
    (lat) => {
      const ring = rectangle(lat, 13.4, 1);
      const truth = geodesicArea(ring);
      expect(Math.abs(planeArea(ring) / truth - 1)).toBeLessThan(1e-8);
      // @turf/area takes a sphere of 6,371,008.8 m: +0.45 % at the equator, 0 near 35°, −0.73 % at 70°. Recomputed by
      // whoever gathered the values, with the same two libraries.
      const outline = [...ring, ring[0]!].map((p) => [p.lon, p.lat]);
      const sphere = area({ type: 'Polygon', coordinates: [outline] }) / truth - 1;
      expect(Math.abs(sphere)).toBeLessThan(0.0075);
      if (lat === 0) expect(sphere).toBeCloseTo(0.00449, 4);
      if (lat === 60) expect(sphere).toBeCloseTo(-0.00557, 4);
    },
  );

  test.each(latitudes)('2 km by 1 km at %d°: to 1e-6', (lat) => {
    const ring = rectangle(lat, 179.995, 100);
    expect(
      Math.abs(
        planeArea(ring.map((p) => ({ ...p, lon: p.lon < 0 ? p.lon + 360 : p.lon }))) / geodesicArea(ring) - 1,
      ),
    ).toBeLessThan(1e-6);
  });

  test('a published square kilometre: 1,000,000 m² (GeographicLib Planimeter29, READ)', () => {
    const a = { lat: 0, lon: 0 };
    const b = wgs84.Direct(a.lat, a.lon, 90, 1000);
    const c = wgs84.Direct(b.lat2!, b.lon2!, 0, 1000);
    const d = wgs84.Direct(c.lat2!, c.lon2!, -90, 1000);
    const ring = [
      a,
      { lat: b.lat2!, lon: b.lon2! },
      { lat: c.lat2!, lon: c.lon2! },
      { lat: d.lat2!, lon: d.lon2! },
    ];
    expect(Math.abs(planeArea(ring) - 1e6)).toBeLessThan(0.02);
  });

  test('there and back', () => {
    const plane = localPlane({ lon: -179.999, lat: -41 });
    const p = { x: 431.2, y: -780.4 };
    const back = plane.toPlane(plane.toLonLat(p));
    expect(back.x).toBeCloseTo(p.x, 7);
    expect(back.y).toBeCloseTo(p.y, 7);
  });
});
