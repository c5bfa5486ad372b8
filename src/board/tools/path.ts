import {
  distance,
  type Frame,
  flattenRing,
  frameDistance,
  fromFrame,
  type Point,
  toFrame,
  type Vertex,
} from '../../../geometry/index.ts';
import type { NewCorner } from '../../job/edits/slab-edits.ts';
import type { Id } from '../../job/types.ts';
import type { Metres, SheetPoint } from '../../units/types.ts';
import { tr } from '../../words/tr.ts';
import type { Snapped } from '../snapping.ts';
import type { Entry, Mark, ToolContext, ToolInput } from './tool.ts';
import type { TwoTaps, TypedSizes } from './two-taps.ts';

/** A corner put down; `via` bends the side that leaves it. */
export interface PathCorner extends SheetPoint {
  readonly via: SheetPoint | null;
  readonly to: Snapped['to'];
}

/** An outline or line in hand. */
export interface PathInHand {
  readonly corners: readonly PathCorner[];
  readonly hover: Snapped | null;
  /** The next side is an arc: a point on it is put down before its end. */
  readonly arc: boolean;
  readonly pendingVia: SheetPoint | null;
  /** A length typed before its direction was shown, on the ground: the next side gets it. */
  readonly typed: Metres | null;
  /** A shape that the next two taps make, with the sizes typed for it. */
  readonly shape: ({ readonly kind: TwoTaps } & TypedSizes) | null;
}

export const EMPTY_PATH: PathInHand = {
  corners: [],
  hover: null,
  arc: false,
  pendingVia: null,
  typed: null,
  shape: null,
};

const lastOf = (path: PathInHand): PathCorner | undefined => path.corners[path.corners.length - 1];

/** Whether a place is within reach of where the outline began, so that a tap there closes it. */
export const atStart = (path: PathInHand, p: SheetPoint, reach: number): boolean =>
  path.corners.length > 0 && distance(path.corners[0]!, p) <= reach;

/** Puts the next corner down, or the point of an arc; a place within reach of the last corner is nothing. */
export function putDown(
  path: PathInHand,
  at: Snapped,
  { frame, reach }: Pick<ToolContext, 'frame' | 'reach'>,
): PathInHand {
  const last = lastOf(path);
  const straight = last && frame && path.typed !== null && !path.arc && distance(last, at.at) > 0;
  const place = straight ? along(frame, last, at.at, path.typed!) : at.at;
  if (last && distance(last, place) <= reach / 2) return path;
  if (last && path.arc && !path.pendingVia) return { ...path, pendingVia: place, hover: null };
  const corners = last ? [...path.corners.slice(0, -1), { ...last, via: path.pendingVia }] : [];
  return {
    ...path,
    corners: [...corners, { ...place, via: null, to: straight ? { kind: 'free' } : at.to }],
    typed: null,
    pendingVia: null,
    arc: false,
    hover: null,
  };
}

/** Bends the last side when the outline closes while an arc is half put down. */
export function closeArc(path: PathInHand): PathInHand {
  const last = lastOf(path);
  if (!last || !path.pendingVia) return path;
  return {
    ...path,
    corners: [...path.corners.slice(0, -1), { ...last, via: path.pendingVia }],
    pendingVia: null,
    arc: false,
  };
}

/** Takes back the last thing put down or typed. */
function takeBack(path: PathInHand): PathInHand {
  if (path.typed !== null) return { ...path, typed: null };
  if (path.pendingVia) return { ...path, pendingVia: null };
  const corners = path.corners.slice(0, -1);
  const last = corners[corners.length - 1];
  return { ...path, corners: last ? [...corners.slice(0, -1), { ...last, via: null }] : [], arc: false };
}

/**
 * Makes the side in hand exactly so long: towards the pointer when it shows where to, else the last side put
 * down is drawn out or in along its own direction.
 */
export function setLength(path: PathInHand, lengthM: Metres, frame: Frame): PathInHand {
  const last = lastOf(path);
  if (!last) return path;
  const towards = path.hover?.at;
  if (towards && distance(last, towards) > 0) {
    const at = along(frame, last, towards, lengthM);
    const put = putDown(
      { ...path, arc: false, pendingVia: null },
      { at, to: { kind: 'free' }, reason: '' },
      { frame, reach: 0 },
    );
    return put;
  }
  const before = path.corners[path.corners.length - 2];
  if (!before) return { ...path, typed: lengthM };
  if (before.via) return path;
  const moved: PathCorner = { ...along(frame, before, last, lengthM), via: null, to: { kind: 'free' } };
  return { ...path, corners: [...path.corners.slice(0, -1), moved] };
}

