import type { Results } from '../results.ts';

/** The day plan and the order of rolling, with documented keys whose names end in their unit; local times. */
export function daysJson({ job, days, rollouts }: Results) {
  return {
    schema: 1,
    job: job.name,
    plan: days && {
      weather: days.weather.name,
      latitude: days.weather.latitude,
      longitude: days.weather.longitude,
      problem: days.problem,
      finishAt: days.finishAt,
      proven: days.exact,
      tasks: days.tasks.map((t) => ({
        slabId: t.slabId,
        slab: t.slabName,
        step: t.step,
        task: t.name,
        startAt: t.startAt,
        endAt: t.endAt,
        crew_h: t.hours,
      })),
      reopenings: days.reopenings.map((r) => ({
        slabId: r.slabId,
        slab: r.slabName,
        feetAt: r.feetAt,
        vehiclesAt: r.vehiclesAt,
      })),
      shorter: days.shorter,
      hours: days.climate.map((h, i) => ({
        at: h.hour.at,
        air_C: h.hour.airC,
        slab_C: h.slabC,
        dewPoint_C: h.dewC,
        evaporation_kgPerM2h: h.evaporation,
        products: Object.fromEntries(
          days.strips.map((s) => [s.product.id, { go: s.verdicts[i]!.go, reason: s.verdicts[i]!.reason }]),
        ),
      })),
    },
    rollouts: rollouts.map((r) => ({
      slabId: r.slabId,
      slab: r.name,
      problem: r.problem,
      exits: r.exits,
      exitsSaid: r.exitsSaid,
      wetEdge_min: r.wetEdgeMin,
      rushed: r.rushed,
      bays: r.bays.map((b) => ({
        number: b.number,
        area_m2: b.areaM2,
        cutIn_m: b.cutInM,
        cutIn_min: b.cutMin,
        roll_min: b.rollMin,
        start_min: b.startMin,
        end_min: b.endMin,
        people: b.people,
        late: b.late,
        label: { x_m: b.label.x, y_m: b.label.y },
      })),
      coldLaps: r.coldLaps.map((l) => ({ first: l.first, second: l.second, age_min: l.ageMin })),
    })),
  };
}
