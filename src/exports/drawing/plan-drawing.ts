import {
  type Box,
  boxOf,
  type Point,
  pointOnSide,
  type Ring,
  ringArea,
  ringBox,
  type Side,
  sideLength,
  sidesOf,
} from '../../../geometry/index.ts';
import { byId } from '../../job/order.ts';
import type { Id, Job, Sheet, Surface, Void, VoidKind } from '../../job/types.ts';
import type { Results } from '../../results.ts';
import { cutOnGround, groundFrame, slabOnGround, voidOnGround } from '../../takeoff/ground.ts';
import type { GroundPoint, Metres, SquareMetres } from '../../units/types.ts';

/** A zone as it is drawn: outlines with true arcs, holes among them. */
export interface DrawnZone {
  readonly id: Id;
  readonly name: string;
  readonly surface: Surface;
  readonly outlines: readonly Ring[];
  /** Net area with the slab's slope in it; what the outlines enclose is its plan. */
  readonly areaM2: SquareMetres;
  /** Where it is widest, and how far from there its edge is. */
  readonly label: { readonly point: Point; readonly clearance: Metres } | null;
}

export interface DrawnVoid {
  readonly id: Id;
  readonly name: string;
  readonly kind: VoidKind;
  readonly outline: Ring;
  /** The line of a channel and its width, for its bars. */
  readonly channel: { readonly a: Point; readonly b: Point; readonly widthM: Metres } | null;
}

/** The length of a side, and the way out of its slab. */
export interface DrawnDimension {
  readonly side: Side;
  readonly lengthM: Metres;
  /** From the middle of the side, a unit away from the slab. */
  readonly out: Point;
}

/** Everything drawn of one sheet, in metres on the ground, y up: what every drawing file is written from. */
export interface PlanDrawing {
  readonly sheet: Sheet;
  readonly zones: readonly DrawnZone[];
  readonly slabs: ReadonlyArray<{ readonly id: Id; readonly name: string; readonly outline: Ring }>;
  readonly voids: readonly DrawnVoid[];
  readonly cuts: ReadonlyArray<readonly GroundPoint[]>;
  readonly dimensions: readonly DrawnDimension[];
  readonly box: Box;
  /** Whether up is north. */
  readonly northUp: boolean;
}

/** The drawings of every sheet that anything is measured on. */
export function planDrawings({ job, takeoff }: Results): PlanDrawing[] {
  return Object.values(job.sheets)
    .sort(byId)
    .flatMap((sheet) => {
      const frame = groundFrame(job, sheet);
      const zones = takeoff.zones.filter((z) => z.sheetId === sheet.id);
      if (!frame || zones.length === 0) return [];
      const measured = new Set(zones.map((z) => z.slabId));
      const slabs = Object.values(job.slabs)
        .filter((s) => measured.has(s.id))
        .sort(byId)
        .map((s) => ({ id: s.id, name: s.name, outline: slabOnGround(job, s, frame) }));
      const unseen = new Set(takeoff.unseen);
      const voids = Object.values(job.voids)
        .filter((v) => v.sheetId === sheet.id && !unseen.has(v.id))
        .sort(byId)
        .map((v): DrawnVoid => {
          const outline = voidOnGround(v, frame);
          return { id: v.id, name: v.name, kind: v.kind, outline, channel: channelOf(v, outline) };
        })
        .filter((v) => v.outline.length > 1);
      // What lies far from every slab does not make them smaller.
      const boxes = slabs.map(({ outline }) => ringBox(outline));
      return [
        {
          sheet,
          zones: zones.map(({ id, name, surface, netOutlines, netArea, label }) => ({
            id,
            name,
            surface,
            outlines: netOutlines,
            areaM2: netArea.value,
            label,
          })),
          slabs,
          voids,
          cuts: Object.values(job.cuts)
            .filter((c) => measured.has(c.slabId))
            .sort(byId)
            .map((c) => cutOnGround(job, c, frame)),
          dimensions: dimensionsOf(job, slabs),
          box: boxOf(
            boxes.flatMap((b) => [
              { x: b.minX, y: b.minY },
              { x: b.maxX, y: b.maxY },
            ]),
          ),
          northUp: sheet.fit?.kind === 'georeferenced',
        },
      ];
    });
}

