import type { Coating } from '../coating/coating.ts';
import { COAT_NAMES, type CoatRole, type Product } from '../coating/systems/system.ts';
import type { Id, Job, Weather } from '../job/types.ts';
import type { Takeoff } from '../takeoff/zone.ts';
import { tr } from '../words/tr.ts';
import { minutesOf, type SlabHour, slabHours } from './climate.ts';
import { dryAfterWash, stageAt } from './drying.ts';
import { leftOver } from './rollout/rollout.ts';
import { common, earliest, type Line, type Schedule, type Step, type Window } from './schedule.ts';
import { dayValue } from './values.ts';
import { type HourVerdict, hourVerdicts } from './verdicts.ts';
import { type Hours, hours } from './work.ts';

/** One piece of work in the plan; times are local, to the minute: 2026-03-14T09:30. */
export interface PlanTask {
  readonly slabId: Id;
  readonly slabName: string;
  readonly name: string;
  /** Which piece of the slab’s work it is: 0 makes it ready, the others are its coats in turn. */
  readonly step: number;
  /** The coats it is; none where it makes the slab ready. */
  readonly roles: readonly CoatRole[];
  readonly startAt: string;
  readonly endAt: string;
  /** Hours of the crew that it takes, nights left out. */
  readonly hours: number;
}

/** When a slab may be used again; null where the weather known ends before. */
export interface Reopening {
  readonly slabId: Id;
  readonly slabName: string;
  readonly feetAt: string | null;
  readonly vehiclesAt: string | null;
}

/** Hours of one product. */
export interface Strip {
  readonly product: Product;
  readonly verdicts: readonly HourVerdict[];
}

export interface DayPlan {
  readonly weather: Weather;
  readonly climate: readonly SlabHour[];
  readonly strips: readonly Strip[];
  readonly tasks: readonly PlanTask[];
  readonly finishAt: string | null;
  readonly reopenings: readonly Reopening[];
  /** Whether no other order of work ends earlier. */
  readonly exact: boolean;
  /** What would make it a day shorter, in sentences. */
  readonly shorter: readonly string[];
  /** Why there is no plan, in a sentence; null where there is one. */
  readonly problem: string | null;
}

/** The earliest plan for a job in its weather; null where it has none. */
export function dayPlan(job: Job, takeoff: Takeoff, coating: Coating): DayPlan | null {
  const { weather } = job;
  if (!weather) return null;
  const climate = slabHours(job, weather);
  const products = new Map(coating.paints.map((p) => [p.product.id, p.product]));
  const strips = [...products.values()].map((product) => ({
    product,
    verdicts: hourVerdicts(job, climate, product),
  }));
  const scene: Scene = { job, takeoff, coating, climate, strips, work: hours(job, takeoff, coating) };
  const usual = crewOf(job);
  const made = schedule(scene, usual);
  const empty = { weather, climate, strips, tasks: [], finishAt: null, reopenings: [], exact: false };
  if (!made) return { ...empty, shorter: [], problem: noPlanSentence(scene) };
  const { lines, slabs, found } = made;
  return {
    ...empty,
    tasks: found.placed.map((p) => ({
      slabId: slabs[p.line]!.id,
      slabName: slabs[p.line]!.name,
      name: lines[p.line]!.steps[p.step]!.name,
      step: p.step,
      roles: lines[p.line]!.steps[p.step]!.roles,
      startAt: clockAt(weather, p.start),
      endAt: clockAt(weather, p.end),
      hours: lines[p.line]!.steps[p.step]!.hours,
    })),
    finishAt: clockAt(weather, found.finish),
    reopenings: slabs.map((slab, i) => reopening(scene, slab, lastEnd(found, i))),
    exact: found.exact,
    shorter: shorterWays(scene, usual, found.finish),
    problem: null,
  };
}

interface Scene {
  readonly job: Job;
  readonly takeoff: Takeoff;
  readonly coating: Coating;
  readonly climate: readonly SlabHour[];
  readonly strips: readonly Strip[];
  readonly work: Hours;
}

/** Who works when. */
interface Crew {
  readonly people: number;
  readonly dayH: number;
  readonly daysAWeek: number;
}

const crewOf = (job: Job): Crew => ({
  people: dayValue(job, 'work.crew').value,
  dayH: dayValue(job, 'work.day').value,
  daysAWeek: dayValue(job, 'work.days-a-week').value,
});

interface PlanSlab {
  readonly id: Id;
  readonly name: string;
  /** Its coats in order: what goes on in one go, whatever the zone. */
  readonly coats: ReadonlyArray<{
    readonly name: string;
    readonly roles: ReadonlySet<CoatRole>;
    readonly products: readonly Product[];
  }>;
}

