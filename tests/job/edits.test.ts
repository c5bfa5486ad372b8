import { expect, test } from 'vitest';
import { applyEdit, EDIT_TYPES, type Edit } from '../../src/job/edits/index.ts';
import { commit, commitAll, type History, redo, startHistory, undo } from '../../src/job/history.ts';
import { cutPath } from '../../src/job/outline.ts';
import { DEFAULT_SURFACE, emptyJob, type Job } from '../../src/job/types.ts';
import { sentence } from '../../src/problem.ts';
import { results } from '../../src/results.ts';

/** Freezes all the way down, so that an edit that touches the job it was given fails its test at once. */
function frozen<T>(value: T): T {
  if (value && typeof value === 'object' && !Object.isFrozen(value)) {
    Object.freeze(value);
    Object.values(value).forEach(frozen);
  }
  return value;
}

function after(job: Job, ...edits: Edit[]): Job {
  let next = frozen(job);
  for (const edit of edits) {
    const made = applyEdit(next, edit);
    if (!made.ok) throw new Error(sentence(made.problem));
    next = frozen(made.value);
  }
  return next;
}

const refused = (job: Job, edit: Edit): string => {
  const made = applyEdit(frozen(job), edit);
  return made.ok ? 'done' : sentence(made.problem);
};

const corners = (...xy: Array<[string, number, number]>) => xy.map(([id, x, y]) => ({ id, x, y, via: null }));
const grid: Edit = {
  type: 'add-sheet',
  args: { id: 'g', name: 'Grid', picture: null, fit: { kind: 'metric' } },
};
const slab = (id: string, list: ReturnType<typeof corners>): Edit => ({
  type: 'add-slab',
  args: { id, name: id, sheetId: 'g', corners: list, surface: DEFAULT_SURFACE },
});
const start = after(
  emptyJob('j', 'Test'),
  grid,
  slab('a', corners(['1', 0, 0], ['2', 4, 0], ['3', 4, 3], ['4', 0, 3])),
);
const cut: Edit = {
  type: 'add-cut',
  args: {
    id: 'k',
    slabId: 'a',
    points: [
      { at: 'side', cornerId: '1', t: 0.5 },
      { at: 'side', cornerId: '3', t: 0.5 },
    ],
  },
};
const net = (job: Job) => results(job).takeoff.zones.map((z) => z.netArea.value);

test('slabs that meet share corners: moving one moves both', () => {
  const two = after(start, slab('b', corners(['2', 4, 0], ['5', 8, 0], ['6', 8, 3], ['3', 4, 3])));
  expect(Object.keys(two.corners)).toHaveLength(6);
  const moved = after(two, { type: 'move-corner', args: { cornerId: '2', x: 5, y: 0 } });
  expect(net(moved)).toEqual([13.5, 10.5]);
});

test('an arc keeps its shape when an end is moved, and a neighbour gets the same curve', () => {
  const bent = after(start, {
    type: 'update-side',
    args: { slabId: 'a', cornerId: '2', via: { x: 5, y: 1.5 } },
  });
  const moved = after(bent, { type: 'move-corner', args: { cornerId: '3', x: 4, y: 6 } });
  expect(moved.slabs.a!.corners[1]!.via).toEqual({ x: 6, y: 3 });
  const two = after(bent, slab('b', corners(['2', 4, 0], ['5', 8, 0], ['6', 8, 3], ['3', 4, 3])));
  expect(two.slabs.b!.corners[3]!.via).toEqual({ x: 5, y: 1.5 });
  expect(results(two).takeoff.overlaps).toEqual([]);
});

