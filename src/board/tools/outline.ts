import { distance, fromFrame, toFrame } from '../../../geometry/index.ts';
import type { Metres } from '../../units/types.ts';
import { tr } from '../../words/tr.ts';
import type { Snapped } from '../snapping.ts';
import {
  atStart,
  closeArc,
  EMPTY_PATH,
  followPath,
  lengthEntry,
  type PathCorner,
  type PathInHand,
  pathMarks,
  putDown,
} from './path.ts';
import type { Tool, ToolContext, ToolStep } from './tool.ts';
import { isSized, shapeMarks, shapeOf, sizeEntries, type TwoTaps } from './two-taps.ts';

/** What makes one outline tool differ from another. */
interface OutlineKind {
  readonly id: string;
  readonly label: string;
  readonly key: string;
  readonly snapsClose?: boolean;
  readonly firstHint: string;
  /** What the finished outline becomes. */
  readonly made: (path: PathInHand, context: ToolContext) => Omit<ToolStep<PathInHand>, 'state'>;
}

/** Ways to draw that two taps are enough for. */
const SHAPES = [
  { id: 'rectangle', label: tr`Rectangle`, key: 'r' },
  { id: 'circle', label: tr`Circle`, key: 'o' },
] as const;

const turned = (path: PathInHand, kind: TwoTaps): PathInHand => ({
  ...EMPTY_PATH,
  shape: path.shape?.kind === kind ? null : { kind, acrossM: null, upM: null },
});

function shapeHint(kind: TwoTaps, begun: boolean, measured: boolean): string {
  if (!begun)
    return kind === 'circle' ? tr`Tap the middle of the circle.` : tr`Tap one corner of the rectangle.`;
  const typed = measured ? tr`, or type its size` : '';
  return kind === 'circle' ? tr`Tap its edge${typed}.` : tr`Tap the corner across from it${typed}.`;
}

const canClose = (path: PathInHand): boolean =>
  path.corners.length >= 3 ||
  (path.corners.length === 2 && (path.pendingVia !== null || path.corners[0]!.via !== null));

/** A tool that traces an outline corner by corner; sides are straight, or arcs through a tapped point. */
export function outlineTool(kind: OutlineKind): Tool<PathInHand> {
  const close = (path: PathInHand, context: ToolContext): ToolStep<PathInHand> => {
    const step = kind.made(closeArc(path), context);
    return { state: EMPTY_PATH, ...step };
  };
  /** Closes the shape at the second tap. */
  const shaped = (
    path: PathInHand,
    { kind: shape, ...typed }: NonNullable<PathInHand['shape']>,
    to: Snapped,
    context: ToolContext,
  ): ToolStep<PathInHand> => {
    const first = path.corners[0]!;
    const corners = shapeOf(shape, first, to.at, context.frame, typed);
    if (!corners) return { state: path };
    const ends = [
      { ...first, to: first.to },
      { ...to.at, to: to.to },
    ];
    // A corner that was put on another one's corner is shared with it.
    const put = corners.map((c): PathCorner => {
      const end = ends.find((e) => distance(e, c) < 1e-9 * Math.max(1, distance(first, to.at)));
      return { ...c, to: end?.to ?? { kind: 'free' } };
    });
    return {
      state: { ...EMPTY_PATH, shape: path.shape },
      ...kind.made({ ...EMPTY_PATH, corners: put }, context),
    };
  };
  /** Takes a typed size; with all of them the shape is closed towards the pointer, or to the right and up. */
  const sized = (
    path: PathInHand,
    shape: NonNullable<PathInHand['shape']>,
    id: string,
    lengthM: Metres,
    context: ToolContext,
  ): ToolStep<PathInHand> => {
    const next = { ...shape, ...(id === 'up' ? { upM: lengthM } : { acrossM: lengthM }) };
    const first = path.corners[0];
    if (!first || !context.frame || !isSized(next.kind, next)) return { state: { ...path, shape: next } };
    const start = toFrame(context.frame, first);
    const at = path.hover?.at ?? fromFrame(context.frame, { x: start.x + 1, y: start.y + 1 });
    const step = shaped(path, next, { at, to: { kind: 'free' }, reason: '' }, context);
    return { ...step, state: { ...step.state, shape: { ...next, acrossM: null, upM: null } } };
  };
  return {
    id: kind.id,
    label: kind.label,
    key: kind.key,
    snapsClose: kind.snapsClose ?? false,
    start: EMPTY_PATH,
    on(path, input, context) {
      switch (input.type) {
        case 'tap':
        case 'release':
          if (path.shape && path.corners.length > 0) return shaped(path, path.shape, input.at, context);
          // Closing one's own outline is not snapping: it works with snapping off, and goes before any other corner.
          if (canClose(path) && atStart(path, input.raw, context.reach)) return close(path, context);
          return { state: putDown(path, input.at, context) };
        case 'finish':
          return canClose(path) && !path.shape ? close(path, context) : { state: path };
        case 'entry':
          if (!path.shape) return { state: followPath(path, input, context) ?? path };
          return sized(path, path.shape, input.id, input.lengthM, context);
        case 'option':
          if (input.id === 'rectangle' || input.id === 'circle') return { state: turned(path, input.id) };
          return { state: { ...path, arc: !path.arc, pendingVia: null } };
        default:
          return { state: followPath(path, input, context) ?? path };
      }
    },
    marks(path, { frame, reach }) {
      const [first] = path.corners;
      const corners =
        path.shape && first && path.hover
          ? shapeOf(path.shape.kind, first, path.hover.at, frame, path.shape)
          : null;
      return corners ? shapeMarks(corners, path.shape!.kind, frame) : pathMarks(path, frame, reach);
    },
    hint(path, { frame }) {
      if (path.shape) return shapeHint(path.shape.kind, path.corners.length > 0, frame !== null);
      if (path.pendingVia) return tr`Tap where the curve ends.`;
      if (path.arc) return tr`Tap a point on the curve, then its end.`;
      if (path.corners.length === 0) {
        return frame ? kind.firstHint : tr`${kind.firstHint} It is measured once this sheet has a scale.`;
      }
      if (!canClose(path))
        return path.typed === null
          ? tr`Tap about where the next corner is and type how long the side is, in either order.`
          : tr`Tap in the direction of the side; it gets the length you typed.`;
      return tr`Tap the next corner; tap the first one again, or Finish, to close.`;
    },
    path: (path) => path.corners,
    entries(path, { frame }) {
      if (!path.shape) return lengthEntry(path, frame);
      return path.corners.length > 0 && frame ? sizeEntries(path.shape.kind, path.shape) : [];
    },
    options: (path) =>
      path.corners.length > 0 && !path.shape
        ? [{ id: 'arc', label: tr`Curved side`, on: path.arc, key: 'a' }]
        : path.corners.length === 0
          ? SHAPES.map(({ id, label, key }) => ({ id, label, key, on: path.shape?.kind === id }))
          : [],
    busy: (path) => path.corners.length > 0,
    canFinish: (path) => !path.shape && canClose(path),
  };
}
