import type { Point } from '../../../geometry/index.ts';
import type { Coating } from '../../coating/coating.ts';
import { wetEdgeBay } from '../../coating/formulas.ts';
import { valueByKey } from '../../coating/values.ts';
import type { Id, Job } from '../../job/types.ts';
import { stretchName } from '../../takeoff/describe.ts';
import type { StretchTakeoff, Takeoff, ZoneTakeoff } from '../../takeoff/zone.ts';
import type { Metres, SquareMetres } from '../../units/types.ts';
import { tr } from '../../words/tr.ts';
import { minutesOf, type SlabHour } from '../climate.ts';
import { LABEL_EVAPORATION } from '../drying.ts';
import type { DayPlan, PlanTask } from '../plan.ts';
import { baysOf, isRushed, type Laid } from './bays.ts';
import { type Floor, floorOf, type Segment } from './floor.ts';
import { wayOut } from './way.ts';

/** A part of a floor that is cut in and rolled in one go. */
export interface Bay {
  readonly number: number;
  readonly cells: readonly number[];
  /** Bays of one part lie end to end along a strip. */
  readonly part: number;
  readonly areaM2: SquareMetres;
  /** A place inside it, for its number. */
  readonly label: Point;
  /** Brushed edges along it, and the minutes for them and for rolling, each by one person. */
  readonly cutInM: Metres;
  readonly cutMin: number;
  readonly rollMin: number;
  /** Minutes since the first bay was begun. */
  readonly startMin: number;
  readonly endMin: number;
  /** Two where one person cannot cut in and roll before the wet edge sets. */
  readonly people: 1 | 2;
  /** Whether even two take longer than the edge stays wet or, where it sets in any bay, whether the brush holds up the roller. */
  readonly late: boolean;
}

/** Two bays whose common edge has set before the second is rolled. */
export interface ColdLap {
  readonly first: number;
  readonly second: number;
  readonly ageMin: number;
}

/** The order that one slab is rolled in. */
export interface Rollout {
  readonly slabId: Id;
  readonly name: string;
  readonly floor: Floor | null;
  readonly bays: readonly Bay[];
  readonly coldLaps: readonly ColdLap[];
  readonly wetEdgeMin: number;
  /** Whether the edge sets sooner than the least bay is rolled: laps show wherever nothing hides them. */
  readonly rushed: boolean;
  /** Where the painter steps off, in words; whether the user said so or it is taken from what stands there. */
  readonly exits: readonly string[];
  readonly exitsSaid: boolean;
  /** Where they run, on the ground. */
  readonly ways: ReadonlyArray<readonly Point[]>;
  /** Why no order serves it, in a sentence; null where one does. */
  readonly problem: string | null;
}

/** The order of every slab that is coated; in the hours of the plan, where there is one, for the wet edge of those hours. */
export function rollouts(
  job: Job,
  { zones, slabs }: Takeoff,
  coating: Coating,
  plan: DayPlan | null = null,
): Rollout[] {
  return slabs.flatMap((slab) => {
    const own = coatedOf(zones, coating, slab.id);
    return own.length === 0
      ? []
      : [slabRollout(job, slab.id, slab.name, own, zones, quickestCoat(plan, slab.id))];
  });
}

type Coated = { readonly zone: ZoneTakeoff; readonly coats: Coating['zones'][number] };

/** Of the ways out, each alone and all together, the one with the fewest cold laps, then the fewest bays. */
function slabRollout(
  job: Job,
  slabId: Id,
  name: string,
  own: readonly Coated[],
  zones: readonly ZoneTakeoff[],
  evaporation: number,
): Rollout {
  const { exits, said } = exitsOf(job, slabId, own, zones);
  const rates = ratesOf(job, own, evaporation);
  const { wetEdgeMin, rushed } = rates;
  const none = { slabId, name, exitsSaid: said, ...NOTHING, wetEdgeMin, rushed };
  if (exits.length === 0) {
    const problem = tr`“${name}” has no way out: mark a side that the painter can step over, or the last bay is rolled from inside.`;
    return { ...none, exits: [], problem };
  }
  const widest = [...exits].sort((a, b) => b.lengthM - a.lengthM).slice(0, MOST_EXITS);
  const groups = exits.length === 1 ? [exits] : [...widest.map((e) => [e]), exits];
  const plans = groups.map((group) => ({ ...none, ...throughExits(name, own, group, rates) }));
  return plans.reduce((best, plan) => (better(plan, best) ? plan : best));
}