test('an inserted corner keeps the area, the curve and the cuts; deleting it gives the side back', () => {
  const job = after(start, cut, {
    type: 'update-side',
    args: { slabId: 'a', cornerId: '2', via: { x: 4.5, y: 1.5 } },
  });
  for (const cornerId of ['1', '2']) {
    const more = after(job, { type: 'insert-corner', args: { slabId: 'a', cornerId, newId: 'n', t: 0.3 } });
    net(more).forEach((area, i) => {
      expect(area).toBeCloseTo(net(job)[i]!, 9);
    });
    expect(cutPath(more, more.cuts.k!)[0]!.x).toBeCloseTo(2, 12);
  }
  const again = after(
    job,
    { type: 'insert-corner', args: { slabId: 'a', cornerId: '1', newId: 'n', t: 0.3 } },
    { type: 'remove-corner', args: { cornerId: 'n' } },
  );
  expect(cutPath(again, again.cuts.k!)).toEqual(cutPath(job, job.cuts.k!));
  expect(Object.hasOwn(again.corners, 'n')).toBe(false);
});

test('a cut follows its sides; a tag stays with the face that holds its anchor', () => {
  const tag: Edit = {
    type: 'set-tag',
    args: { id: 't', slabId: 'a', anchor: { x: 1, y: 1 }, name: 'West', surface: { texture: 'stipple' } },
  };
  const job = after(start, cut, tag, { type: 'move-corner', args: { cornerId: '2', x: 6, y: 0 } });
  const zones = results(job).takeoff.zones;
  expect(zones.find((z) => z.id === 't')!.surface.texture).toBe('stipple');
  expect(zones.find((z) => z.id !== 't')!.surface.texture).toBe('light-broom');
  const second: Edit = {
    type: 'set-tag',
    args: { id: 'u', slabId: 'a', anchor: { x: 1, y: 2 }, name: 'Other', surface: {} },
  };
  const remarks = results(after(job, second)).remarks;
  expect(remarks[0]!.sentence).toContain('Two descriptions, “West” and “Other”, lie in one zone');
  expect(remarks[0]!.fixes[0]!.edit).toEqual({ type: 'remove-tag', args: { tagId: 'u' } });
});

test('deleting a slab takes its cuts, tags and loose corners', () => {
  const gone = after(start, cut, { type: 'remove-slab', args: { slabId: 'a' } });
  expect([gone.slabs, gone.cuts, gone.corners]).toEqual([{}, {}, {}]);
});

test('what cannot be done is refused with a sentence', () => {
  const says = (edit: Edit) => refused(start, edit);
  expect(says({ type: 'move-corner', args: { cornerId: '1', x: 2, y: 9 } })).toContain('crosses itself');
  expect(says({ type: 'move-corner', args: { cornerId: '1', x: 4, y: 0 } })).toContain('same spot');
  expect(says({ type: 'move-corner', args: { cornerId: 'x', x: 0, y: 0 } })).toContain(
    'There is no corner “x”',
  );
  expect(says(slab('b', corners(['7', 0, 0], ['8', 1, 0])))).toContain('at least three corners');
  expect(says(slab('b', corners(['7', 0, 0], ['8', 1, 0], ['9', 2, 0])))).toMatch(/crosses itself|no area/);
  expect(says({ type: 'update-slab', args: { slabId: 'a', slope: -1 } })).toContain('between 0 and 2');
  const zero = {
    kind: 'scale',
    lengths: [{ a: { x: 0, y: 0 }, b: { x: 1, y: 0 }, lengthM: 0 }],
    reach: null,
  } as const;
  expect(says({ type: 'set-fit', args: { sheetId: 'g', fit: zero } })).toContain('known length is zero');
  const drain = { type: 'line', a: { x: 1, y: 1 }, b: { x: 1, y: 1 }, widthM: 0.1 } as const;
  expect(
    says({ type: 'add-void', args: { id: 'v', name: 'D', kind: 'drain', sheetId: 'g', shape: drain } }),
  ).toContain('no size');
  const three = after(start, { type: 'remove-corner', args: { cornerId: '4' } });
  expect(refused(three, { type: 'remove-corner', args: { cornerId: '3' } })).toContain('fewer than three');
});

