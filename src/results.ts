import { once } from '../geometry/index.ts';
import { type Coating, coating } from './coating/coating.ts';
import { type EtchSheet, etchSheet, type MixSheet, mixSheets } from './coating/mixes.ts';
import { type Readiness, readiness } from './coating/readiness.ts';
import { coatingRemarks, valueRemarks } from './coating/remarks.ts';
import { type DayPlan, dayPlan } from './days/plan.ts';
import { type Verdict, verdictOn } from './days/reading.ts';
import { type Rollout, rollouts } from './days/rollout/rollout.ts';
import { DAY_VALUES, WORK_VALUES } from './days/values.ts';
import { gravestFirst, type Remark, remarksOn } from './job/checks/index.ts';
import type { Job } from './job/types.ts';
import { type Order, order } from './order/order.ts';
import { type Quote, quote } from './quote/quote.ts';
import { QUOTE_VALUES } from './quote/values.ts';
import { newTakeoffMemory, takeoff } from './takeoff/takeoff.ts';
import type { Takeoff } from './takeoff/zone.ts';

/** Every number that follows from a job; the later ones are worked out when they are first looked at. */
export interface Results {
  readonly job: Job;
  readonly takeoff: Takeoff;
  readonly readiness: readonly Readiness[];
  readonly coating: Coating;
  readonly mixes: readonly MixSheet[];
  readonly etchSheet: EtchSheet | null;
  readonly verdicts: readonly Verdict[];
  /** The day plan; null while the job has no weather. */
  readonly days: DayPlan | null;
  readonly rollouts: readonly Rollout[];
  readonly order: Order;
  readonly quote: Quote;
  readonly remarks: readonly Remark[];
}

/** Works jobs out, and keeps what did not change from one to the next. */
export function resultsKeeper(): (job: Job) => Results {
  const memory = newTakeoffMemory();
  let last: Results | null = null;
  return (job) => {
    if (last?.job === job) return last;
    const measured = takeoff(job, memory);
    const ready = once(() => readiness(job, measured.zones));
    const coats = once(() => coating(job, measured.zones));
    const bought = once(() =>
      order(
        job,
        measured,
        coats(),
        remarks().filter((r) => r.severity === 'stop'),
      ),
    );
    const priced = once(() => quote(job, measured, coats(), ready(), bought()));
    const mixed = once(() => mixSheets(job, measured.zones, coats()));
    const etched = once(() => etchSheet(job, measured.zones, coats()));
    const judged = once(() =>
      Object.values(job.readings ?? {})
        .sort((a, b) => (a.at < b.at ? 1 : -1))
        .map((reading) => verdictOn(job, coats(), reading)),
    );
    const planned = once(() => dayPlan(job, measured, coats()));
    const rolled = once(() => rollouts(job, measured, coats(), planned()));
    const remarks = once(() =>
      gravestFirst([
        ...remarksOn(job, measured),
        ...coatingRemarks(job, measured.zones, coats(), ready()),
        ...valueRemarks(job, [...QUOTE_VALUES, ...DAY_VALUES, ...WORK_VALUES]),
      ]),
    );
    last = {
      job,
      takeoff: measured,
      get readiness() {
        return ready();
      },
      get coating() {
        return coats();
      },
      get mixes() {
        return mixed();
      },
      get etchSheet() {
        return etched();
      },
      get verdicts() {
        return judged();
      },
      get days() {
        return planned();
      },
      get rollouts() {
        return rolled();
      },
      get order() {
        return bought();
      },
      get quote() {
        return priced();
      },
      get remarks() {
        return remarks();
      },
    };
    return last;
  };
}

/** The only way to a number: works out one job. */
export const results = (job: Job): Results => resultsKeeper()(job);
