import { type Arc, pointOnArc } from './arc.ts';
import { distance, type Point } from './point.ts';
import type { Ring, Vertex } from './ring.ts';

/** One step along an outline: where it begins, and the circle it runs on with the signed angle it turns; null when straight. */
export interface OutlineStep {
  readonly from: Point;
  readonly arc: Arc | null;
  /** Radians about the arc's centre, counter-clockwise positive; 0 when straight. */
  readonly turn: number;
}

/** A side turns no further than this, so that its three points always tell its circle. */
const MOST_TURN = Math.PI + 1e-9;

/** Points and circles nearer than this share of the radius are the same; the grid may have bent others off their circle. */
const SAME = 1e-9;

/** The closed outline of steps that follow each other, pieces of one arc joined again. */
export function joinSteps(steps: readonly OutlineStep[]): Ring {
  const at = (i: number): OutlineStep => steps[(i + steps.length) % steps.length]!;
  const goesOn = steps.map((_, i) => isOneArc(at(i - 1), at(i), at(i + 1).from));
  const first = Math.max(0, goesOn.indexOf(false));
  const ring: Vertex[] = [];
  for (let i = 0; i < steps.length; ) {
    const { from, arc } = at(first + i);
    let { turn } = at(first + i);
    let n = 1;
    while (i + n < steps.length && goesOn[(first + i + n) % steps.length]) {
      const more = at(first + i + n).turn;
      if (Math.abs(turn + more) > MOST_TURN) break;
      turn += more;
      n += 1;
    }
    const via = arc && turn !== 0 ? middleOf(from, at(first + i + n).from, arc, turn) : null;
    ring.push(via ? { x: from.x, y: from.y, via } : { x: from.x, y: from.y });
    i += n;
  }
  return ring;
}

/** The point half-way; of an arc that the grid has bent, its rise above the chord is kept. */
function middleOf(a: Point, b: Point, arc: Arc, turn: number): Point {
  if (isOn(arc, a) && isOn(arc, b)) {
    const start = Math.atan2(a.y - arc.centre.y, a.x - arc.centre.x);
    return pointOnArc({ ...arc, start, sweep: turn }, 0.5);
  }
  const chord = distance(a, b) || 1;
  const rise = (Math.sign(turn) * arc.radius * (1 - Math.cos(turn / 2))) / chord;
  return { x: (a.x + b.x) / 2 + (b.y - a.y) * rise, y: (a.y + b.y) / 2 - (b.x - a.x) * rise };
}

/** Whether a step goes on along the circle of the one before, from a point on it to a point on it. */
function isOneArc(before: OutlineStep, step: OutlineStep, end: Point): boolean {
  const [a, b] = [before.arc, step.arc];
  if (!a || !b || Math.sign(before.turn) !== Math.sign(step.turn)) return false;
  const same =
    distance(a.centre, b.centre) <= SAME * b.radius && Math.abs(a.radius - b.radius) <= SAME * b.radius;
  return same && isOn(b, before.from) && isOn(b, step.from) && isOn(b, end);
}

const isOn = (arc: Arc, p: Point): boolean =>
  Math.abs(distance(arc.centre, p) - arc.radius) <= SAME * Math.max(1, arc.radius);
