import { describe, expect, test } from 'vitest';
import { toFrame } from '../../geometry/index.ts';
import type { Edit } from '../../src/job/edits/index.ts';
import { DEFAULT_SURFACE, emptyJob, type Fit, type GroundMark, type Job } from '../../src/job/types.ts';
import { results } from '../../src/results.ts';
import { solveFit } from '../../src/takeoff/fits/fits.ts';
import type { SolvedFit } from '../../src/takeoff/fits/solved-fit.ts';
import { edited } from '../coating/scene.ts';

/* Deviations by hand from the values that they come from, all common practice without a source unless said. */

const POINT_M = 0.0254 / 72;
const job = (fit: Fit | null, ...edits: readonly Edit[]): Job =>
  edited(
    emptyJob('j', 'Job'),
    {
      type: 'add-sheet',
      args: { id: 's', name: 'Photo', picture: { imageId: 'i', widthPx: 1200, heightPx: 1000 }, fit },
    },
    ...edits,
  );
const solved = (j: Job): SolvedFit => {
  const fit = solveFit(j, j.sheets.s!);
  if (!('frame' in fit)) throw new Error(fit.kind);
  return fit;
};
const kind = (j: Job): string => {
  const fit = solveFit(j, j.sheets.s!);
  return 'frame' in fit ? 'solved' : fit.kind;
};
const value = (key: string, v: number): Edit => ({ type: 'set-value', args: { key, value: v } });
/** ±(0.3 mm + 0.2 mm/m) as √3 deviations (Directive 2014/32/EU, class II, from memory), and 2 mm of reading. */
const tape = (m: number, reading = 2): number =>
  Math.hypot((0.3 + 0.2 * m) / 1000 / Math.sqrt(3), reading / 1000);

