import type { Id, Void } from '../../job/types.ts';
import type { ZoneTakeoff } from '../../takeoff/zone.ts';
import type { Camera, View } from '../camera.ts';
import { drawOverZones, drawZones, type Part, type ZonesScene } from './draw-zones.ts';

type Pen = CanvasRenderingContext2D;
type Still = Omit<ZonesScene, 'camera' | 'view' | 'ratio'>;

/** How far beyond the view the plate reaches, as a share of the view on each side. */
const MARGIN = 0.25;

/** Slabs in motion that are drawn over the plate; when there are more, all is drawn anew. */
const MOST_LOOSE = 40;

/** With fewer zones than this a zoom draws all of them anew; with more the plate is stretched until the zoom rests. */
const FEW_ZONES = 120;
const REST_MS = 140;

/**
 * Keeps the zones drawn on a canvas of their own, somewhat larger than the view, so that panning moves one picture and
 * dragging draws only what changes over it.
 */
export class Plate {
  private canvas: HTMLCanvasElement | null = null;
  private camera: Camera | null = null;
  private view: View | null = null;
  private scene: Still | null = null;
  private seen = new Map<Id, readonly unknown[]>();
  private looseSlabs: ReadonlySet<Id> = new Set();
  private looseVoids: ReadonlySet<Id> = new Set();
  /** What is selected, where that is too much to be drawn over the plate and lies on it; else null. */
  private plateSelected: Still['selected'] | null = null;
  private resting: ReturnType<typeof setTimeout> | null = null;

  /** @param redraw is called when the plate was stretched for long enough */
  constructor(private readonly redraw: () => void) {}

  /** Draws a scene: what did not change comes from the plate. */
  draw(c: Pen, scene: Still, camera: Camera, view: View, ratio: number): void {
    const holds = this.holds(scene, view);
    const zooms = this.camera !== null && this.camera.zoom !== camera.zoom;
    const stretched = holds && zooms && scene.zones.length >= FEW_ZONES && this.resting !== null;
    if (!holds || !this.covers(camera, view, zooms && !stretched)) this.remake(scene, camera, view, ratio);
    if (zooms && scene.zones.length >= FEW_ZONES) this.rest();
    this.put(c, camera, view, ratio);
    const loose = this.loosePart();
    const whole = { ...scene, camera, view, ratio };
    if (this.looseSlabs.size + this.looseVoids.size > 0) drawZones(c, whole, loose);
    drawOverZones(c, whole);
  }

  /** Forgets the plate; the next drawing makes it anew. */
  drop(): void {
    if (this.resting) clearTimeout(this.resting);
    this.canvas = null;
    this.scene = null;
  }

  private loosePart(): Part {
    return {
      slab: (id) => this.looseSlabs.has(id),
      void: (id) => this.looseVoids.has(id),
    };
  }

  private rest(): void {
    if (this.resting) clearTimeout(this.resting);
    this.resting = setTimeout(() => {
      this.resting = null;
      this.drop();
      this.redraw();
    }, REST_MS);
  }

  /** Whether all that is not as the plate shows it is what the plate leaves out. */
  private holds(scene: Still, view: View): boolean {
    const was = this.scene;
    if (!was || was.sheetId !== scene.sheetId || was.units !== scene.units) return false;
    if (
      this.view?.yUp !== view.yUp ||
      was.job.sheets[was.sheetId]?.fit !== scene.job.sheets[scene.sheetId]?.fit
    )
      return false;
    if (hasUnmeasured(scene) && !(was.job === scene.job && was.selected === scene.selected)) return false;
    if (this.plateSelected !== null && this.plateSelected !== scene.selected) return false;
    const { slabs, voids } = this.changedSince(scene, this.plateSelected === null);
    for (const id of slabs) if (!this.looseSlabs.has(id)) return false;
    for (const id of voids) if (!this.looseVoids.has(id)) return false;
    return true;
  }

  private changedSince(
    scene: Still,
    withSelected: boolean,
  ): { readonly slabs: Set<Id>; readonly voids: Set<Id> } {
    const slabs = new Set<Id>();
    const now = new Set<Id>();
    for (const zone of scene.zones) {
      if (zone.sheetId !== scene.sheetId) continue;
      now.add(zone.id);
      if (!alike(this.seen.get(zone.id), looksOf(zone, scene))) slabs.add(zone.slabId);
    }
    for (const [id, [slabId]] of this.seen) if (!now.has(id)) slabs.add(slabId as Id);
    const voids = changedEntries(this.scene?.job.voids ?? {}, scene.job.voids);
    if (withSelected) {
      for (const zone of scene.zones) if (scene.selected.zones.has(zone.id)) slabs.add(zone.slabId);
      for (const id of scene.selected.voids) voids.add(id);
    }
    return { slabs, voids };
  }

