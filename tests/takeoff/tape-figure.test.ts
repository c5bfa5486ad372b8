import { describe, expect, test } from 'vitest';
import type { PlanPoint, Point } from '../../geometry/index.ts';
import type { Edit } from '../../src/job/edits/index.ts';
import { DEFAULT_SURFACE, emptyJob, type Job } from '../../src/job/types.ts';
import { results } from '../../src/results.ts';
import { figureErrors, type TapeFigure, tapeFigures } from '../../src/takeoff/fits/tape-figure.ts';
import { edited } from '../coating/scene.ts';

/*
 * A four-sided slab by its sides and a diagonal is two triangles of known sides: its area by Heron's formula, and how far
 * off it may be by the law of propagation of uncertainty (JCGM 100:2008, 5.1.2), worked out here from the lengths alone.
 */

type Corners = ReadonlyArray<readonly [number, number]>;

/** An awkward four-sided slab, not square to the sheet and away from its origin. */
const KITE: Corners = [
  [3, 2],
  [8.1, 4.3],
  [6.2, 9.7],
  [1.4, 6.6],
];

const slabEdit = (id: string, corners: Corners, sheetId = 'g'): Edit => ({
  type: 'add-slab',
  args: {
    id,
    name: id.toUpperCase(),
    sheetId,
    corners: corners.map(([x, y], i) => ({ id: `${id}${i}`, x, y, via: null })),
    surface: DEFAULT_SURFACE,
  },
});
const metric: Edit = {
  type: 'add-sheet',
  args: { id: 'g', name: 'Grid', picture: null, fit: { kind: 'metric' } },
};
const grid = (...edits: readonly Edit[]): Job => edited(emptyJob('j', 'Job'), metric, ...edits);

const between = (corners: Corners, a: number, b: number): number =>
  Math.hypot(corners[a]![0] - corners[b]![0], corners[a]![1] - corners[b]![1]);
const tape = (slab: string, a: number, b: number, lengthM: number): Edit => ({
  type: 'set-tape',
  args: { id: `${slab}${a}-${b}`, kind: 'distance', a: `${slab}${a}`, b: `${slab}${b}`, lengthM },
});
const BRACED = [
  [0, 1],
  [1, 2],
  [2, 3],
  [3, 0],
  [0, 2],
] as const;
const tapes = (
  slab: string,
  corners: Corners,
  pairs: ReadonlyArray<readonly [number, number]> = BRACED,
): Edit[] => pairs.map(([a, b]) => tape(slab, a, b, between(corners, a, b)));

const heron = (a: number, b: number, c: number): number => {
  const s = (a + b + c) / 2;
  return Math.sqrt(s * (s - a) * (s - b) * (s - c));
};
/** Area by the lengths in the order of BRACED. */
const byHeron = ([a, b, c, d, e]: readonly number[]): number => heron(a!, b!, e!) + heron(c!, d!, e!);
/** One standard deviation of a tape: ±(0.3 mm + 0.2 mm/m) as √3 deviations, and 2 mm of reading; the defaults. */
const deviation = (length: number): number => Math.sqrt(((0.3 + 0.2 * length) / 1000) ** 2 / 3 + 0.002 ** 2);
function heronDeviation(lengths: readonly number[], of: (l: readonly number[]) => number = byHeron): number {
  let variance = 0;
  lengths.forEach((length, i) => {
    const at = (h: number) => of(lengths.map((l, k) => (k === i ? l + h : l)));
    variance += (((at(1e-5) - at(-1e-5)) / 2e-5) * deviation(length)) ** 2;
  });
  return Math.sqrt(variance);
}
const lengthsOf = (corners: Corners) => BRACED.map(([a, b]) => between(corners, a, b));