describe('sheets that need no solving', () => {
  test('entered lengths: a side of 5 m by tape, shared between its ends', () => {
    const fit = solved(job({ kind: 'metric' }));
    const u = tape(5) / Math.SQRT2;
    expect(fit.errors.own({ x: 3, y: 4 })).toEqual([expect.closeTo(u * u, 15), 0, expect.closeTo(u * u, 15)]);
    expect(fit.errors.point.value).toBeCloseTo(u, 12);
    expect(Object.keys(fit.errors.point.inputs!)).toEqual(['a', 'b', 'r']);
    expect([fit.errors.shared, fit.frame.steps, fit.checks, fit.redundancy, fit.stretch]).toEqual([
      null,
      [],
      [],
      0,
      1,
    ]);
    expect(fit.sees({ x: 1e9, y: 1e9 })).toBe(true);
    const blunt = solved(job({ kind: 'metric' }, value('measure.reading', 5)));
    expect(blunt.errors.point.value).toBeCloseTo(tape(5, 5) / Math.SQRT2, 12);
  });

  test('a drawing in its own units, upright with its lower left at the origin', () => {
    const fit = solved(job({ kind: 'drawing', metresPerUnit: 0.02 }));
    expect(toFrame(fit.frame, { x: 0, y: 1000 })).toEqual({ x: 0, y: 0 });
    expect(toFrame(fit.frame, { x: 100, y: 0 })).toEqual({ x: 2, y: 20 });
    // As built within 10 mm of what was drawn.
    expect(fit.errors.point.value).toBeCloseTo(0.01, 12);
    expect(Object.keys(fit.errors.point.inputs!)).toEqual(['b']);
    expect(kind(job({ kind: 'drawing', metresPerUnit: 0 }))).toBe('unusable');
  });

  test('a page at 1 : 100 in points of paper, 1/72 inch', () => {
    const fit = solved(job({ kind: 'page', ratio: 100 }));
    expect(toFrame(fit.frame, { x: 72, y: 1000 }).x).toBeCloseTo(2.54, 12);
    expect(toFrame(fit.frame, { x: 0, y: 928 }).y).toBeCloseTo(2.54, 12);
    // 10 mm as built, and half a point of tapping: 0.5 × 0.0254 / 72 × 100 m.
    expect(fit.errors.point.value).toBeCloseTo(Math.hypot(0.01, 0.5 * POINT_M * 100), 12);
    expect(Object.keys(fit.errors.point.inputs!)).toEqual(['b', 'p']);
    expect(fit.errors.own({ x: 0, y: 0 })[0]).toBeCloseTo(0.01 ** 2 + (50 * POINT_M) ** 2, 12);
    expect(kind(job({ kind: 'page', ratio: 0 }))).toBe('unusable');
  });

  test('a walk, a map, and one that says how good it is', () => {
    const on = (from: 'walk' | 'map', deviationM: number | null) =>
      solved(job({ kind: 'georeferenced', latitude: 47, longitude: 8, from, deviationM }));
    expect(on('walk', null).errors.point).toMatchObject({
      value: 3,
      explanation: 'a point recorded on a walk',
    });
    expect(on('map', null).errors.point).toMatchObject({ value: 0.3, explanation: 'a point read off a map' });
    expect(on('walk', 0.8).errors.point.value).toBe(0.8);
    expect([on('walk', 0.8).errors.point.inputs, Object.keys(on('map', null).errors.point.inputs!)]).toEqual([
      {},
      ['w'],
    ]);
    expect(on('map', null).frame.steps).toEqual([]);
    expect(on('walk', 0.8).errors.own({ x: 1, y: 2 })).toEqual([
      expect.closeTo(0.64, 12),
      0,
      expect.closeTo(0.64, 12),
    ]);
  });

  test('no fit is none, and a picture of a sheet that has no marks neither', () => {
    expect(kind(job(null))).toBe('none');
    const straight: Fit = {
      kind: 'straightened',
      sheetId: 's',
      toPhoto: [1, 0, 0, 0, 1, 0, 0, 0, 1],
      lens: null,
    };
    const both = edited(job({ kind: 'metric' }), {
      type: 'add-sheet',
      args: { id: 't', name: 'T', picture: null, fit: straight },
    });
    expect(solveFit(both, both.sheets.t!)).toEqual({ kind: 'none' });
  });

  test('solved once for the same sheet and values', () => {
    const j = job({ kind: 'metric' });
    expect(solveFit(j, j.sheets.s!)).toBe(solveFit({ ...j, name: 'Other' }, j.sheets.s!));
    expect(solveFit(edited(j, value('measure.reading', 9)), j.sheets.s!)).not.toBe(solveFit(j, j.sheets.s!));
  });
});

