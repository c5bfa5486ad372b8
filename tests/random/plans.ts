import type { Plan, Point, Ring } from '../../geometry/index.ts';
import { randomNumbers } from './numbers.ts';

/** The kinds of awkwardness that plans are made of; each breaks some engine. */
export const FAMILIES = [
  'general',
  'shared sides',
  'rectilinear',
  'many corners',
  'turned again and again',
  'touching itself',
  'nearly collinear',
  'the same twice',
] as const;
export type Family = (typeof FAMILIES)[number];

export interface RandomPlan {
  readonly family: Family;
  readonly plan: Plan;
  /** Whether every outline is simple, so that engines which demand it may be asked. */
  readonly simple: boolean;
}

/** Plan number `index` of a seed: one slab of a few metres and up to six voids; some far from the origin. */
export function randomPlan(seed: number, index: number): RandomPlan {
  const random = randomNumbers(seed * 1_000_003 + index);
  const family = FAMILIES[index % FAMILIES.length]!;
  const made = MAKERS[family](random);
  const shift = random() < 0.1 ? { x: 1e6 * (random() - 0.5), y: 1e6 * (random() - 0.5) } : { x: 0, y: 0 };
  const moved = (ring: Ring): Ring => ring.map((p) => ({ x: p.x + shift.x, y: p.y + shift.y }));
  return {
    family,
    plan: { slabs: made.slabs.map(moved), cuts: [], voids: made.voids.map(moved) },
    simple: family !== 'touching itself',
  };
}

type Random = () => number;
interface Outlines {
  readonly slabs: Ring[];
  readonly voids: Ring[];
}

const upTo = (random: Random, n: number): number => Math.floor(random() * (n + 1));
const times = <T>(n: number, make: (i: number) => T): T[] => Array.from({ length: n }, (_, i) => make(i));

function star(random: Random, centre: Point, radius: number, corners: number): Ring {
  const turn = random() * 2 * Math.PI;
  return times(corners, (i) => {
    const a = turn + (2 * Math.PI * i) / corners;
    const r = radius * (0.4 + 0.6 * random());
    return { x: centre.x + r * Math.cos(a), y: centre.y + r * Math.sin(a) };
  });
}

const place = (random: Random): Point => ({ x: 10 * random(), y: 10 * random() });

function box(x: number, y: number, w: number, h: number): Ring {
  return [
    { x, y },
    { x: x + w, y },
    { x: x + w, y: y + h },
    { x, y: y + h },
  ];
}

function turned(ring: Ring, about: Point, angle: number): Ring {
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  return ring.map((p) => ({
    x: about.x + (p.x - about.x) * c - (p.y - about.y) * s,
    y: about.y + (p.x - about.x) * s + (p.y - about.y) * c,
  }));
}

const MAKERS: Readonly<Record<Family, (random: Random) => Outlines>> = {
  general: (random) => ({
    slabs: [star(random, { x: 5, y: 5 }, 6, 3 + upTo(random, 12))],
    voids: times(upTo(random, 6), () => star(random, place(random), 0.2 + 2 * random(), 3 + upTo(random, 6))),
  }),
  // Voids that run along stretches of the slab's own outline and of each other's.
  'shared sides': (random) => {
    const slab = star(random, { x: 5, y: 5 }, 6, 6 + upTo(random, 10));
    const voids = times(1 + upTo(random, 4), () => {
      const from = upTo(random, slab.length - 1);
      const count = 2 + upTo(random, 3);
      const chain = times(count, (i) => slab[(from + i) % slab.length]!);
      const within = 0.3 + 0.6 * random();
      return [
        ...chain,
        ...chain.map((p) => ({ x: 5 + (p.x - 5) * within, y: 5 + (p.y - 5) * within })).reverse(),
      ];
    });
    return { slabs: [slab], voids };
  },
  rectilinear: (random) => {
    const on = () => upTo(random, 20) / 2;
    return {
      slabs: [box(0, 0, 5 + on(), 5 + on())],
      voids: times(1 + upTo(random, 5), () => box(on(), on(), 0.5 + on() / 2, 0.5 + on() / 2)),
    };
  },
  'many corners': (random) => ({
    slabs: [star(random, { x: 5, y: 5 }, 6, 30 + upTo(random, 40))],
    voids: times(1 + upTo(random, 4), () => {
      const centre = place(random);
      const n = 16 + upTo(random, 48);
      const r = 0.1 + 2 * random();
      return times(n, (i) => ({
        x: centre.x + r * Math.cos((2 * Math.PI * i) / n),
        y: centre.y + r * Math.sin((2 * Math.PI * i) / n),
      }));
    }),
  }),
  // The same outline turned by a whole fraction of a turn: corners meet but for the last bits.
  'turned again and again': (random) => {
    const n = 3 + upTo(random, 5);
    const about = { x: 5, y: 5 };
    const tile = box(5 + random(), 5 + random(), 1 + 2 * random(), 1 + random());
    return {
      slabs: [turned(box(0, 0, 10, 10), about, (Math.PI * upTo(random, 8)) / 16)],
      voids: times(n, (i) => turned(tile, about, (2 * Math.PI * i) / n)),
    };
  },
  'touching itself': (random) => ({
    slabs: [star(random, { x: 5, y: 5 }, 6, 5 + upTo(random, 8))],
    voids: times(1 + upTo(random, 3), () => {
      const points = times(3 + upTo(random, 4), () => place(random));
      return random() < 0.5 ? [...points, points[0]!, ...points.slice(1, 2)] : points;
    }),
  }),
  // Sides that leave each other at 1e-3 … 1e-12 m.
  'nearly collinear': (random) => {
    const tiny = () => (random() - 0.5) * 10 ** -(3 + upTo(random, 9));
    const w = 4 + 4 * random();
    return {
      slabs: [box(tiny(), tiny(), w, 5)],
      voids: times(1 + upTo(random, 4), (i) => {
        const x = random() * w * 0.6;
        return box(x + tiny(), i % 2 === 0 ? tiny() : 5 - 1.2 + tiny(), 1 + random(), 1.2).map((p) => ({
          x: p.x + tiny(),
          y: p.y + tiny(),
        }));
      }),
    };
  },
  'the same twice': (random) => {
    const v = star(random, place(random), 0.5 + 2 * random(), 3 + upTo(random, 8));
    return {
      slabs: [star(random, { x: 5, y: 5 }, 6, 4 + upTo(random, 8))],
      voids: times(2 + upTo(random, 3), (i) => (i % 2 === 0 ? v : [...v.slice(1), v[0]!].reverse())),
    };
  },
};
