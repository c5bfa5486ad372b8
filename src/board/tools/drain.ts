import { distance, frameScale } from '../../../geometry/index.ts';
import { freeName } from '../../job/names.ts';
import type { Metres } from '../../units/types.ts';
import { tr } from '../../words/tr.ts';
import { EMPTY_PATH, lengthEntry, type PathInHand, pathMarks, putDown, setLength } from './path.ts';
import type { Tool, ToolContext, ToolStep } from './tool.ts';

interface DrainInHand {
  readonly path: PathInHand;
  readonly widthM: Metres;
}

/** Takes out a channel drain: a line with a width. */
export const drainTool: Tool<DrainInHand> = {
  id: 'drain',
  label: tr`Drain`,
  key: 'd',
  snapsClose: true,
  start: { path: EMPTY_PATH, widthM: 0.15 },
  on(state, input, context) {
    const { path } = state;
    switch (input.type) {
      case 'hover':
      case 'press':
      case 'drag':
        return { state: { ...state, path: { ...path, hover: input.at } } };
      case 'tap':
      case 'release':
        return place(state, putDown(path, input.at, context), context);
      case 'entry':
        if (input.id === 'width') return { state: { ...state, widthM: input.lengthM } };
        return context.frame
          ? place(state, setLength(path, input.lengthM, context.frame), context)
          : { state };
      case 'cancel':
      case 'back':
        return { state: { ...state, path: EMPTY_PATH } };
      case 'finish':
      case 'option':
        return { state };
    }
  },
  marks({ path, widthM }, { frame, reach }) {
    const marks = pathMarks(path, frame, reach);
    const start = path.corners[0];
    const end = path.hover?.at;
    if (start && end && frame && distance(start, end) > 0) {
      const half = widthM / frameScale(frame, start) / 2;
      const d = distance(start, end);
      const n = { x: (-(end.y - start.y) / d) * half, y: ((end.x - start.x) / d) * half };
      const shift = (p: { x: number; y: number }, k: number) => ({ x: p.x + n.x * k, y: p.y + n.y * k });
      const box = [shift(start, 1), shift(end, 1), shift(end, -1), shift(start, -1), shift(start, 1)];
      marks.push({ kind: 'line', points: box, style: 'soft' });
    }
    return marks;
  },
  hint: ({ path }) =>
    path.corners.length === 0
      ? tr`Tap where the drain begins, along its middle.`
      : tr`Tap where it ends, or type its length.`,
  path: ({ path }) => path.corners,
  entries: ({ path, widthM }, { frame }) => [
    { id: 'width', label: tr`Width`, valueM: widthM },
    ...lengthEntry(path, frame),
  ],
  options: () => [],
  busy: ({ path }) => path.corners.length > 0,
  canFinish: () => false,
};

/** Two places make a drain; one waits for the other. */
function place(
  state: DrainInHand,
  path: PathInHand,
  { job, sheetId, newId }: ToolContext,
): ToolStep<DrainInHand> {
  const [a, b] = path.corners;
  if (!a || !b) return { state: { ...state, path } };
  const id = newId('v');
  const shape = { type: 'line', a: { x: a.x, y: a.y }, b: { x: b.x, y: b.y }, widthM: state.widthM } as const;
  const name = freeName(tr`Drain`, Object.values(job.voids));
  return {
    state: { ...state, path: EMPTY_PATH },
    edits: [{ type: 'add-void', args: { id, name, kind: 'drain', sheetId, shape } }],
    select: { kind: 'void', id },
  };
}