describe('a scale from known lengths', () => {
  const line = (ax: number, ay: number, bx: number, by: number, lengthM: number) => ({
    a: { x: ax, y: ay },
    b: { x: bx, y: by },
    lengthM,
  });
  test('one length: the tap by the pixel on the ground, the scale by tape and two taps', () => {
    const fit = solved(job({ kind: 'scale', lengths: [line(0, 0, 500, 0, 10)], reach: null }));
    expect(toFrame(fit.frame, { x: 100, y: 900 })).toEqual({
      x: expect.closeTo(2, 12),
      y: expect.closeTo(2, 12),
    });
    expect(fit.errors.point.value).toBeCloseTo(1.5 * 0.02, 12);
    expect(fit.errors.own({ x: 5, y: 5 })).toEqual([
      expect.closeTo(0.03 ** 2, 12),
      expect.closeTo(0, 12),
      expect.closeTo(0.03 ** 2, 12),
    ]);
    const [[xx]] = fit.errors.shared!.covariance as [[number]];
    // Relative: tape and tap over 10 m.
    const s = Math.hypot(tape(10), 1.5 * Math.SQRT2 * 0.02) / 10;
    expect(Math.sqrt(xx!) / 0.02).toBeCloseTo(s, 9);
    expect(fit.errors.shared!.slopes({ x: 4, y: 6 })).toEqual([
      [expect.closeTo(200, 9)],
      [expect.closeTo(300, 9)],
    ]);
    expect([fit.redundancy, fit.stretch]).toEqual([0, 1]);
    expect(fit.checks).toMatchObject([
      { name: 'known length 1', knownM: 10, standardised: 0, suspect: false },
    ]);
    expect(fit.checks[0]!.offM).toBeCloseTo(0, 12);
  });

  test('two scales on a stretched scan: each direction errs by its own', () => {
    const lengths = [
      line(0, 0, 500, 0, 10),
      line(0, 0, 0, 500, 12),
      line(0, 500, 500, 500, 10),
      line(500, 0, 500, 500, 12),
    ];
    const plain = solved(job({ kind: 'scale', lengths, reach: null }));
    expect(plain.stretch).toBeCloseTo(10 / 12, 3);
    expect(plain.checks.every((c) => c.offM > 0.3)).toBe(true);
    expect(plain.redundancy).toBe(3);
    const fit = solved(job({ kind: 'scale', lengths, reach: null, stretched: true }));
    const at = toFrame(fit.frame, { x: 100, y: 500 });
    expect([at.x, at.y]).toEqual([expect.closeTo(2, 9), expect.closeTo(12, 9)]);
    expect([fit.redundancy, fit.stretch]).toEqual([2, 1]);
    expect(fit.errors.shared!.covariance).toHaveLength(2);
    expect(fit.errors.shared!.slopes({ x: 4, y: 6 })).toEqual([
      [expect.closeTo(200, 9), 0],
      [0, expect.closeTo(250, 9)],
    ]);
    expect(fit.errors.point.value).toBeCloseTo((1.5 * (0.02 + 0.024)) / 2, 9);
    expect(kind(job({ kind: 'scale', lengths: lengths.slice(0, 1), reach: null, stretched: true }))).toBe(
      'unusable',
    );
    // Too few to tell a stretched scan from a wrong length.
    expect(solved(job({ kind: 'scale', lengths: lengths.slice(0, 2), reach: null })).stretch).toBe(1);
  });
});