test('a void outside every slab, and an empty job, are said', () => {
  const shape = { type: 'circle', centre: { x: 50, y: 50 }, radiusM: 1 } as const;
  const job = after(start, {
    type: 'add-void',
    args: { id: 'v', name: 'Post 1', kind: 'post', sheetId: 'g', shape },
  });
  expect(results(job).remarks[0]!.sentence).toContain('The post “Post 1” lies outside every slab');
  expect(results(emptyJob('e', 'Empty')).remarks[0]!.sentence).toContain('There is no slab yet');
});

test('one gesture is one step; typing merges; nothing changed adds none; undo of all gives the first bytes', () => {
  const must = (h: ReturnType<typeof commit>): History => {
    if (!h.ok) throw new Error(sentence(h.problem));
    return h.value;
  };
  let h = startHistory(start);
  const first = JSON.stringify(h.job);
  h = must(commit(h, cut));
  for (const name of ['Y', 'Ya', 'Yar', 'Yard'])
    h = must(commit(h, { type: 'rename-job', args: { name, note: '' } }, 'name'));
  expect(h.past).toHaveLength(2);
  h = must(commit(h, { type: 'rename-job', args: { name: 'Yard', note: '' } }));
  expect(h.past).toHaveLength(2);
  const all = JSON.stringify(h.job);
  h = undo(undo(h));
  expect(JSON.stringify(h.job)).toBe(first);
  expect(undo(h)).toBe(h);
  h = redo(redo(h));
  expect(JSON.stringify(h.job)).toBe(all);
  const bad: Edit = { type: 'move-corner', args: { cornerId: '1', x: 2, y: 9 } };
  expect(commitAll(h, [{ type: 'rename-job', args: { name: 'x', note: '' } }, bad]).ok).toBe(false);
});

test('a round slab of two corners gets its new corner on the side asked for; a neighbour with another curve stays', () => {
  const list = [
    { id: 'p', x: 1, y: 0, via: { x: 0, y: 1 } },
    { id: 'q', x: -1, y: 0, via: { x: 0, y: -1 } },
  ];
  const args = { id: 'r', name: 'Round', sheetId: 'g', corners: list, surface: DEFAULT_SURFACE };
  const job = after(emptyJob('j', 'Test'), grid, { type: 'add-slab', args });
  const more = after(job, {
    type: 'insert-corner',
    args: { slabId: 'r', cornerId: 'q', newId: 'n', t: 0.5 },
  });
  expect(more.slabs.r!.corners.map((c) => c.cornerId)).toEqual(['p', 'q', 'n']);
  expect(more.corners.n!.y).toBeCloseTo(-1, 12);
  expect(net(more)[0]).toBeCloseTo(Math.PI, 9);
  const bent = after(start, slab('b', corners(['2', 4, 0], ['5', 8, 0], ['6', 8, 3], ['3', 4, 3])), {
    type: 'update-side',
    args: { slabId: 'a', cornerId: '2', via: { x: 3.5, y: 1.5 } },
  });
  const apart = after(bent, {
    type: 'insert-corner',
    args: { slabId: 'a', cornerId: '2', newId: 'n', t: 0.5 },
  });
  expect(apart.slabs.b).toBe(bent.slabs.b);
});

test('no step of history lets in what could not be opened again', () => {
  const h = startHistory(after(start, cut));
  const says = (edit: Edit) => {
    const next = commit(h, edit);
    return next.ok ? 'done' : sentence(next.problem);
  };
  expect(says({ type: 'move-corner', args: { cornerId: '1', x: -2e6, y: 0 } })).toContain('1,000 km away');
  const far = { type: 'circle', centre: { x: 1e7, y: 0 }, radiusM: 1 } as const;
  expect(
    says({ type: 'add-void', args: { id: 'v', name: 'P', kind: 'post', sheetId: 'g', shape: far } }),
  ).toContain('1,000 km away');
  const point = { a: { x: 0, y: 0 }, b: { x: 1e-9, y: 0 }, lengthM: 5 };
  expect(
    says({ type: 'set-fit', args: { sheetId: 'g', fit: { kind: 'scale', lengths: [point], reach: null } } }),
  ).toContain('no length');
  const tiny = { a: { x: 0, y: 0 }, b: { x: 1e5, y: 0 }, lengthM: 0.001 };
  expect(
    says({ type: 'set-fit', args: { sheetId: 'g', fit: { kind: 'scale', lengths: [tiny], reach: null } } }),
  ).toContain('The scale');
  expect(says(slab('b', corners(['1', 0, 0], ['1', 0, 0], ['8', -3, 0], ['9', -3, -3])))).toContain(
    'crosses itself',
  );
});

