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
 * The plane of a site about its own middle: Lambert's azimuthal equal-area projection of the ellipsoid. Areas are true
 * at any distance, up to the difference between a straight line of the plane and the geodesic; lengths are true in the
 * middle and off by (distance / 12,756 km)² / 2, which is 3e-7 at 10 km. Not for sites at a pole or round the world.
 * Source: J. P. Snyder, Map Projections: A Working Manual (USGS Professional Paper 1395), eq. 24-17 to 24-26, 3-12 and
 * 3-16, from memory.
 */
export function localPlane(origin: LonLat): LocalPlane {
  const e = Math.sqrt(E2);
  const authalic = (sin: number): number =>
    (1 - E2) * (sin / (1 - E2 * sin * sin) - Math.log((1 - e * sin) / (1 + e * sin)) / (2 * e));
  const qp = authalic(1);
  const phi = origin.lat * RAD;
  const beta = Math.asin(authalic(Math.sin(phi)) / qp);
  const radius = A * Math.sqrt(qp / 2);
  const m = Math.cos(phi) / Math.sqrt(1 - E2 * Math.sin(phi) ** 2);
  const D = (A * m) / (radius * Math.cos(beta));
  const [sinO, cosO] = [Math.sin(beta), Math.cos(beta)];
  return {
    toPlane: ({ lon, lat }) => {
      const dLon = (((lon - origin.lon + 540) % 360) - 180) * RAD;
      const b = Math.asin(Math.max(-1, Math.min(1, authalic(Math.sin(lat * RAD)) / qp)));
      const [sin, cos] = [Math.sin(b), Math.cos(b)];
      // 1 − cos of a small angle, without the loss of digits.
      const away = 2 * Math.sin(dLon / 2) ** 2;
      const B = radius * Math.sqrt(2 / (1 + sinO * sin + cosO * cos * (1 - away)));
      const north = Math.sin(b - beta) + sinO * cos * away;
      return { x: B * D * cos * Math.sin(dLon), y: (B / D) * north };
    },
    toLonLat: ({ x, y }) => {
      const rho = Math.hypot(x / D, D * y);
      if (rho === 0) return origin;
      const c = 2 * Math.asin(Math.min(1, rho / (2 * radius)));
      const [sinC, cosC] = [Math.sin(c), Math.cos(c)];
      const q = qp * (cosC * sinO + (D * y * sinC * cosO) / rho);
      let lat = Math.asin(Math.max(-1, Math.min(1, q / 2)));
      for (let i = 0; i < 12; i++) {
        const sin = Math.sin(lat);
        const w = 1 - E2 * sin * sin;
        const slope = (2 * (1 - E2) * Math.cos(lat)) / (w * w);
        if (Math.abs(slope) < 1e-12) break;
        const step = (q - authalic(sin)) / slope;
        lat += step;
        if (Math.abs(step) < 1e-16) break;
      }
      const dLon = Math.atan2(x * sinC, D * rho * cosO * cosC - D * D * y * sinO * sinC);
      return { lon: origin.lon + dLon / RAD, lat: lat / RAD };
    },
  };
}
