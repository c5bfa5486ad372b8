import { type Remark, remark } from '../job/checks/check.ts';
import type { Job } from '../job/types.ts';
import { sentence } from '../problem.ts';
import type { ZoneTakeoff } from '../takeoff/zone.ts';
import { ALL_VALUES, systemById } from './systems/index.ts';

/** What a person should know about the values and systems of a job. */
export function coatingRemarks(job: Job, zones: readonly ZoneTakeoff[]): Remark[] {
  const values = ALL_VALUES.filter((d) => {
    const own = job.values[d.key];
    return own !== undefined && !(own >= d.low && own <= d.high);
  }).map((d): Remark => {
    const what = `Your value for “${d.group}: ${d.name}”`;
    const words = sentence({ code: 'value/out-of-range', what, low: d.low, high: d.high });
    return {
      ...remark('value/out-of-range', 'stop', null, `${words.slice(0, -1)}; until then ${d.value} is used.`),
      fixes: [{ label: `Use ${d.value}`, edit: { type: 'set-value', args: { key: d.key, value: null } } }],
    };
  });
  const systems = zones
    .filter((z) => z.surface.systemId !== null && !systemById(z.surface.systemId))
    .map((z) =>
      remark(
        'system/unknown',
        'stop',
        z.id,
        `“${z.name}” asks for the coating system “${z.surface.systemId}”, which this slabwright does not know, so it has no coats: choose another system.`,
      ),
    );
  return [...values, ...systems];
}
