import {
  distance,
  type Frame,
  flattenRing,
  frameScale,
  fromFrame,
  once,
  type Point,
  pointOnSide,
  type Side,
  sideLength,
  sideOf,
  sidesOf,
} from '../../../geometry/index.ts';
import { INK, PAPER, QUIET, TRAFFIC_TINTS, tintOver, VOID_FILL } from '../../drafting/inks.ts';
import { cornerLetter, slabRing, voidPlace } from '../../job/outline.ts';
import type { Id, Job, Slab } from '../../job/types.ts';
import { groundFrame, slabOnGround, voidOnGround } from '../../takeoff/ground.ts';
import type { ZoneTakeoff } from '../../takeoff/zone.ts';
import { areaText, lengthNumber, type UnitSystem } from '../../units/format.ts';
import { type Camera, toScreen, type View } from '../camera.ts';
import { hatchPattern } from './hatch.ts';
import { IN_HAND } from './palette.ts';

/** What is selected, by kind; the same object for as long as the same is selected. */
export interface SelectedIds {
  readonly zones: ReadonlySet<Id>;
  readonly voids: ReadonlySet<Id>;
  readonly cuts: ReadonlySet<Id>;
}

/** What is drawn of the job on one sheet. */
export interface ZonesScene {
  readonly job: Job;
  readonly sheetId: Id;
  readonly zones: readonly ZoneTakeoff[];
  readonly camera: Camera;
  readonly view: View;
  readonly ratio: number;
  readonly units: UnitSystem;
  readonly selected: SelectedIds;
  /** The slab whose corners are lettered. */
  readonly letteredSlab: Id | null;
  /** Tint and second line of each zone's label when zones are shown by group; null shows them by traffic. */
  readonly group: ((zone: ZoneTakeoff) => { readonly tint: string; readonly label: string }) | null;
}

type Pen = CanvasRenderingContext2D;

/** Which slabs and voids of a scene are drawn. */
export interface Part {
  readonly slab: (id: Id) => boolean;
  readonly void: (id: Id) => boolean;
}

/** Draws zones, voids, dimensions and labels of a part of the scene; everything in screen pixels. */
export function drawZones(c: Pen, scene: ZonesScene, part: Part): void {
  const sheet = scene.job.sheets[scene.sheetId];
  if (!sheet) return;
  const frame = groundFrame(scene.job, sheet);
  if (!frame) {
    drawUnmeasured(c, scene, part);
    return;
  }
  const at = (p: Point) => toScreen(scene.camera, scene.view, fromFrame(frame, p));
  const zones = scene.zones.filter((z) => z.sheetId === scene.sheetId && part.slab(z.slabId));
  for (const zone of zones) drawZone(c, scene, zone, at);
  drawVoids(c, scene, frame, at, part);
  drawOutlines(c, scene, part);
  drawDimensions(c, scene, frame, part);
  for (const zone of zones) drawLabel(c, scene, zone, at);
}

/** Draws what stands out over all zones: the outline of the one in hand, its cut, and the letters of its corners. */
export function drawOverZones(c: Pen, scene: ZonesScene): void {
  const at = (p: Point) => toScreen(scene.camera, scene.view, p);
  drawChosen(c, scene, at);
  drawSelectedCuts(c, scene, at);
  drawLetters(c, scene);
}

/** Letters at the corners of a slab that is measured by tape, inside it. */
function drawLetters(c: Pen, { job, camera, view, letteredSlab }: ZonesScene): void {
  const slab = letteredSlab ? job.slabs[letteredSlab] : undefined;
  if (!slab) return;
  const points = slab.corners.map((k) => toScreen(camera, view, job.corners[k.cornerId]!));
  const middle = {
    x: points.reduce((s, p) => s + p.x, 0) / points.length,
    y: points.reduce((s, p) => s + p.y, 0) / points.length,
  };
  c.font = '700 14px system-ui, sans-serif';
  slab.corners.forEach(({ cornerId }, i) => {
    const p = points[i]!;
    const d = distance(p, middle) || 1;
    const k = Math.min(18, d / 2) / d;
    lettering(c, cornerLetter(job, cornerId), p.x + (middle.x - p.x) * k, p.y + (middle.y - p.y) * k, INK);
  });
}