/** The middle line of a drain drawn as a line: the strip's own ends. */
function channelOf({ kind, shape }: Void, outline: Ring): DrawnVoid['channel'] {
  if (kind !== 'drain' || shape.type !== 'line' || outline.length !== 4) return null;
  const middle = (p: Point, q: Point): Point => ({ x: (p.x + q.x) / 2, y: (p.y + q.y) / 2 });
  const [p, q, r, s] = outline as [Point, Point, Point, Point];
  return { a: middle(p, s), b: middle(q, r), widthM: shape.widthM };
}

/** Each side once, also where two slabs share it. */
function dimensionsOf(job: Job, slabs: PlanDrawing['slabs']): DrawnDimension[] {
  const done = new Set<string>();
  return slabs.flatMap(({ id, outline }) => {
    const turn = Math.sign(ringArea(outline)) || 1;
    const { corners } = job.slabs[id]!;
    return sidesOf(outline).flatMap((side, k): DrawnDimension[] => {
      const ends = [corners[k]!.cornerId, corners[(k + 1) % corners.length]!.cornerId];
      // Two sides between the same corners are told apart by their middles, to a millimetre.
      const middle = pointOnSide(side, 0.5);
      const key = [...ends.sort(), middle.x.toFixed(3), middle.y.toFixed(3)].join(' ');
      const lengthM = sideLength(side);
      if (done.has(key) || !(lengthM > 0)) return [];
      done.add(key);
      const [a, b] = [pointOnSide(side, 0.49), pointOnSide(side, 0.51)];
      const d = Math.hypot(b.x - a.x, b.y - a.y) || 1;
      return [{ side, lengthM, out: { x: (turn * (b.y - a.y)) / d, y: (-turn * (b.x - a.x)) / d } }];
    });
  });
}

/** Rings and points moved; what lays several sheets out beside each other. */
const moved = <P extends Point>(p: P, by: Point): P => ({ ...p, x: p.x + by.x, y: p.y + by.y });
const movedRing = (ring: Ring, by: Point): Ring =>
  ring.map((v) => ({ ...moved(v, by), ...(v.via ? { via: moved(v.via, by) } : {}) }));

function movedDrawing(d: PlanDrawing, by: Point): PlanDrawing {
  const arcMoved = (side: Side): Side => ({
    a: moved(side.a, by),
    b: moved(side.b, by),
    arc: side.arc && { ...side.arc, centre: moved(side.arc.centre, by) },
  });
  return {
    ...d,
    zones: d.zones.map((z) => ({
      ...z,
      outlines: z.outlines.map((r) => movedRing(r, by)),
      label: z.label && { ...z.label, point: moved(z.label.point, by) },
    })),
    slabs: d.slabs.map((s) => ({ ...s, outline: movedRing(s.outline, by) })),
    voids: d.voids.map((v) => ({
      ...v,
      outline: movedRing(v.outline, by),
      channel: v.channel && { ...v.channel, a: moved(v.channel.a, by), b: moved(v.channel.b, by) },
    })),
    cuts: d.cuts.map((c) => c.map((p) => moved(p, by))),
    dimensions: d.dimensions.map((x) => ({ ...x, side: arcMoved(x.side) })),
    box: {
      minX: d.box.minX + by.x,
      maxX: d.box.maxX + by.x,
      minY: d.box.minY + by.y,
      maxY: d.box.maxY + by.y,
    },
  };
}

/** Sheets have places of their own: beside each other, with a gap of a tenth of the widest, nothing lies on anything. */
export function sideBySide(drawings: readonly PlanDrawing[]): PlanDrawing[] {
  const widest = Math.max(0, ...drawings.map((d) => d.box.maxX - d.box.minX));
  let x = 0;
  return drawings.map((d, i) => {
    if (i === 0) {
      x = d.box.maxX + widest / 10;
      return d;
    }
    const placed = movedDrawing(d, { x: x - d.box.minX, y: (drawings[0]?.box.minY ?? 0) - d.box.minY });
    x = placed.box.maxX + widest / 10;
    return placed;
  });
}
