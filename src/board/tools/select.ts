import {
  distance,
  distanceToSegment,
  flattenRing,
  fromFrame,
  insidePoints,
  type Point,
  pointOnSide,
  sideOf,
  toFrame,
} from '../../../geometry/index.ts';
import type { Edit } from '../../job/edits/index.ts';
import { cutPath, slabRing } from '../../job/outline.ts';
import type { Id, Slab, Void } from '../../job/types.ts';
import { voidOnGround } from '../../takeoff/ground.ts';
import { zoneAt } from '../../takeoff/zone.ts';
import type { SheetPoint } from '../../units/types.ts';
import { tr } from '../../words/tr.ts';
import { MIDDLES, type MiddleDoes, middleDragged, movedVoid, slabInHand } from './handling.ts';
import {
  isBox,
  itemsOf,
  itemsWithin,
  joined,
  type Load,
  loadOf,
  moved,
  nudged,
  sameItem,
  toggled,
} from './several.ts';
import type { Item, Mark, Selection, Tool, ToolContext, ToolInput, ToolStep } from './tool.ts';

/** What the pointer has hold of. */
type Held =
  | { readonly kind: 'corner'; readonly cornerId: Id; readonly slabId: Id }
  | {
      readonly kind: 'middle';
      readonly slab: Slab;
      readonly side: number;
      readonly newId: Id;
      readonly does: MiddleDoes;
    }
  | {
      readonly kind: 'void';
      readonly v: Void;
      readonly grip: SheetPoint;
      readonly part: 'whole' | 'a' | 'b';
    }
  | { readonly kind: 'all'; readonly grip: SheetPoint; readonly load: Load }
  | { readonly kind: 'box'; readonly from: SheetPoint; readonly to: SheetPoint };

interface SelectState {
  readonly held: Held | null;
  readonly middle: MiddleDoes;
  /** What is tapped is added to what is selected. */
  readonly several: boolean;
}

/**
 * Selects what is tapped, or several things one after another and by a box; drags corners, voids, all that is selected,
 * and the middles of sides, which add a corner, bend the side or move it.
 */
export const selectTool: Tool<SelectState> = {
  id: 'select',
  label: tr`Select`,
  key: 'v',
  start: { held: null, middle: 'corner', several: false },
  on(state, input, context) {
    switch (input.type) {
      case 'tap':
        return { state, select: tapped(input.raw, state, context) };
      case 'press':
        return grab(input.raw, state, context);
      case 'drag':
        if (!state.held) return { state, pass: true };
        if (state.held.kind === 'box') return { state: { ...state, held: { ...state.held, to: input.raw } } };
        return { state, preview: dragged(state.held, input, context) };
      case 'release':
        if (!state.held) return { state, pass: true };
        if (state.held.kind === 'box') return boxed(state.held.from, input.raw, state, context);
        return {
          state: { ...state, held: null },
          edits: dragged(state.held, input, context),
          ...(state.held.kind === 'middle' && state.held.does === 'corner'
            ? { select: { kind: 'corner', id: state.held.newId, slabId: state.held.slab.id } as const }
            : {}),
        };
      case 'cancel':
      case 'back':
        return state.held ? { state: { ...state, held: null } } : { state, select: null };
      case 'hover':
      case 'finish':
      case 'entry':
        return { state };
      case 'option':
        if (input.id === 'several') return { state: { ...state, several: !state.several } };
        return { state: { ...state, middle: MIDDLES.find((m) => m.id === input.id)?.id ?? 'corner' } };
    }
  },
  marks: ({ held }, context) => (held?.kind === 'box' ? [boxMark(held.from, held.to)] : handles(context)),
  hint({ middle, several }, { selection }) {
    if (selection?.kind === 'several')
      return tr`${selection.items.length} things are selected: drag one of them to move all.`;
    if (several) return tr`Tap one thing after another, or draw a box round them.`;
    if (!selection) return tr`Tap a zone, a post, a drain or a cut to select it.`;
    if (selection.kind === 'zone')
      return tr`Drag a corner to move it; the middle of a side ${MIDDLES.find((m) => m.id === middle)!.hint}.`;
    if (selection.kind === 'corner') return tr`Drag the corner, or delete it.`;
    if (selection.kind === 'void') return tr`Drag it to where it belongs, or change its size in the panel.`;
    return tr`Delete the cut, or select a zone beside it.`;
  },
  path: () => [],
  entries: () => [],
  options: ({ middle, several }, context) => [
    { id: 'several', label: tr`Several`, key: 'e', on: several },
    ...(slabInHand(context) && !several
      ? MIDDLES.map(({ id, label, key }) => ({ id, label, key, on: id === middle }))
      : []),
  ],
  nudge: (rightM, upM, context) => nudged(rightM, upM, context),
  busy: ({ held }) => held !== null,
  canFinish: () => false,
};