function trace(c: Pen, rings: ReadonlyArray<readonly Point[]>, at: (p: Point) => Point, closed = true): void {
  c.beginPath();
  for (const ring of rings) {
    ring.forEach((p, i) => {
      const q = at(p);
      if (i === 0) c.moveTo(q.x, q.y);
      else c.lineTo(q.x, q.y);
    });
    if (closed) c.closePath();
  }
}

function drawZone(c: Pen, scene: ZonesScene, zone: ZoneTakeoff, at: (p: Point) => Point): void {
  trace(c, zone.netRings, at);
  c.fillStyle = scene.group ? scene.group(zone).tint : tintOver(TRAFFIC_TINTS[zone.surface.traffic]);
  c.fill('evenodd');
  const origin = at({ x: 0, y: 0 });
  const hatch = hatchPattern(c, zone.surface.texture, scene.ratio, origin);
  if (hatch) {
    c.fillStyle = hatch;
    c.fill('evenodd');
  }
  const chosen = scene.selected.zones.has(zone.id);
  c.lineJoin = 'round';
  c.strokeStyle = chosen ? IN_HAND : QUIET;
  c.lineWidth = chosen ? 3.5 : 1;
  c.stroke();
}

function drawVoids(c: Pen, scene: ZonesScene, frame: Frame, at: (p: Point) => Point, part: Part): void {
  for (const v of Object.values(scene.job.voids)) {
    if (v.sheetId !== scene.sheetId || !part.void(v.id)) continue;
    const sagitta = (0.3 / scene.camera.zoom) * frameScale(frame, voidPlace(v.shape));
    const points = flattenRing(voidOnGround(v, frame), sagitta);
    trace(c, [points], at);
    c.fillStyle = v.kind === 'post' ? INK : VOID_FILL;
    c.fill();
    const chosen = scene.selected.voids.has(v.id);
    c.strokeStyle = chosen ? IN_HAND : INK;
    c.lineWidth = chosen ? 3.5 : 1.4;
    c.stroke();
    if (v.kind === 'drain') drawGrate(c, scene, v.shape, frame);
  }
}

/** Bars across a drain, so that it is told from a plinth without colour. */
function drawGrate(c: Pen, scene: ZonesScene, shape: Job['voids'][string]['shape'], frame: Frame): void {
  if (shape.type !== 'line') return;
  const a = toScreen(scene.camera, scene.view, shape.a);
  const b = toScreen(scene.camera, scene.view, shape.b);
  const length = distance(a, b);
  const half = ((shape.widthM / frameScale(frame, shape.a)) * scene.camera.zoom) / 2;
  if (length < 12 || half < 1.5) return;
  const ux = (b.x - a.x) / length;
  const uy = (b.y - a.y) / length;
  c.beginPath();
  for (let d = 6; d < length; d += 6) {
    c.moveTo(a.x + ux * d - uy * half, a.y + uy * d + ux * half);
    c.lineTo(a.x + ux * d + uy * half, a.y + uy * d - ux * half);
  }
  c.lineWidth = 0.8;
  c.strokeStyle = INK;
  c.stroke();
}

/** Slab outlines in ink over the zones' own lines, and cuts dashed. */
function drawOutlines(c: Pen, scene: ZonesScene, part: Part): void {
  const { job, camera, view } = scene;
  const at = (p: Point) => toScreen(camera, view, p);
  for (const slab of Object.values(job.slabs)) {
    if (slab.sheetId !== scene.sheetId || !part.slab(slab.id)) continue;
    trace(c, [flattenRing(slabRing(job, slab), 0.3 / camera.zoom)], at);
    c.strokeStyle = INK;
    c.lineWidth = 1.8;
    c.stroke();
  }
}

