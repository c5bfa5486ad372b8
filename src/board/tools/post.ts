import { type Frame, frameScale, rectangleRing } from '../../../geometry/index.ts';
import { freeName } from '../../job/names.ts';
import type { VoidShape } from '../../job/types.ts';
import type { Metres, SheetPoint } from '../../units/types.ts';
import { tr } from '../../words/tr.ts';
import type { Snapped } from '../snapping.ts';
import type { Mark, Tool } from './tool.ts';

interface PostInHand {
  readonly square: boolean;
  readonly diameterM: Metres;
  readonly lengthM: Metres;
  readonly widthM: Metres;
  readonly hover: Snapped | null;
}

/** Takes out posts, round or rectangular: one for each tap, all of the size set. */
export const postTool: Tool<PostInHand> = {
  id: 'post',
  label: tr`Post`,
  key: 'p',
  snapsClose: true,
  start: { square: false, diameterM: 0.1, lengthM: 0.1, widthM: 0.1, hover: null },
  on(state, input, { job, sheetId, newId }) {
    switch (input.type) {
      case 'hover':
      case 'press':
      case 'drag':
        return { state: { ...state, hover: input.at } };
      case 'tap':
      case 'release': {
        const id = newId('v');
        const name = freeName(tr`Post`, Object.values(job.voids));
        const { x, y } = input.at.at;
        return {
          state: { ...state, hover: null },
          edits: [
            { type: 'add-void', args: { id, name, kind: 'post', sheetId, shape: shapeAt(state, { x, y }) } },
          ],
          select: { kind: 'void', id },
        };
      }
      case 'entry':
        if (input.id === 'diameter') return { state: { ...state, diameterM: input.lengthM } };
        if (input.id === 'length') return { state: { ...state, lengthM: input.lengthM } };
        return { state: { ...state, widthM: input.lengthM } };
      case 'option':
        return { state: { ...state, square: !state.square } };
      case 'finish':
      case 'cancel':
      case 'back':
        return { state: { ...state, hover: null } };
    }
  },
  marks(state, { frame }) {
    const { hover } = state;
    if (!hover) return [];
    const marks: Mark[] = [{ kind: 'dot', at: hover.at, style: 'snap' }];
    if (frame) marks.push(outline(state, hover.at, frame));
    if (hover.reason) marks.push({ kind: 'note', at: hover.at, text: hover.reason });
    return marks;
  },
  hint: (_state, { frame }) =>
    frame
      ? tr`Tap where each post stands; set its size here first.`
      : tr`Set the scale first, so that the posts get their true size.`,
  path: () => [],
  entries: ({ square, diameterM, lengthM, widthM }) =>
    square
      ? [
          { id: 'length', label: tr`Length`, valueM: lengthM },
          { id: 'width', label: tr`Width`, valueM: widthM },
        ]
      : [{ id: 'diameter', label: tr`Diameter`, valueM: diameterM }],
  options: ({ square }) => [{ id: 'square', label: tr`Rectangular`, on: square, key: 'r' }],
  busy: () => false,
  canFinish: () => false,
};

const shapeAt = ({ square, diameterM, lengthM, widthM }: PostInHand, centre: SheetPoint): VoidShape =>
  square
    ? { type: 'rectangle', centre, lengthM, widthM, angleRad: 0 }
    : { type: 'circle', centre, radiusM: diameterM / 2 };

function outline(state: PostInHand, at: SheetPoint, frame: Frame): Mark {
  const scale = frameScale(frame, at);
  if (!state.square) return { kind: 'circle', centre: at, radius: state.diameterM / 2 / scale };
  const ring = rectangleRing(at, state.lengthM / scale, state.widthM / scale, 0);
  return { kind: 'line', points: [...ring, ring[0]!], style: 'hand' };
}