interface PlanLine extends Line {
  readonly steps: readonly PlanStep[];
}

interface PlanStep extends Step {
  readonly roles: readonly CoatRole[];
}

function schedule(
  scene: Scene,
  crew: Crew,
  mostStates?: number,
): { readonly lines: PlanLine[]; readonly slabs: PlanSlab[]; readonly found: Schedule } | null {
  const slabs = slabsOf(scene);
  const working = workingHours(scene, crew);
  const over = leftOver(scene.job, scene.takeoff, scene.coating);
  const lines = slabs.map((slab) => ({
    ...lineOf(scene, slab, crew, working),
    over: (over.get(slab.id) ?? []).flatMap((id) => {
      const j = slabs.findIndex((s) => s.id === id);
      return j < 0 ? [] : [j];
    }),
  }));
  if (lines.length === 0) return null;
  const found = earliest(lines, working, mostStates);
  return found && { lines, slabs, found };
}

function slabsOf({ takeoff, coating }: Scene): PlanSlab[] {
  return takeoff.slabs.flatMap((slab) => {
    const own = coating.zones.filter((_, i) => takeoff.zones[i]!.slabId === slab.id).map((z) => z.coats);
    const most = Math.max(0, ...own.map((coats) => coats.length));
    if (most === 0) return [];
    // Zones with fewer coats join the later ones, so that all are finished together.
    const coats = Array.from({ length: most }, (_, k) => {
      const together = own.flatMap((c) => c[k - (most - c.length)] ?? []);
      const products = [...new Map(together.map((c) => [c.product.id, c.product])).values()];
      const roles = new Set(together.map((c) => c.role));
      return { name: [...roles].map((role) => COAT_NAMES[role]).join(tr` and `), roles, products };
    });
    return [{ id: slab.id, name: slab.name, coats }];
  });
}

/** The crew's hours: what is left of each working day after set-up, clean-up and travel. */
function workingHours({ job, climate }: Scene, { dayH, daysAWeek }: Crew): Window[] {
  const value = (key: string) => dayValue(job, key).value;
  const begin = value('work.begin') + value('work.set-up') + value('work.travel') / 2;
  const end = value('work.begin') + dayH - value('work.clean-up') - value('work.travel') / 2;
  const first = climate[0]!.hour.at;
  const windows: Window[] = [];
  const dayZero = -Number(first.slice(11, 13));
  for (let midnight = dayZero; midnight < climate.length; midnight += 24) {
    const date = new Date((minutesOf(first) + midnight * 60) * 60_000);
    // Monday is the first day of a working week.
    if ((date.getUTCDay() + 6) % 7 >= daysAWeek) continue;
    const from = Math.max(0, midnight + begin);
    const to = Math.min(climate.length, midnight + end);
    if (from < to) windows.push({ from, to });
  }
  return windows;
}

function lineOf(scene: Scene, slab: PlanSlab, crew: Crew, working: readonly Window[]): PlanLine {
  const { job, climate } = scene;
  const tasks = scene.work.tasks.filter((t) =>
    scene.takeoff.zones.some((z) => z.id === t.zoneId && z.slabId === slab.id),
  );
  const spent = (counts: (role: CoatRole | null) => boolean) =>
    tasks.reduce((sum, t) => sum + (counts(t.role) ? t.hours.value : 0), 0) / crew.people;
  const prep: PlanStep = {
    name: [...new Set(tasks.filter((t) => t.kind !== 'coat').map((t) => t.name))].join(', '),
    roles: [],
    hours: spent((role) => role === null),
    windows: null,
    ready: remembered((end) => dryAfterWash(job, climate, end)),
  };
  const coats = slab.coats.flatMap((coat): PlanStep[] => {
    // One cuts in and one rolls; more would stand in each other's way.
    const took =
      (spent((role) => role !== null && coat.roles.has(role)) * crew.people) / Math.min(crew.people, 2);
    const good = coat.products
      .map((p) => goWindows(scene, p))
      .reduce<Window[]>((a, b) => common(a, b), [...working]);
    // More than one go can hold is done in parts, each of which is done in one.
    const longest = Math.min(LONGEST_GO_H, Math.max(0, ...good.map((w) => w.to - w.from)));
    const parts = longest < SHORTEST_GO_H ? 1 : Math.max(1, Math.ceil(took / longest - 1e-9));
    return Array.from(
      { length: parts },
      (_, k): PlanStep => ({
        roles: [...coat.roles],
        name: parts === 1 ? coat.name : tr`${coat.name}, part ${k + 1} of ${parts}`,
        hours: took / parts,
        windows: good,
        ready: remembered((end) =>
          k + 1 < parts
            ? end
            : coat.products.reduce<number | null>((latest, p) => {
                const dry = stageAt(job, climate, p, end, 'recoat');
                return latest === null || dry === null ? null : Math.max(latest, dry);
              }, end),
        ),
      }),
    );
  });
  return { name: slab.name, steps: [prep, ...coats] };
}

