import { flattenSide, type Point, type Ring, sideOf, type Vertex } from '../../../geometry/index.ts';
import { fail, ok, type Result } from '../../../geometry/result.ts';
import type { Problem } from '../../problem.ts';
import { tr } from '../../words/tr.ts';
import { type Drawing, type DrawnLine, type DrawnOutline, type Layer, MOST_PIECES } from '../drawing.ts';
import { arcPath, bulgedRing, ellipsePoints, splinePoints } from './curves.ts';
import { readTags, type Tag } from './tags.ts';

/** One entity: its type and tags, with the vertices of an old polyline. */
interface Entity {
  readonly type: string;
  readonly tags: readonly Tag[];
  readonly vertices: Entity[];
}

interface Block {
  readonly base: Point;
  readonly entities: readonly Entity[];
}

/** Reads a DXF drawing: closed polylines and circles as outlines, all else that is drawn as lines; hatches and texts not at all. */
export function readDxf(bytes: Uint8Array, file: string): Result<Drawing, Problem> {
  const tags = readTags(bytes, file);
  if (!tags.ok) return tags;
  const sections = sectionsOf(tags.value);
  const entities = entitiesOf(sections.get('ENTITIES') ?? []);
  if (!sections.has('ENTITIES')) return fail({ code: 'drawing/broken', file });
  const header = headerOf(sections.get('HEADER') ?? []);
  const reader = new Reader(blocksOf(sections.get('BLOCKS') ?? []));
  for (const e of entities) if (number(e, 67) !== 1) reader.read(e, identity, '', 0);
  if (reader.tooMany) return fail({ code: 'drawing/too-large', file });
  const hidden = hiddenLayers(sections.get('TABLES') ?? []);
  const used = new Set([...reader.outlines, ...reader.lines].map((p) => p.layer));
  const layers = [...used].sort().map((name): Layer => ({ name, hidden: hidden.has(name) }));
  const unit = INSUNITS[header.get('$INSUNITS') ?? 0] ?? null;
  return ok({
    outlines: reader.outlines,
    lines: reader.lines,
    layers,
    metresPerUnit: unit,
    paper: false,
    notes: reader.notes(),
  });
}

/** Metres for a unit by its number in the header. Source: DXF reference, $INSUNITS, from memory. */
const INSUNITS: Readonly<Record<number, number>> = {
  1: 0.0254,
  2: 0.3048,
  3: 1609.344,
  4: 0.001,
  5: 0.01,
  6: 1,
  7: 1000,
  8: 2.54e-8,
  9: 2.54e-5,
  10: 0.9144,
  13: 1e-6,
  14: 0.1,
  15: 10,
  16: 100,
  21: 1200 / 3937,
};

function sectionsOf(tags: readonly Tag[]): Map<string, Tag[]> {
  const sections = new Map<string, Tag[]>();
  let current: Tag[] | null = null;
  tags.forEach((tag, i) => {
    if (tag.code === 0 && tag.value === 'SECTION') {
      // Some programs write a section in many parts.
      const name = tags[i + 1]?.code === 2 ? String(tags[i + 1]!.value) : '';
      current = sections.get(name) ?? [];
      sections.set(name, current);
      return;
    }
    if (tag.code === 0 && (tag.value === 'ENDSEC' || tag.value === 'EOF')) current = null;
    else current?.push(tag);
  });
  return sections;
}

function entitiesOf(tags: readonly Tag[]): Entity[] {
  const entities: Entity[] = [];
  let own: Tag[] | null = null;
  let polyline: Entity | null = null;
  for (const tag of tags) {
    if (tag.code !== 0) {
      own?.push(tag);
      continue;
    }
    own = [];
    const entity: Entity = { type: String(tag.value), tags: own, vertices: [] };
    if (entity.type === 'VERTEX' && polyline) polyline.vertices.push(entity);
    else if (entity.type === 'SEQEND') polyline = null;
    else {
      entities.push(entity);
      polyline = entity.type === 'POLYLINE' ? entity : entity.type === 'ATTRIB' ? polyline : null;
    }
  }
  return entities;
}

function headerOf(tags: readonly Tag[]): Map<string, number> {
  const header = new Map<string, number>();
  tags.forEach((tag, i) => {
    const next = tags[i + 1];
    if (tag.code === 9 && typeof next?.value === 'number') header.set(String(tag.value), next.value);
  });
  return header;
}

