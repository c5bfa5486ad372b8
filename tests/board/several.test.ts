import { expect, test } from 'vitest';
import { gathers, selectTool } from '../../src/board/tools/select.ts';
import {
  itemsOf,
  itemsWithin,
  loadOf,
  moved,
  nudged,
  removal,
  selectionOf,
} from '../../src/board/tools/several.ts';
import type { Item, Selection, ToolContext, ToolInput } from '../../src/board/tools/tool.ts';
import { applyEdit, type Edit } from '../../src/job/edits/index.ts';
import { DEFAULT_SURFACE, emptyJob, type Job } from '../../src/job/types.ts';
import { results } from '../../src/results.ts';
import { groundFrame } from '../../src/takeoff/ground.ts';

// Expected places and areas are sums of the numbers beside them.

const slab = (id: string, corners: ReadonlyArray<readonly [string, number, number]>): Edit => ({
  type: 'add-slab',
  args: {
    id,
    name: `Slab ${id}`,
    sheetId: 'g',
    corners: corners.map(([corner, x, y]) => ({ id: corner, x, y, via: null })),
    surface: DEFAULT_SURFACE,
  },
});
const post = (id: string, x: number, y: number): Edit => ({
  type: 'add-void',
  args: {
    id,
    name: id,
    kind: 'post',
    sheetId: 'g',
    shape: { type: 'circle', centre: { x, y }, radiusM: 0.1 },
  },
});

/** Two slabs of 4 m by 3 m and 2 m by 3 m that share a side, one of 1 m² far off, a post in the first. */
const EDITS: Edit[] = [
  { type: 'add-sheet', args: { id: 'g', name: 'Grid', picture: null, fit: { kind: 'metric' } } },
  slab('a', [
    ['1', 0, 0],
    ['2', 4, 0],
    ['3', 4, 3],
    ['4', 0, 3],
  ]),
  slab('b', [
    ['2', 4, 0],
    ['5', 6, 0],
    ['6', 6, 3],
    ['3', 4, 3],
  ]),
  slab('c', [
    ['7', 20, 0],
    ['8', 21, 0],
    ['9', 21, 1],
    ['10', 20, 1],
  ]),
  post('p', 1, 1),
];

function made(job: Job, edits: readonly Edit[]): Job {
  return edits.reduce((before, edit) => {
    const next = applyEdit(before, edit);
    if (!next.ok) throw new Error(JSON.stringify(next.problem));
    return next.value;
  }, job);
}

const JOB = made(emptyJob('j', 'Test'), EDITS);

const contextOf = (job: Job, selection: Selection | null = null, adding = false): ToolContext => ({
  job,
  takeoff: results(job).takeoff,
  sheetId: 'g',
  frame: groundFrame(job, job.sheets.g!),
  reach: 0.2,
  selection,
  adding,
  surface: DEFAULT_SURFACE,
  newId: (prefix) => prefix,
});

const [a, b, c] = ['a', 'b', 'c'].map(
  (slabId): Item => ({
    kind: 'zone',
    id: results(JOB).takeoff.zones.find((z) => z.slabId === slabId)!.id,
  }),
) as [Item, Item, Item];
const p: Item = { kind: 'void', id: 'p' };

/** A pointer over the select tool. */
function hand(adding = false) {
  let state = selectTool.start;
  let selection: Selection | null = null;
  const edits: Edit[] = [];
  const tell = (input: ToolInput) => {
    const step = selectTool.on(state, input, contextOf(JOB, selection, adding));
    state = step.state;
    edits.push(...(step.edits ?? []));
    if (step.select !== undefined) selection = step.select;
    return step;
  };
  const point = (type: 'tap' | 'press' | 'drag' | 'release', x: number, y: number) =>
    tell({ type, at: { at: { x, y }, to: { kind: 'free' }, guides: [] } as never, raw: { x, y } });
  return {
    tell,
    point,
    edits,
    tap: (x: number, y: number) => point('tap', x, y),
    drag(from: readonly [number, number], to: readonly [number, number]) {
      point('press', ...from);
      point('drag', ...to);
      return point('release', ...to);
    },
    get selection() {
      return selection as Selection | null;
    },
    get hint() {
      return selectTool.hint(state, contextOf(JOB, selection, adding));
    },
    get marks() {
      return selectTool.marks(state, contextOf(JOB, selection, adding));
    },
    get state() {
      return state;
    },
  };
}

