import type { Point } from '../../geometry/index.ts';

export type PointerKind = 'mouse' | 'pen' | 'touch';

/** A pointer event as the arbiter needs it; screen coordinates within the board. */
export interface PointerInput {
  readonly type: 'down' | 'move' | 'up' | 'cancel';
  readonly id: number;
  readonly kind: PointerKind;
  readonly at: Point;
  /** The pan button (middle or right), or the space bar is held. */
  readonly pans: boolean;
}

/** What a person meant. */
export type Gesture =
  | {
      readonly type: 'hover' | 'tap' | 'press' | 'drag' | 'release';
      readonly at: Point;
      readonly kind: PointerKind;
    }
  /** What was in hand is let go as if it had not begun. */
  | { readonly type: 'interrupt' }
  | { readonly type: 'pan'; readonly dx: number; readonly dy: number }
  | { readonly type: 'zoom'; readonly at: Point; readonly factor: number };

interface Finger {
  readonly id: number;
  readonly kind: PointerKind;
  readonly start: Point;
  readonly at: Point;
}

/** What the arbiter remembers between events. */
export type Hands =
  | { readonly doing: 'nothing'; readonly penSeen: boolean }
  | { readonly doing: 'down' | 'dragging' | 'panning'; readonly penSeen: boolean; readonly finger: Finger }
  | {
      readonly doing: 'pinching';
      readonly penSeen: boolean;
      readonly first: Finger;
      readonly second: Finger;
    };

export const NO_HANDS: Hands = { doing: 'nothing', penSeen: false };

/** How far a pointer may wander before a tap becomes a drag, in screen pixels. */
const DRAG_THRESHOLD: Readonly<Record<PointerKind, number>> = { mouse: 5, pen: 6, touch: 10 };

/** How near counts as on it, in screen pixels. */
export const REACH: Readonly<Record<PointerKind, number>> = { mouse: 10, pen: 14, touch: 26 };

const away = (a: Point, b: Point): number => Math.hypot(a.x - b.x, a.y - b.y);

interface Step {
  readonly hands: Hands;
  readonly gestures: readonly Gesture[];
}

/**
 * Turns pointer events into gestures. A second finger lets go of what the first had in hand, then pans and
 * zooms; once a pen was seen, fingers only pan. Pure.
 */
export function arbitrate(hands: Hands, input: PointerInput): Step {
  const penSeen = hands.penSeen || input.kind === 'pen';
  switch (input.type) {
    case 'down':
      return down({ ...hands, penSeen }, input);
    case 'move':
      return move({ ...hands, penSeen }, input);
    case 'up':
      return up({ ...hands, penSeen }, input);
    case 'cancel':
      return hands.doing === 'nothing'
        ? { hands, gestures: [] }
        : { hands: { doing: 'nothing', penSeen }, gestures: [{ type: 'interrupt' }] };
  }
}

function down(hands: Hands, { id, kind, at, pans }: PointerInput): Step {
  const finger: Finger = { id, kind, start: at, at };
  const { penSeen } = hands;
  if (hands.doing === 'nothing') {
    const onlyPans = pans || (penSeen && kind === 'touch');
    return { hands: { doing: onlyPans ? 'panning' : 'down', penSeen, finger }, gestures: [] };
  }
  if (hands.doing === 'pinching' || kind !== 'touch' || hands.finger.kind !== 'touch')
    return { hands, gestures: [] };
  const interrupt: Gesture[] = hands.doing === 'dragging' ? [{ type: 'interrupt' }] : [];
  return { hands: { doing: 'pinching', penSeen, first: hands.finger, second: finger }, gestures: interrupt };
}

function move(hands: Hands, { id, kind, at }: PointerInput): Step {
  switch (hands.doing) {
    case 'nothing':
      return { hands, gestures: kind === 'touch' ? [] : [{ type: 'hover', at, kind }] };
    case 'down': {
      if (hands.finger.id !== id) return { hands, gestures: [] };
      const finger = { ...hands.finger, at };
      if (away(finger.start, at) < DRAG_THRESHOLD[kind]) return { hands: { ...hands, finger }, gestures: [] };
      return {
        hands: { ...hands, doing: 'dragging', finger },
        gestures: [
          { type: 'press', at: finger.start, kind },
          { type: 'drag', at, kind },
        ],
      };
    }
    case 'dragging':
      if (hands.finger.id !== id) return { hands, gestures: [] };
      return { hands: { ...hands, finger: { ...hands.finger, at } }, gestures: [{ type: 'drag', at, kind }] };
    case 'panning': {
      if (hands.finger.id !== id) return { hands, gestures: [] };
      const { at: was } = hands.finger;
      return {
        hands: { ...hands, finger: { ...hands.finger, at } },
        gestures: [{ type: 'pan', dx: at.x - was.x, dy: at.y - was.y }],
      };
    }
    case 'pinching':
      return pinch(hands, id, at);
  }
}

function pinch(hands: Extract<Hands, { doing: 'pinching' }>, id: number, at: Point): Step {
  const { first, second } = hands;
  if (id !== first.id && id !== second.id) return { hands, gestures: [] };
  const next = {
    ...hands,
    first: id === first.id ? { ...first, at } : first,
    second: id === second.id ? { ...second, at } : second,
  };
  const middle = (p: Point, q: Point): Point => ({ x: (p.x + q.x) / 2, y: (p.y + q.y) / 2 });
  const was = middle(first.at, second.at);
  const now = middle(next.first.at, next.second.at);
  const before = away(first.at, second.at);
  const after = away(next.first.at, next.second.at);
  const gestures: Gesture[] = [{ type: 'pan', dx: now.x - was.x, dy: now.y - was.y }];
  if (before > 1 && after > 1) gestures.push({ type: 'zoom', at: now, factor: after / before });
  return { hands: next, gestures };
}

function up(hands: Hands, { id, kind, at }: PointerInput): Step {
  const none: Hands = { doing: 'nothing', penSeen: hands.penSeen };
  switch (hands.doing) {
    case 'nothing':
      return { hands, gestures: [] };
    case 'pinching': {
      // The finger that stays goes on panning; it never draws.
      const rest = id === hands.first.id ? hands.second : id === hands.second.id ? hands.first : null;
      return rest
        ? { hands: { doing: 'panning', penSeen: hands.penSeen, finger: rest }, gestures: [] }
        : { hands, gestures: [] };
    }
    case 'panning':
      return hands.finger.id === id ? { hands: none, gestures: [] } : { hands, gestures: [] };
    case 'down':
      return hands.finger.id === id
        ? { hands: none, gestures: [{ type: 'tap', at, kind }] }
        : { hands, gestures: [] };
    case 'dragging':
      return hands.finger.id === id
        ? { hands: none, gestures: [{ type: 'release', at, kind }] }
        : { hands, gestures: [] };
  }
}