function blocksOf(tags: readonly Tag[]): Map<string, Block> {
  const blocks = new Map<string, Block>();
  let start: Entity | null = null;
  let inside: Entity[] = [];
  for (const e of entitiesOf(tags)) {
    if (e.type === 'BLOCK') {
      start = e;
      inside = [];
    } else if (e.type === 'ENDBLK' && start) {
      blocks.set(text(start, 2), { base: point(start, 10) ?? { x: 0, y: 0 }, entities: inside });
      start = null;
    } else inside.push(e);
  }
  return blocks;
}

/** Layers that are frozen, or switched off by a negative colour. */
function hiddenLayers(tags: readonly Tag[]): Set<string> {
  const layers = entitiesOf(tags).filter((e) => e.type === 'LAYER');
  return new Set(
    layers.filter((l) => (number(l, 70) ?? 0) & 1 || (number(l, 62) ?? 0) < 0).map((l) => text(l, 2)),
  );
}

const find = (e: Entity, code: number) => e.tags.find((t) => t.code === code)?.value;

function number(e: Entity, code: number): number | null {
  const value = find(e, code);
  return typeof value === 'number' && Number.isFinite(value) ? value : null;
}

const text = (e: Entity, code: number): string => String(find(e, code) ?? '');

function point(e: Entity, code: number): Point | null {
  const [x, y] = [number(e, code), number(e, code + 10)];
  return x === null || y === null ? null : { x, y };
}

const numbers = (e: Entity, code: number): number[] =>
  e.tags.flatMap((t) => (t.code === code && typeof t.value === 'number' ? [t.value] : []));

/** An affine map: x′ = a·x + c·y + e, y′ = b·x + d·y + f. */
interface Map2 {
  readonly a: number;
  readonly b: number;
  readonly c: number;
  readonly d: number;
  readonly e: number;
  readonly f: number;
}

const identity: Map2 = { a: 1, b: 0, c: 0, d: 1, e: 0, f: 0 };

const mapped = (m: Map2, p: Point): Point => ({
  x: m.a * p.x + m.c * p.y + m.e,
  y: m.b * p.x + m.d * p.y + m.f,
});

const joined = (m: Map2, n: Map2): Map2 => ({
  a: m.a * n.a + m.c * n.b,
  b: m.b * n.a + m.d * n.b,
  c: m.a * n.c + m.c * n.d,
  d: m.b * n.c + m.d * n.d,
  ...(() => {
    const o = mapped(m, { x: n.e, y: n.f });
    return { e: o.x, f: o.y };
  })(),
});

/** Whether circles stay circles. */
function keepsCircles({ a, b, c, d }: Map2): boolean {
  const size = a * a + b * b;
  return Math.abs(a * c + b * d) <= 1e-9 * size && Math.abs(size - (c * c + d * d)) <= 1e-9 * size;
}

/** Pieces that may enclose ground and are not read; hatches fill outlines that are. */
const NOT_READ = new Set(['REGION', 'MPOLYGON', '3DFACE', 'SOLID', 'TRACE', 'MLINE']);

/** Blocks within blocks deeper than this are a circle of blocks. */
const DEEPEST = 16;

/** Gathers outlines and lines, blocks unfolded. */
class Reader {
  readonly outlines: DrawnOutline[] = [];
  readonly lines: DrawnLine[] = [];
  tooMany = false;
  private readonly odd = new Map<string, number>();
  private readonly blocks: ReadonlyMap<string, Block>;
  private unfolded = 0;

  constructor(blocks: ReadonlyMap<string, Block>) {
    this.blocks = blocks;
  }

  notes(): string[] {
    return [...this.odd].map(([what, count]) => `${count} ${what}`);
  }

