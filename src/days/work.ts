import type { Coating } from '../coating/coating.ts';
import { COAT_NAMES, type CoatRole } from '../coating/systems/system.ts';
import { valueByKey } from '../coating/values.ts';
import type { Id, Job, Preparation } from '../job/types.ts';
import { measureValue } from '../takeoff/measure-values.ts';
import type { Takeoff, ZoneTakeoff } from '../takeoff/zone.ts';
import { tr } from '../words/tr.ts';
import { derive, found, leaf, type Quantity, total } from '../working/quantity.ts';
import type { Source } from '../working/source.ts';
import { labelHours } from './drying.ts';
import { dayValue } from './values.ts';
import { bandMetres, coatHours, crewDays, maskingHours, paidHours, surfaceHours } from './work-formulas.ts';

export type TaskKind = 'wash' | Exclude<Preparation, 'wash'> | 'mask' | 'coat';

/** One piece of work on one zone. */
export interface Task {
  readonly zoneId: Id;
  readonly zoneName: string;
  readonly kind: TaskKind;
  /** Which coat it is, where it is one. */
  readonly role: CoatRole | null;
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

const summed: Source = { kind: 'derived', from: tr`summed over zones and tasks` };

/** Hours by task, texture and edge. */
export function hours(job: Job, { zones }: Takeoff, coating: Coating): Hours {
  const tasks = coating.zones.flatMap((z, i) => (z.coats.length > 0 ? zoneTasks(job, zones[i]!, z) : []));
  const work = total(
    tr`work`,
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
  const l = leaf(tr`least that is left of it`, 'l', 0.25, 'h', { kind: 'common practice' });
  const days = derive(tr`days on site`, crewDays, {
    W: work,
    n,
    h: dayValue(job, 'work.day'),
    s,
    c,
    t,
    l,
    q: leastDays(job, coating),
  });
  return { tasks, work, days, paid: derive(tr`hours paid`, paidHours, { W: work, D: days, n, s, c, t }) };
}

/** Waits of less than this fit into a working day. */
const SHORT_WAIT_H = 6;

/** Days that drying alone forces on the zone that waits longest: after the rinse, and between its coats. */
function leastDays(job: Job, coating: Coating): Quantity {
  const waits = coating.zones.map((z) => {
    if (z.coats.length === 0) return { days: 0, words: '' };
    const each = [dayValue(job, 'drying.after-wash').value];
    for (const coat of z.coats.slice(0, -1)) each.push(labelHours(job, coat.product, 'recoat'));
    const nights = each.reduce((sum, w) => sum + (w >= SHORT_WAIT_H ? Math.ceil(w / 24) : 0), 0);
    return { days: nights + 1, words: each.map((w) => `${w} h`).join(', ') };
  });
  const longest = waits.reduce((a, b) => (b.days > a.days ? b : a), { days: 1, words: tr`nothing dries` });
  return found(
    tr`days that drying forces`,
    'q',
    Math.max(1, longest.days),
    '1',
    tr`waits of ${longest.words}; each of ${SHORT_WAIT_H} h and more takes a night`,
    {
      kind: 'common practice',
    },
  );
}

function zoneTasks(job: Job, zone: ZoneTakeoff, z: Coating['zones'][number]): Task[] {
  const task = (kind: TaskKind, name: string, hoursOf: Quantity, role: CoatRole | null = null): Task => ({
    zoneId: zone.id,
    zoneName: zone.name,
    kind,
    role,
    name,
    hours: hoursOf,
  });
  const surface = (name: string, key: string) =>
    derive(name, surfaceHours, { A: zone.coatedArea, p: dayValue(job, key) });
  const tasks = [task('wash', tr`wash`, surface(tr`washing`, 'work.wash'))];
  if (z.preparation === 'etch') tasks.push(task('etch', tr`etch`, surface(tr`etching`, 'work.etch')));
  if (z.preparation === 'grind') tasks.push(task('grind', tr`grind`, surface(tr`grinding`, 'work.grind')));
  if (z.preparation === 'abrade')
    tasks.push(task('abrade', tr`abrade`, surface(tr`abrading`, 'work.abrade')));
  if (zone.masked.value > 0) {
    const mask = derive(tr`masking`, maskingHours, {
      M: zone.masked,
      a: dayValue(job, 'work.mask'),
      b: dayValue(job, 'work.unmask'),
    });
    tasks.push(task('mask', tr`mask`, mask));
  }
  const texture = `texture.${zone.surface.texture}`;
  for (const coat of z.coats) {
    const name = COAT_NAMES[coat.role];
    const coatTime = derive(tr`hours, ${name}`, coatHours, {
      L: zone.cutIn,
      c: valueByKey(job, `${texture}.cut-in`),
      R: zone.rollerArea,
      r: valueByKey(job, `${texture}.roll`),
      U: zone.facesUp,
      w: derive(tr`band`, bandMetres, { b: atLeastOne(measureValue(job, 'measure.brush-width')) }),
    });
    tasks.push(task('coat', name, coatTime, coat.role));
  }
  return tasks;
}

/** Faces are brushed in bands of 75 mm where no edge is cut in: no width would take for ever. */
const atLeastOne = (q: Quantity): Quantity =>
  q.value >= 10 ? q : leaf(tr`usual band`, 'b', 75, 'mm', { kind: 'common practice' });
