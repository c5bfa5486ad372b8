import { insidePoints, lerp, nearestOnRing } from '../../../geometry/index.ts';
import type { NewCutPoint } from '../../job/edits/slab-edits.ts';
import { outlinePoints, slabRing } from '../../job/outline.ts';
import type { Id, Job, Slab } from '../../job/types.ts';
import { tr } from '../../words/tr.ts';
import {
  EMPTY_PATH,
  followPath,
  lengthEntry,
  type PathCorner,
  type PathInHand,
  pathMarks,
  putDown,
} from './path.ts';
import type { Tool, ToolContext, ToolStep } from './tool.ts';

/** Splits a slab along a line from side to side; ends that meet a side or corner stay on it. */
export const cutTool: Tool<PathInHand> = {
  id: 'cut',
  label: tr`Cut`,
  key: 'c',
  start: EMPTY_PATH,
  on(path, input, context) {
    switch (input.type) {
      case 'tap':
      case 'release': {
        const next = putDown(path, input.at, context);
        const grew = next.corners.length > path.corners.length && next.corners.length > 1;
        const arrived = input.at.to.kind === 'side' || input.at.to.kind === 'corner';
        return grew && arrived ? finish(next, context) : { state: next };
      }
      case 'finish':
        return path.corners.length > 1 ? finish(path, context) : { state: path };
      default:
        return { state: followPath(path, input, context) ?? path };
    }
  },
  marks: (path, { frame, reach }) => pathMarks(path, frame, reach),
  hint: (path) =>
    path.corners.length === 0
      ? tr`Tap where the cut begins: a side or a corner of the slab.`
      : tr`Tap along the cut; it ends where you tap a side or a corner.`,
  path: (path) => path.corners,
  entries: (path, { frame }) => lengthEntry(path, frame),
  options: () => [],
  busy: (path) => path.corners.length > 0,
  canFinish: (path) => path.corners.length > 1,
};

function finish(path: PathInHand, context: ToolContext): ToolStep<PathInHand> {
  const slab = slabUnder(path.corners, context);
  if (!slab) return { state: EMPTY_PATH, problem: { code: 'cut/outside', what: tr`The cut` } };
  const id = context.newId('k');
  const points = path.corners.map((c) => pointOf(c, context.job, slab, context));
  return {
    state: EMPTY_PATH,
    edits: [{ type: 'add-cut', args: { id, slabId: slab.id, points } }],
    select: { kind: 'cut', id },
  };
}

/** The slab that holds the middle of some stretch of the cut. */
function slabUnder(corners: readonly PathCorner[], { job, sheetId }: ToolContext): Slab | null {
  const slabs = Object.values(job.slabs).filter((s) => s.sheetId === sheetId);
  for (let k = 0; k + 1 < corners.length; k++) {
    const middle = lerp(corners[k]!, corners[k + 1]!, 0.5);
    const found = slabs.find((s) => insidePoints(outlinePoints(slabRing(job, s)), middle));
    if (found) return found;
  }
  return null;
}

function pointOf(corner: PathCorner, job: Job, slab: Slab, { reach, newId }: ToolContext): NewCutPoint {
  const { x, y, to } = corner;
  const has = (id: Id) => slab.corners.some((c) => c.cornerId === id);
  if (to.kind === 'corner' && has(to.cornerId)) return { at: 'corner', cornerId: to.cornerId };
  // A place on a neighbour's side is on this slab's side too where the two touch.
  const on = to.kind === 'free' || to.kind === 'line' ? null : nearestOnRing(slabRing(job, slab), { x, y });
  if (on && on.distance <= reach / 4)
    return { at: 'side', cornerId: slab.corners[on.side]!.cornerId, t: on.t };
  return { at: 'place', id: newId('c'), x, y };
}
