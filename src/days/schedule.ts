/** A piece of work, in hours of the whole crew. */
export interface Step {
  readonly name: string;
  readonly hours: number;
  /**
   * The stretches of time that it may be done in, one after another; null for any working time. A step with stretches
   * is done in one go within one of them; any other may be broken off in the evening and taken up in the morning.
   */
  readonly windows: readonly Window[] | null;
  /** When what comes after it on its line may begin; null where that is not known. */
  readonly ready: (end: number) => number | null;
}

/** Time from..to, in hours since the first. */
export interface Window {
  readonly from: number;
  readonly to: number;
}

/** Steps that follow one another: a slab. */
export interface Line {
  readonly name: string;
  readonly steps: readonly Step[];
  /** Other lines whose ground must be dry while a coat of this one is put down; by their place. */
  readonly over?: readonly number[];
}

/** A step where it was put. */
export interface Placed {
  readonly line: number;
  readonly step: number;
  readonly start: number;
  readonly end: number;
}

/** A way to do everything; the last end is as early as can be where `exact`. */
export interface Schedule {
  readonly placed: readonly Placed[];
  readonly finish: number;
  readonly exact: boolean;
}

interface State {
  readonly free: number;
  readonly ready: readonly number[];
  readonly done: readonly number[];
  readonly last: Placed | null;
  readonly before: State | null;
}

/** More states than this at once are thinned to the earliest, and the schedule is then no longer proven. */
const MOST_STATES = 6_000;

/**
 * The schedule that ends first, for one crew that does one thing at a time. Exact: every order of the steps is looked
 * at, and of two ways to have done the same steps one is dropped only when it is later in everything. (Doing a step as
 * early as its order allows never makes anything later: readiness never comes sooner for ending later.)
 * @param working the crew's hours, @param mostStates kept at once; @returns null where the steps do not fit into the time there is
 */
export function earliest(
  lines: readonly Line[],
  working: readonly Window[],
  mostStates = MOST_STATES,
): Schedule | null {
  let states: State[] = [
    { free: 0, ready: lines.map(() => 0), done: lines.map(() => 0), last: null, before: null },
  ];
  const steps = lines.reduce((n, line) => n + line.steps.length, 0);
  let exact = true;
  // What is finished no longer matters, unless somebody still leaves over it.
  const isLeftOver = lines.map((_, i) => lines.some((line) => line.over?.includes(i)));
  for (let k = 0; k < steps; k++) {
    const next = new Map<string, State[]>();
    for (const state of states) {
      for (const after of successors(lines, working, state)) {
        const key = after.done.join(' ');
        keepBest(
          next,
          key,
          after,
          lines.map((line, i) => after.done[i]! < line.steps.length || isLeftOver[i]!),
        );
      }
    }
    states = [...next.values()].flat();
    if (states.length > mostStates) {
      exact = false;
      states = states.sort((a, b) => a.free - b.free).slice(0, mostStates);
    }
  }
  const best = states.reduce<State | null>((a, b) => (a === null || lateness(b) < lateness(a) ? b : a), null);
  if (!best) return null;
  const placed: Placed[] = [];
  for (let s: State | null = best; s?.last; s = s.before) placed.unshift(s.last);
  return { placed, finish: best.free, exact };
}

/** When all is done; of two that end together the one whose slabs are ready sooner, by a hair. */
const lateness = (s: State): number => s.free + 1e-9 * s.ready.reduce((sum, r) => sum + r, 0);

function successors(lines: readonly Line[], working: readonly Window[], state: State): State[] {
  return lines.flatMap((line, i) => {
    const n = state.done[i]!;
    const step = line.steps[n];
    if (!step) return [];
    // Whoever leaves over another slab must not leave over its wet coat; before its first coat it is only washed.
    const dry = step.windows
      ? (line.over ?? []).filter((j) => state.done[j]! > 1).map((j) => state.ready[j]!)
      : [];
    const place = placeStep(step, working, Math.max(state.free, state.ready[i]!, ...dry));
    if (!place) return [];
    const ready = step.ready(place.to);
    if (ready === null && n + 1 < line.steps.length) return [];
    return [
      {
        free: place.to,
        ready: state.ready.map((r, j) => (j === i ? (ready ?? place.to) : r)),
        done: state.done.map((d, j) => (j === i ? d + 1 : d)),
        last: { line: i, step: n, start: place.from, end: place.to },
        before: state,
      },
    ];
  });
}

function keepBest(kept: Map<string, State[]>, key: string, state: State, matters: readonly boolean[]): void {
  const others = kept.get(key) ?? [];
  // A line that is ready before the crew is free is no better for being ready sooner still.
  const later = (a: State, b: State) =>
    a.free >= b.free - 1e-9 &&
    a.ready.every((r, i) => !matters[i] || Math.max(r, a.free) >= Math.max(b.ready[i]!, b.free) - 1e-9);
  if (others.some((o) => later(state, o))) return;
  kept.set(key, [...others.filter((o) => !later(o, state)), state]);
}

/** The first time from a moment on that a step can be done. */
export function placeStep(step: Step, working: readonly Window[], from: number): Window | null {
  if (step.windows) {
    for (const window of step.windows) {
      const start = Math.max(from, window.from);
      if (start + step.hours <= window.to + 1e-9) return { from: start, to: start + step.hours };
    }
    return null;
  }
  let left = step.hours;
  let start: number | null = null;
  for (const { from: open, to: close } of working) {
    const begin = Math.max(from, open);
    if (begin >= close) continue;
    start ??= begin;
    if (begin + left <= close + 1e-9) return { from: start, to: begin + left };
    left -= close - begin;
  }
  return null;
}

/** What two lists of windows have in common. */
export function common(a: readonly Window[], b: readonly Window[]): Window[] {
  return a.flatMap((x) =>
    b.flatMap((y) => {
      const [from, to] = [Math.max(x.from, y.from), Math.min(x.to, y.to)];
      return from < to - 1e-9 ? [{ from, to }] : [];
    }),
  );
}
