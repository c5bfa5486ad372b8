import { type Coating, coating } from './coating/coating.ts';
import { coatingRemarks } from './coating/remarks.ts';
import { type Remark, remarksOn } from './job/checks/index.ts';
import type { Job } from './job/types.ts';
import { type Order, order } from './order/order.ts';
import { newTakeoffMemory, takeoff } from './takeoff/takeoff.ts';
import type { Takeoff } from './takeoff/zone.ts';

/** Every number that follows from a job. */
export interface Results {
  readonly job: Job;
  readonly takeoff: Takeoff;
  readonly coating: Coating;
  readonly order: Order;
  readonly remarks: readonly Remark[];
}

/** Works jobs out, and keeps what did not change from one to the next. */
export function resultsKeeper(): (job: Job) => Results {
  const memory = newTakeoffMemory();
  let last: Results | null = null;
  return (job) => {
    if (last?.job === job) return last;
    const measured = takeoff(job, memory);
    const coats = coating(job, measured.zones);
    last = {
      job,
      takeoff: measured,
      coating: coats,
      order: order(job, coats),
      remarks: [...coatingRemarks(job, measured.zones), ...remarksOn(job, measured)],
    };
    return last;
  };
}

/** The only way to a number: works out one job. */
export const results = (job: Job): Results => resultsKeeper()(job);