function drawChosen(c: Pen, scene: ZonesScene, at: (p: Point) => Point): void {
  const { job } = scene;
  const ground = groundFrame(job, job.sheets[scene.sheetId]!);
  if (!ground) return;
  for (const zone of scene.zones) {
    if (zone.sheetId !== scene.sheetId || !scene.selected.zones.has(zone.id)) continue;
    trace(c, zone.netRings, (p) => at(fromFrame(ground, p)));
    c.strokeStyle = IN_HAND;
    c.lineWidth = 3;
    c.stroke();
  }
}

function drawSelectedCuts(c: Pen, scene: ZonesScene, at: (p: Point) => Point): void {
  const slabs = new Set([...scene.selected.cuts].map((id) => scene.job.cuts[id]?.slabId));
  if (slabs.size === 0) return;
  for (const zone of scene.zones) {
    const ground = groundFrame(scene.job, scene.job.sheets[scene.sheetId]!);
    if (!ground || !slabs.has(zone.slabId)) continue;
    for (const s of zone.stretches.filter((x) => x.kind === 'cut')) {
      trace(c, s.runs, (p) => at(fromFrame(ground, p)), false);
      c.strokeStyle = IN_HAND;
      c.lineWidth = 3.5;
      c.stroke();
    }
  }
}

/** Slabs of a sheet without a scale: outlines only, no numbers. */
function drawUnmeasured(c: Pen, scene: ZonesScene, part: Part): void {
  const at = (p: Point) => toScreen(scene.camera, scene.view, p);
  for (const slab of Object.values(scene.job.slabs)) {
    if (slab.sheetId !== scene.sheetId || !part.slab(slab.id)) continue;
    trace(c, [flattenRing(slabRing(scene.job, slab), 0.3 / scene.camera.zoom)], at);
    c.fillStyle = 'rgba(255, 255, 255, 0.5)';
    c.fill();
    c.strokeStyle = scene.selected.zones.has(slab.id) ? IN_HAND : INK;
    c.lineWidth = 2;
    c.setLineDash([8, 5]);
    c.stroke();
    c.setLineDash([]);
  }
}

/** Shorter sides than this have no room for any number. */
const LEAST_DIMENSIONED_PX = 20;

const DIMENSION_FONT = '500 12px system-ui, sans-serif';

/** Lengths along the sides of slabs, outside them, readable from below or from the right; once for a shared side. */
function drawDimensions(c: Pen, scene: ZonesScene, frame: Frame, part: Part): void {
  const { job, camera, view } = scene;
  const slabs = Object.values(job.slabs).filter((slab) => slab.sheetId === scene.sheetId);
  const drawn = slabs.filter((slab) => part.slab(slab.id));
  const owners = sideOwners(slabs, drawn);
  for (const slab of drawn) {
    const ring = slabRing(job, slab);
    const onGround = once(() => slabOnGround(job, slab, frame));
    const clockwise = once(() => screenTurn(sidesOf(ring).map((s) => toScreen(camera, view, s.a))) > 0);
    slab.corners.forEach((_, k) => {
      const side = sideOf(ring, k);
      const long = sideLength(side) * camera.zoom;
      if (long < LEAST_DIMENSIONED_PX || owners.get(sideKey(slab, k)) !== slab.id) return;
      const text = lengthNumber(sideLength(sideOf(onGround(), k)), scene.units);
      c.font = DIMENSION_FONT;
      if (long < c.measureText(text).width + 14) return;
      drawDimension(c, scene, side, text, clockwise() ? 1 : -1);
    });
  }
}