test('with Several on, or Shift held, taps add and take away; a tap on nothing leaves all as it is', () => {
  for (const shift of [false, true]) {
    const h = hand(shift);
    if (!shift) h.tell({ type: 'option', id: 'several' });
    expect(gathers('select', h.state, shift)).toBe(true);
    h.tap(2, 2);
    h.tap(5, 1);
    h.tap(1, 1);
    expect(itemsOf(h.selection)).toEqual([a, b, p]);
    h.tap(12, 1);
    expect(itemsOf(h.selection)).toEqual([a, b, p]);
    h.tap(5, 1);
    expect(itemsOf(h.selection)).toEqual([a, p]);
    h.tap(2, 2);
    expect(h.selection).toEqual(p);
    h.tap(1, 1);
    expect(h.selection).toBeNull();
    expect(h.edits).toEqual([]);
  }
  const one = hand();
  one.tap(2, 2);
  one.tap(5, 1);
  expect(one.selection).toEqual(b);
  expect(gathers('select', one.state, false)).toBe(false);
  expect(gathers('slab', null, false)).toBe(false);
});

test('a box takes what lies whole in it, whichever way it is drawn, and adds to what is selected', () => {
  const h = hand(true);
  h.tap(20.5, 0.5);
  h.drag([6.5, 3.5], [-0.5, -0.5]);
  expect(itemsOf(h.selection)).toEqual([c, a, b, p]);
  // The second slab sticks out of this one.
  expect(itemsWithin({ x: -1, y: -1 }, { x: 5, y: 4 }, contextOf(JOB))).toEqual([a, p]);
  // A post that touches the box from without is not in it.
  expect(itemsWithin({ x: 1, y: 0.5 }, { x: 3, y: 2 }, contextOf(JOB))).toEqual([]);
  h.point('press', 10, 0);
  h.point('drag', 11, 2);
  expect(h.marks).toEqual([
    {
      kind: 'line',
      style: 'guide',
      points: [
        { x: 10, y: 0 },
        { x: 11, y: 0 },
        { x: 11, y: 2 },
        { x: 10, y: 2 },
        { x: 10, y: 0 },
      ],
    },
  ]);
  h.tell({ type: 'cancel' });
  expect(itemsOf(h.selection)).toEqual([c, a, b, p]);
  // A slip of a tenth of a metre is no box.
  const slip = hand(true);
  slip.drag([10, 0], [10.05, 0.05]);
  expect(slip.selection).toBeNull();
});

test('all that is selected is dragged as one: a shared corner moves once, what is not selected stays', () => {
  const h = hand();
  h.tell({ type: 'option', id: 'several' });
  h.tap(2, 2);
  h.tap(5, 1);
  h.tap(1, 1);
  h.tell({ type: 'option', id: 'several' });
  expect(h.hint).toContain('3 things are selected');
  h.drag([2, 2], [2.5, 1]);
  const job = made(JOB, h.edits);
  const places = Object.fromEntries(Object.values(job.corners).map(({ id, x, y }) => [id, [x, y]]));
  expect(places).toMatchObject({
    1: [0.5, -1],
    2: [4.5, -1],
    3: [4.5, 2],
    5: [6.5, -1],
    7: [20, 0],
    9: [21, 1],
  });
  expect(job.voids.p!.shape).toMatchObject({ centre: { x: 1.5, y: 0 } });
  expect(results(job).takeoff.zones.map((z) => z.boundary.value)).toEqual(
    results(JOB).takeoff.zones.map((z) => z.boundary.value),
  );
  // The drag of something else is not theirs: the board pans.
  const other = hand();
  other.tap(2, 2);
  expect(other.point('press', 20.5, 0.5).pass).toBe(true);
});