const figureOf = (job: Job): TapeFigure => {
  const [figure, ...more] = tapeFigures(job);
  expect(more).toEqual([]);
  return figure!;
};
const turned = (corners: Corners, angle: number): Corners =>
  corners.map(([x, y]) => [
    5 + (x - 5) * Math.cos(angle) - (y - 5) * Math.sin(angle),
    5 + (x - 5) * Math.sin(angle) + (y - 5) * Math.cos(angle),
  ]);
const area = (p: readonly Point[]): number =>
  p.reduce((s, q, i) => s + q.x * p[(i + 1) % p.length]!.y - p[(i + 1) % p.length]!.x * q.y, 0) / 2;

describe('four sides and a diagonal', () => {
  test.each([0, 0.9, 2.4, -2])('area and its deviation as Heron has them, turned by %d', (angle) => {
    const corners = turned(KITE, angle);
    const job = grid(slabEdit('a', corners), ...tapes('a', corners));
    const figure = figureOf(job);
    const lengths = lengthsOf(KITE);
    expect(figure).toMatchObject({ sheetId: 'g', cornerIds: ['a0', 'a1', 'a2', 'a3'], holds: true });
    expect(figure.fit.redundancy).toBe(0);
    expect(figure.offM).toBeLessThan(1e-9);
    expect(area(figure.cornerIds.map((id) => figure.places[id]!))).toBeCloseTo(byHeron(lengths), 9);
    expect(figure.areaDeviationM2!).toBeCloseTo(heronDeviation(lengths), 7);
    // Only the other diagonal is left to measure, and it would make the area surer.
    expect([figure.next!.a, figure.next!.b]).toEqual(['a1', 'a3']);
    expect(figure.next!.areaDeviationM2!).toBeLessThan(figure.areaDeviationM2!);
    expect(figure.next!.areaDeviationM2!).toBeGreaterThan(0.5 * figure.areaDeviationM2!);
    // The zone says the same, and its boundary is the four sides, each by a tape of its own.
    const zone = results(job).takeoff.zones[0]!;
    expect(zone.areaUncertainty.value).toBeCloseTo(heronDeviation(lengths), 5);
    const sides = (l: readonly number[]) => l.slice(0, 4).reduce((s, v) => s + v, 0);
    expect(zone.boundaryUncertainty.value).toBeCloseTo(heronDeviation(lengths, sides), 5);
    expect(zone.areaUncertainty.inputs!.P!.value).toBe(0);
  });

  test('drawn turned and out of shape they are laid over the drawing, and the deviations turn with them', () => {
    const lengths = lengthsOf(KITE);
    for (const angle of [0.4, -0.5]) {
      const rough = turned(KITE, angle).map(([x, y], i) => [x + (i % 2) * 0.4, y - (i % 3) * 0.3] as const);
      const job = grid(slabEdit('a', rough), ...tapes('a', KITE));
      const figure = figureOf(job);
      expect(figure.holds).toBe(false);
      expect(figure.areaDeviationM2!).toBeCloseTo(heronDeviation(lengths), 7);
      const places = figure.cornerIds.map((id) => figure.places[id]!);
      expect(area(places)).toBeCloseTo(byHeron(lengths), 7);
      const off = places.map((p, i) => Math.hypot(p.x - rough[i]![0], p.y - rough[i]![1]));
      expect(figure.offM).toBeCloseTo(Math.max(...off), 9);
      // Laid over as well as it goes: the same middle, and no turn makes the squares less.
      const middle = (ps: readonly Point[], of: 'x' | 'y') => ps.reduce((s, p) => s + p[of], 0) / ps.length;
      const drawn = rough.map(([x, y]) => ({ x, y }));
      for (const of of ['x', 'y'] as const) expect(middle(places, of)).toBeCloseTo(middle(drawn, of), 9);
      const [mx, my] = [middle(places, 'x'), middle(places, 'y')];
      const squares = (t: number) =>
        places.reduce((s, p, i) => {
          const x = mx + (p.x - mx) * Math.cos(t) - (p.y - my) * Math.sin(t);
          const y = my + (p.x - mx) * Math.sin(t) + (p.y - my) * Math.cos(t);
          return s + (x - rough[i]![0]) ** 2 + (y - rough[i]![1]) ** 2;
        }, 0);
      expect(squares(0.002)).toBeGreaterThan(squares(0));
      expect(squares(-0.002)).toBeGreaterThan(squares(0));
      const placed = edited(job, { type: 'place-corners', args: { places: figure.places } });
      expect(figureOf(placed).holds).toBe(true);
      expect(results(placed).takeoff.zones[0]!.areaUncertainty.value).toBeCloseTo(heronDeviation(lengths), 5);
    }
  });

  test('a corner half a millimetre off is still where the tapes put it; a millimetre off it is not, and errs by itself', () => {
    const moved = (by: number) => {
      const corners = KITE.map(([x, y], i) => [x + (i === 2 ? by : 0), y] as const);
      return grid(slabEdit('a', corners), ...tapes('a', KITE));
    };
    expect(figureOf(moved(0.0006)).holds).toBe(true);
    expect(figureOf(moved(0.003)).holds).toBe(false);
    const by = (job: Job) => results(job).takeoff.zones[0]!.areaUncertainty.inputs!;
    expect(by(moved(0.0006)).P!.value).toBe(0);
    expect(by(moved(0.003)).P!.value).toBeGreaterThan(0);
  });
});