describe('a photo by marks', () => {
  const TURN = [
    [300, 900],
    [900, 900],
    [750, 500],
    [450, 500],
  ] as const;
  const ON = [
    [0, 0],
    [3, 0],
    [3, 4],
    [0, 4],
  ] as const;
  const marks = (
    by: 'points' | 'bare' = 'bare',
    extra: ReadonlyArray<readonly [number, number, number, number]> = [],
  ): GroundMark[] => [
    ...TURN.map(([x, y], i) => ({
      at: { x, y },
      on: by === 'points' ? { x: ON[i]![0], y: ON[i]![1] } : null,
    })),
    ...extra.map(([x, y, u, v]) => ({ at: { x, y }, on: { x: u, y: v } })),
  ];
  const by = (known: Extract<Fit, { kind: 'marks' }>['known'], list = marks()): Job =>
    job({ kind: 'marks', marks: list, known, straights: [] });
  const rectangle = { type: 'rectangle', lengthM: 3, widthM: 4 } as const;

  test('where the marks are they are found, and nothing checks four of them', () => {
    const fit = solved(by(rectangle));
    TURN.forEach(([x, y], i) => {
      const p = toFrame(fit.frame, { x, y });
      expect([p.x, p.y]).toEqual([expect.closeTo(ON[i]![0], 6), expect.closeTo(ON[i]![1], 6)]);
    });
    expect(fit.redundancy).toBe(0);
    expect(fit.checks.map((c) => [c.name, c.knownM, c.readM, c.suspect])).toEqual(
      [1, 2, 3, 4].map((n) => [`mark ${n}`, null, null, false]),
    );
    expect(Math.max(...fit.checks.map((c) => c.offM))).toBeLessThan(1e-6);
    expect(Object.keys(fit.errors.point.inputs!)).toEqual(['p']);
    // The farthest marks are where a pixel is longest: 3 m over 300 pixels across, and more along.
    expect(fit.errors.point.value).toBeGreaterThan(1.5 * 0.01);
    const own = ON.map(([x, y]) => fit.errors.own({ x, y })).map(([a, , c]) => Math.sqrt((a + c) / 2));
    expect(fit.errors.point.value).toBeCloseTo(Math.max(...own), 9);
    expect(Math.max(...own)).toBeGreaterThan(2 * Math.min(...own));
    expect(kind(by(rectangle, [...marks(), marks()[0]!]))).toBe('unusable');
  });

  test('a tap’s error on the ground is as finite differences of the way there have it', () => {
    const fit = solved(by(rectangle));
    for (const [x, y] of [
      [500, 800],
      [640, 560],
    ] as const) {
      const at = (dx: number, dy: number) => toFrame(fit.frame, { x: x + dx, y: y + dy });
      const h = 1e-3;
      const [r, l, u, d] = [at(h, 0), at(-h, 0), at(0, h), at(0, -h)];
      const [a, b, c, e] = [r.x - l.x, u.x - d.x, r.y - l.y, u.y - d.y].map((v) => (1.5 * v) / (2 * h)) as [
        number,
        number,
        number,
        number,
      ];
      const own = fit.errors.own(at(0, 0));
      expect(own[0] / (a * a + b * b)).toBeCloseTo(1, 4);
      expect((own[1] - (a * c + b * e)) / (a * a + b * b)).toBeCloseTo(0, 4);
      expect(own[2] / (c * c + e * e)).toBeCloseTo(1, 4);
    }
  });

  test('the ends of the sides of a rectangle err with the tapes of its length and width', () => {
    // With no error of tapping left, what is shared at each mark is the tape alone.
    const fit = solved(edited(by(rectangle), value('measure.tap', 0)));
    const spread = (x: number, y: number) => {
      const [gx, gy] = fit.errors.shared!.slopes({ x, y });
      const { covariance: k } = fit.errors.shared!;
      const product = (g: readonly number[]) =>
        Math.sqrt(
          Math.max(
            0,
            g.reduce((s, a, i) => s + g.reduce((t, b, j) => t + a * k[i]![j]! * b, 0), 0),
          ),
        );
      return [product(gx), product(gy)];
    };
    expect(spread(0, 0)).toEqual([expect.closeTo(0, 5), expect.closeTo(0, 5)]);
    expect(spread(3, 0)).toEqual([expect.closeTo(tape(3), 5), expect.closeTo(0, 5)]);
    expect(spread(3, 4)).toEqual([expect.closeTo(tape(3), 5), expect.closeTo(tape(4), 5)]);
    expect(spread(0, 4)).toEqual([expect.closeTo(0, 5), expect.closeTo(tape(4), 5)]);
  });

  test('marks of known places: by the farthest, shared between both coordinates; a fifth checks the others', () => {
    const first = solved(by(rectangle));
    const fifth = { x: 600, y: 700 };
    const there = toFrame(first.frame, fifth);
    const good = solved(by({ type: 'points' }, marks('points', [[fifth.x, fifth.y, there.x, there.y]])));
    expect(good.redundancy).toBe(2);
    expect(good.checks.every((c) => !c.suspect && c.offM < 1e-3)).toBe(true);
    const bad = solved(by({ type: 'points' }, marks('points', [[fifth.x, fifth.y, there.x + 0.6, there.y]])));
    // One of five is wrong, but any of them may be; a sixth tells which.
    expect(bad.checks.every((c) => c.suspect && c.standardised > 3.72)).toBe(true);
    const sixth = { x: 500, y: 600 };
    const here = toFrame(first.frame, sixth);
    const named = solved(
      by(
        { type: 'points' },
        marks('points', [
          [fifth.x, fifth.y, there.x + 0.6, there.y],
          [sixth.x, sixth.y, here.x, here.y],
        ]),
      ),
    );
    expect(named.checks.flatMap((c, i) => (c.suspect ? [i] : []))).toEqual([4]);
    expect(Math.max(...bad.checks.map((c) => c.offM))).toBeGreaterThan(0.1);
    const exact = solved(edited(by({ type: 'points' }, marks('points')), value('measure.tap', 0)));
    const [gx] = exact.errors.shared!.slopes({ x: 3, y: 4 });
    const { covariance: k } = exact.errors.shared!;
    const variance = gx.reduce((s, a, i) => s + gx.reduce((t, b, j) => t + a * k[i]![j]! * b, 0), 0);
    // The farthest of the marks is 5 m from the first.
    expect(Math.sqrt(variance)).toBeCloseTo(tape(5) / Math.SQRT2, 5);
  });

  test('marks taped to each other: the tapes are checks of their own', () => {
    const pairs = [
      [0, 1, 3],
      [1, 2, 4],
      [2, 3, 3],
      [0, 3, 4],
      [0, 2, 5],
      [1, 3, 5.05],
    ] as const;
    const tapes = pairs.map(([a, b, lengthM]) => ({ a, b, lengthM }));
    const fit = solved(by({ type: 'tapes', tapes }));
    expect(fit.redundancy).toBe(1);
    expect(fit.checks.slice(4).map((c) => c.name)).toEqual(
      pairs.map(([a, b]) => `tape from mark ${a + 1} to mark ${b + 1}`),
    );
    const last = fit.checks[9]!;
    expect(last.knownM).toBe(5.05);
    expect(last.readM!).toBeLessThan(5.05);
    expect(last.readM!).toBeGreaterThan(5);
    expect(last.offM).toBeCloseTo(5.05 - last.readM!, 9);
    const loose = solveFit(
      by({ type: 'tapes', tapes: tapes.slice(0, 4) }),
      by({ type: 'tapes', tapes: tapes.slice(0, 4) }).sheets.s!,
    );
    expect(loose).toMatchObject({ kind: 'marks-loose' });
    if ('a' in loose) expect([loose.a, loose.b].sort().join()).toMatch(/^(1,3|2,4)$/);
  });

  test('what cannot be: too few, in a line, no place, one beyond the horizon', () => {
    expect(
      solveFit(by(rectangle, marks().slice(0, 3)), by(rectangle, marks().slice(0, 3)).sheets.s!),
    ).toEqual({
      kind: 'too-few-marks',
      missing: 1,
    });
    const inLine = [0, 1, 2, 3].map((i) => ({ at: { x: 100 + 200 * i, y: 500 }, on: { x: i, y: 0 } }));
    expect(kind(by({ type: 'points' }, inLine))).toBe('marks-in-line');
    const some = marks('points').map((m, i) => (i === 2 ? { ...m, on: null } : m));
    expect(solveFit(by({ type: 'points' }, some), by({ type: 'points' }, some).sheets.s!)).toEqual({
      kind: 'mark-without-place',
      mark: 3,
    });
    // A corner dented into the figure of the others can only be seen from behind the horizon.
    const dented = marks().map((m, i) => (i === 2 ? { ...m, at: { x: 500, y: 800 } } : m));
    expect(kind(by(rectangle, dented))).toBe('marks-in-line');
  });

  test('ground a kilometre away is as good as the horizon', () => {
    const fit = solved(by(rectangle));
    // The sides meet at (600, 100): that is the horizon.
    expect(fit.sees({ x: 600, y: 101 })).toBe(false);
    expect(fit.sees({ x: 600, y: 50 })).toBe(false);
    expect(fit.sees({ x: 600, y: 300 })).toBe(true);
    const far = toFrame(fit.frame, { x: 600, y: 110 });
    expect(fit.sees({ x: 600, y: 110 })).toBe(Math.hypot(far.x, far.y) <= 1000);
  });

  test('straight lines that look bent tell the lens, and the straightened picture bends them back', () => {
    const bent = Array.from({ length: 3 }, (_, n) =>
      Array.from({ length: 9 }, (_, i) => {
        const [x, y] = [150 + 110 * i - 600, 80 + 400 * n - 500];
        const r2 = (x * x + y * y) / (600 ** 2 + 500 ** 2);
        // Barrel by 8 % at the corner of the picture.
        return { x: 600 + x * (1 - 0.08 * r2), y: 500 + y * (1 - 0.08 * r2) };
      }),
    );
    const fit = solved(job({ kind: 'marks', marks: marks(), known: rectangle, straights: bent }));
    expect(fit.frame.steps.map((s) => s.kind)).toEqual(['undistort', 'matrix']);
    expect(solved(by(rectangle)).frame.steps.map((s) => s.kind)).toEqual(['matrix']);
    TURN.forEach(([x, y], i) => {
      const p = toFrame(fit.frame, { x, y });
      expect([p.x, p.y]).toEqual([expect.closeTo(ON[i]![0], 4), expect.closeTo(ON[i]![1], 4)]);
    });
    const noPicture = edited(emptyJob('j', 'J'), {
      type: 'add-sheet',
      args: {
        id: 's',
        name: 'P',
        picture: null,
        fit: { kind: 'marks', marks: marks(), known: rectangle, straights: bent },
      },
    });
    expect(solved(noPicture).frame.steps.map((s) => s.kind)).toEqual(['matrix']);
  });

  test('a picture straightened from it errs as the photo does, or more coarsely where it is coarser', () => {
    const photo = by(rectangle);
    const step = solved(photo).frame.steps[0]!;
    if (step.kind !== 'matrix') throw new Error('no matrix');
    const straight = (pixelM: number): Job => {
      const [a, b, c, d, e, f, g, h, i] = step.back;
      const toPhoto = [
        a * pixelM,
        -b * pixelM,
        4 * b + c,
        d * pixelM,
        -e * pixelM,
        4 * e + f,
        g * pixelM,
        -h * pixelM,
        4 * h + i,
      ];
      return edited(photo, {
        type: 'add-sheet',
        args: {
          id: 't',
          name: 'T',
          picture: null,
          fit: { kind: 'straightened', sheetId: 's', toPhoto, lens: null },
        },
      });
    };
    const of = (j: Job) => {
      const fit = solveFit(j, j.sheets.t!);
      if (!('frame' in fit)) throw new Error(fit.kind);
      return fit;
    };
    const [fine, coarse] = [of(straight(0.001)), of(straight(0.1))];
    const source = solved(photo);
    expect(fine.errors.own({ x: 1, y: 1 })).toEqual(source.errors.own({ x: 1, y: 1 }));
    // A pixel of 0.1 m, tapped within 1.5 of them.
    const own = coarse.errors.own({ x: 1, y: 1 });
    expect([own[0], own[2]]).toEqual([expect.closeTo(0.0225, 5), expect.closeTo(0.0225, 5)]);
    expect(fine.errors.point.value).toBeCloseTo(source.errors.point.value, 9);
    expect(coarse.errors.point.value).toBeCloseTo(0.15, 5);
    expect(fine.errors.shared).toBe(source.errors.shared);
    expect(fine.sees({ x: 100, y: 100 })).toBe(true);
    const flat = edited(photo, {
      type: 'add-sheet',
      args: {
        id: 't',
        name: 'T',
        picture: null,
        fit: { kind: 'straightened', sheetId: 's', toPhoto: [1, 0, 0, 1, 0, 0, 0, 0, 1], lens: null },
      },
    });
    expect(solveFit(flat, flat.sheets.t!)).toEqual({ kind: 'unusable' });
  });

  test('a slab on it is measured as the marks say', () => {
    const slab: Edit = {
      type: 'add-slab',
      args: {
        id: 'a',
        name: 'A',
        sheetId: 's',
        corners: TURN.map(([x, y], i) => ({ id: `a${i}`, x, y, via: null })),
        surface: DEFAULT_SURFACE,
      },
    };
    expect(results(edited(by(rectangle), slab)).takeoff.zones[0]!.netArea.value).toBeCloseTo(12, 5);
  });
});