/** Whether what is chosen is added to what is selected rather than taken for it. */
export const gathers = (toolId: string, state: unknown, shift: boolean): boolean =>
  shift || (toolId === selectTool.id && (state as SelectState).several);

function tapped(p: SheetPoint, { several }: SelectState, context: ToolContext): Selection | null {
  const item = pick(p, context);
  if (!several && !context.adding) return item;
  return item ? toggled(context.selection, item) : context.selection;
}

function boxed(
  from: SheetPoint,
  to: SheetPoint,
  state: SelectState,
  context: ToolContext,
): ToolStep<SelectState> {
  const next = { ...state, held: null };
  return isBox(from, to, context.reach)
    ? { state: next, select: joined(context.selection, itemsWithin(from, to, context)) }
    : { state: next };
}

function boxMark(a: SheetPoint, b: SheetPoint): Mark {
  const points = [a, { x: b.x, y: a.y }, b, { x: a.x, y: b.y }, a];
  return { kind: 'line', points, style: 'guide' };
}

function handles(context: ToolContext): Mark[] {
  const { job, selection } = context;
  const slab = slabInHand(context);
  const marks: Mark[] = [];
  if (slab) {
    const ring = slabRing(job, slab);
    ring.forEach((_, k) => {
      marks.push({ kind: 'dot', at: pointOnSide(sideOf(ring, k), 0.5), style: 'middle' });
    });
    for (const v of ring) marks.push({ kind: 'dot', at: v, style: 'handle' });
  }
  for (const item of itemsOf(selection)) {
    const corner = item.kind === 'corner' ? job.corners[item.id] : undefined;
    if (corner) marks.push({ kind: 'dot', at: corner, style: 'snap' });
  }
  const v = selection?.kind === 'void' ? job.voids[selection.id] : undefined;
  if (v) for (const at of gripsOf(v)) marks.push({ kind: 'dot', at: at.at, style: 'handle' });
  return marks;
}

function gripsOf(v: Void): Array<{ part: 'whole' | 'a' | 'b'; at: SheetPoint }> {
  const { shape } = v;
  switch (shape.type) {
    case 'line':
      return [
        { part: 'a', at: shape.a },
        { part: 'b', at: shape.b },
      ];
    case 'circle':
    case 'rectangle':
      return [{ part: 'whole', at: shape.centre }];
    case 'outline':
      return [];
  }
}

function grab(p: SheetPoint, state: SelectState, context: ToolContext): ToolStep<SelectState> {
  const { job, selection, reach, newId } = context;
  const hold = (held: Held | null) => ({ state: { ...state, held } });
  if (selection?.kind === 'several' && holdsOf(p, context))
    return hold({ kind: 'all', grip: p, load: loadOf(selection.items, context) });
  if (state.several) return hold({ kind: 'box', from: p, to: p });
  const slab = slabInHand(context);
  if (slab) {
    const ring = slabRing(job, slab);
    const at = (k: number, point: Point) => ({ k, d: distance(point, p) });
    const nearest = (list: Array<{ k: number; d: number }>) => list.sort((x, y) => x.d - y.d)[0];
    const corner = nearest(ring.map((v, k) => at(k, v)));
    if (corner && corner.d <= reach) {
      const { cornerId } = slab.corners[corner.k]!;
      return {
        ...hold({ kind: 'corner', cornerId, slabId: slab.id }),
        select: { kind: 'corner', id: cornerId, slabId: slab.id },
      };
    }
    const middle = nearest(ring.map((_, k) => at(k, pointOnSide(sideOf(ring, k), 0.5))));
    if (middle && middle.d <= reach) {
      return hold({ kind: 'middle', slab, side: middle.k, newId: newId('c'), does: state.middle });
    }
  }
  const v = selection?.kind === 'void' ? job.voids[selection.id] : undefined;
  if (v) {
    const grip = gripsOf(v).find((g) => distance(g.at, p) <= reach);
    if (grip) return hold({ kind: 'void', v, grip: p, part: grip.part });
    if (pickVoid(p, context)?.id === v.id) return hold({ kind: 'void', v, grip: p, part: 'whole' });
  }
  return context.adding ? hold({ kind: 'box', from: p, to: p }) : { ...hold(null), pass: true };
}