/** More ways out than this are not each tried alone. */
const MOST_EXITS = 4;

const NOTHING = { floor: null, bays: [], coldLaps: [], ways: [] } as const;

const better = (a: Rollout, b: Rollout): boolean => {
  if ((a.problem === null) !== (b.problem === null)) return a.problem === null;
  if (a.coldLaps.length !== b.coldLaps.length) return a.coldLaps.length < b.coldLaps.length;
  return a.bays.length < b.bays.length;
};

interface Rates {
  readonly wetEdgeMin: number;
  /** What is rolled meanwhile. */
  readonly wetM2: SquareMetres;
  readonly rushed: boolean;
  readonly roll: number;
  readonly cut: number;
}

/**
 * Evaporation while a slab's coats go down, of the coat that dries fastest; the label's climate where there is no plan or
 * it is slower there. A primer does not count: what laps in it is covered.
 */
function quickestCoat(plan: DayPlan | null, slabId: Id): number {
  const coats = plan?.tasks.filter((t) => t.slabId === slabId && t.roles.some((r) => r !== 'primer')) ?? [];
  return Math.max(LABEL_EVAPORATION, ...coats.map((t) => meanEvaporation(plan!.climate, t)));
}

function meanEvaporation(climate: readonly SlabHour[], { startAt, endAt }: PlanTask): number {
  let sum = 0;
  let minutes = 0;
  for (const { hour, evaporation } of climate) {
    const from = minutesOf(hour.at);
    const shared = Math.min(minutesOf(endAt), from + 60) - Math.max(minutesOf(startAt), from);
    if (shared <= 0) continue;
    sum += shared * evaporation;
    minutes += shared;
  }
  return minutes > 0 ? sum / minutes : 0;
}

/** The shortest wet edge and the slowest texture of a slab: what holds for all of it. */
function ratesOf(job: Job, own: readonly Coated[], evaporation: number): Rates {
  const water = own.some(({ coats }) => coats.coats.some((c) => c.product.carrier === 'water'));
  const textures = own.map(({ zone }) => zone.surface.texture);
  const least = (what: string) =>
    Math.min(...textures.map((t) => valueByKey(job, `texture.${t}.${what}`).value));
  const wetEdgeMin = water
    ? valueByKey(job, 'mix.wet-edge-water').value * Math.min(1, LABEL_EVAPORATION / evaporation)
    : valueByKey(job, 'mix.wet-edge-solvent').value;
  const roll = least('roll');
  const wetM2 = wetEdgeBay.evaluate({ r: roll, t: wetEdgeMin });
  return { wetEdgeMin, wetM2, rushed: isRushed(wetM2), roll, cut: least('cut-in') };
}

function throughExits(
  name: string,
  own: readonly Coated[],
  exits: readonly StretchTakeoff[],
  rates: Rates,
): Pick<Rollout, 'floor' | 'bays' | 'coldLaps' | 'exits' | 'ways' | 'problem'> {
  const netM2 = own.reduce((sum, { zone }) => sum + zone.netArea.value, 0);
  const names = [...new Set(exits.map((s) => (s.kind === 'side' ? s.refName : stretchName(s))))];
  const floor = floorOf(
    own.flatMap(({ zone }) => zone.netRings),
    own.flatMap(({ zone }) => zone.faceRings),
    exits.flatMap((s) => segmentsOf(s.runs)),
    netM2,
  );
  const walked = wayOut(floor);
  const { way } = walked;
  const missed = floor.inside.reduce((n, is, cell) => n + (is && !(way[cell]! < Infinity) ? 1 : 0), 0);
  if (floor.count === 0 || floor.doors.length === 0 || missed * floor.cellM ** 2 > 0.05) {
    return { ...NOTHING, exits: names, problem: narrowSentence(name, floor, missed) };
  }
  const bays = timed(floor, baysOf(floor, walked, rates.wetM2), {
    netM2,
    ...rates,
    brushed: own.flatMap(({ zone }) => zone.stretches.filter((s) => s.brushed).flatMap((s) => s.runs)),
  });
  const ways = exits.flatMap((s) => s.runs);
  return {
    floor,
    bays,
    coldLaps: coldLaps(floor, bays, rates.wetEdgeMin),
    exits: names,
    ways,
    problem: null,
  };
}

