import { distance } from '../../../geometry/index.ts';
import type { SheetPoint } from '../../units/types.ts';
import { tr } from '../../words/tr.ts';
import type { Snapped } from '../snapping.ts';
import type { Mark, Tool } from './tool.ts';

interface ScaleInHand {
  readonly a: SheetPoint | null;
  readonly b: SheetPoint | null;
  readonly hover: Snapped | null;
  /** The line joins the known lengths that are there, rather than taking their place. */
  readonly more: boolean;
}

const EMPTY: ScaleInHand = { a: null, b: null, hover: null, more: false };

/** Sets a picture's scale from a line of known length. */
export const scaleTool: Tool<ScaleInHand> = {
  id: 'scale',
  label: tr`Scale`,
  key: 'm',
  start: EMPTY,
  on(state, input, { job, sheetId, reach }) {
    switch (input.type) {
      case 'hover':
      case 'press':
      case 'drag':
        return { state: { ...state, hover: input.at } };
      case 'tap':
      case 'release': {
        const p = { x: input.at.at.x, y: input.at.at.y };
        if (!state.a || state.b) return { state: { ...state, a: p, b: null, hover: null } };
        // A second tap on the same spot is a slip, not a line.
        return distance(state.a, p) <= reach / 4 ? { state } : { state: { ...state, b: p, hover: null } };
      }
      case 'entry': {
        const { a, b } = state;
        if (!a || !b) return { state };
        const old = job.sheets[sheetId]?.fit;
        const kept = old?.kind === 'scale' ? old.reach : null;
        const flat = old?.kind === 'scale' && old.flat ? { flat: true } : {};
        const before = state.more && old?.kind === 'scale' ? old.lengths : [];
        const stretched =
          before.length > 0 && old?.kind === 'scale' && old.stretched ? { stretched: true } : {};
        const lengths = [...before, { a, b, lengthM: input.lengthM }];
        const fit = { kind: 'scale', lengths, reach: kept, ...stretched, ...flat } as const;
        return { state: EMPTY, edits: [{ type: 'set-fit', args: { sheetId, fit } }] };
      }
      case 'back':
        return { state: state.b ? { ...state, b: null } : { ...EMPTY, more: state.more } };
      case 'cancel':
        return { state: EMPTY };
      case 'option':
        return { state: { ...state, more: !state.more } };
      case 'finish':
        return { state };
    }
  },
  marks({ a, b, hover }, { job, sheetId }) {
    const fit = job.sheets[sheetId]?.fit;
    const known = fit?.kind === 'scale' ? fit.lengths : [];
    const marks: Mark[] = known.map((l) => ({ kind: 'measure', a: l.a, b: l.b, lengthM: l.lengthM }));
    for (const l of known) marks.push({ kind: 'line', points: [l.a, l.b], style: 'guide' });
    const end = b ?? hover?.at;
    if (a && end) marks.push({ kind: 'line', points: [a, end], style: 'hand' });
    if (a) marks.push({ kind: 'dot', at: a, style: 'start' });
    if (b) marks.push({ kind: 'dot', at: b, style: 'corner' });
    if (hover && !b) {
      marks.push({ kind: 'dot', at: hover.at, style: 'snap' });
      if (hover.reason) marks.push({ kind: 'note', at: hover.at, text: hover.reason });
    }
    return marks;
  },
  hint({ a, b }) {
    if (!a)
      return tr`Tap one end of a line whose length you know: a scale bar, a side you taped. The longer, the better.`;
    if (!b) return tr`Tap the other end of it.`;
    return tr`Type how long it is on the ground, and press Enter.`;
  },
  path: ({ a, b }) => (a && !b ? [a] : []),
  entries: ({ a, b }) => (a && b ? [{ id: 'known', label: tr`Known length`, valueM: null }] : []),
  options: ({ more }) => [{ id: 'more', label: tr`Add to the known lengths`, on: more }],
  busy: ({ a }) => a !== null,
  canFinish: () => false,
};
