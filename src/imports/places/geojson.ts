import type { LonLat } from '../../../geometry/index.ts';
import { fail, ok, type Result } from '../../../geometry/result.ts';
import type { Problem } from '../../problem.ts';
import { tr } from '../../words/tr.ts';
import { type Area, lonLat, openRing, type Places } from './places.ts';

/** What is wrong, and where in the file. */
class Odd extends Error {}

const isRecord = (v: unknown): v is Readonly<Record<string, unknown>> =>
  typeof v === 'object' && v !== null && !Array.isArray(v);

/** More points than this are no yard. */
const MOST_POINTS = 500_000;

/**
 * Reads GeoJSON: polygons with their holes, in longitude and latitude on WGS 84. All of it or nothing: one bad coordinate
 * refuses the file. Source: RFC 7946 3.1.
 */
export function readGeoJson(text: string, file: string): Result<Places, Problem> {
  let raw: unknown;
  try {
    raw = JSON.parse(text.replace(/^\uFEFF/, ''));
  } catch {
    return fail({ code: 'places/broken', file, detail: tr`its text breaks off or is not JSON` });
  }
  const reader = new Reader();
  try {
    reader.any(raw, tr`the file`, '', 0);
  } catch (error) {
    if (error instanceof Odd) return fail({ code: 'places/broken', file, detail: error.message });
    throw error;
  }
  const notes =
    reader.closed > 0
      ? [
          tr`${reader.closed === 1 ? tr`1 ring was` : tr`${reader.closed} rings were`} not closed and got a last side.`,
        ]
      : [];
  return ok({ areas: reader.areas, openLines: reader.lines, from: 'map', notes });
}

class Reader {
  readonly areas: Area[] = [];
  lines = 0;
  closed = 0;
  private points = 0;

  any(raw: unknown, where: string, name: string, depth: number): void {
    if (!isRecord(raw)) throw new Odd(tr`${where} is not a GeoJSON object`);
    if (depth > 20) throw new Odd(tr`${where} lies too deep in others`);
    checkCrs(raw);
    const list = (key: string): readonly unknown[] => {
      const inside = raw[key];
      if (!Array.isArray(inside)) throw new Odd(tr`${where} has no ${key}`);
      return inside;
    };
    switch (raw.type) {
      case 'FeatureCollection':
        list('features').forEach((f, i) => {
          this.any(f, tr`feature ${i + 1}`, '', depth + 1);
        });
        return;
      case 'Feature':
        if (raw.geometry === undefined) throw new Odd(tr`${where} has no geometry`);
        if (raw.geometry !== null)
          this.any(raw.geometry, tr`the geometry of ${where}`, nameOf(raw) || name, depth + 1);
        return;
      case 'GeometryCollection':
        list('geometries').forEach((g, i) => {
          this.any(g, tr`geometry ${i + 1} of ${where}`, name, depth + 1);
        });
        return;
      case 'Polygon':
        this.polygon(list('coordinates'), where, name);
        return;
      case 'MultiPolygon':
        list('coordinates').forEach((p, i) => {
          if (!Array.isArray(p)) throw new Odd(tr`polygon ${i + 1} of ${where} is no list of rings`);
          this.polygon(p, tr`polygon ${i + 1} of ${where}`, name);
        });
        return;
      case 'LineString':
        this.positions(list('coordinates'), where);
        this.lines += 1;
        return;
      case 'MultiLineString':
        for (const line of list('coordinates')) this.positions(line, where);
        this.lines += 1;
        return;
      case 'MultiPoint':
        this.positions(list('coordinates'), where);
        return;
      case 'Point':
        this.positions([raw.coordinates], where);
        return;
      default:
        throw new Odd(tr`${where} is of no kind that GeoJSON has`);
    }
  }

  private polygon(rings: readonly unknown[], where: string, name: string): void {
    if (rings.length === 0) return;
    const read = rings.map((ring, i) => {
      const points = this.positions(ring, tr`ring ${i + 1} of ${where}`);
      const [a, b] = [points[0], points[points.length - 1]];
      if (a && b && (a.lon !== b.lon || a.lat !== b.lat)) this.closed += 1;
      const open = openRing(points);
      if (new Set(open.map((p) => `${p.lon} ${p.lat}`)).size < 3) {
        throw new Odd(tr`ring ${i + 1} of ${where} has fewer than three different points`);
      }
      return open;
    });
    this.areas.push({ name, outer: read[0]!, holes: read.slice(1) });
  }

  private positions(raw: unknown, where: string): LonLat[] {
    if (!Array.isArray(raw)) throw new Odd(tr`${where} is no list of positions`);
    this.points += raw.length;
    if (this.points > MOST_POINTS)
      throw new Odd(tr`it has more than ${MOST_POINTS.toLocaleString('en')} points`);
    return raw.map((p: unknown, i) => {
      const at = Array.isArray(p) ? lonLat(p[0], p[1]) : null;
      if (at) return at;
      const shown = (JSON.stringify(p) ?? tr`nothing`).slice(0, 40);
      throw new Odd(tr`position ${i + 1} of ${where} is ${shown}, not a longitude and a latitude in degrees`);
    });
  }
}

function nameOf(feature: Readonly<Record<string, unknown>>): string {
  const p = feature.properties;
  if (!isRecord(p)) return '';
  const found = [p.name, p.Name, p.title, p.id].find((v) => typeof v === 'string' || typeof v === 'number');
  return found === undefined ? '' : String(found).slice(0, 200);
}

/** Older files may name another system of coordinates; only longitude and latitude can be read. */
function checkCrs(raw: Readonly<Record<string, unknown>>): void {
  if (!isRecord(raw.crs)) return;
  const name = isRecord(raw.crs.properties) ? String(raw.crs.properties.name ?? '') : '';
  if (name && !/CRS:?84|EPSG:+4326|OGC.*84/i.test(name)) {
    throw new Odd(tr`it is in ${name.slice(0, 60)}, not in longitude and latitude (WGS 84)`);
  }
}