/** The slab that shows the length of each side of some slabs: the first of all that have it. */
function sideOwners(all: readonly Slab[], some: readonly Slab[]): ReadonlyMap<string, Id> {
  const corners = new Set(some.flatMap((slab) => slab.corners.map((c) => c.cornerId)));
  const owners = new Map<string, Id>();
  for (const slab of all) {
    slab.corners.forEach(({ cornerId }, k) => {
      if (!corners.has(cornerId)) return;
      const key = sideKey(slab, k);
      if (!owners.has(key)) owners.set(key, slab.id);
    });
  }
  return owners;
}

/** A side by the corners it runs between, whichever way. */
const sideKey = ({ corners }: Slab, k: number): string =>
  [corners[k]!.cornerId, corners[(k + 1) % corners.length]!.cornerId].sort().join(' ');

function screenTurn(points: readonly Point[]): number {
  let twice = 0;
  points.forEach((a, i) => {
    const b = points[(i + 1) % points.length]!;
    twice += a.x * b.y - a.y * b.x;
  });
  return twice;
}

function drawDimension(c: Pen, scene: ZonesScene, side: Side, text: string, outward: 1 | -1): void {
  const { camera, view } = scene;
  const at = toScreen(camera, view, pointOnSide(side, 0.5));
  const before = toScreen(camera, view, pointOnSide(side, 0.49));
  const after = toScreen(camera, view, pointOnSide(side, 0.51));
  let angle = Math.atan2(after.y - before.y, after.x - before.x);
  const away = { x: Math.sin(angle) * outward * 11, y: -Math.cos(angle) * outward * 11 };
  // Upside-down lettering is turned round; upright lettering reads from the right.
  if (angle > Math.PI / 2 - 1e-6) angle -= Math.PI;
  if (angle < -Math.PI / 2 - 1e-6) angle += Math.PI;
  c.save();
  c.translate(at.x + away.x, at.y + away.y);
  c.rotate(angle);
  c.font = DIMENSION_FONT;
  lettering(c, text, 0, 0, INK);
  c.restore();
}

function lettering(c: Pen, text: string, x: number, y: number, ink: string): void {
  c.textAlign = 'center';
  c.textBaseline = 'middle';
  c.lineJoin = 'round';
  c.lineWidth = 4;
  c.strokeStyle = PAPER;
  c.strokeText(text, x, y);
  c.fillStyle = ink;
  c.fillText(text, x, y);
}

const NAME_FONT = '650 14px system-ui, sans-serif';
const AREA_FONTS = ['500 14px system-ui, sans-serif', '500 11px system-ui, sans-serif'] as const;

/** Name and area where the zone is widest; what does not fit is smaller, or left out, the name first. */
function drawLabel(c: Pen, scene: ZonesScene, zone: ZoneTakeoff, at: (p: Point) => Point): void {
  if (!zone.label) return;
  const p = at(zone.label.point);
  const edge = at({ x: zone.label.point.x + zone.label.clearance, y: zone.label.point.y });
  const room = Math.abs(edge.x - p.x);
  const fits = (text: string, font: string, stretch = 1) => {
    c.font = font;
    return c.measureText(text).width / 2 <= room * stretch;
  };
  const area = areaText(zone.netArea.value, scene.units);
  // The last try may reach beyond the clear circle: zones are seldom round.
  const areaFont = fits(area, AREA_FONTS[0])
    ? AREA_FONTS[0]
    : fits(area, AREA_FONTS[1], 1.7)
      ? AREA_FONTS[1]
      : null;
  if (room < 7 || !areaFont) return;
  const lines = [{ text: area, font: areaFont as string }];
  const group = scene.group?.(zone).label;
  if (group && fits(group, areaFont, 1.4)) lines.push({ text: group, font: areaFont });
  if (fits(zone.name, NAME_FONT) && room > 22) lines.unshift({ text: zone.name, font: NAME_FONT });
  const ink = scene.selected.zones.has(zone.id) ? IN_HAND : INK;
  lines.forEach(({ text, font }, i) => {
    c.font = font;
    lettering(c, text, p.x, p.y + (i - (lines.length - 1) / 2) * 17, ink);
  });
}
