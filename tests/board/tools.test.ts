import { expect, test } from 'vitest';
import { fitBox, pan, toScreen, toSheet, type View, zoomAt } from '../../src/board/camera.ts';
import { arbitrate, type Gesture, NO_HANDS, type PointerInput } from '../../src/board/gestures.ts';
import { snap } from '../../src/board/snapping.ts';
import { TOOLS, toolById } from '../../src/board/tools/index.ts';
import type { Selection, ToolContext, ToolInput } from '../../src/board/tools/tool.ts';
import { applyEdit, type Edit } from '../../src/job/edits/index.ts';
import { DEFAULT_SURFACE, emptyJob, type Job } from '../../src/job/types.ts';
import { sentence } from '../../src/problem.ts';
import { results } from '../../src/results.ts';
import { groundFrame } from '../../src/takeoff/ground.ts';

/** A desk without a screen: a job, a tool in hand, and a pointer in sheet coordinates (a grid in metres). */
function desk(edits: Edit[] = []) {
  let job: Job = emptyJob('j', 'Test');
  let selection: Selection | null = null;
  let tool = toolById('select');
  let state = tool.start;
  let ids = 0;
  const problems: string[] = [];
  const make = (list: readonly Edit[]) => {
    for (const edit of list) {
      const next = applyEdit(job, edit);
      if (next.ok) job = next.value;
      else problems.push(sentence(next.problem));
    }
  };
  make([
    { type: 'add-sheet', args: { id: 'g', name: 'Grid', picture: null, fit: { kind: 'metric' } } },
    ...edits,
  ]);
  const context = (): ToolContext => ({
    job,
    takeoff: results(job).takeoff,
    sheetId: 'g',
    frame: groundFrame(job, job.sheets.g!),
    reach: 0.2,
    selection,
    adding: false,
    surface: DEFAULT_SURFACE,
    newId: (prefix) => `${prefix}${++ids}`,
  });
  const tell = (input: ToolInput) => {
    const step = tool.on(state, input, context());
    state = step.state;
    if (step.problem) problems.push(sentence(step.problem));
    if (step.edits) make(step.edits);
    if (step.select !== undefined) selection = step.select;
    return step;
  };
  const point = (type: 'hover' | 'tap' | 'press' | 'drag' | 'release', x: number, y: number, off = false) => {
    const at = snap({ x, y }, { job, sheetId: 'g', reach: 0.2, path: tool.path(state), off });
    return tell({ type, at, raw: { x, y } });
  };
  return {
    take(id: string) {
      tool = toolById(id);
      state = tool.start;
    },
    tap: (x: number, y: number) => point('tap', x, y),
    point,
    tell,
    get job() {
      return job;
    },
    get selection() {
      return selection;
    },
    get zones() {
      return results(job).takeoff.zones;
    },
    get hint() {
      return tool.hint(state, context());
    },
    get marks() {
      return tool.marks(state, context());
    },
    make,
    context,
    nudge: (rightM: number, upM: number) => tool.nudge?.(rightM, upM, context()) ?? [],
    get busy() {
      return tool.busy(state);
    },
    problems,
  };
}

const box: Edit = {
  type: 'add-slab',
  args: {
    id: 's',
    name: 'Slab',
    sheetId: 'g',
    corners: [
      { id: '1', x: 0, y: 0, via: null },
      { id: '2', x: 6, y: 0, via: null },
      { id: '3', x: 6, y: 4, via: null },
      { id: '4', x: 0, y: 4, via: null },
    ],
    surface: DEFAULT_SURFACE,
  },
};

test('a slab is traced by taps and closed on its first corner; a tap on the last corner is nothing', () => {
  const d = desk();
  d.take('slab');
  for (const [x, y] of [
    [0, 0],
    [5, 0],
    [5, 0.05],
    [5, 3],
    [0, 3],
    [0.1, 0.1],
  ] as const)
    d.tap(x, y);
  expect(d.zones.map((z) => z.netArea.value)).toEqual([15]);
  expect(d.selection?.kind).toBe('zone');
});