  /** Whether the plate shows all that the view sees. */
  private covers(camera: Camera, view: View, zoomed: boolean): boolean {
    if (!this.canvas || !this.camera || !this.view || zoomed) return false;
    if (this.view.width !== view.width || this.view.height !== view.height) return false;
    if (this.camera.zoom !== camera.zoom) return true;
    const { dx, dy } = this.offset(camera, view);
    return Math.abs(dx) <= view.width * MARGIN && Math.abs(dy) <= view.height * MARGIN;
  }

  /** How far the plate has moved on the screen since it was drawn. */
  private offset(camera: Camera, view: View): { readonly dx: number; readonly dy: number } {
    const was = this.camera!;
    return {
      dx: (was.centre.x - camera.centre.x) * camera.zoom,
      dy: (was.centre.y - camera.centre.y) * camera.zoom * (view.yUp ? -1 : 1),
    };
  }

  private remake(scene: Still, camera: Camera, view: View, ratio: number): void {
    const changed: { readonly slabs: ReadonlySet<Id>; readonly voids: ReadonlySet<Id> } = this.scene
      ? this.changedSince(scene, true)
      : { slabs: new Set(), voids: new Set() };
    const few = changed.slabs.size + changed.voids.size <= MOST_LOOSE;
    this.plateSelected = few ? null : scene.selected;
    this.looseSlabs = few ? changed.slabs : new Set();
    const inLoose = scene.zones
      .filter((z) => this.looseSlabs.has(z.slabId))
      .flatMap((z) => z.voids.map((v) => v.id));
    this.looseVoids = new Set([...(few ? changed.voids : []), ...inLoose]);
    this.seen = new Map(
      scene.zones.filter((z) => z.sheetId === scene.sheetId).map((z) => [z.id, looksOf(z, scene)]),
    );
    this.scene = scene;
    this.camera = camera;
    this.view = view;
    const [mx, my] = [Math.ceil(view.width * MARGIN), Math.ceil(view.height * MARGIN)];
    const canvas = this.canvas ?? document.createElement('canvas');
    canvas.width = Math.round((view.width + 2 * mx) * ratio);
    canvas.height = Math.round((view.height + 2 * my) * ratio);
    this.canvas = canvas;
    const pen = canvas.getContext('2d')!;
    pen.setTransform(ratio, 0, 0, ratio, 0, 0);
    const wide = { ...view, width: view.width + 2 * mx, height: view.height + 2 * my };
    const fixed: Part = {
      slab: (id) => !this.looseSlabs.has(id),
      void: (id) => !this.looseVoids.has(id),
    };
    drawZones(pen, { ...scene, camera, view: wide, ratio }, fixed);
  }

  /** Puts the plate where the camera sees it, on whole pixels so that it stays sharp. */
  private put(c: Pen, camera: Camera, view: View, ratio: number): void {
    const canvas = this.canvas!;
    const was = this.camera!;
    const grow = camera.zoom / was.zoom;
    const { dx, dy } = this.offset(camera, view);
    const [w, h] = [(canvas.width / ratio) * grow, (canvas.height / ratio) * grow];
    const whole = (v: number) => (grow === 1 ? Math.round(v * ratio) / ratio : v);
    c.drawImage(canvas, whole((view.width - w) / 2 + dx), whole((view.height - h) / 2 + dy), w, h);
  }
}

/** Whether slabs are drawn that have no zones: without a scale, or beyond the horizon of a photo. */
function hasUnmeasured({ job, sheetId, zones }: Still): boolean {
  const measured = new Set(zones.map((z) => z.slabId));
  return Object.values(job.slabs).some((s) => s.sheetId === sheetId && !measured.has(s.id));
}

/** What of a zone is seen; its slab goes first. */
const looksOf = (zone: ZoneTakeoff, { group }: Still): readonly unknown[] => [
  zone.slabId,
  zone.netRings,
  zone.label,
  zone.name,
  zone.netArea.value,
  zone.surface.texture,
  zone.surface.traffic,
  group?.(zone).tint,
  group?.(zone).label,
];

const alike = (a: readonly unknown[] | undefined, b: readonly unknown[]): boolean =>
  a?.every((x, i) => x === b[i]) === true;

function changedEntries(was: Readonly<Record<Id, Void>>, now: Readonly<Record<Id, Void>>): Set<Id> {
  if (was === now) return new Set();
  const ids = new Set([...Object.keys(was), ...Object.keys(now)]);
  return new Set([...ids].filter((id) => was[id] !== now[id]));
}
