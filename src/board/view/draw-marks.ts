import { INK, PAPER } from '../../drafting/inks.ts';
import { lengthText, type UnitSystem } from '../../units/format.ts';
import { type Camera, toScreen, type View } from '../camera.ts';
import type { Mark } from '../tools/tool.ts';
import { GUIDE, IN_HAND } from './palette.ts';

/** Draws a tool's marks without knowing the tool. Screen pixels. */
export function drawMarks(
  c: CanvasRenderingContext2D,
  marks: readonly Mark[],
  camera: Camera,
  view: View,
  units: UnitSystem,
): void {
  for (const mark of marks) {
    switch (mark.kind) {
      case 'line': {
        c.beginPath();
        mark.points.forEach((p, i) => {
          const q = toScreen(camera, view, p);
          if (i === 0) c.moveTo(q.x, q.y);
          else c.lineTo(q.x, q.y);
        });
        c.setLineDash(mark.style === 'guide' ? [5, 5] : []);
        c.strokeStyle = mark.style === 'guide' ? GUIDE : IN_HAND;
        c.lineWidth = mark.style === 'hand' ? 2.5 : 1.5;
        c.stroke();
        c.setLineDash([]);
        break;
      }
      case 'circle': {
        const q = toScreen(camera, view, mark.centre);
        c.beginPath();
        c.arc(q.x, q.y, Math.max(mark.radius * camera.zoom, 1), 0, 2 * Math.PI);
        c.strokeStyle = IN_HAND;
        c.lineWidth = 2;
        c.stroke();
        break;
      }
      case 'dot':
        drawDot(c, toScreen(camera, view, mark.at), mark.style);
        break;
      case 'measure': {
        const a = toScreen(camera, view, mark.a);
        const b = toScreen(camera, view, mark.b);
        if (Math.hypot(b.x - a.x, b.y - a.y) > 30) {
          plate(c, lengthText(mark.lengthM, units), (a.x + b.x) / 2, (a.y + b.y) / 2 - 14, IN_HAND);
        }
        break;
      }
      case 'note': {
        const q = toScreen(camera, view, mark.at);
        plate(c, mark.text, q.x, q.y + 24, GUIDE);
        break;
      }
    }
  }
}

type DotStyle = Extract<Mark, { kind: 'dot' }>['style'];

const RADIUS: Readonly<Record<DotStyle, number>> = { corner: 4, start: 7, snap: 6, handle: 7, middle: 5 };

function drawDot(c: CanvasRenderingContext2D, q: { x: number; y: number }, style: DotStyle): void {
  c.beginPath();
  c.arc(q.x, q.y, RADIUS[style], 0, 2 * Math.PI);
  c.fillStyle = style === 'corner' ? IN_HAND : PAPER;
  c.fill();
  c.lineWidth = style === 'middle' ? 1.5 : 2.5;
  c.strokeStyle = style === 'middle' ? INK : IN_HAND;
  c.stroke();
}

function plate(c: CanvasRenderingContext2D, text: string, x: number, y: number, ink: string): void {
  c.font = '600 13px system-ui, sans-serif';
  c.textAlign = 'center';
  c.textBaseline = 'middle';
  const width = c.measureText(text).width + 10;
  c.fillStyle = 'rgba(255, 255, 255, 0.92)';
  c.fillRect(x - width / 2, y - 10, width, 20);
  c.fillStyle = ink;
  c.fillText(text, x, y);
}