test('a typed length is exact: towards the pointer, or for the side last put down', () => {
  const d = desk();
  d.take('slab');
  d.tap(0, 0);
  d.point('hover', 2, 0.03);
  d.tell({ type: 'entry', id: 'length', lengthM: 3.45 });
  d.point('hover', 3.45, 2);
  d.tell({ type: 'entry', id: 'length', lengthM: 11 * 0.3048 + 4 * 0.0254 });
  d.tap(0, 3.3);
  d.tell({ type: 'finish' });
  const [, second] = Object.values(d.job.corners);
  expect(second).toMatchObject({ x: 3.45, y: 0 });
  expect(Object.values(d.job.corners)[2]!.y).toBeCloseTo(3.4544, 12);

  const touch = desk();
  touch.take('slab');
  touch.tap(0, 0);
  touch.tap(3, 0);
  touch.tell({ type: 'entry', id: 'length', lengthM: 3.45 });
  touch.tap(3.45, 2);
  touch.tap(0, 2);
  touch.tell({ type: 'finish' });
  expect(touch.zones[0]!.netArea.value).toBeCloseTo(6.9, 12);
});

test('a length typed before its direction is kept for the next tap', () => {
  const d = desk();
  d.take('slab');
  d.tap(0, 0);
  d.tell({ type: 'entry', id: 'length', lengthM: 6 });
  expect(d.hint).toContain('the length you typed');
  d.tell({ type: 'back' });
  expect(d.hint).toContain('type how long the side is');
  d.tell({ type: 'entry', id: 'length', lengthM: 6 });
  d.tap(2, 0.05);
  d.tap(6, 3);
  d.tap(0, 3);
  d.tell({ type: 'finish' });
  expect(d.zones[0]!.netArea.value).toBeCloseTo(18, 12);
});

test('arc sides: a point on the curve, then its end; also as the closing side', () => {
  const d = desk();
  d.take('slab');
  d.tap(-2, 0);
  d.tell({ type: 'option', id: 'arc' });
  expect(d.hint).toContain('point on the curve');
  d.tap(0, 2);
  d.tap(2, 0);
  d.tell({ type: 'option', id: 'arc' });
  d.tap(0, -2);
  d.tap(-2, 0);
  expect(d.zones[0]!.netArea.value).toBeCloseTo(4 * Math.PI, 9);
});

test('undo takes back one corner, Escape all; the job never sees a half-drawn shape', () => {
  const d = desk();
  const before = d.job;
  d.take('slab');
  d.tap(0, 0);
  d.tap(1, 0);
  d.tell({ type: 'back' });
  expect(d.busy).toBe(true);
  d.tell({ type: 'cancel' });
  expect(d.busy).toBe(false);
  expect(d.job).toBe(before);
});

test('a cut from side to side splits; one outside is refused with a sentence', () => {
  const d = desk([box]);
  d.take('cut');
  d.tap(2, 0.1);
  d.tap(2, 4.1);
  expect(d.zones.map((z) => z.netArea.value).sort((a, b) => a - b)).toEqual([8, 16]);
  expect(Object.values(d.job.cuts)[0]!.points.every((p) => p.at === 'side')).toBe(true);
  d.tap(20, 20);
  d.tap(22, 20);
  d.tell({ type: 'finish' });
  expect(d.problems[0]).toContain('crosses no slab');
});

test('drains, posts and pits are taken out at their size', () => {
  const d = desk([box]);
  d.take('drain');
  d.tell({ type: 'entry', id: 'width', lengthM: 0.2 });
  d.tap(1, 1);
  d.point('hover', 2, 1);
  d.tell({ type: 'entry', id: 'length', lengthM: 2.5 });
  d.take('post');
  d.tell({ type: 'entry', id: 'diameter', lengthM: 0.3 });
  d.tap(4, 2);
  d.tell({ type: 'option', id: 'square' });
  d.tell({ type: 'entry', id: 'length', lengthM: 0.4 });
  d.tell({ type: 'entry', id: 'width', lengthM: 0.25 });
  d.tap(5, 2);
  d.take('pit');
  for (const [x, y] of [
    [1, 2],
    [2, 2],
    [2, 3],
    [1, 2.001],
  ] as const)
    d.tap(x, y);
  const expected = 24 - 0.5 - Math.PI * 0.0225 - 0.1 - 0.5;
  expect(d.zones[0]!.netArea.value).toBeCloseTo(expected, 9);
});

