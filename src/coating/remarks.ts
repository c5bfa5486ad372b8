import { type Remark, remark } from '../job/checks/check.ts';
import type { Job } from '../job/types.ts';
import { sentence } from '../problem.ts';
import type { ZoneTakeoff } from '../takeoff/zone.ts';
import { tr } from '../words/tr.ts';
import type { DefaultValue } from '../working/default-value.ts';
import type { Coating } from './coating.ts';
import { type Readiness, readinessRemarks } from './readiness.ts';
import { ruleRemarks } from './rules.ts';
import { ALL_VALUES, systemById } from './systems/index.ts';

/** What a person should know about the concrete, the systems and the values of a job. */
export const coatingRemarks = (
  job: Job,
  zones: readonly ZoneTakeoff[],
  coating: Coating,
  readiness: readonly Readiness[],
): Remark[] => [
  ...valueRemarks(job, ALL_VALUES),
  ...zones
    .filter((z) => z.surface.systemId !== null && !systemById(z.surface.systemId))
    .map((z) =>
      remark(
        'system/unknown',
        'stop',
        z.id,
        tr`“${z.name}” asks for the coating system “${z.surface.systemId!}”, which this slabwright does not know, so it has no coats: choose another system.`,
      ),
    ),
  ...ruleRemarks(job, zones, coating.zones),
  ...readinessRemarks(job, readiness),
];

/** Values of one's own that lie outside their range and are not used. */
export const valueRemarks = (job: Job, values: readonly DefaultValue[]): Remark[] =>
  values
    .filter((d) => {
      const own = job.values[d.key];
      return own !== undefined && !(own >= d.low && own <= d.high);
    })
    .map((d): Remark => {
      const what = tr`Your value for “${d.group}: ${d.name}”`;
      const words = sentence({ code: 'value/out-of-range', what, low: d.low, high: d.high });
      return {
        ...remark(
          'value/out-of-range',
          'stop',
          null,
          tr`${words.slice(0, -1)}; until then ${d.value} is used.`,
        ),
        fixes: [
          { label: tr`Use ${d.value}`, edit: { type: 'set-value', args: { key: d.key, value: null } } },
        ],
      };
    });
