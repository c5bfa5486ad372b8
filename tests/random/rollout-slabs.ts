import type { Edit } from '../../src/job/edits/index.ts';
import { DEFAULT_SURFACE, emptyJob, type Job, TEXTURES } from '../../src/job/types.ts';
import { edited } from '../coating/scene.ts';

type Random = () => number;
const between = (random: Random, low: number, high: number) => low + (high - low) * random();

/** Corners of an awkward slab: a rectangle, an L, a U, a fan, or one with a neck. */
function outline(random: Random): Array<readonly [number, number]> {
  const [w, h] = [between(random, 2, 12), between(random, 2, 9)];
  const kind = Math.floor(random() * 5);
  const t = between(random, 0.25, 0.75);
  const u = between(random, 0.25, 0.75);
  switch (kind) {
    case 0:
      return [
        [0, 0],
        [w, 0],
        [w, h],
        [0, h],
      ];
    case 1:
      return [
        [0, 0],
        [w, 0],
        [w, h * u],
        [w * t, h * u],
        [w * t, h],
        [0, h],
      ];
    case 2:
      return [
        [0, 0],
        [w, 0],
        [w, h],
        [w * 0.7, h],
        [w * 0.7, h * u],
        [w * 0.3, h * u],
        [w * 0.3, h],
        [0, h],
      ];
    case 3: {
      const n = 5 + Math.floor(random() * 6);
      return Array.from({ length: n }, (_, i) => {
        const a = (2 * Math.PI * i) / n;
        const r = between(random, 0.6, 1) * (w / 2);
        return [r * Math.cos(a), r * Math.sin(a)] as const;
      });
    }
    default: {
      // Two rooms and a neck between them, sometimes too narrow.
      const neck = between(random, 0.2, 1.6);
      return [
        [0, 0],
        [w, 0],
        [w, h],
        [w * 0.6, h],
        [w * 0.6, h + 1],
        [w, h + 1],
        [w, 2 * h],
        [0, 2 * h],
        [0, h + 1],
        [w * 0.6 - neck, h + 1],
        [w * 0.6 - neck, h],
        [0, h],
      ];
    }
  }
}

/** One random slab on a grid with voids, and one or two of its sides marked as ways out. */
export function randomSlab(random: Random): Job {
  const corners = outline(random);
  const turn = random() < 0.5 ? 0 : between(random, 0, Math.PI);
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  const placed = corners.map(([x, y], i) => ({ id: `c${i}`, x: c * x - s * y, y: s * x + c * y, via: null }));
  const edits: Edit[] = [
    { type: 'add-sheet', args: { id: 'g', name: 'Grid', picture: null, fit: { kind: 'metric' } } },
    {
      type: 'add-slab',
      args: {
        id: 'a',
        name: 'A',
        sheetId: 'g',
        corners: placed,
        surface: { ...DEFAULT_SURFACE, texture: TEXTURES[Math.floor(random() * TEXTURES.length)]! },
      },
    },
  ];
  const exits = 1 + Math.floor(random() * 2);
  for (let k = 0; k < exits; k++) {
    const cornerId = `c${Math.floor(random() * placed.length)}`;
    edits.push({ type: 'update-side', args: { slabId: 'a', cornerId, exit: true } });
  }
  const voids = Math.floor(random() * 5);
  const box = { x: placed.map((p) => p.x), y: placed.map((p) => p.y) };
  for (let k = 0; k < voids; k++) {
    const centre = {
      x: between(random, Math.min(...box.x), Math.max(...box.x)),
      y: between(random, Math.min(...box.y), Math.max(...box.y)),
    };
    edits.push({
      type: 'add-void',
      args: {
        id: `v${k}`,
        name: `V${k}`,
        kind: 'pit',
        sheetId: 'g',
        shape:
          random() < 0.5
            ? { type: 'circle', centre, radiusM: between(random, 0.05, 0.8) }
            : {
                type: 'rectangle',
                centre,
                lengthM: between(random, 0.1, 2),
                widthM: between(random, 0.1, 1.5),
                angleRad: between(random, 0, 3),
              },
      },
    });
  }
  return edited(emptyJob('j', 'Job'), ...edits);
}