  read(e: Entity, m: Map2, layerOfInsert: string, depth: number): void {
    if (this.tooMany) return;
    this.unfolded += 1;
    if (this.unfolded > MOST_PIECES) {
      this.tooMany = true;
      return;
    }
    if (number(e, 60) === 1) return void this.note(tr`invisible pieces were left out`);
    const own = text(e, 8) || '0';
    const layer = own === '0' && layerOfInsert ? layerOfInsert : own;
    // Drawn from below: x runs the other way.
    const map = number(e, 230) === -1 ? joined(m, { ...identity, a: -1 }) : m;
    switch (e.type) {
      case 'LWPOLYLINE':
        this.polyline(lightVertices(e), ((number(e, 70) ?? 0) & 1) === 1, layer, map);
        return;
      case 'POLYLINE':
        this.oldPolyline(e, layer, map);
        return;
      case 'LINE': {
        const [a, b] = [point(e, 10), point(e, 11)];
        if (a && b) this.line([a, b], layer, m);
        return;
      }
      case 'CIRCLE':
        this.circle(e, layer, map);
        return;
      case 'ARC': {
        const centre = point(e, 10);
        const radius = number(e, 40);
        const [from, to] = [number(e, 50), number(e, 51)];
        if (!centre || radius === null || from === null || to === null) return;
        if (!(radius > 0)) {
          this.note(tr`arcs without a radius were left out`);
          return;
        }
        this.line(arcPath(centre, radius, (from * Math.PI) / 180, (to * Math.PI) / 180), layer, map);
        return;
      }
      case 'ELLIPSE':
        this.ellipse(e, layer, m);
        return;
      case 'SPLINE':
        this.spline(e, layer, m);
        return;
      case 'INSERT':
        this.insert(e, layer, map, depth);
        return;
      default:
        if (NOT_READ.has(e.type)) this.note(tr`regions, solids and multiple lines were left out: trace them`);
    }
  }

  private note(what: string): void {
    this.odd.set(what, (this.odd.get(what) ?? 0) + 1);
  }

  private oldPolyline(e: Entity, layer: string, m: Map2): void {
    const flags = number(e, 70) ?? 0;
    if (flags & (16 | 64)) {
      this.note(tr`meshes were left out`);
      return;
    }
    // Control points of a spline frame are not on the line.
    const drawn = e.vertices.filter((v) => ((number(v, 70) ?? 0) & 16) === 0);
    const vertices = drawn.flatMap((v) => {
      const p = point(v, 10);
      return p ? [{ ...p, bulge: number(v, 42) ?? 0 }] : [];
    });
    this.polyline(vertices, (flags & 1) === 1, layer, m);
  }

  private polyline(
    vertices: ReadonlyArray<Point & { readonly bulge: number }>,
    flagged: boolean,
    layer: string,
    m: Map2,
  ): void {
    const distinct = vertices.filter((v, i) => {
      const before = vertices[i - 1];
      return !before || before.x !== v.x || before.y !== v.y || Math.abs(before.bulge) > 1e-12;
    });
    const [first, last] = [distinct[0], distinct[distinct.length - 1]];
    if (!first || !last || distinct.length < 2) return;
    // Many programs close an outline by coming back to its start instead of by the flag.
    const span = Math.max(...distinct.map((v) => Math.hypot(v.x - first.x, v.y - first.y)));
    const back = distinct.length > 3 && Math.hypot(first.x - last.x, first.y - last.y) <= 1e-9 * span;
    const ring = bulgedRing(back ? distinct.slice(0, -1) : distinct, flagged || back);
    if ((flagged || back) && (ring.length > 2 || ring.some((v) => v.via))) this.outline(ring, layer, m);
    else this.line(ring, layer, m);
  }

  private circle(e: Entity, layer: string, m: Map2): void {
    const [centre, radius] = [point(e, 10), number(e, 40)];
    if (!centre || radius === null) return;
    if (!(radius > 0)) {
      this.note(tr`circles without a radius were left out`);
      return;
    }
    const path = arcPath(centre, radius, 0, 2 * Math.PI);
    this.outline(path.slice(0, -1), layer, m);
  }

  private ellipse(e: Entity, layer: string, m: Map2): void {
    const [centre, major] = [point(e, 10), point(e, 11)];
    const ratio = number(e, 40);
    if (!centre || !major || !ratio) return;
    const turned = number(e, 230) === -1 ? -ratio : ratio;
    const [from, to] = [number(e, 41) ?? 0, number(e, 42) ?? 2 * Math.PI];
    const points = ellipsePoints(centre, major, turned, from, to);
    if (Math.abs(to - from) >= 2 * Math.PI - 1e-6) this.outline(points.slice(0, -1), layer, m);
    else this.line(points, layer, m);
  }

