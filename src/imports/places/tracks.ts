import { XMLParser, XMLValidator } from 'fast-xml-parser';
import { type LonLat, localPlane } from '../../../geometry/index.ts';
import { fail, ok, type Result } from '../../../geometry/result.ts';
import type { Problem } from '../../problem.ts';
import { tr } from '../../words/tr.ts';
import { type Area, lonLat, openRing, type Places } from './places.ts';

type Node = Readonly<Record<string, unknown>>;

const isNode = (v: unknown): v is Node => typeof v === 'object' && v !== null && !Array.isArray(v);

/** The children of a node by their name, as a list. */
const list = (n: Node, key: string): readonly unknown[] => {
  const inside = Object.hasOwn(n, key) ? n[key] : undefined;
  return inside === undefined ? [] : Array.isArray(inside) ? inside : [inside];
};

const nodes = (n: Node, key: string): Node[] => list(n, key).filter(isNode);

function parse(text: string): Node | null {
  if (XMLValidator.validate(text) !== true) return null;
  const parser = new XMLParser({
    ignoreAttributes: false,
    attributeNamePrefix: '@',
    processEntities: false,
    removeNSPrefix: true,
    parseTagValue: false,
    parseAttributeValue: false,
    maxNestedTags: 100,
  });
  try {
    return parser.parse(text) as Node;
  } catch {
    return null;
  }
}

/** A walk that ends this share of its length from its start was meant to be closed. */
const CLOSES_WITHIN = 0.1;

/** Reads the walks of a GPX file: tracks and routes that come back to their start are outlines. Source: GPX 1.1 schema, from memory. */
export function readGpx(text: string, file: string): Result<Places, Problem> {
  const root = parse(text);
  const gpx = root && nodes(root, 'gpx')[0];
  if (!gpx) return fail({ code: 'places/broken', file, detail: tr`its text breaks off or is not GPX` });
  const walks: Array<{ name: string; points: LonLat[] }> = [];
  for (const track of nodes(gpx, 'trk')) {
    for (const segment of nodes(track, 'trkseg'))
      walks.push({ name: nameOf(track), points: pointsOf(segment, 'trkpt') });
  }
  for (const route of nodes(gpx, 'rte'))
    walks.push({ name: nameOf(route), points: pointsOf(route, 'rtept') });
  const areas: Area[] = [];
  const notes: string[] = [];
  let openLines = 0;
  for (const { name, points } of walks) {
    const ring = openRing(points);
    if (ring.length < 3) continue;
    const plane = localPlane(ring[0]!);
    const at = ring.map(plane.toPlane);
    const length = at.slice(1).reduce((s, p, i) => s + Math.hypot(p.x - at[i]!.x, p.y - at[i]!.y), 0);
    const end = at[at.length - 1]!;
    const gap = Math.hypot(end.x, end.y);
    const called = name ? `“${name}”` : tr`A walk`;
    if (gap <= CLOSES_WITHIN * length) areas.push({ name, outer: ring, holes: [] });
    else {
      openLines += 1;
      notes.push(
        tr`${called} (${ring.length} points, ${length.toFixed(1)} m) ends ${gap.toFixed(1)} m from its start and encloses nothing.`,
      );
    }
  }
  return ok({ areas, openLines, from: 'walk', notes });
}

function pointsOf(n: Node, key: string): LonLat[] {
  return nodes(n, key).flatMap((p) => {
    const at = lonLat(Number(p['@lon'] ?? Number.NaN), Number(p['@lat'] ?? Number.NaN));
    return at ? [at] : [];
  });
}

const nameOf = (n: Node): string => {
  const name = list(n, 'name')[0];
  return typeof name === 'string' ? name.slice(0, 200) : '';
};

/** Reads the areas of a KML file: polygons, and rings on their own. Source: OGC KML 2.2, from memory. */
export function readKml(text: string, file: string): Result<Places, Problem> {
  const root = parse(text);
  const kml = root && (nodes(root, 'kml')[0] ?? (Object.hasOwn(root, 'Document') ? root : undefined));
  if (!kml) return fail({ code: 'places/broken', file, detail: tr`its text breaks off or is not KML` });
  const areas: Area[] = [];
  let openLines = 0;
  let bad = false;
  const coordinates = (n: Node): LonLat[] => {
    const text_ = list(n, 'coordinates')[0];
    const words = typeof text_ === 'string' ? text_.trim().split(/\s+/) : [];
    const points = words.flatMap((w) => {
      const [lon, lat] = w.split(',').map(Number);
      const at = lonLat(lon, lat);
      if (!at) bad = true;
      return at ? [at] : [];
    });
    return openRing(points);
  };
  const visit = (n: Node, name: string, depth: number): void => {
    if (depth > 50) return;
    for (const polygon of nodes(n, 'Polygon')) {
      const ring = (key: string) =>
        nodes(polygon, key).flatMap((b) => nodes(b, 'LinearRing').map(coordinates));
      const [outer] = ring('outerBoundaryIs');
      if (outer && outer.length >= 3)
        areas.push({ name, outer, holes: ring('innerBoundaryIs').filter((r) => r.length >= 3) });
      else bad = true;
    }
    for (const ring of nodes(n, 'LinearRing')) {
      const outer = coordinates(ring);
      if (outer.length >= 3) areas.push({ name, outer, holes: [] });
    }
    openLines += nodes(n, 'LineString').length + nodes(n, 'Track').length;
    for (const [key, inside] of Object.entries(n)) {
      if (['Polygon', 'LinearRing', 'LineString'].includes(key)) continue;
      for (const child of Array.isArray(inside) ? inside : [inside]) {
        if (isNode(child)) visit(child, key === 'Placemark' ? nameOf(child) : name, depth + 1);
      }
    }
  };
  visit(kml, '', 0);
  if (bad)
    return fail({
      code: 'places/broken',
      file,
      detail: tr`a coordinate in it is not a longitude and a latitude, or a ring has fewer than three points`,
    });
  return ok({ areas, openLines, from: 'map', notes: [] });
}
