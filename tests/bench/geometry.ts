import area from '@turf/area';
import difference from '@turf/difference';
import { featureCollection, polygon } from '@turf/helpers';
import intersect from '@turf/intersect';
import turfLength from '@turf/length';
import Flatbush from 'flatbush';
import polygonClipping from 'polygon-clipping';
import { type Plan, type Point, type Ring, Site } from '../../geometry/index.ts';
import { jstsZoneArea } from '../random/jsts-area.ts';
import { randomNumbers } from '../random/numbers.ts';

/**
 * `npm run bench`: the same plans through slabwright and through what else could be used. Each figure is the median of
 * interleaved runs in this one process; only ratios are meant to be compared between machines.
 */
const SIZES = [1, 30, 120, 300, 600, 3000];
const RUNS = 7;

/** A plan with the rough outline of each zone, for engines that know no cuts: the zone is that outline within its slab. */
interface Courts {
  readonly plan: Plan;
  readonly zones: ReadonlyArray<{ readonly slab: Ring; readonly outline: Ring }>;
}

/** A site of courts, each cut into two zones of 20–60 corners, with five voids a zone, some across an edge or the cut. */
function courtsOf(zones: number): Courts {
  const random = randomNumbers(zones);
  const courts = Math.ceil(zones / 2);
  const columns = Math.ceil(Math.sqrt(courts));
  const slabs: Ring[] = [];
  const cuts: Array<{ slab: number; path: Point[] }> = [];
  const voids: Ring[] = [];
  const outlines: Array<{ slab: Ring; outline: Ring }> = [];
  for (let c = 0; c < courts; c++) {
    const centre = { x: (c % columns) * 18, y: Math.floor(c / columns) * 18 };
    const slab = around(centre, 30 + Math.floor(random() * 50), () => 6 + 1.8 * random());
    slabs.push(slab);
    const here = Math.min(2, zones - 2 * c);
    if (here === 2) {
      const bends = 8 + Math.floor(random() * 12);
      const path = Array.from({ length: bends + 1 }, (_, i) => ({
        x: centre.x + 0.6 * (random() - 0.5),
        y: centre.y - 8.5 + (17 * i) / bends,
      }));
      cuts.push({ slab: c, path });
      for (const side of [-8.5, 8.5]) {
        const far = [
          { x: centre.x + side, y: centre.y + 8.5 },
          { x: centre.x + side, y: centre.y - 8.5 },
        ];
        outlines.push({ slab, outline: [...path, ...far] });
      }
    } else outlines.push({ slab, outline: slab });
    for (let v = 0; v < 5 * here; v++) {
      const angle = (2 * Math.PI * v) / (5 * here) + 0.3 * random();
      const reach = v % 5 === 0 ? 6.5 : 3.6;
      const at = { x: centre.x + reach * Math.cos(angle), y: centre.y + reach * Math.sin(angle) };
      voids.push(around(at, 8 + Math.floor(random() * 13), () => 0.4));
    }
  }
  return { plan: { slabs, cuts, voids }, zones: outlines };
}

const around = (c: Point, n: number, radius: () => number): Ring =>
  Array.from({ length: n }, (_, i) => {
    const angle = (2 * Math.PI * i) / n;
    const r = radius();
    return { x: c.x + r * Math.cos(angle), y: c.y + r * Math.sin(angle) };
  });

function measured(plan: Plan): { readonly site: Site; readonly area: number } {
  const site = new Site();
  const cuts = cutsOf(plan);
  plan.slabs.forEach((ring, i) => {
    site.setSlab(`s${i}`, ring, cuts[i]!);
  });
  plan.voids.forEach((ring, i) => {
    site.setVoid(`v${i}`, ring);
  });
  const update = site.update();
  if (!update.ok) throw new Error('finite');
  let total = 0;
  // Areas and the length of every stretch by cause are in hand now.
  for (const part of update.value.remade) for (const z of part.partition.zones) total += z.netArea;
  return { site, area: total };
}

function cutsOf(plan: Plan): Point[][][] {
  const cuts: Point[][][] = plan.slabs.map(() => []);
  for (const c of plan.cuts) cuts[c.slab]!.push([...c.path]);
  return cuts;
}

function editor(plan: Plan): () => void {
  const { site } = measured(plan);
  const cuts = cutsOf(plan);
  let turn = 0;
  return () => {
    const i = (turn++ * 7919) % plan.slabs.length;
    const ring = [...plan.slabs[i]!];
    const at = turn % ring.length;
    ring[at] = { x: ring[at]!.x + 0.01, y: ring[at]!.y };
    site.setSlab(`s${i}`, ring, cuts[i]!);
    site.update();
  };
}

const pairs = (ring: Ring): Array<[number, number]> => ring.map((p) => [p.x, p.y]);

function indexed(voids: readonly Ring[]): (ring: Ring) => Ring[] {
  const index = new Flatbush(voids.length);
  for (const ring of voids) index.add(...box(ring));
  index.finish();
  return (ring) => index.search(...box(ring)).map((i) => voids[i]!);
}

