import { PAPER, QUIET, TRAFFIC_TINTS, tintOver } from '../../drafting/inks.ts';
import type { Texture, Traffic } from '../../job/types.ts';
import { hatchPattern } from './hatch.ts';

const WIDTH = 44;
const HEIGHT = 24;

/** A small picture of a hatch or tint as the board draws it, as a data address. */
export function swatch(what: { readonly texture: Texture } | { readonly traffic: Traffic }): string {
  const canvas = document.createElement('canvas');
  canvas.width = WIDTH * 2;
  canvas.height = HEIGHT * 2;
  const c = canvas.getContext('2d')!;
  c.scale(2, 2);
  c.fillStyle = PAPER;
  c.fillRect(0, 0, WIDTH, HEIGHT);
  if ('traffic' in what) c.fillStyle = tintOver(TRAFFIC_TINTS[what.traffic]);
  else c.fillStyle = hatchPattern(c, what.texture, 2, { x: 0, y: 0 }) ?? PAPER;
  c.fillRect(0, 0, WIDTH, HEIGHT);
  c.strokeStyle = QUIET;
  c.strokeRect(0.5, 0.5, WIDTH - 1, HEIGHT - 1);
  return canvas.toDataURL();
}
