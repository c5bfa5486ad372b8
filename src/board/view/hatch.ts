import { HATCH_OPACITY, HATCHES, type Hatch } from '../../drafting/hatches.ts';
import { INK } from '../../drafting/inks.ts';
import type { Texture } from '../../job/types.ts';

const tiles = new Map<string, HTMLCanvasElement>();

/** The pattern for a texture, moved with the sheet, the same size at every zoom; null where there is none. */
export function hatchPattern(
  c: CanvasRenderingContext2D,
  texture: Texture,
  ratio: number,
  offset: { readonly x: number; readonly y: number },
): CanvasPattern | null {
  const hatch = HATCHES[texture];
  if (!hatch) return null;
  const { size } = hatch;
  const key = `${texture} ${ratio}`;
  let tile = tiles.get(key);
  if (!tile) {
    tile = document.createElement('canvas');
    tile.width = Math.round(size * ratio);
    tile.height = Math.round(size * ratio);
    const t = tile.getContext('2d')!;
    t.scale(tile.width / size, tile.height / size);
    drawTile(t, hatch);
    tiles.set(key, tile);
  }
  const pattern = c.createPattern(tile, 'repeat');
  pattern?.setTransform(
    new DOMMatrix().translate(offset.x % size, offset.y % size).scale(size / tile.width, size / tile.height),
  );
  return pattern;
}

function drawTile(t: CanvasRenderingContext2D, { size, diagonal, dots, stones }: Hatch): void {
  t.strokeStyle = INK;
  t.fillStyle = INK;
  t.globalAlpha = HATCH_OPACITY;
  if (diagonal) {
    t.lineWidth = diagonal;
    // Three parallels, so that the corners of the tile are whole where tiles meet.
    for (const shift of [-size, 0, size]) {
      t.beginPath();
      t.moveTo(-2, size + 2 + shift);
      t.lineTo(size + 2, -2 + shift);
      t.stroke();
    }
  }
  for (const [x, y] of dots?.at ?? []) {
    t.beginPath();
    t.arc(x, y, dots!.radius, 0, 2 * Math.PI);
    t.fill();
  }
  for (const { x, y, rx, ry, turnRad } of stones?.at ?? []) {
    t.lineWidth = stones!.line;
    t.beginPath();
    t.ellipse(x, y, rx, ry, turnRad, 0, 2 * Math.PI);
    t.stroke();
  }
}