const narrowSentence = (name: string, floor: Floor, missed: number): string =>
  floor.doors.length === 0
    ? tr`No way out of “${name}” is half a metre wide: mark another side, or roll it from outside with a pole.`
    : tr`${(missed * floor.cellM ** 2).toFixed(1)} m² of “${name}” lie behind a neck narrower than half a metre: nobody gets out of there past wet paint; mark a way out beyond it, or leave that part for another day.`;

/**
 * Sides that were marked; else those that look as if one could step over them, open ground before another slab, which
 * may be wet itself; else a zone that is not coated, where that has such a side of its own.
 */
function exitsOf(
  job: Job,
  slabId: Id,
  own: readonly Coated[],
  zones: readonly ZoneTakeoff[],
): { readonly exits: readonly StretchTakeoff[]; readonly said: boolean } {
  const corners = job.slabs[slabId]!.corners;
  const coated = new Set(own.map(({ zone }) => zone.id));
  const all = own.flatMap(({ zone }) => zone.stretches);
  const marked = all.filter((s) => s.side !== null && corners[s.side]?.exit === true);
  if (marked.length > 0) return { exits: marked, said: true };
  const steppable = (s: StretchTakeoff) =>
    s.kind === 'slab'
      ? s.beyond === null || s.beyond === 'slab' || s.beyond === 'open' || s.beyond === 'threshold'
      : s.beyond === 'open' || s.beyond === 'threshold';
  const leadsOut = (id: Id) => zones.find((z) => z.id === id)?.stretches.some(steppable) ?? false;
  const kinds = [
    all.filter((s) => s.kind === 'side' && steppable(s)),
    all.filter((s) => s.kind === 'cut' && !coated.has(s.ref) && leadsOut(s.ref)),
    all.filter((s) => s.kind === 'slab' && steppable(s)),
  ];
  return { exits: kinds.find((k) => k.length > 0) ?? [], said: false };
}

/** The slabs that a slab can only be left over: they must not be wet while it is coated. */
export function leftOver(job: Job, { zones, slabs }: Takeoff, coating: Coating): Map<Id, readonly Id[]> {
  const over = new Map<Id, readonly Id[]>();
  for (const slab of slabs) {
    const own = coatedOf(zones, coating, slab.id);
    if (own.length === 0) continue;
    const { exits } = exitsOf(job, slab.id, own, zones);
    if (exits.length > 0 && exits.every((s) => s.kind === 'slab')) {
      over.set(slab.id, [...new Set(exits.map((s) => s.ref))]);
    }
  }
  return over;
}

const coatedOf = (zones: readonly ZoneTakeoff[], coating: Coating, slabId: Id): Coated[] =>
  zones.flatMap((zone, i) =>
    zone.slabId === slabId && coating.zones[i]!.coats.length > 0 ? [{ zone, coats: coating.zones[i]! }] : [],
  );

const segmentsOf = (runs: readonly (readonly Point[])[]): Segment[] =>
  runs.flatMap((run) => run.slice(1).map((p, i): Segment => [run[i]!, p]));

interface Work extends Rates {
  readonly netM2: SquareMetres;
  readonly brushed: readonly (readonly Point[])[];
}