describe('what holds which corners', () => {
  test('two slabs apart are two figures, each as it is alone; a third without tapes errs by itself', () => {
    const beside = KITE.map(([x, y]) => [x * 1.3 + 20, y * 0.8] as const);
    const plain = KITE.map(([x, y]) => [x + 60, y] as const);
    const alone = (id: string, corners: Corners) => grid(slabEdit(id, corners), ...tapes(id, corners));
    const all = grid(
      slabEdit('a', KITE),
      slabEdit('b', beside),
      slabEdit('c', plain),
      ...tapes('a', KITE),
      ...tapes('b', beside),
    );
    expect(tapeFigures(all).map((f) => f.cornerIds.join())).toEqual(['a0,a1,a2,a3', 'b0,b1,b2,b3']);
    const u = (job: Job, id: string) =>
      results(job).takeoff.zones.find((z) => z.slabId === id)!.areaUncertainty.value;
    expect(u(all, 'a')).toBeCloseTo(u(alone('a', KITE), 'a'), 9);
    expect(u(all, 'b')).toBeCloseTo(u(alone('b', beside), 'b'), 9);
    expect(u(all, 'b')).toBeCloseTo(heronDeviation(lengthsOf(beside)), 5);
    expect(u(all, 'c')).toBeCloseTo(u(grid(slabEdit('c', plain)), 'c'), 9);
    expect(u(all, 'c')).not.toBeCloseTo(u(all, 'a'), 3);
  });

  test('two figures in one group: each corner errs with its own, none with the other', () => {
    // The second slab touches the first along a side that they draw apart, and is measured by itself.
    const beside: Corners = [
      [8.1, 4.3],
      [12.5, 5],
      [11, 10.2],
      [6.2, 9.7],
    ];
    const job = grid(slabEdit('a', KITE), slabEdit('b', beside), ...tapes('a', KITE), ...tapes('b', beside));
    const figures = tapeFigures(job);
    expect(figures).toHaveLength(2);
    const slabs = ['a', 'b'].map((id) => job.slabs[id]!);
    const errors = figureErrors(job, slabs, () => [1, 0, 1])!;
    expect(errors.shared!.covariance).toHaveLength(16);
    const point = (index: number, vertex: number, via = false): PlanPoint => ({
      kind: 'slab',
      index,
      vertex,
      via,
      at: { x: 0, y: 0 },
    });
    for (const [index, figure] of figures.entries()) {
      for (let v = 0; v < 4; v++) {
        const [x, y] = errors.shared!.slopes(point(index, v));
        const at = 8 * index + 2 * v;
        expect(x.map((s, i) => [s, i]).filter(([s]) => s !== 0)).toEqual([[1, at]]);
        expect(y.map((s, i) => [s, i]).filter(([s]) => s !== 0)).toEqual([[1, at + 1]]);
        expect(errors.own(point(index, v))).toEqual([0, 0, 0]);
        for (let w = 0; w < 4; w++)
          for (const [r, t] of [
            [0, 0],
            [0, 1],
            [1, 0],
            [1, 1],
          ] as const) {
            const mine = errors.shared!.covariance[at + r]![8 * index + 2 * w + t]!;
            expect(mine).toBeCloseTo(figure.fit.covariance[2 * v + r]![2 * w + t]!, 12);
            expect(errors.shared!.covariance[at + r]![8 * (1 - index) + 2 * w + t]).toBe(0);
          }
      }
    }
    // The middle of an arc goes half with either end, and errs by itself besides; what is no slab's does only that.
    const [x, y] = errors.shared!.slopes(point(0, 3, true));
    expect([x[6], x[0], y[7], y[1]]).toEqual([0.5, 0.5, 0.5, 0.5]);
    expect(x.reduce((s, v) => s + v, 0)).toBe(1);
    expect(errors.own(point(0, 3, true))).toEqual([1, 0, 1]);
    const post = { ...point(0, 0), kind: 'void' } as PlanPoint;
    expect(errors.own(post)).toEqual([1, 0, 1]);
    expect(
      errors
        .shared!.slopes(post)
        .flat()
        .every((s) => s === 0),
    ).toBe(true);
    // Of the first slab alone, only its own figure is asked.
    expect(figureErrors(job, [slabs[0]!], () => [1, 0, 1])!.shared!.covariance).toHaveLength(8);
    const far = grid(slabEdit('a', KITE), slabEdit('c', KITE), ...tapes('a', KITE));
    expect(figureErrors(far, [far.slabs.c!], () => [1, 0, 1])).toBeNull();
  });

  test('a figure that ties two slabs together is one, in whatever order it was taped', () => {
    const beside = KITE.map(([x, y]) => [x + 10, y] as const);
    const apart = [...tapes('a', KITE), ...tapes('b', beside)];
    const tie: Edit = {
      type: 'set-tape',
      args: { id: '0tie', kind: 'distance', a: 'a1', b: 'b0', lengthM: 5.41 },
    };
    for (const edits of [
      [...apart, tie],
      [tie, ...apart],
    ]) {
      const job = grid(slabEdit('a', KITE), slabEdit('b', beside), ...edits);
      const figure = figureOf(job);
      expect(figure.cornerIds).toHaveLength(8);
      expect(figure.tapes).toHaveLength(11);
      // Three tapes would hold the one to the other; one leaves two ways to move.
      expect(figure.fit.loose).toBe(2);
      expect([figure.holds, figure.areaDeviationM2, figure.next!.areaDeviationM2]).toEqual([
        false,
        null,
        null,
      ]);
    }
  });
});

