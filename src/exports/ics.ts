import type { DateArray, EventAttributes } from 'ics';
import type { Results } from '../results.ts';
import { tr } from '../words/tr.ts';
import type { Export } from './export.ts';

/** The day plan as a calendar after RFC 5545; local times without a zone, which is where the job is. */
export const icsExport: Export = {
  ending: 'ics',
  label: tr`Day plan (calendar)`,
  type: 'text/calendar',
  refuse: ({ days, order }) => {
    const [stop] = order.blocks;
    if (stop) return { code: 'order/blocked', sentence: stop.sentence };
    return days && days.tasks.length > 0 ? null : { code: 'export/no-plan' };
  },
  write: async (results) => {
    const { createEvents } = await import('ics');
    const { error, value } = createEvents(events(results), { productId: 'slabwright', method: 'PUBLISH' });
    if (error || !value) throw error ?? new Error('no calendar was written');
    return new TextEncoder().encode(value);
  },
};

const parts = (at: string): DateArray =>
  [...at.slice(0, 10).split('-'), ...at.slice(11, 16).split(':')].map(Number) as unknown as DateArray;

function events({ job, days }: Results): EventAttributes[] {
  const local = {
    startInputType: 'local',
    startOutputType: 'local',
    endInputType: 'local',
    endOutputType: 'local',
  } as const;
  const tasks = days!.tasks.map(
    (t): EventAttributes => ({
      ...local,
      uid: `${job.id}-${t.slabId}-${t.step}@slabwright`,
      title: `${t.slabName}: ${t.name}`,
      description: tr`${t.hours.toFixed(1)} h of the crew. ${job.name}`,
      start: parts(t.startAt),
      end: parts(t.endAt),
    }),
  );
  const open = days!.reopenings.flatMap((r): EventAttributes[] =>
    r.feetAt === null
      ? []
      : [
          {
            ...local,
            uid: `${job.id}-${r.slabId}-feet@slabwright`,
            title: tr`${r.slabName}: feet may walk on it, by estimate`,
            description: tr`An estimate; what the label says goes first. ${job.name}`,
            start: parts(r.feetAt),
            duration: { minutes: 15 },
          },
        ],
  );
  return [...tasks, ...open];
}