  private spline(e: Entity, layer: string, m: Map2): void {
    const xs = numbers(e, 10);
    const ys = numbers(e, 20);
    const control = xs.flatMap((x, i) => (ys[i] === undefined ? [] : [{ x, y: ys[i]! }]));
    const points = splinePoints(number(e, 71) ?? 3, numbers(e, 40), control, numbers(e, 41));
    if (points.length < 2) {
      this.note(tr`splines that do not add up were left out`);
      return;
    }
    const [a, b] = [points[0]!, points[points.length - 1]!];
    const span = Math.max(...points.map((p) => Math.hypot(p.x - a.x, p.y - a.y)));
    if (Math.hypot(a.x - b.x, a.y - b.y) <= 1e-6 * span) this.outline(points.slice(0, -1), layer, m);
    else this.line(points, layer, m);
  }

  private insert(e: Entity, layer: string, m: Map2, depth: number): void {
    const block = this.blocks.get(text(e, 2));
    const at = point(e, 10);
    if (!block || !at) return;
    if (depth >= DEEPEST) {
      this.note(tr`blocks within themselves were left out`);
      return;
    }
    const turn = ((number(e, 50) ?? 0) * Math.PI) / 180;
    const [c, s] = [Math.cos(turn), Math.sin(turn)];
    const [sx, sy] = [number(e, 41) ?? 1, number(e, 42) ?? 1];
    const [columns, rows] = [count(e, 70), count(e, 71)];
    if (columns * rows * block.entities.length > MOST_PIECES) {
      this.tooMany = true;
      return;
    }
    for (let r = 0; r < rows; r++) {
      for (let k = 0; k < columns; k++) {
        const [u, v] = [k * (number(e, 44) ?? 0), r * (number(e, 45) ?? 0)];
        const placed: Map2 = {
          a: c * sx,
          b: s * sx,
          c: -s * sy,
          d: c * sy,
          e: at.x + c * u - s * v,
          f: at.y + s * u + c * v,
        };
        const whole = joined(joined(m, placed), { ...identity, e: -block.base.x, f: -block.base.y });
        for (const inner of block.entities) this.read(inner, whole, layer, depth + 1);
      }
    }
  }

  private outline(ring: Ring, layer: string, m: Map2): void {
    const moved = moveRing(ring, m, true);
    if (moved) this.outlines.push({ layer, ring: moved });
    else this.note(tr`outlines with numbers that are none were left out`);
  }

  private line(path: Ring, layer: string, m: Map2): void {
    const moved = moveRing(path, m, false);
    if (moved) this.lines.push({ layer, path: moved });
    else this.note(tr`lines with numbers that are none were left out`);
  }
}

const count = (e: Entity, code: number): number => Math.max(1, Math.round(number(e, code) ?? 1));

function lightVertices(e: Entity): Array<Point & { bulge: number }> {
  const vertices: Array<{ x: number; y: number; bulge: number }> = [];
  for (const { code, value } of e.tags) {
    if (typeof value !== 'number') continue;
    const last = vertices[vertices.length - 1];
    if (code === 10) vertices.push({ x: value, y: 0, bulge: 0 });
    else if (code === 20 && last) last.y = value;
    else if (code === 42 && last) last.bulge = value;
  }
  return vertices;
}

/** A ring or path through a map; arcs become points where the map makes ellipses of them. Null when a number is none. */
function moveRing(ring: Ring, m: Map2, closed: boolean): Ring | null {
  const even = keepsCircles(m);
  const moved = ring.flatMap((v, i): Vertex[] => {
    const at = mapped(m, v);
    if (!v.via || (!closed && i === ring.length - 1)) return [at];
    if (even) return [{ ...at, via: mapped(m, v.via) }];
    const side = sideOf(ring, i);
    const radius = side.arc?.radius ?? 0;
    return [
      at,
      ...flattenSide(side, radius / 20_000)
        .slice(0, -1)
        .map((p) => mapped(m, p)),
    ];
  });
  const sound = moved.every((v) => isNumber(v) && (!v.via || isNumber(v.via)));
  return sound ? moved : null;
}

const isNumber = (p: Point): boolean => Math.abs(p.x) < 1e15 && Math.abs(p.y) < 1e15;
