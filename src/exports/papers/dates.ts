import { tr } from '../../words/tr.ts';

/** A day as people read it in any country: 9 March 2026. */
export function dayText(iso: string): string {
  const [y, m, d] = iso.slice(0, 10).split('-').map(Number) as [number, number, number];
  return tr`${d} ${MONTHS[m - 1] ?? ''} ${y}`;
}

/** A day of a year that is known: 9 March. */
export function dayMonthText(iso: string): string {
  const [, m, d] = iso.slice(0, 10).split('-').map(Number) as [number, number, number];
  return tr`${d} ${MONTHS[m - 1] ?? ''}`;
}

/** The day with its weekday: Monday, 9 March 2026. */
export const weekdayText = (iso: string): string => {
  const day = new Date(`${iso.slice(0, 10)}T00:00:00Z`).getUTCDay();
  return `${WEEKDAYS[day]}, ${dayText(iso)}`;
};

/** Some days later, YYYY-MM-DD. */
export function daysAfter(iso: string, days: number): string {
  const at = new Date(`${iso.slice(0, 10)}T00:00:00Z`);
  at.setUTCDate(at.getUTCDate() + days);
  return at.toISOString().slice(0, 10);
}

/** The month some years later, as people read it: March 2031. */
export function monthAfter(iso: string, years: number): string {
  // From the first of the month: not every month has a 31st.
  const at = new Date(`${iso.slice(0, 7)}-01T00:00:00Z`);
  at.setUTCMonth(at.getUTCMonth() + Math.round(years * 12));
  return tr`${MONTHS[at.getUTCMonth()]!} ${at.getUTCFullYear()}`;
}

const MONTHS =
  tr`January February March April May June July August September October November December`.split(' ');
const WEEKDAYS = tr`Sunday Monday Tuesday Wednesday Thursday Friday Saturday`.split(' ');