describe('what is read', () => {
  test('a tape that disagrees is named by its corners, with what it should read', () => {
    const wrong = grid(slabEdit('a', KITE), ...tapes('a', KITE), tape('a', 1, 3, between(KITE, 1, 3) + 0.2));
    const figure = figureOf(wrong);
    const check = figure.checks.find((c) => c.name.startsWith('B–D'))!;
    expect(check.name).toBe('B–D');
    expect(check.knownM).toBeCloseTo(between(KITE, 1, 3) + 0.2, 9);
    expect(check.readM! - check.knownM!).toBeLessThan(-0.01);
    expect(check.offM).toBeCloseTo(Math.abs(check.readM! - check.knownM!), 12);
    expect(figure.fit.redundancy).toBe(1);
    expect(figure.checks.some((c) => c.suspect)).toBe(true);
    expect(figure.next).toBeNull();
  });

  test('a right angle is off by what the end of its shorter arm would move; an offset by metres', () => {
    const box: Corners = [
      [1, 1],
      [5, 1],
      [5, 3],
      [1, 3],
    ];
    const out = box.map(([x, y]) => [x + (y === 3 ? 0.02 : 0), y] as const);
    const square: Edit = { type: 'set-tape', args: { id: 'sq', kind: 'square', at: 'a0', a: 'a1', b: 'a3' } };
    const offset: Edit = {
      type: 'set-tape',
      args: { id: 'of', kind: 'offset', a: 'a0', b: 'a1', corner: 'a2', alongM: 4.02, offM: 2 },
    };
    const job = grid(slabEdit('a', out), ...tapes('a', out), square, offset);
    const { checks, fit, tapes: own } = figureOf(job);
    const of = (id: string) => own.findIndex((t) => t.id === id);
    expect(checks[of('sq')]!.name).toBe('the right angle at A');
    expect(checks[of('sq')]!.offM).toBeCloseTo(2 * Math.abs(fit.observations[of('sq')]!.residual), 4);
    expect(checks[of('sq')]!.offM).toBeGreaterThan(0);
    expect([checks[of('sq')]!.knownM, checks[of('sq')]!.readM]).toEqual([null, null]);
    expect(checks[of('of')]!.name).toBe('the offset of C from A–B');
    expect(checks[of('of')]!.offM).toBeCloseTo(Math.abs(fit.observations[of('of')]!.residual), 12);
  });

  test('tapes say nothing on a sheet that is not in metres, between two sheets, or from a corner to itself', () => {
    const photo: Edit = {
      type: 'add-sheet',
      args: { id: 'p', name: 'Photo', picture: null, fit: { kind: 'drawing', metresPerUnit: 1 } },
    };
    const job = grid(photo, slabEdit('a', KITE), slabEdit('b', KITE, 'p'));
    const with_ = (...own: ReadonlyArray<readonly [string, string]>): Job => ({
      ...job,
      tapes: Object.fromEntries(
        own.map(([a, b], i) => [`t${i}`, { id: `t${i}`, kind: 'distance', a, b, lengthM: 3 }]),
      ),
    });
    expect(tapeFigures(with_(['b0', 'b1'], ['b1', 'b2']))).toEqual([]);
    expect(tapeFigures(with_(['a0', 'b1']))).toEqual([]);
    expect(tapeFigures(with_(['a0', 'a0']))).toEqual([]);
    expect(tapeFigures(with_(['a0', 'gone']))).toEqual([]);
    expect(tapeFigures(with_(['a0', 'a1']))).toHaveLength(1);
    expect(tapeFigures(job)).toEqual([]);
  });

  test('worked out anew for other corners, slabs, sheets or values, and only then', () => {
    const job = grid(slabEdit('a', KITE), ...tapes('a', KITE));
    const first = tapeFigures(job);
    expect(tapeFigures({ ...job, name: 'Other' })).toBe(first);
    const moved = edited(job, { type: 'move-corner', args: { cornerId: 'a0', x: 3.5, y: 2 } });
    expect(tapeFigures({ ...job, corners: moved.corners })[0]!.offM).toBeGreaterThan(0.1);
    const blunt = edited(job, { type: 'set-value', args: { key: 'measure.reading', value: 20 } });
    expect(tapeFigures(blunt)[0]!.areaDeviationM2!).toBeGreaterThan(5 * first[0]!.areaDeviationM2!);
    const { a: _gone, ...none } = job.slabs;
    expect(tapeFigures({ ...job, slabs: none })[0]!.areaDeviationM2).toBe(0);
    const unscaled = { ...job, sheets: { g: { ...job.sheets.g!, fit: null } } };
    expect(tapeFigures(unscaled)).toEqual([]);
    expect(tapeFigures(job)[0]!.areaDeviationM2).toBeCloseTo(first[0]!.areaDeviationM2!, 12);
  });
});