/** Whether one of what is selected lies at a place: its corner counts, whatever lies over it. */
function holdsOf(p: SheetPoint, context: ToolContext): boolean {
  const items = itemsOf(context.selection);
  const corner = items.some(
    (i) => i.kind === 'corner' && distance(context.job.corners[i.id]!, p) <= context.reach,
  );
  const at = pick(p, context);
  return corner || (at !== null && items.some((i) => sameItem(i, at)));
}

function dragged(held: Held, input: Extract<ToolInput, { at: unknown }>, context: ToolContext): Edit[] {
  const { job, reach } = context;
  const { x, y } = input.at.at;
  switch (held.kind) {
    case 'corner': {
      // A corner is not drawn to itself.
      const self = input.at.to.kind === 'corner' && input.at.to.cornerId === held.cornerId;
      const to = self ? input.raw : { x, y };
      return [{ type: 'move-corner', args: { cornerId: held.cornerId, x: to.x, y: to.y } }];
    }
    case 'middle':
      return middleDragged(held.does, job, held.slab, held.side, held.newId, input.raw, reach);
    case 'all':
      return moved(held.load, { x: input.raw.x - held.grip.x, y: input.raw.y - held.grip.y }, job);
    case 'box':
      return [];
    case 'void': {
      const by = { x: input.raw.x - held.grip.x, y: input.raw.y - held.grip.y };
      const shape = movedVoid(held.v.shape, by, held.part);
      return [{ type: 'update-void', args: { voidId: held.v.id, shape } }];
    }
  }
}

/** The nearest void in reach, else the cut under the pointer, else the zone; a corner of the slab in hand before all. */
function pick(p: SheetPoint, context: ToolContext): Item | null {
  const { job, reach } = context;
  const slab = slabInHand(context);
  const corner = slab?.corners.find((c) => distance(job.corners[c.cornerId]!, p) <= reach / 2);
  if (slab && corner) return { kind: 'corner', id: corner.cornerId, slabId: slab.id };
  const v = pickVoid(p, context);
  if (v) return { kind: 'void', id: v.id };
  const cut = pickCut(p, context);
  if (cut) return { kind: 'cut', id: cut };
  const { frame, takeoff, sheetId } = context;
  if (frame) {
    const here = takeoff.zones.filter((z) => z.sheetId === sheetId);
    const zone = zoneAt(here, toFrame(frame, p));
    return zone ? { kind: 'zone', id: zone.id } : null;
  }
  const bare = Object.values(job.slabs).find(
    (s) => s.sheetId === sheetId && insidePoints(flattenRing(slabRing(job, s), reach / 10), p),
  );
  return bare ? { kind: 'zone', id: bare.id } : null;
}

function pickVoid(p: SheetPoint, { job, sheetId, frame, reach }: ToolContext): Void | null {
  if (!frame) return null;
  const near = Object.values(job.voids)
    .filter((v) => v.sheetId === sheetId)
    .map((v) => {
      const points = flattenRing(voidOnGround(v, frame), 0.01).map((q) => fromFrame(frame, q));
      const inside = insidePoints(points, p);
      const edge = Math.min(
        ...points.map((q, i) => distanceToSegment(p, q, points[(i + 1) % points.length]!)),
      );
      return { v, d: inside ? 0 : edge };
    })
    .filter(({ d }) => d <= reach / 2)
    .sort((a, b) => a.d - b.d);
  return near[0]?.v ?? null;
}

function pickCut(p: SheetPoint, { job, sheetId, reach }: ToolContext): Id | null {
  for (const cut of Object.values(job.cuts)) {
    if (job.slabs[cut.slabId]?.sheetId !== sheetId) continue;
    const path = cutPath(job, cut);
    for (let k = 0; k + 1 < path.length; k++) {
      if (distanceToSegment(p, path[k]!, path[k + 1]!) <= reach / 2) return cut.id;
    }
  }
  return null;
}
