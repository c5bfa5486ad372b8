import { mkdirSync } from 'node:fs';
import { dirname } from 'node:path';
import sharp from 'sharp';
import type { Edit } from '../../src/job/edits/index.ts';
import { build, INVENTED, pictureFile, save } from './scenario.ts';

const W = 1600;
const H = 1200;
const FOCAL = 950;
/** The camera: 1.7 m up, looking 38° down; the ground's y axis runs away from it. */
const UP = 1.7;
const PITCH = (38 * Math.PI) / 180;
const COS = Math.cos(PITCH);
const SIN = Math.sin(PITCH);

/** Patio 3.60 m × 2.70 m, and on it a chequered mat of 1.00 m × 1.00 m, eight squares a side; all in metres. */
const PATIO = { x0: -1.8, x1: 1.8, y0: 1.6, y1: 4.3 };
const MAT = { x0: -0.6, y0: 2.1, size: 1 };

/** Where a ground point is seen. */
function seen(x: number, y: number): { x: number; y: number } {
  const depth = y * COS + UP * SIN;
  const down = UP * COS - y * SIN;
  return { x: W / 2 + (FOCAL * x) / depth, y: H / 2 + (FOCAL * down) / depth };
}

/** The ground point that a pixel sees, or null above the horizon. */
function ground(px: number, py: number): { x: number; y: number } | null {
  const u = (px - W / 2) / FOCAL;
  const v = (py - H / 2) / FOCAL;
  const fall = v * COS + SIN;
  if (fall <= 0.02) return null;
  const t = UP / fall;
  return { x: u * t, y: t * (COS - v * SIN) };
}

/** A steady pseudo-random shade for a place, so that the picture is the same each time. */
function grain(x: number, y: number): number {
  let h = Math.imul(Math.floor(x), 374761393) ^ Math.imul(Math.floor(y), 668265263);
  h = Math.imul(h ^ (h >>> 13), 1274126177);
  return ((h ^ (h >>> 16)) >>> 0) / 2 ** 32 - 0.5;
}

function shade(p: { x: number; y: number } | null): [number, number, number] {
  if (!p) return [188, 205, 216];
  const { x, y } = p;
  const rough = grain(x * 300, y * 300) * 16 + grain(x * 40, y * 40) * 10;
  const u = (x - MAT.x0) / MAT.size;
  const v = (y - MAT.y0) / MAT.size;
  if (u >= 0 && u < 1 && v >= 0 && v < 1) {
    const dark = (Math.floor(u * 8) + Math.floor(v * 8)) % 2 === 0;
    return dark ? [38, 40, 44] : [236, 234, 226];
  }
  const onPatio = x >= PATIO.x0 && x < PATIO.x1 && y >= PATIO.y0 && y < PATIO.y1;
  if (onPatio) {
    const broom = Math.sin(x * 260) * 5;
    return [172 + rough + broom, 169 + rough + broom, 161 + rough + broom];
  }
  return [92 + rough * 1.6, 118 + rough * 1.8, 70 + rough];
}

async function draw(file: string): Promise<void> {
  const pixels = Buffer.alloc(W * H * 3);
  for (let py = 0; py < H; py++) {
    for (let px = 0; px < W; px++) {
      const [r, g, b] = shade(ground(px + 0.5, py + 0.5));
      const i = (py * W + px) * 3;
      pixels[i] = Math.max(0, Math.min(255, r));
      pixels[i + 1] = Math.max(0, Math.min(255, g));
      pixels[i + 2] = Math.max(0, Math.min(255, b));
    }
  }
  await sharp(pixels, { raw: { width: W, height: H, channels: 3 } })
    .jpeg({ quality: 80 })
    .toFile(file);
}

/** A photo taken at an angle; one scale holds only near the mat. */
export async function drawPatioPhoto(): Promise<void> {
  const file = pictureFile('patio-photo', 'photo.jpg');
  mkdirSync(dirname(file), { recursive: true });
  await draw(file);
  const corners = [
    [PATIO.x0, PATIO.y0],
    [PATIO.x1, PATIO.y0],
    [PATIO.x1, PATIO.y1],
    [PATIO.x0, PATIO.y1],
  ] as const;
  const middle = MAT.y0 + MAT.size / 2;
  const edits: Edit[] = [
    {
      type: 'add-sheet',
      args: {
        id: 'photo',
        name: 'Patio photo',
        picture: { imageId: 'photo-picture', widthPx: W, heightPx: H },
        fit: {
          kind: 'scale',
          lengths: [{ a: seen(MAT.x0, middle), b: seen(MAT.x0 + MAT.size, middle), lengthM: MAT.size }],
          reach: {
            distanceM: 0.7,
            reason: 'the photo was taken at an angle, and one scale holds only near the mat',
          },
        },
      },
    },
    {
      type: 'add-slab',
      args: {
        id: 'patio',
        name: 'Patio',
        sheetId: 'photo',
        corners: corners.map(([x, y], k) => ({ id: `p${k + 1}`, ...seen(x, y), via: null })),
        surface: {
          texture: 'light-broom',
          traffic: 'foot',
          condition: 'bare',
          systemId: 'water-borne-paving',
          colour: 'sand',
          grip: false,
        },
      },
    },
  ];
  const note = `${INVENTED} The patio was drawn 3.60 m by 2.70 m, the mat 1.00 m square.`;
  save('patio-photo', build('demo-patio-photo', 'Fernhollow Workshop: patio photo', note, edits), {
    'photo-picture': { type: 'image/jpeg', file: 'photo.jpg' },
  });
}
