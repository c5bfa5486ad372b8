import { applyEdit, type Edit } from '../../src/job/edits/index.ts';
import { DEFAULT_SURFACE, emptyJob, type Job, TEXTURES, type Texture } from '../../src/job/types.ts';
import { normal } from '../random/numbers.ts';

/** A stream of numbers in 0…1. */
type Random = () => number;

/** A job as it was measured, and what is true of it and nobody knows. */
export interface SyntheticJob {
  readonly job: Job;
  /** Area of each slab on the ground, by the shoelace, m². */
  readonly trueAreas: ReadonlyMap<string, number>;
  /** What a texture's first and later coats really take more than a smooth one, for this painter. */
  readonly trueMultiplier: (texture: Texture, coat: 'first' | 'later') => number;
  /** One coat of one zone's own luck. */
  readonly luck: (zone: string, role: string) => number;
}

/** What the product assumes of the world, and how far the world keeps to it. */
export interface World {
  readonly multiplier: Readonly<Record<string, readonly [first: number, later: number, spread: number]>>;
  readonly zoneSpread: number;
  readonly trialSpread: number;
  /** 1 where the world is as uncertain as the product thinks; more where it is worse. */
  readonly worse: number;
}

const TAP_PX = 1.5;
const PX_PER_M = 60;

const between = (random: Random, low: number, high: number) => low + (high - low) * random();

/** An L or a rectangle, as corners in metres. */
function outline(random: Random, x0: number): Array<readonly [number, number]> {
  const w = between(random, 3, 14);
  const h = between(random, 2.5, 10);
  if (random() < 0.5) {
    return [
      [x0, 0],
      [x0 + w, 0],
      [x0 + w, h],
      [x0, h],
    ];
  }
  const a = w * between(random, 0.3, 0.7);
  const b = h * between(random, 0.3, 0.7);
  return [
    [x0, 0],
    [x0 + w, 0],
    [x0 + w, b],
    [x0 + a, b],
    [x0 + a, h],
    [x0, h],
  ];
}

const shoelace = (ring: ReadonlyArray<readonly [number, number]>) =>
  ring.reduce((sum, [x, y], i) => {
    const [u, v] = ring[(i + 1) % ring.length]!;
    return sum + x * v - u * y;
  }, 0) / 2;

/** A job of one to four slabs, traced by shaky fingers on a picture with a scale that is a little off. */
export function syntheticJob(random: Random, world: World): SyntheticJob {
  const trueAreas = new Map<string, number>();
  // The known length is a 5 m tape between two taps; points are tapped.
  const scale = 1 + normal(random) * Math.hypot(0.0021 / 5, (Math.SQRT2 * TAP_PX) / PX_PER_M / 5);
  const edits: Edit[] = [
    {
      type: 'add-sheet',
      args: {
        id: 's',
        name: 'Plan',
        picture: { imageId: 'p', widthPx: 6000, heightPx: 2000 },
        fit: {
          kind: 'scale',
          lengths: [{ a: { x: 0, y: 0 }, b: { x: 5 * PX_PER_M, y: 0 }, lengthM: 5 * scale }],
          reach: null,
        },
      },
    },
  ];
  const slabs = 1 + Math.floor(random() * 4);
  const systemId = random() < 0.5 ? 'water-borne-paving' : 'solvent-borne-paving';
  for (let k = 0; k < slabs; k++) {
    const ring = outline(random, k * 20);
    trueAreas.set(`slab${k}`, shoelace(ring));
    edits.push({
      type: 'add-slab',
      args: {
        id: `slab${k}`,
        name: `Slab ${k}`,
        sheetId: 's',
        corners: ring.map(([x, y], i) => ({
          id: `c${k}-${i}`,
          x: x * PX_PER_M + normal(random) * TAP_PX,
          y: 1800 - y * PX_PER_M + normal(random) * TAP_PX,
          via: null,
        })),
        surface: {
          ...DEFAULT_SURFACE,
          systemId,
          texture: TEXTURES[Math.floor(random() * TEXTURES.length)]!,
          traffic: random() < 0.5 ? 'foot' : 'cars',
          condition: random() < 0.7 ? 'bare' : 'painted',
        },
      },
    });
  }
  const multipliers = new Map<string, number>();
  for (const texture of TEXTURES) {
    const [first, later, spread] = world.multiplier[texture]!;
    multipliers.set(`${texture} first`, first * Math.exp(normal(random) * spread * world.worse));
    multipliers.set(`${texture} later`, later * Math.exp(normal(random) * spread * world.worse));
  }
  edits.push(...trials(random, world, multipliers));
  let job = emptyJob('job', 'Synthetic');
  for (const edit of edits) {
    const next = applyEdit(job, edit);
    if (!next.ok) throw new Error(`${edit.type}: ${next.problem.code}`);
    job = next.value;
  }
  const lucks = new Map<string, number>();
  return {
    job,
    trueAreas,
    trueMultiplier: (texture, coat) => multipliers.get(`${texture} ${coat}`)!,
    luck: (zone, role) => {
      const key = `${zone} ${role}`;
      const known = lucks.get(key) ?? Math.exp(normal(random) * world.zoneSpread * world.worse);
      lucks.set(key, known);
      return known;
    },
  };
}

/** Half of the painters have written down up to four trials of some textures. */
function trials(random: Random, world: World, multipliers: ReadonlyMap<string, number>): Edit[] {
  if (random() < 0.5) return [];
  return TEXTURES.flatMap((texture) =>
    (['first', 'later'] as const).flatMap((coat) =>
      Array.from({ length: Math.floor(random() * 5) }, (_, i): Edit => {
        const areaM2 = 10;
        const rateM2PerL = 8.4;
        const loss = texture === 'trowelled' || texture === 'light-broom' ? 0.05 : 0.1;
        const pores = coat === 'first' ? 0.02 : 0;
        const shown = multipliers.get(`${texture} ${coat}`)! * Math.exp(normal(random) * world.trialSpread);
        const usedL = (areaM2 * (shown / rateM2PerL + pores)) / (1 - loss);
        const id = `u-${texture}-${coat}-${i}`;
        const bare = coat === 'first';
        return {
          type: 'add-trial',
          args: { id, texture, coat, areaM2, usedL, rateM2PerL, bare, thinning: 0, note: '' },
        };
      }),
    ),
  );
}
