import type { Coating } from '../coating/coating.ts';
import { COAT_NAMES } from '../coating/systems/system.ts';
import { valueByKey } from '../coating/values.ts';
import type { Id, Job, Preparation } from '../job/types.ts';
import { measureValue } from '../takeoff/measure-values.ts';
import type { Takeoff, ZoneTakeoff } from '../takeoff/zone.ts';
import { derive, type Quantity, total } from '../working/quantity.ts';
import type { Source } from '../working/source.ts';
import { dayValue } from './values.ts';
import { bandMetres, coatHours, crewDays, maskingHours, paidHours, surfaceHours } from './work-formulas.ts';

export type TaskKind = 'wash' | Exclude<Preparation, 'wash'> | 'mask' | 'coat';

/** One piece of work on one zone. */
export interface Task {
  readonly zoneId: Id;
  readonly zoneName: string;
  readonly kind: TaskKind;
  readonly name: string;
  readonly hours: Quantity;
}

/** The work of a job in hours of one person, the days a crew is there, and the hours that are paid. */
export interface Hours {
  readonly tasks: readonly Task[];
  readonly work: Quantity;
  readonly days: Quantity;
  readonly paid: Quantity;
}

const summed: Source = { kind: 'derived', from: 'summed over zones and tasks' };

/** Hours by task, texture and edge. */
export function hours(job: Job, { zones }: Takeoff, coating: Coating): Hours {
  const tasks = coating.zones.flatMap((z, i) => (z.coats.length > 0 ? zoneTasks(job, zones[i]!, z) : []));
  const work = total(
    'work',
    'W',
    'h',
    tasks.map((t) => ({ ...t.hours, name: `${t.zoneName}: ${t.name}` })),
    summed,
  );
  const n = dayValue(job, 'work.crew');
  const s = dayValue(job, 'work.set-up');
  const c = dayValue(job, 'work.clean-up');
  const t = dayValue(job, 'work.travel');
  // A day that set-up and travel fill leaves a quarter of an hour, or no number of days would do.
  const day = dayValue(job, 'work.day');
  const h = { ...day, value: Math.max(day.value, s.value + c.value + t.value + 0.25) };
  const days = derive('days on site', crewDays, { W: work, n, h, s, c, t });
  return { tasks, work, days, paid: derive('hours paid', paidHours, { W: work, D: days, n, s, c, t }) };
}

function zoneTasks(job: Job, zone: ZoneTakeoff, z: Coating['zones'][number]): Task[] {
  const task = (kind: TaskKind, name: string, hoursOf: Quantity): Task => ({
    zoneId: zone.id,
    zoneName: zone.name,
    kind,
    name,
    hours: hoursOf,
  });
  const surface = (name: string, key: string) =>
    derive(name, surfaceHours, { A: zone.coatedArea, p: dayValue(job, key) });
  const tasks = [task('wash', 'wash', surface('washing', 'work.wash'))];
  if (z.preparation === 'etch') tasks.push(task('etch', 'etch', surface('etching', 'work.etch')));
  if (z.preparation === 'grind') tasks.push(task('grind', 'grind', surface('grinding', 'work.grind')));
  if (z.preparation === 'abrade') tasks.push(task('abrade', 'abrade', surface('abrading', 'work.abrade')));
  if (zone.masked.value > 0) {
    const mask = derive('masking', maskingHours, {
      M: zone.masked,
      a: dayValue(job, 'work.mask'),
      b: dayValue(job, 'work.unmask'),
    });
    tasks.push(task('mask', 'mask', mask));
  }
  const texture = `texture.${zone.surface.texture}`;
  for (const coat of z.coats) {
    const name = COAT_NAMES[coat.role];
    const coatTime = derive(`hours, ${name}`, coatHours, {
      L: zone.cutIn,
      c: valueByKey(job, `${texture}.cut-in`),
      R: zone.rollerArea,
      r: valueByKey(job, `${texture}.roll`),
      U: zone.facesUp,
      w: derive('band', bandMetres, { b: atLeastOne(measureValue(job, 'measure.brush-width')) }),
    });
    tasks.push(task('coat', name, coatTime));
  }
  return tasks;
}

/** A band of no width would make the brush take for ever. */
const atLeastOne = (q: Quantity): Quantity => (q.value >= 1 ? q : { ...q, value: 1 });
