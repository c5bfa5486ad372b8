import type { Box, Point } from '../../geometry/index.ts';
import type { SheetPoint } from '../units/types.ts';

/** What part of a sheet is seen: its middle, and screen pixels per sheet unit. */
export interface Camera {
  readonly centre: SheetPoint;
  readonly zoom: number;
}

/** The window that looks at the sheet, in CSS pixels, and whether the sheet's y runs up. */
export interface View {
  readonly width: number;
  readonly height: number;
  readonly yUp: boolean;
}

const MIN_ZOOM = 1e-4;
const MAX_ZOOM = 1e5;

const ySign = (view: View): number => (view.yUp ? -1 : 1);

/** Where a sheet point is on the screen. */
export const toScreen = (camera: Camera, view: View, p: SheetPoint): Point => ({
  x: (p.x - camera.centre.x) * camera.zoom + view.width / 2,
  y: (p.y - camera.centre.y) * camera.zoom * ySign(view) + view.height / 2,
});

/** The sheet point under a screen point. */
export const toSheet = (camera: Camera, view: View, p: Point): SheetPoint => ({
  x: (p.x - view.width / 2) / camera.zoom + camera.centre.x,
  y: ((p.y - view.height / 2) / camera.zoom) * ySign(view) + camera.centre.y,
});

/** Moves the sheet by a distance on the screen. */
export const pan = (camera: Camera, view: View, dx: number, dy: number): Camera => ({
  ...camera,
  centre: {
    x: camera.centre.x - dx / camera.zoom,
    y: camera.centre.y - (dy / camera.zoom) * ySign(view),
  },
});

/** Zooms so that what lies under a screen point stays under it. */
export function zoomAt(camera: Camera, view: View, at: Point, factor: number): Camera {
  const zoom = Math.min(MAX_ZOOM, Math.max(MIN_ZOOM, camera.zoom * factor));
  const held = toSheet(camera, view, at);
  const now = toSheet({ ...camera, zoom }, view, at);
  return { zoom, centre: { x: camera.centre.x + held.x - now.x, y: camera.centre.y + held.y - now.y } };
}

/** Shows a whole box with a margin in screen pixels. */
export function fitBox(box: Box, view: View, margin = 40): Camera {
  const width = Math.max(box.maxX - box.minX, 1e-6);
  const height = Math.max(box.maxY - box.minY, 1e-6);
  const room = (size: number) => Math.max(size - 2 * margin, size / 2, 1);
  return {
    centre: { x: (box.minX + box.maxX) / 2, y: (box.minY + box.maxY) / 2 },
    zoom: Math.min(room(view.width) / width, room(view.height) / height),
  };
}