function box(ring: Ring): [number, number, number, number] {
  const xs = ring.map((p) => p.x);
  const ys = ring.map((p) => p.y);
  return [Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys)];
}

/** polygon-clipping, areas only, voids looked up in an index. Zones it throws on count as nothing. */
function clipped({ plan, zones }: Courts): number {
  const near = indexed(plan.voids);
  let total = 0;
  for (const { slab, outline } of zones) {
    try {
      const left = polygonClipping.difference(
        slab === outline ? [pairs(slab)] : polygonClipping.intersection([pairs(slab)], [pairs(outline)]),
        ...near(outline).map((v): [Array<[number, number]>] => [pairs(v)]),
      );
      for (const poly of left)
        poly.forEach((ring, k) => {
          let twice = 0;
          for (let i = 1; i < ring.length; i++) {
            twice += ring[i - 1]![0] * ring[i]![1] - ring[i]![0] * ring[i - 1]![1];
          }
          total += ((k === 0 ? 1 : -1) * Math.abs(twice)) / 2;
        });
    } catch {
      // Its known failures are counted elsewhere.
    }
  }
  return total;
}

/** JSTS, areas only, with the same index. */
function byJsts({ plan, zones }: Courts): number {
  const near = indexed(plan.voids);
  return zones.reduce((sum, { slab, outline }) => sum + (jstsZoneArea(slab, outline, near(outline)) ?? 0), 0);
}

/** What a web developer would write first: every void against every zone, in degrees about the equator. */
function generic({ plan, zones }: Courts): number {
  const feature = (ring: Ring) => {
    const points = ring.map((p) => [p.x / 111_320, p.y / 111_320]);
    return polygon([[...points, points[0]!]]);
  };
  const voids = plan.voids.map(feature);
  let total = 0;
  for (const { slab, outline } of zones) {
    let left = intersect(featureCollection([feature(slab), feature(outline)]));
    for (const v of voids) if (left) left = difference(featureCollection([left, v]));
    if (left) total += area(left) + 0 * turfLength(left);
  }
  return total;
}

/** The least that could be done: shoelace and perimeter of every outline. */
function bare({ slabs, voids }: Plan): number {
  let total = 0;
  for (const rings of [slabs, voids]) {
    for (const ring of rings) {
      let twice = 0;
      let length = 0;
      for (let i = 0, j = ring.length - 1; i < ring.length; j = i++) {
        const p = ring[j]!;
        const q = ring[i]!;
        twice += p.x * q.y - p.y * q.x;
        length += Math.hypot(q.x - p.x, q.y - p.y);
      }
      total += Math.abs(twice) / 2 + 0 * length;
    }
  }
  return total;
}

const median = (xs: readonly number[]): number => [...xs].sort((a, b) => a - b)[xs.length >> 1]!;
function timed(run: () => unknown): number {
  const start = performance.now();
  run();
  return performance.now() - start;
}

process.stdout.write(
  'zones  corners  slabwright  edit ms  clipping/slabwright  JSTS/slabwright  generic/slabwright  slabwright/bare  clipping/edit\n',
);
for (const zones of SIZES) {
  const courts = courtsOf(zones);
  const { plan } = courts;
  const corners = [...plan.slabs, ...plan.voids].reduce((n, r) => n + r.length, 0);
  const runs: Record<string, number[]> = { ours: [], edit: [], clip: [], jsts: [], bare: [], generic: [] };
  const edit = editor(plan);
  const ours = measured(plan).area;
  const theirs = clipped(courts);
  if (Math.abs(ours - theirs) > 0.001 * ours) {
    process.stdout.write(`areas differ: ${ours} against ${theirs} of polygon-clipping\n`);
  }
  for (let i = 0; i < RUNS; i++) {
    runs.ours!.push(timed(() => measured(plan)));
    for (let k = 0; k < 20; k++) runs.edit!.push(timed(edit));
    runs.bare!.push(timed(() => bare(plan)));
    runs.clip!.push(timed(() => clipped(courts)));
    if (zones <= 600) runs.jsts!.push(timed(() => byJsts(courts)));
    if (zones <= 30 || (zones <= 120 && i === 0)) runs.generic!.push(timed(() => generic(courts)));
  }
  const m = Object.fromEntries(
    Object.entries(runs).map(([k, v]) => [k, v.length > 0 ? median(v) : Number.NaN]),
  );
  const ratio = (a: number | undefined, b: number | undefined, digits: number) =>
    Number.isNaN(a! / b!) ? '–' : (a! / b!).toFixed(digits);
  process.stdout.write(
    [
      `${zones}`.padStart(5),
      `${corners}`.padStart(8),
      `${m.ours!.toFixed(1)} ms`.padStart(11),
      m.edit!.toFixed(3).padStart(8),
      ratio(m.clip, m.ours, 1).padStart(20),
      ratio(m.jsts, m.ours, 1).padStart(16),
      ratio(m.generic, m.ours, 0).padStart(19),
      ratio(m.ours, m.bare, 1).padStart(16),
      ratio(m.clip, m.edit, 0).padStart(14),
    ]
      .join(' ')
      .concat('\n'),
  );
}