test('corners are dragged with the table following, middles give a new corner, voids move; one edit each', () => {
  const d = desk([box]);
  d.tap(3, 2);
  d.point('press', 6.05, 4.05);
  expect(d.point('drag', 7, 5).preview).toEqual([
    { type: 'move-corner', args: { cornerId: '3', x: 7, y: 5 } },
  ]);
  expect(d.job.corners['3']).toMatchObject({ x: 6, y: 4 });
  d.point('release', 7, 5, true);
  expect(d.job.corners['3']).toMatchObject({ x: 7, y: 5 });
  d.point('press', 3, 0);
  d.point('release', 3, -1, true);
  expect(d.job.slabs.s!.corners).toHaveLength(5);
  d.take('post');
  d.tap(2, 2);
  d.take('select');
  d.point('press', 2, 2);
  d.point('release', 3, 2.5, true);
  expect(Object.values(d.job.voids)[0]!.shape).toMatchObject({ centre: { x: 3, y: 2.5 } });
  expect(d.point('press', 20, 20).pass).toBe(true);
});

test('the scale is set from two taps and a length', () => {
  const d = desk();
  d.take('scale');
  d.tap(0, 0);
  d.tap(4, 0);
  d.tell({ type: 'entry', id: 'known', lengthM: 2 });
  expect(d.job.sheets.g!.fit).toEqual({
    kind: 'scale',
    lengths: [{ a: { x: 0, y: 0 }, b: { x: 4, y: 0 }, lengthM: 2 }],
    reach: null,
  });
});

test('what somebody has said of a picture stays when its scale is set again', () => {
  const lengths = [{ a: { x: 0, y: 0 }, b: { x: 1, y: 0 }, lengthM: 1 }];
  const said = (more: object) => {
    const d = desk([
      { type: 'set-fit', args: { sheetId: 'g', fit: { kind: 'scale', lengths, reach: null, ...more } } },
    ]);
    d.take('scale');
    d.tap(0, 0);
    d.tap(4, 0);
    d.tell({ type: 'entry', id: 'known', lengthM: 2 });
    return d.job.sheets.g!.fit;
  };
  expect(said({ flat: true })).toMatchObject({ lengths: [{ lengthM: 2 }], flat: true });
  const reach = { distanceM: 3, reason: 'at an angle' };
  expect(said({ reach })).toMatchObject({ reach });
  expect(Object.hasOwn(said({})!, 'flat')).toBe(false);
});

test('snapping: corner before side, right angles, square with the start; none when it is off', () => {
  const { job } = desk([box]);
  const context = { job, sheetId: 'g', reach: 0.2, path: [], off: false };
  expect(snap({ x: 6.1, y: 3.95 }, context)).toMatchObject({ at: { x: 6, y: 4 }, reason: 'corner' });
  expect(snap({ x: 4, y: 4.1 }, context)).toMatchObject({ at: { x: 4, y: 4 }, reason: 'on the side' });
  const path = [
    { x: 10, y: 10 },
    { x: 13, y: 11 },
  ];
  const square = snap({ x: 12.05, y: 14.05 }, { ...context, path });
  expect(square.reason).toBe('right angle');
  expect((square.at.x - 13) * 3 + (square.at.y - 11)).toBeCloseTo(0, 12);
  const closing = snap(
    { x: 10.02, y: 13.05 },
    {
      ...context,
      path: [
        { x: 10, y: 10 },
        { x: 13, y: 10 },
        { x: 13, y: 13 },
      ],
    },
  );
  expect(closing.at).toEqual({ x: 10, y: 13 });
  expect(snap({ x: 6.1, y: 3.95 }, { ...context, off: true }).at).toEqual({ x: 6.1, y: 3.95 });
});

