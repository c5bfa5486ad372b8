import type { Point } from './point.ts';

/** Longitude and latitude in degrees on WGS 84. */
export interface LonLat {
  readonly lon: number;
  readonly lat: number;
}

/** WGS 84: semi-major axis in metres and flattening. Source: NIMA TR8350.2, from memory. */
const A = 6378137;
const F = 1 / 298.257223563;
const E2 = F * (2 - F);
const RAD = Math.PI / 180;

/** A plane that touches the ellipsoid at one place: x metres east of it, y metres north. */
export interface LocalPlane {
  /** Metres east and north of the origin. */
  readonly toPlane: (p: LonLat) => Point;
  /** The way back, in degrees. */
  readonly toLonLat: (p: Point) => LonLat;
}

/**
 * The plane of a site about its own middle: distances by the ellipsoid's two radii of curvature there, with the change of
 * the parallels' length over the site to second order. Against the geodesic: areas within 1e-6 of their size up to 2 km
 * across and 70° of latitude (tests/outside). Not for sites that reach a pole.
 */
export function localPlane(origin: LonLat): LocalPlane {
  const phi = origin.lat * RAD;
  const s2 = Math.sin(phi) ** 2;
  const w = 1 - E2 * s2;
  const meridian = (A * (1 - E2)) / w ** 1.5;
  const vertical = A / Math.sqrt(w);
  const tan = Math.tan(phi);
  // East–west lengths shrink towards the pole: cos(φ + dφ) and the vertical's radius, by their first derivatives.
  const east = vertical * Math.cos(phi);
  const shrink = -meridian * Math.sin(phi);
  // The meridian's own radius changes a little on the way.
  const bend = (3 * E2 * Math.sin(phi) * Math.cos(phi)) / (2 * w);
  return {
    toPlane: ({ lon, lat }) => {
      const dLat = (lat - origin.lat) * RAD;
      const dLon = (((lon - origin.lon + 540) % 360) - 180) * RAD;
      const x = dLon * (east + shrink * dLat - (east * dLat * dLat) / 2);
      const y = meridian * dLat * (1 + bend * dLat) + (dLon * dLon * east * east * tan) / (2 * vertical);
      return { x, y };
    },
    toLonLat: ({ x, y }) => {
      let dLat = y / meridian;
      let dLon = x / east;
      for (let i = 0; i < 6; i++) {
        dLon = x / (east + shrink * dLat - (east * dLat * dLat) / 2);
        dLat = (y - (dLon * dLon * east * east * tan) / (2 * vertical)) / (meridian * (1 + bend * dLat));
      }
      return { lon: origin.lon + dLon / RAD, lat: origin.lat + dLat / RAD };
    },
  };
}