test('cuts within a slab go with it, and arrow keys move all by the same way', () => {
  const cut = made(JOB, [
    {
      type: 'add-cut',
      args: {
        id: 'k',
        slabId: 'a',
        points: [
          { at: 'side', cornerId: '1', t: 0.5 },
          { at: 'place', id: '11', x: 2.5, y: 1.5 },
          { at: 'side', cornerId: '3', t: 0.5 },
        ],
      },
    },
  ]);
  const zones = results(cut).takeoff.zones.filter((z) => z.slabId === 'a');
  expect(zones).toHaveLength(2);
  const selection = selectionOf([{ kind: 'zone', id: zones[0]!.id }, p]);
  const job = made(cut, nudged(0.01, -0.02, contextOf(cut, selection)));
  expect(job.corners['11']).toMatchObject({ x: 2.51, y: 1.48 });
  expect(job.corners['1']).toMatchObject({ x: 0.01, y: -0.02 });
  expect(job.voids.p!.shape).toMatchObject({ centre: { x: 1.01, y: 0.98 } });
  // 2 m by 3 m, and the triangle of 0.5 m by 3 m that the cut bulges; less the post of 0.0314 m² in the larger.
  const areas = results(job)
    .takeoff.zones.filter((z) => z.slabId === 'a')
    .map((z) => z.netArea.value);
  expect(areas.map((m2) => m2.toFixed(3)).sort()).toEqual(['5.250', '6.719']);
  expect(moved(loadOf([{ kind: 'cut', id: 'k' }], contextOf(cut)), { x: 1, y: 1 }, cut)).toEqual([]);
});

test('a slab takes its tags and what is taken out of it along, whichever of its zones was selected', () => {
  const tag = {
    id: 't1',
    slabId: 'a',
    anchor: { x: 0.5, y: 0.5 },
    name: 'Bay',
    surface: { traffic: 'cars' },
  } as const;
  const tagged = made(JOB, [{ type: 'set-tag', args: tag }]);
  const zone = results(tagged).takeoff.zones.find((z) => z.slabId === 'a')!;
  expect(zone.tagId).toBe('t1');
  const load = loadOf(
    [
      { kind: 'zone', id: zone.id },
      { kind: 'zone', id: 'nobody' },
    ],
    contextOf(tagged),
  );
  const job = made(tagged, moved(load, { x: 0, y: 20 }, tagged));
  expect(job.tags.t1!.anchor).toEqual({ x: 0.5, y: 20.5 });
  expect(job.voids.p!.shape).toMatchObject({ centre: { x: 1, y: 21 } });
  expect(results(job).takeoff.zones.find((z) => z.slabId === 'a')).toMatchObject({
    name: 'Bay',
    surface: { traffic: 'cars' },
  });
  // Far over its own anchor and back, as a pointer goes: what is moved was settled when it was taken hold of.
  const h = hand();
  h.tell({ type: 'option', id: 'several' });
  h.tap(2, 2);
  h.tap(20.5, 0.5);
  h.tell({ type: 'option', id: 'several' });
  h.point('press', 2, 2);
  for (const x of [3, 5, 9, 4]) h.point('drag', x, 2);
  expect(made(JOB, h.point('release', 4.5, 2).edits ?? []).corners['1']).toMatchObject({ x: 2.5, y: 0 });
});

test('each thing is selected once, and Shift on a corner still drags it', () => {
  expect(selectionOf([a, b, a])).toEqual({ kind: 'several', items: [a, b] });
  expect(selectionOf([a, a])).toEqual(a);
  const context = contextOf(JOB, a, true);
  const input = { type: 'press', at: { at: { x: 0, y: 0 } } as never, raw: { x: 0, y: 0 } } as const;
  const step = selectTool.on(selectTool.start, input, context);
  expect(step.select).toEqual({ kind: 'corner', id: '1', slabId: 'a' });
  // A corner that a triangle shares with it goes after the triangle.
  const three = made(JOB, [
    slab('d', [
      ['7', 20, 0],
      ['10', 20, 1],
      ['11', 19, 0],
    ]),
  ]);
  const d: Item = { kind: 'zone', id: results(three).takeoff.zones.find((z) => z.slabId === 'd')!.id };
  const left = made(three, removal([{ kind: 'corner', id: '7', slabId: 'c' }, d], contextOf(three)));
  expect(left.slabs.c!.corners).toHaveLength(3);
});

test('deleting several: slabs with all that is theirs, once, and the rest by itself', () => {
  const all = removal([a, b, p, { kind: 'corner', id: '2', slabId: 'a' }], contextOf(JOB));
  const job = made(JOB, all);
  expect(Object.keys(job.slabs)).toEqual(['c']);
  expect(job.voids).toEqual({});
  expect(Object.keys(job.corners).sort()).toEqual(['10', '7', '8', '9']);
  const corner = made(JOB, removal([{ kind: 'corner', id: '8', slabId: 'c' }, p], contextOf(JOB)));
  expect(corner.slabs.c!.corners).toHaveLength(3);
  expect(corner.voids).toEqual({});
});