test('every tool has its own id, key and word', () => {
  for (const part of ['id', 'key', 'label'] as const)
    expect(new Set(TOOLS.map((t) => t[part])).size).toBe(TOOLS.length);
});

/** Plays recorded pointer events. */
function played(
  ...events: Array<[PointerInput['type'], number, PointerInput['kind'], number, number]>
): string[] {
  let hands = NO_HANDS as ReturnType<typeof arbitrate>['hands'];
  const out: Gesture[] = [];
  for (const [type, id, kind, x, y] of events) {
    const step = arbitrate(hands, { type, id, kind, at: { x, y }, pans: false });
    hands = step.hands;
    out.push(...step.gestures);
  }
  return out.map((g) => g.type);
}

test('gestures: a wandering tap, a drag, a second finger that only pans and zooms, pen before fingers', () => {
  expect(played(['down', 1, 'mouse', 5, 5], ['move', 1, 'mouse', 7, 6], ['up', 1, 'mouse', 7, 6])).toEqual([
    'tap',
  ]);
  expect(played(['down', 1, 'touch', 5, 5], ['move', 1, 'touch', 30, 5], ['up', 1, 'touch', 30, 5])).toEqual([
    'press',
    'drag',
    'release',
  ]);
  const pinch = played(
    ['down', 1, 'touch', 100, 100],
    ['move', 1, 'touch', 130, 100],
    ['down', 2, 'touch', 200, 100],
    ['move', 2, 'touch', 260, 100],
    ['up', 2, 'touch', 260, 100],
    ['move', 1, 'touch', 140, 120],
    ['up', 1, 'touch', 140, 120],
  );
  expect(pinch).toEqual(['press', 'drag', 'interrupt', 'pan', 'zoom', 'pan']);
  expect(
    played(
      ['move', 9, 'pen', 1, 1],
      ['down', 1, 'touch', 5, 5],
      ['move', 1, 'touch', 40, 5],
      ['up', 1, 'touch', 40, 5],
    ),
  ).toEqual(['hover', 'pan']);
});

test('the camera: there and back, zoom holds what is under the pointer, fit shows all', () => {
  for (const yUp of [true, false]) {
    const view: View = { width: 800, height: 600, yUp };
    const camera = fitBox({ minX: 0, minY: 0, maxX: 10, maxY: 5 }, view);
    const p = { x: 3, y: 4 };
    expect(toSheet(camera, view, toScreen(camera, view, p)).y).toBeCloseTo(4, 12);
    const at = { x: 120, y: 90 };
    const held = toSheet(camera, view, at);
    expect(toSheet(zoomAt(camera, view, at, 3), view, at).x).toBeCloseTo(held.x, 9);
    expect(toScreen(pan(camera, view, 10, -20), view, p).y).toBeCloseTo(toScreen(camera, view, p).y - 20, 9);
    const corner = toScreen(camera, view, { x: 10, y: 5 });
    expect(corner.x).toBeLessThanOrEqual(760.001);
  }
});

test('a rectangle by two taps, or by one tap and typed sizes; a circle by its middle and edge', () => {
  const d = desk();
  d.take('slab');
  d.tell({ type: 'option', id: 'rectangle' });
  d.tap(1, 1);
  d.tap(5, 3.5);
  expect(d.zones.map((z) => z.netArea.value)).toEqual([expect.closeTo(10, 9)]);
  // Goes on with rectangles; sizes typed without a pointer go to the right and up.
  d.tap(10, 10);
  d.tell({ type: 'entry', id: 'across', lengthM: 6 });
  d.tell({ type: 'entry', id: 'up', lengthM: 2.5 });
  expect(d.zones[1]!.netArea.value).toBeCloseTo(15, 9);
  expect(Object.values(d.job.corners).some((c) => c.x === 16 && c.y === 12.5)).toBe(true);
  d.tell({ type: 'cancel' });
  d.take('pit');
  d.tell({ type: 'option', id: 'circle' });
  d.tap(3, 2);
  d.tell({ type: 'entry', id: 'across', lengthM: 0.8 });
  expect(d.zones[0]!.netArea.value).toBeCloseTo(10 - Math.PI * 0.16, 9);
  expect(d.problems).toEqual([]);
});

