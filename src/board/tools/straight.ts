import { distance } from '../../../geometry/index.ts';
import type { SheetPoint } from '../../units/types.ts';
import { tr } from '../../words/tr.ts';
import type { Snapped } from '../snapping.ts';
import type { Mark, Tool } from './tool.ts';

interface LineInHand {
  readonly points: readonly SheetPoint[];
  readonly hover: Snapped | null;
}

const EMPTY: LineInHand = { points: [], hover: null };

/** Marks what is straight in truth, so that the bend of the lens can be told. */
export const straightTool: Tool<LineInHand> = {
  id: 'straight',
  label: tr`Straight line`,
  key: 'l',
  start: EMPTY,
  on(state, input, { job, sheetId, reach }) {
    switch (input.type) {
      case 'hover':
      case 'press':
      case 'drag':
        return { state: { ...state, hover: input.at } };
      case 'tap':
      case 'release': {
        // Where the pointer truly is: drawing it to a corner would bend the line.
        const at = { x: input.raw.x, y: input.raw.y };
        const last = state.points[state.points.length - 1];
        if (last && distance(last, at) <= reach / 2) return { state };
        return { state: { points: [...state.points, at], hover: null } };
      }
      case 'finish': {
        const fit = job.sheets[sheetId]?.fit;
        if (state.points.length < 3 || fit?.kind !== 'marks') return { state };
        const straights = [...fit.straights, state.points];
        return { state: EMPTY, edits: [{ type: 'set-fit', args: { sheetId, fit: { ...fit, straights } } }] };
      }
      case 'back':
        return { state: { ...state, points: state.points.slice(0, -1) } };
      case 'cancel':
        return { state: EMPTY };
      case 'entry':
      case 'option':
        return { state };
    }
  },
  marks({ points, hover }, { job, sheetId }) {
    const fit = job.sheets[sheetId]?.fit;
    const marks: Mark[] =
      fit?.kind === 'marks'
        ? fit.straights.map((line) => ({ kind: 'line', points: line, style: 'guide' }))
        : [];
    const shown = hover ? [...points, hover.at] : points;
    if (shown.length > 1) marks.push({ kind: 'line', points: shown, style: 'hand' });
    for (const at of points) marks.push({ kind: 'dot', at, style: 'corner' });
    return marks;
  },
  hint: ({ points }) =>
    points.length === 0
      ? tr`Tap along something that is straight in truth, a wall’s foot or a kerb, near the edge of the photo: three places or more.`
      : points.length < 3
        ? tr`Tap on along the same line.`
        : tr`Tap on along it, or finish.`,
  path: () => [],
  entries: () => [],
  options: () => [],
  busy: ({ points }) => points.length > 0,
  canFinish: ({ points }) => points.length >= 3,
};