test('a value out of its range, and a system nobody knows, are said and do no harm', () => {
  for (const [key, value] of [
    ['loss.smooth', 1],
    ['loss.smooth', 2],
    ['etch.coverage', 0],
  ] as const) {
    const r = results({ ...start, values: { [key]: value } });
    expect(r.remarks[0]!.sentence).toContain('must lie between');
    expect(r.coating.paints[0]!.quantity.value).toBeCloseTo(
      results(start).coating.paints[0]!.quantity.value,
      12,
    );
  }
  const odd = after(start, { type: 'update-slab', args: { slabId: 'a', surface: { systemId: 'gone' } } });
  expect(results(odd).remarks[0]!.sentence).toContain('“gone”');
});

test('there are edits for everything', () => expect(EDIT_TYPES.length).toBeGreaterThanOrEqual(20));

test('rules of the coats: primer under wheels, neat over it, thinned on bare, nothing etched that is painted', () => {
  const coats = (surface: Partial<typeof DEFAULT_SURFACE>) =>
    results(after(start, { type: 'update-slab', args: { slabId: 'a', surface } })).coating.zones[0]!;
  const roles = (z: ReturnType<typeof coats>) =>
    z.coats.map((c) => `${c.role}${c.thinner ? ' thinned' : ''}`);
  expect(roles(coats({ traffic: 'foot' }))).toEqual(['first thinned', 'second']);
  expect(roles(coats({ traffic: 'cars' }))).toEqual(['primer', 'first', 'second']);
  expect(roles(coats({ traffic: 'cars', systemId: 'solvent-borne-paving' }))).toEqual([
    'first thinned',
    'second',
  ]);
  const painted = coats({ condition: 'painted' });
  expect([roles(painted), painted.etch]).toEqual([['first', 'second'], null]);
  expect(coats({ systemId: null }).coats).toEqual([]);
  expect(coats({ grip: true }).coats.map((c) => c.additive !== null)).toEqual([false, true]);
});

test('thinning as a share of the mix is more than as a share of the paint', () => {
  const thinner = (thinningOf: 'paint' | 'mix') =>
    results(after(start, { type: 'change-settings', args: { thinningOf } })).coating.zones[0]!.coats[0]!;
  const [ofPaint, ofMix] = [thinner('paint'), thinner('mix')];
  expect(ofPaint.thinner!.value / ofPaint.paint.value).toBeCloseTo(0.2, 12);
  expect(ofMix.thinner!.value / (ofMix.paint.value + ofMix.thinner!.value)).toBeCloseTo(0.2, 12);
});

test('a value of one’s own replaces the default until it is put back', () => {
  const key = 'texture.light-broom.first';
  const own = after(start, { type: 'set-value', args: { key, value: 2 } });
  const paint = (job: Job) => results(job).coating.zones[0]!.coats[0]!.paint;
  const { S, d, T } = paint(start).inputs!;
  const pores = d!.value / (1000 * (1 + T!.value));
  const ratio = (2 / S!.value + pores) / (1.2 / S!.value + pores);
  expect(paint(own).value / paint(start).value).toBeCloseTo(ratio, 12);
  expect(paint(own).inputs!.k!.source).toEqual({ kind: 'entered' });
  expect(after(own, { type: 'set-value', args: { key, value: null } })).toEqual(start);
});