/** Bays with their minutes one after another: edges first, then the rest. */
function timed(floor: Floor, order: readonly Laid[], work: Work): Bay[] {
  const bayOf = new Int32Array(floor.inside.length).fill(-1);
  order.forEach(({ cells }, i) => {
    for (const cell of cells) bayOf[cell] = i;
  });
  const edges = edgeMetres(floor, bayOf, order.length, work.brushed);
  // Cells stand for the true area: their number is scaled to it.
  const cellM2 = work.netM2 / floor.count;
  let clock = 0;
  return order.map(({ cells, part }, i): Bay => {
    const areaM2 = cells.length * cellM2;
    const cutMin = (60 * edges[i]!) / work.cut;
    const rollMin = (60 * areaM2) / work.roll;
    const alone = work.rushed ? cutMin === 0 : cutMin + rollMin <= work.wetEdgeMin;
    const startMin = clock;
    clock += alone ? cutMin + rollMin : Math.max(cutMin, rollMin);
    return {
      number: i + 1,
      cells,
      part,
      areaM2,
      label: labelOf(floor, cells),
      cutInM: edges[i]!,
      cutMin,
      rollMin,
      startMin,
      endMin: clock,
      people: alone ? 1 : 2,
      late: Math.max(cutMin, rollMin) > (work.rushed ? rollMin : work.wetEdgeMin) + 1e-9,
    };
  });
}

/** How much of the brushed edges runs along each bay, sampled every five centimetres. */
function edgeMetres(
  floor: Floor,
  bayOf: Int32Array,
  bays: number,
  runs: readonly (readonly Point[])[],
): Float64Array {
  const metres = new Float64Array(bays);
  for (const [a, b] of segmentsOf(runs)) {
    const length = Math.hypot(b.x - a.x, b.y - a.y);
    const steps = Math.max(1, Math.ceil(length / 0.05));
    for (let k = 0; k < steps; k++) {
      const t = (k + 0.5) / steps;
      const bay = bayNear(floor, bayOf, { x: a.x + t * (b.x - a.x), y: a.y + t * (b.y - a.y) });
      if (bay >= 0) metres[bay] = metres[bay]! + length / steps;
    }
  }
  return metres;
}

/** The bay of the cell at a place, or of one beside it. */
function bayNear(floor: Floor, bayOf: Int32Array, p: Point): number {
  const cell = floor.cellAt(p);
  if (cell < 0) return -1;
  for (let ring = 0; ring <= 2; ring++) {
    for (let j = -ring; j <= ring; j++) {
      for (let i = -ring; i <= ring; i++) {
        const bay = bayOf[cell + j * floor.columns + i] ?? -1;
        if (bay >= 0) return bay;
      }
    }
  }
  return -1;
}

/** The cell nearest to the middle of all. */
function labelOf(floor: Floor, cells: readonly number[]): Point {
  const points = cells.map(floor.middle);
  const mean = {
    x: points.reduce((s, p) => s + p.x, 0) / points.length,
    y: points.reduce((s, p) => s + p.y, 0) / points.length,
  };
  return points.reduce((best, p) =>
    Math.hypot(p.x - mean.x, p.y - mean.y) < Math.hypot(best.x - mean.x, best.y - mean.y) ? p : best,
  );
}

/** Shorter than this a common edge is a corner. */
const SHORT_M = 0.3;

/** Common edges that set before the second bay meets them: from the first stroke of one to the first of the other. */
function coldLaps(floor: Floor, bays: readonly Bay[], wetEdgeMin: number): ColdLap[] {
  const bayOf = new Int32Array(floor.inside.length).fill(-1);
  bays.forEach((bay, i) => {
    for (const cell of bay.cells) bayOf[cell] = i;
  });
  const common = new Map<string, { a: number; b: number; metres: number }>();
  for (let cell = 0; cell < bayOf.length; cell++) {
    const a = bayOf[cell]!;
    if (a < 0) continue;
    for (const step of [1, floor.columns]) {
      const b = bayOf[cell + step] ?? -1;
      if (b < 0 || b === a) continue;
      const key = `${Math.min(a, b)} ${Math.max(a, b)}`;
      const edge = common.get(key) ?? { a: Math.min(a, b), b: Math.max(a, b), metres: 0 };
      edge.metres += floor.cellM;
      common.set(key, edge);
    }
  }
  return [...common.values()]
    .filter(({ metres }) => metres >= SHORT_M)
    .map(({ a, b }) => ({
      first: a + 1,
      second: b + 1,
      // What ends one bay and begins the next is met at once; side by side each strip waits for the other.
      ageMin:
        bays[b]!.startMin -
        (b === a + 1 && bays[a]!.part === bays[b]!.part ? bays[a]!.endMin : bays[a]!.startMin),
    }))
    .filter(({ ageMin }) => ageMin > wetEdgeMin + 1e-9);
}