test('rectangles side by side share their corners', () => {
  const d = desk();
  d.take('slab');
  d.tell({ type: 'option', id: 'rectangle' });
  d.tap(0, 0);
  d.tap(4, 3);
  d.tap(4.1, 0.1);
  d.tap(6, 3);
  expect(Object.keys(d.job.corners).length).toBe(7);
});

/** A square of 4 m on the desk, its zone selected. */
function square() {
  const d = desk();
  d.take('slab');
  d.tell({ type: 'option', id: 'rectangle' });
  d.tap(0, 0);
  d.tap(4, 4);
  d.take('select');
  d.tap(2, 2);
  return d;
}

test('the middle of a side moves the side, or bends it and straightens it again', () => {
  const d = square();
  d.tell({ type: 'option', id: 'move' });
  d.point('press', 4, 2);
  d.point('drag', 5, 2.7);
  d.point('release', 5, 2.7);
  expect(d.zones[0]!.netArea.value).toBeCloseTo(20, 9);
  d.tell({ type: 'option', id: 'bend' });
  d.point('press', 5, 2);
  d.point('release', 7, 2);
  // A half circle of 2 m radius on a chord of 4 m.
  expect(d.zones[0]!.netArea.value).toBeCloseTo(20 + 2 * Math.PI, 9);
  d.point('press', 7, 2);
  d.point('release', 5.02, 2);
  expect(d.zones[0]!.netArea.value).toBeCloseTo(20, 9);
  expect(d.problems).toEqual([]);
});

test('arrow keys move what is selected by centimetres on the ground', () => {
  const d = square();
  expect(d.nudge(0.01, 0)).toEqual([
    {
      type: 'place-corners',
      args: { places: expect.objectContaining({ c2: { x: 0.01, y: 0 }, c5: { x: 0.01, y: 4 } }) },
    },
  ]);
  d.tap(4, 4);
  expect(d.selection?.kind).toBe('corner');
  d.make(d.nudge(0, 0.01));
  expect(d.zones[0]!.netArea.value).toBeCloseTo(16 + 0.5 * 4 * 0.01, 9);
});

test('a new side runs parallel to one that is drawn, and in line with one, and says so', () => {
  const slanted: Edit = {
    type: 'add-slab',
    args: {
      id: 's',
      name: 'Drive',
      sheetId: 'g',
      surface: DEFAULT_SURFACE,
      corners: (
        [
          [0, 0],
          [4, 3],
          [1, 7],
          [-3, 4],
        ] as const
      ).map(([x, y], i) => ({ id: `s${i}`, x, y, via: null })),
    },
  };
  const d = desk([slanted]);
  const context = { job: d.job, sheetId: 'g', reach: 0.2, off: false };
  // Direction (4, 3) from (10, 0), aimed a little off.
  const parallel = snap({ x: 14.05, y: 2.95 }, { ...context, path: [{ x: 10, y: 0 }] });
  expect(parallel.reason).toBe('parallel to Drive');
  expect((parallel.at.x - 10) * 3 - parallel.at.y * 4).toBeCloseTo(0, 9);
  // Beyond the end of the first side.
  const inLine = snap({ x: 8.1, y: 5.9 }, { ...context, path: [] });
  expect(inLine.reason).toBe('in line with Drive');
  expect(inLine.at.x * 3 - inLine.at.y * 4).toBeCloseTo(0, 9);
  // Where both lines cross: in line with the second side's beginning and parallel to the first.
  expect(snap({ x: 14.05, y: 2.95 }, { ...context, path: [{ x: 10, y: 0 }], off: true }).reason).toBe('');
});

test('no two options of a tool, and no two tools, go by the same key', () => {
  expect(new Set(TOOLS.map((t) => t.key)).size).toBe(TOOLS.length);
  const d = square();
  for (const tool of TOOLS) {
    const keys = tool.options(tool.start, d.context()).flatMap((o) => (o.key ? [o.key] : []));
    expect(new Set(keys).size, tool.id).toBe(keys.length);
  }
});
