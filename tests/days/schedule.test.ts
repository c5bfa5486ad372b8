import { describe, expect, test } from 'vitest';
import { earliest, type Line, placeStep, type Window } from '../../src/days/schedule.ts';
import { randomNumbers } from '../random/numbers.ts';

/** Days of nine working hours from 7, for two weeks. */
const WORKING: readonly Window[] = Array.from({ length: 14 }, (_, d) => ({
  from: 24 * d + 7,
  to: 24 * d + 16,
}));

/** The end of the best order, by trying every one of them. */
function bruteForce(lines: readonly Line[]): number | null {
  let best: number | null = null;
  const go = (done: number[], ready: number[], free: number): void => {
    let any = false;
    for (let i = 0; i < lines.length; i++) {
      const step = lines[i]!.steps[done[i]!];
      if (!step) continue;
      any = true;
      // Nobody leaves over a slab whose coat is still wet.
      const over = step.windows ? (lines[i]!.over ?? []).filter((j) => done[j]! > 1) : [];
      const from = Math.max(free, ready[i]!, ...over.map((j) => ready[j]!));
      const place = byQuarterHours(step.hours, step.windows, from);
      if (place === null) continue;
      const next = step.ready(place);
      go(
        done.map((d, j) => (j === i ? d + 1 : d)),
        ready.map((r, j) => (j === i ? (next ?? place) : r)),
        place,
      );
    }
    if (!any && (best === null || free < best)) best = free;
  };
  go(
    lines.map(() => 0),
    lines.map(() => 0),
    0,
  );
  return best;
}

/** Walks on by quarters of an hour, apart from the program's arithmetic on windows; all times are quarters. */
function byQuarterHours(hours: number, windows: readonly Window[] | null, from: number): number | null {
  const open = (t: number, list: readonly Window[]) => list.some((w) => t >= w.from && t < w.to);
  if (windows) {
    for (let start = from; start < 14 * 24; start += 0.25) {
      const inOne = windows.some((w) => start >= w.from && start + hours <= w.to);
      if (inOne) return start + hours;
    }
    return null;
  }
  let left = hours;
  for (let t = from; t < 14 * 24; t += 0.25) {
    if (!open(t, WORKING)) continue;
    left -= 0.25;
    if (left <= 0) return t + 0.25;
  }
  return null;
}

describe('the schedule', () => {
  test('ends as early as the best of all orders, on 300 random small jobs', () => {
    const random = randomNumbers(3);
    const quarter = (low: number, high: number) => Math.round((low + (high - low) * random()) * 4) / 4;
    let solved = 0;
    for (let n = 0; n < 300; n++) {
      const good = Array.from({ length: 14 }, (_, d) => {
        const from = 24 * d + 7 + quarter(0, 4);
        return { from, to: Math.min(24 * d + 16, from + quarter(0.5, 6)) };
      }).filter(() => random() < 0.8);
      const lines: Line[] = Array.from({ length: 1 + Math.floor(random() * 3) }, (_, i) => {
        const wait = quarter(0, 30);
        return {
          name: `slab ${i}`,
          over: i > 0 && random() < 0.4 ? [i - 1] : [],
          steps: Array.from({ length: 1 + Math.floor(random() * 3) }, (_unused, k) => ({
            name: `${k}`,
            hours: quarter(0.25, 5),
            windows: k === 0 ? null : good,
            ready: (end: number) => end + wait,
          })),
        };
      });
      const expected = bruteForce(lines);
      const found = earliest(lines, WORKING);
      expect(found?.finish ?? null, `job ${n}`).toBe(expected);
      if (!found) continue;
      solved++;
      expect(found.exact).toBe(true);
      // It is a schedule: one thing at a time, each after what it waits for.
      const ends = lines.map(() => 0);
      let free = 0;
      for (const p of found.placed) {
        expect(p.start).toBeGreaterThanOrEqual(Math.max(free, ends[p.line]!));
        free = p.end;
        ends[p.line] = lines[p.line]!.steps[p.step]!.ready(p.end)!;
      }
    }
    expect(solved).toBeGreaterThan(150);
  });

  test('preparation is broken off in the evening, a coat is not', () => {
    const step = (hours: number, windows: readonly Window[] | null) => ({
      name: '',
      hours,
      windows,
      ready: (e: number) => e,
    });
    expect(placeStep(step(12, null), WORKING, 0)).toEqual({ from: 7, to: 24 + 10 });
    expect(placeStep(step(5, WORKING), WORKING, 12)).toEqual({ from: 31, to: 36 });
    expect(placeStep(step(10, WORKING), WORKING, 0)).toBeNull();
  });

  test('nothing fits into no time', () => {
    const line = { name: '', steps: [{ name: '', hours: 1, windows: [], ready: (e: number) => e }] };
    expect(earliest([line], WORKING)).toBeNull();
  });
});
