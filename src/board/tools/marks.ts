import { distance } from '../../../geometry/index.ts';
import type { Edit } from '../../job/edits/index.ts';
import type { Fit, GroundMark } from '../../job/types.ts';
import { rectanglePlaces } from '../../takeoff/fits/marks-fit.ts';
import type { Metres, SheetPoint } from '../../units/types.ts';
import { tr } from '../../words/tr.ts';
import type { Snapped } from '../snapping.ts';
import type { Mark, Tool, ToolContext } from './tool.ts';

interface MarksInHand {
  readonly marks: readonly SheetPoint[];
  readonly hover: Snapped | null;
  /** The rectangle's first side, once typed. */
  readonly lengthM: Metres | null;
  /** New marks take the place of those that are there. */
  readonly again: boolean;
}

const EMPTY: MarksInHand = { marks: [], hover: null, lengthM: null, again: false };

type MarksFit = Extract<Fit, { kind: 'marks' }>;

const fitOf = ({ job, sheetId }: ToolContext): MarksFit | null => {
  const fit = job.sheets[sheetId]?.fit;
  return fit?.kind === 'marks' ? fit : null;
};

const setFit = (sheetId: string, fit: Fit): Edit => ({ type: 'set-fit', args: { sheetId, fit } });

/** One mark more on a photo that has some: its place or its distances are then typed in the lists. */
function withMark(fit: MarksFit, at: SheetPoint): MarksFit {
  const { known } = fit;
  if (known.type !== 'rectangle') return { ...fit, marks: [...fit.marks, { at, on: null }] };
  // The rectangle's own corners keep their places.
  const corners = rectanglePlaces(fit.marks, known.lengthM, known.widthM);
  const marks = fit.marks.map((m, i): GroundMark => ({ at: m.at, on: corners[i] ?? null }));
  return { ...fit, marks: [...marks, { at, on: null }], known: { type: 'points' } };
}

/** Straightens a photo taken at an angle by marks on the ground: a rectangle of known sides, or any four and more. */
export const marksTool: Tool<MarksInHand> = {
  id: 'marks',
  label: tr`Straighten`,
  key: 'k',
  start: EMPTY,
  on(state, input, context) {
    const { sheetId, reach } = context;
    switch (input.type) {
      case 'hover':
      case 'press':
      case 'drag':
        return { state: { ...state, hover: input.at } };
      case 'tap':
      case 'release': {
        const at = { x: input.at.at.x, y: input.at.at.y };
        const fit = fitOf(context);
        if (fit && !state.again && state.marks.length === 0) {
          const near = fit.marks.some((m) => distance(m.at, at) <= reach / 2);
          return near ? { state } : { state: EMPTY, edits: [setFit(sheetId, withMark(fit, at))] };
        }
        const slip = state.marks.some((m) => distance(m, at) <= reach / 2);
        return slip || state.marks.length >= 12
          ? { state }
          : { state: { ...state, marks: [...state.marks, at], hover: null } };
      }
      case 'entry': {
        if (input.id === 'length') return { state: { ...state, lengthM: input.lengthM } };
        if (state.lengthM === null || state.marks.length !== 4) return { state };
        const fit: Fit = {
          kind: 'marks',
          marks: state.marks.map((at) => ({ at, on: null })),
          known: { type: 'rectangle', lengthM: state.lengthM, widthM: input.lengthM },
          straights: [],
        };
        return { state: EMPTY, edits: [setFit(sheetId, fit)] };
      }
      case 'finish': {
        if (state.marks.length < 4) return { state };
        const marks = state.marks.map((at) => ({ at, on: null }));
        return {
          state: EMPTY,
          edits: [
            setFit(sheetId, { kind: 'marks', marks, known: { type: 'tapes', tapes: [] }, straights: [] }),
          ],
        };
      }
      case 'back':
        return state.lengthM !== null
          ? { state: { ...state, lengthM: null } }
          : { state: { ...state, marks: state.marks.slice(0, -1) } };
      case 'cancel':
        return { state: EMPTY };
      case 'option':
        return { state: { ...EMPTY, again: !state.again } };
    }
  },
  marks({ marks, hover, again }, context) {
    const drawn: Mark[] = [];
    const old = again ? null : fitOf(context);
    const all = marks.length > 0 ? marks : (old?.marks.map((m) => m.at) ?? []);
    all.forEach((at, i) => {
      drawn.push({ kind: 'dot', at, style: i === 0 ? 'start' : 'corner' });
      drawn.push({ kind: 'note', at, text: String(i + 1) });
    });
    if (marks.length > 1)
      drawn.push({ kind: 'line', points: marks.length === 4 ? [...marks, marks[0]!] : marks, style: 'hand' });
    for (const line of old?.straights ?? []) drawn.push({ kind: 'line', points: line, style: 'guide' });
    if (hover) drawn.push({ kind: 'dot', at: hover.at, style: 'snap' });
    return drawn;
  },
  hint({ marks, lengthM, again }, context) {
    const left = 4 - marks.length;
    if (marks.length === 0 && !again && fitOf(context))
      return tr`Tap another mark whose place on the ground you know, or switch to Set the marks again.`;
    if (left === 4)
      return tr`Tap a corner of a rectangle on the ground whose sides you know, then the others in turn. Any four marks will do if you have taped between them.`;
    if (left > 0) return tr`Tap the next mark in turn: ${left} to go. Spread them round the slab.`;
    if (marks.length > 4)
      return tr`Tap more marks, or finish and type the distances between them in the lists.`;
    return lengthM === null
      ? tr`A rectangle? Type how long it is from mark 1 to mark 2. If not, finish, and type distances in the lists.`
      : tr`Now type how wide it is from mark 2 to mark 3.`;
  },
  path: () => [],
  entries({ marks, lengthM }) {
    if (marks.length !== 4) return [];
    const length = { id: 'length', label: tr`Mark 1 to 2`, valueM: lengthM };
    return lengthM === null ? [length] : [length, { id: 'width', label: tr`Mark 2 to 3`, valueM: null }];
  },
  options: ({ again }) => [{ id: 'again', label: tr`Set the marks again`, on: again }],
  busy: ({ marks }) => marks.length > 0,
  canFinish: ({ marks }) => marks.length >= 4,
};
