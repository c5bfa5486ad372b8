import type { Texture } from '../../job/types.ts';
import { INK } from './palette.ts';

/**
 * One drafting pattern for each texture: trowelled is plain, brooms are fine or wide lines, stipple dots, exposed
 * aggregate small rounded stones. Tiles are in screen pixels, so the hatch keeps its size at every zoom.
 */
const TILE: Readonly<Record<Texture, number>> = {
  trowelled: 0,
  'light-broom': 8,
  'heavy-broom': 18,
  stipple: 14,
  'exposed-aggregate': 26,
};

const tiles = new Map<string, HTMLCanvasElement>();

/** The pattern for a texture, moved with the sheet; null where there is none. */
export function hatchPattern(
  c: CanvasRenderingContext2D,
  texture: Texture,
  ratio: number,
  offset: { readonly x: number; readonly y: number },
): CanvasPattern | null {
  const size = TILE[texture];
  if (size === 0) return null;
  const key = `${texture} ${ratio}`;
  let tile = tiles.get(key);
  if (!tile) {
    tile = document.createElement('canvas');
    tile.width = Math.round(size * ratio);
    tile.height = Math.round(size * ratio);
    const t = tile.getContext('2d')!;
    t.scale(tile.width / size, tile.height / size);
    drawTile(t, texture, size);
    tiles.set(key, tile);
  }
  const pattern = c.createPattern(tile, 'repeat');
  pattern?.setTransform(
    new DOMMatrix().translate(offset.x % size, offset.y % size).scale(size / tile.width, size / tile.height),
  );
  return pattern;
}

function drawTile(t: CanvasRenderingContext2D, texture: Texture, size: number): void {
  t.strokeStyle = INK;
  t.fillStyle = INK;
  t.globalAlpha = 0.5;
  switch (texture) {
    case 'light-broom':
    case 'heavy-broom':
      t.lineWidth = texture === 'light-broom' ? 0.8 : 2.4;
      // Three parallels, so that the corners of the tile are whole where tiles meet.
      for (const shift of [-size, 0, size]) {
        t.beginPath();
        t.moveTo(-2, size + 2 + shift);
        t.lineTo(size + 2, -2 + shift);
        t.stroke();
      }
      break;
    case 'stipple':
      for (const [x, y] of [
        [0.25, 0.25],
        [0.75, 0.75],
      ] as const) {
        t.beginPath();
        t.arc(x * size, y * size, 1.5, 0, 2 * Math.PI);
        t.fill();
      }
      break;
    case 'exposed-aggregate':
      t.lineWidth = 1.1;
      for (const [x, y, rx, ry, turn] of [
        [0.25, 0.22, 4.6, 3.2, 0.4],
        [0.72, 0.36, 3.4, 2.8, 1.2],
        [0.34, 0.7, 3.2, 4.2, 0.2],
        [0.78, 0.8, 4, 2.8, 2.4],
      ] as const) {
        t.beginPath();
        t.ellipse(x * size, y * size, rx, ry, turn, 0, 2 * Math.PI);
        t.stroke();
      }
      break;
    case 'trowelled':
      break;
  }
}