/** Works out each moment once: the same ends come back in many orders of work. */
function remembered(ready: (end: number) => number | null): (end: number) => number | null {
  const known = new Map<number, number | null>();
  return (end) => {
    const found = known.get(end);
    if (found !== undefined) return found;
    const made = ready(end);
    known.set(end, made);
    return made;
  };
}

/** A crew coats no longer than this without putting the roller down; common practice, no source. */
const LONGEST_GO_H = 5;
/** For less than this nobody begins. */
const SHORTEST_GO_H = 0.5;

/** Stretches of hours in which a product may go down. */
function goWindows({ strips }: Scene, product: Product): Window[] {
  const { verdicts } = strips.find((s) => s.product.id === product.id)!;
  const windows: Window[] = [];
  verdicts.forEach((v, i) => {
    if (v.go !== 'go') return;
    const last = windows[windows.length - 1];
    if (last && last.to === i) windows[windows.length - 1] = { from: last.from, to: i + 1 };
    else windows.push({ from: i, to: i + 1 });
  });
  return windows;
}

const lastEnd = (found: Schedule, line: number): number =>
  Math.max(...found.placed.filter((p) => p.line === line).map((p) => p.end));

function reopening({ job, climate }: Scene, slab: PlanSlab, end: number): Reopening {
  const products = slab.coats[slab.coats.length - 1]!.products;
  const at = (stage: 'foot' | 'vehicle'): string | null => {
    const all = products.map((p) => stageAt(job, climate, p, end, stage));
    return all.includes(null) ? null : clockAt(job.weather!, Math.max(...all.map((t) => t!)));
  };
  const feetAt = at('foot');
  const vehicles = at('vehicle');
  // Nothing is driven on that may not be walked on.
  const vehiclesAt = feetAt === null || vehicles === null ? null : [feetAt, vehicles].sort()[1]!;
  return { slabId: slab.id, slabName: slab.name, feetAt, vehiclesAt };
}

/** Ways that end on an earlier day than the plan. */
function shorterWays(scene: Scene, usual: Crew, finish: number): string[] {
  const day = (t: number) => Math.floor((minutesOf(scene.climate[0]!.hour.at) / 60 + t) / 24);
  const ways: ReadonlyArray<readonly [string, Crew]> = [
    [tr`one person more`, { ...usual, people: usual.people + 1 }],
    [tr`two hours longer a day`, { ...usual, dayH: Math.min(24, usual.dayH + 2) }],
    ...(usual.daysAWeek < 7 ? [[tr`working through the weekend`, { ...usual, daysAWeek: 7 }] as const] : []),
  ];
  return ways.flatMap(([words, crew]) => {
    const made = schedule(scene, crew, 400);
    const saved = made ? day(finish - 1e-6) - day(made.found.finish - 1e-6) : 0;
    return saved > 0
      ? [tr`With ${words} it is done ${saved === 1 ? tr`a day` : tr`${saved} days`} sooner.`]
      : [];
  });
}

/** Why nothing fits, by what stands in the way most often by daylight. */
function noPlanSentence({ strips, climate }: Scene): string {
  if (strips.length === 0) return tr`Nothing is coated in this job, so there is nothing to plan.`;
  const until = climate[climate.length - 1]!.hour.at.replace('T', ' ');
  const worst = strips.reduce((a, b) => (count(b) < count(a) ? b : a));
  if (count(worst) === 0) {
    const reasons = new Map<string, number>();
    for (const v of worst.verdicts) {
      if (v.code !== 'dark') reasons.set(v.reason, (reasons.get(v.reason) ?? 0) + 1);
    }
    const most = [...reasons].sort((a, b) => b[1] - a[1])[0]?.[0] ?? tr`It is dark.`;
    return tr`Up to ${until} there is no hour in which ${worst.product.name} can go down. Most often: ${most}`;
  }
  return tr`The work does not fit into the weather known up to ${until}: take a longer forecast, more people or longer days.`;
}

const count = (strip: Strip): number => strip.verdicts.filter((v) => v.go === 'go').length;

/** The local time so many hours after the first, to the minute. */
function clockAt(weather: Weather, t: number): string {
  const minutes = minutesOf(weather.hours[0]!.at) + Math.round(t * 60);
  return new Date(minutes * 60_000).toISOString().slice(0, 16);
}
