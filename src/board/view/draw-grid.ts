import { QUIET } from '../../drafting/inks.ts';
import { tr } from '../../words/tr.ts';
import { type Camera, toScreen, toSheet, type View } from '../camera.ts';
import { GRID_BOLD, GRID_FINE } from './palette.ts';

const STEPS_M = [0.1, 0.5, 1, 5, 10, 50, 100, 500, 1000];

/** A blank metric grid; the bold lines say how far apart they are. */
export function drawGrid(c: CanvasRenderingContext2D, camera: Camera, view: View): void {
  const fine = STEPS_M.find((step) => step * camera.zoom >= 14) ?? 1000;
  const bold = STEPS_M.find((step) => step > fine) ?? 5000;
  const low = toSheet(camera, view, { x: 0, y: view.height });
  const high = toSheet(camera, view, { x: view.width, y: 0 });
  for (const [step, ink] of [
    [fine, GRID_FINE],
    [bold, GRID_BOLD],
  ] as const) {
    c.beginPath();
    for (let x = Math.ceil(low.x / step) * step; x <= high.x; x += step) {
      const q = toScreen(camera, view, { x, y: 0 });
      c.moveTo(Math.round(q.x) + 0.5, 0);
      c.lineTo(Math.round(q.x) + 0.5, view.height);
    }
    for (let y = Math.ceil(low.y / step) * step; y <= high.y; y += step) {
      const q = toScreen(camera, view, { x: 0, y });
      c.moveTo(0, Math.round(q.y) + 0.5);
      c.lineTo(view.width, Math.round(q.y) + 0.5);
    }
    c.strokeStyle = ink;
    c.lineWidth = 1;
    c.stroke();
  }
  c.font = '500 12px system-ui, sans-serif';
  c.textAlign = 'right';
  c.textBaseline = 'bottom';
  c.fillStyle = QUIET;
  c.fillText(tr`grid ${bold} m`, view.width - 8, view.height - 6);
}
