import {
  atStart,
  closeArc,
  EMPTY_PATH,
  followPath,
  lengthEntry,
  type PathInHand,
  pathMarks,
  putDown,
} from './path.ts';
import type { Tool, ToolContext, ToolStep } from './tool.ts';

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

const canClose = (path: PathInHand): boolean =>
  path.corners.length >= 3 ||
  (path.corners.length === 2 && (path.pendingVia !== null || path.corners[0]!.via !== null));

/** A tool that traces an outline corner by corner; sides are straight, or arcs through a tapped point. */
export function outlineTool(kind: OutlineKind): Tool<PathInHand> {
  const close = (path: PathInHand, context: ToolContext): ToolStep<PathInHand> => {
    const step = kind.made(closeArc(path), context);
    return { state: EMPTY_PATH, ...step };
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
          // Closing one's own outline is not snapping: it works with snapping off, and goes before any other corner.
          if (canClose(path) && atStart(path, input.raw, context.reach)) return close(path, context);
          return { state: putDown(path, input.at, context) };
        case 'finish':
          return canClose(path) ? close(path, context) : { state: path };
        case 'option':
          return { state: { ...path, arc: !path.arc, pendingVia: null } };
        default:
          return { state: followPath(path, input, context) ?? path };
      }
    },
    marks: (path, { frame, reach }) => pathMarks(path, frame, reach),
    hint(path, { frame }) {
      if (path.pendingVia) return 'Tap where the curve ends.';
      if (path.arc) return 'Tap a point on the curve, then its end.';
      if (path.corners.length === 0) {
        return frame ? kind.firstHint : `${kind.firstHint} It is measured once this sheet has a scale.`;
      }
      if (!canClose(path))
        return path.typed === null
          ? 'Tap the next corner, or type the length of the side.'
          : 'Tap in the direction of the side; it gets the length you typed.';
      return 'Tap the next corner; tap the first one again, or Finish, to close.';
    },
    path: (path) => path.corners,
    entries: (path, { frame }) => lengthEntry(path, frame),
    options: (path) =>
      path.corners.length > 0 ? [{ id: 'arc', label: 'Curved side', on: path.arc, key: 'a' }] : [],
    busy: (path) => path.corners.length > 0,
    canFinish: canClose,
  };
}
