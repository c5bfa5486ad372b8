import type { DayPlan, Strip } from '../days/plan.ts';
import { tr } from '../words/tr.ts';
import { Drawer } from './drawer.tsx';

/** Three weeks are planned by; a year of hours is not drawn. */
const MOST_DAYS = 21;
const HOUR_W = 9;
const DAY_H = 22;

/** Go, wait and no of one product, a row a day; in words for who cannot see it, and under each hour. */
export function HoursStrip({ plan, strip }: { readonly plan: DayPlan; readonly strip: Strip }) {
  const days = daysOf(plan).slice(0, MOST_DAYS);
  return (
    <figure className="hours">
      <figcaption>{strip.product.name}</figcaption>
      {days.map(({ date, first, count }) => {
        const verdicts = strip.verdicts.slice(first, first + count);
        const offset = Number(plan.climate[first]!.hour.at.slice(11, 13));
        return (
          <div key={date} className="day">
            <span className="date">{dateWords(date)}</span>
            <svg
              viewBox={`0 0 ${24 * HOUR_W} ${DAY_H}`}
              role="img"
              aria-label={dayWords(plan, strip, first, count)}
              preserveAspectRatio="none"
            >
              {verdicts.map((v, i) => (
                <rect
                  key={plan.climate[first + i]!.hour.at}
                  className={v.code === 'dark' ? 'dark' : v.go}
                  x={(offset + i) * HOUR_W + 0.5}
                  y={v.go === 'go' ? 2 : v.go === 'wait' ? 8 : 14}
                  width={HOUR_W - 1}
                  height={v.go === 'go' ? 18 : v.go === 'wait' ? 12 : 6}
                >
                  <title>{`${plan.climate[first + i]!.hour.at.replace('T', ' ')}: ${GO_WORDS[v.go]}. ${v.reason}`}</title>
                </rect>
              ))}
            </svg>
            <span className="why">{whyWords(plan, strip, first, count)}</span>
          </div>
        );
      })}
      <Drawer name="hours in words" summary={tr`Hour by hour, in words`}>
        <ul className="plain">
          {days.map(({ date, first, count }) => (
            <li key={date}>
              {dateWords(date)}: {spansWords(plan, strip, first, count)}
            </li>
          ))}
        </ul>
      </Drawer>
    </figure>
  );
}

interface Day {
  readonly date: string;
  readonly first: number;
  readonly count: number;
}

function daysOf(plan: DayPlan): Day[] {
  const days = new Map<string, { first: number; count: number }>();
  plan.climate.forEach((h, i) => {
    const date = h.hour.at.slice(0, 10);
    const day = days.get(date) ?? { first: i, count: 0 };
    days.set(date, { ...day, count: day.count + 1 });
  });
  return [...days].map(([date, day]) => ({ date, ...day }));
}

const GO_WORDS = { go: tr`go`, wait: tr`wait`, no: tr`no` } as const;

const WEEKDAYS = [tr`Sun`, tr`Mon`, tr`Tue`, tr`Wed`, tr`Thu`, tr`Fri`, tr`Sat`];

const dateWords = (date: string): string => {
  const day = new Date(`${date}T00:00:00Z`);
  return `${WEEKDAYS[day.getUTCDay()]} ${day.getUTCDate()}`;
};

/** A day's hours by daylight, what is said of them, and why. */
function spansWords(plan: DayPlan, strip: Strip, first: number, count: number): string {
  const spans: Array<{ from: number; to: number; words: string }> = [];
  for (let i = first; i < first + count; i++) {
    const v = strip.verdicts[i]!;
    if (v.code === 'dark') continue;
    const hour = Number(plan.climate[i]!.hour.at.slice(11, 13));
    const words = v.go === 'go' ? GO_WORDS.go : `${GO_WORDS[v.go]}, ${WHY[v.code]}`;
    const last = spans[spans.length - 1];
    if (last && last.to === hour && last.words === words) last.to = hour + 1;
    else spans.push({ from: hour, to: hour + 1, words });
  }
  return spans.map((s) => `${s.from}–${s.to} ${s.words}`).join('; ');
}

/** The hours that are good, as "7–11, 15–17". */
function goWords(plan: DayPlan, strip: Strip, first: number, count: number): string {
  const spans: Array<[number, number]> = [];
  for (let i = first; i < first + count; i++) {
    if (strip.verdicts[i]!.go !== 'go') continue;
    const hour = Number(plan.climate[i]!.hour.at.slice(11, 13));
    const last = spans[spans.length - 1];
    if (last && last[1] === hour) last[1] = hour + 1;
    else spans.push([hour, hour + 1]);
  }
  return spans.map(([a, b]) => `${a}–${b}`).join(', ');
}

const dayWords = (plan: DayPlan, strip: Strip, first: number, count: number): string =>
  `${plan.climate[first]!.hour.at.slice(0, 10)}: ${goWords(plan, strip, first, count) || tr`no good hour`}. ${whyWords(plan, strip, first, count)}`;

/** What stands against most of the hours of a working day that are not good. */
function whyWords(plan: DayPlan, strip: Strip, first: number, count: number): string {
  const reasons = new Map<string, number>();
  for (let i = first; i < first + count; i++) {
    const v = strip.verdicts[i]!;
    const hour = Number(plan.climate[i]!.hour.at.slice(11, 13));
    if (v.go === 'go' || v.code === 'dark' || hour < 7 || hour > 17) continue;
    reasons.set(v.code, (reasons.get(v.code) ?? 0) + 1);
  }
  const most = [...reasons].sort((a, b) => b[1] - a[1])[0]?.[0];
  return most ? WHY[most as keyof typeof WHY] : '';
}

const WHY = {
  good: '',
  cold: tr`too cold`,
  hot: tr`slab too hot`,
  dew: tr`too near the dew point`,
  humid: tr`air too humid`,
  wind: tr`too windy`,
  rain: tr`rain`,
  wet: tr`wet from rain or dew`,
  'rain-before-dry': tr`rain before it is dry`,
  'dew-before-dry': tr`dew before it is dry`,
  film: tr`night too cold for the film`,
  dark: '',
  unknown: tr`weather not known far enough`,
} as const;