/** The point so many metres from one towards another, measured on the ground. */
function along(frame: Frame, from: SheetPoint, towards: SheetPoint, lengthM: Metres): SheetPoint {
  const a = toFrame(frame, from);
  const b = toFrame(frame, towards);
  const share = lengthM / distance(a, b);
  const at = fromFrame(frame, { x: a.x + (b.x - a.x) * share, y: a.y + (b.y - a.y) * share });
  // Level and upright sides keep their coordinate to the last bit.
  return { x: from.x === towards.x ? from.x : at.x, y: from.y === towards.y ? from.y : at.y };
}

/** What every tool that draws a path does with the pointer, Escape, undo and a typed length; null for the rest. */
export function followPath(path: PathInHand, input: ToolInput, { frame }: ToolContext): PathInHand | null {
  switch (input.type) {
    case 'hover':
    case 'press':
    case 'drag':
      return { ...path, hover: input.at };
    case 'cancel':
      return EMPTY_PATH;
    case 'back':
      return takeBack(path);
    case 'entry':
      return frame ? setLength(path, input.lengthM, frame) : path;
    default:
      return null;
  }
}

/** The length of the side in hand, to be typed, once there is a side and a scale. */
export const lengthEntry = (path: PathInHand, frame: Frame | null): Entry[] =>
  path.corners.length > 0 && frame
    ? [{ id: 'length', label: tr`Length`, valueM: sideInHand(path, frame) }]
    : [];

/** Length on the ground of the side in hand: to the pointer, or of the last side put down. */
function sideInHand(path: PathInHand, frame: Frame | null): Metres | null {
  const last = lastOf(path);
  if (!last || !frame) return null;
  const towards = path.hover?.at;
  if (towards) return frameDistance(frame, last, towards);
  if (path.typed !== null) return path.typed;
  const before = path.corners[path.corners.length - 2];
  return before ? frameDistance(frame, before, last) : null;
}

/** The corners as an edit wants them; those put on existing corners share them. */
export const newCorners = (path: PathInHand, newId: (prefix: string) => Id): NewCorner[] =>
  path.corners.map(({ x, y, via, to }) => ({
    id: to.kind === 'corner' ? to.cornerId : newId('c'),
    x,
    y,
    via,
  }));

/** What to draw of an outline in hand. */
export function pathMarks(path: PathInHand, frame: Frame | null, reach: number): Mark[] {
  const marks: Mark[] = [];
  const { corners, hover, pendingVia } = path;
  for (let k = 0; k + 1 < corners.length; k++) {
    const a = corners[k]!;
    const b = corners[k + 1]!;
    marks.push({ kind: 'line', points: bent(a, a.via, b), style: 'hand' });
    if (!a.via && frame) marks.push({ kind: 'measure', a, b, lengthM: frameDistance(frame, a, b) });
  }
  const last = lastOf(path);
  if (last && hover) {
    const via = path.arc && pendingVia ? pendingVia : null;
    const end = hover.at;
    marks.push({ kind: 'line', points: bent(last, via, end), style: 'hand' });
    if (!via && frame && distance(last, end) > 0) {
      marks.push({ kind: 'measure', a: last, b: end, lengthM: frameDistance(frame, last, end) });
    }
  }
  if (hover?.to.kind === 'line') {
    for (const { from } of hover.to.lines)
      marks.push({ kind: 'line', points: [from, hover.at], style: 'guide' });
  }
  corners.forEach((c, k) => {
    marks.push({ kind: 'dot', at: c, style: k === 0 ? 'start' : 'corner' });
  });
  if (pendingVia) marks.push({ kind: 'dot', at: pendingVia, style: 'middle' });
  if (hover) {
    const closes = corners.length > 1 && atStart(path, hover.at, reach);
    marks.push({ kind: 'dot', at: closes ? corners[0]! : hover.at, style: 'snap' });
    const reason = closes ? tr`close the outline` : hover.reason;
    if (reason) marks.push({ kind: 'note', at: hover.at, text: reason });
  }
  return marks;
}

function bent(a: SheetPoint, via: SheetPoint | null, b: SheetPoint): Point[] {
  if (!via) return [a, b];
  const start: Vertex = { ...a, via };
  const whole = flattenRing([start, { ...b, via: null }], distance(a, b) / 500);
  // The ring runs on from b straight back to a; keep the arc only.
  return [a, ...whole.slice(0, -1)];
}
