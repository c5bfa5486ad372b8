import type { LonLat } from '../../../geometry/index.ts';

/** An area on the earth: its outline and the holes in it, each without its first point again at the end. */
export interface Area {
  readonly name: string;
  readonly outer: readonly LonLat[];
  readonly holes: ReadonlyArray<readonly LonLat[]>;
}

/** What a file of places holds. */
export interface Places {
  readonly areas: readonly Area[];
  /** Walked lines that were open. */
  readonly openLines: number;
  readonly from: 'map' | 'walk';
  readonly notes: readonly string[];
}

/** Longitude and latitude, if they are. */
export function lonLat(lon: unknown, lat: unknown): LonLat | null {
  if (typeof lon !== 'number' || typeof lat !== 'number') return null;
  if (!(Math.abs(lat) <= 90 && Math.abs(lon) <= 180)) return null;
  return { lon, lat };
}

/** A ring without its closing point, and without points on the spot. */
export function openRing(points: readonly LonLat[]): LonLat[] {
  const ring = points.filter(
    (p, i) => i === 0 || p.lon !== points[i - 1]!.lon || p.lat !== points[i - 1]!.lat,
  );
  const [a, b] = [ring[0], ring[ring.length - 1]];
  return a && b && ring.length > 1 && a.lon === b.lon && a.lat === b.lat ? ring.slice(0, -1) : ring;
}
