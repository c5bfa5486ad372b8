import { describe, expect, test } from 'vitest';
import { type Contacts, contacts } from '../../geometry/contacts.ts';
import type { Point, Ring } from '../../geometry/index.ts';
import { layOut } from '../../geometry/lines.ts';
import { BESIDE } from '../../geometry/meeting.ts';
import { randomNumbers } from '../random/numbers.ts';
import { box } from './made.ts';

/** The grid's, and its origin lies on a whole one: outlines of whole cells stay as they are. */
const CELL = 2 ** -14;
const cells = (points: ReadonlyArray<readonly [number, number]>): Point[] =>
  points.map(([x, y]) => ({ x: x * CELL, y: y * CELL }));

interface Piece {
  readonly a: readonly [number, number];
  readonly b: readonly [number, number];
  readonly slot: number;
  readonly next: number;
}

function told(rings: readonly Ring[], paths: readonly Point[][] = [], before: Contacts | null = null) {
  const lines = layOut(rings, paths, [], 0, []);
  const busy = new Int32Array(lines.to.length);
  const known = contacts(lines, busy, before);
  const pieces: Piece[] = [];
  lines.to.forEach((next, slot) => {
    if (next < 0) return;
    pieces.push({ a: [lines.cx[slot]!, lines.cy[slot]!], b: [lines.cx[next]!, lines.cy[next]!], slot, next });
  });
  return { busy, pieces, known };
}

function fromPoint([px, py]: Piece['a'], { a, b }: Piece): number {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const d2 = dx * dx + dy * dy;
  const t = d2 === 0 ? 0 : Math.max(0, Math.min(1, ((px - a[0]) * dx + (py - a[1]) * dy) / d2));
  return Math.hypot(px - a[0] - t * dx, py - a[1] - t * dy);
}

/** How near two pieces come, 0 where they cross; by the ends and the sides they lie on. */
function apart(p: Piece, q: Piece): number {
  const side = ({ a, b }: Piece, [x, y]: Piece['a']) =>
    Math.sign((b[0] - a[0]) * (y - a[1]) - (b[1] - a[1]) * (x - a[0]));
  if (side(p, q.a) * side(p, q.b) < 0 && side(q, p.a) * side(q, p.b) < 0) return 0;
  return Math.min(fromPoint(p.a, q), fromPoint(p.b, q), fromPoint(q.a, p), fromPoint(q.b, p));
}

/** A square of a hundred cells. */
const square = (x: number): Point[] =>
  cells([
    [x, 0],
    [x + 100, 0],
    [x + 100, 100],
    [x, 100],
  ]);

/** A closed outline of whole cells about a centre. */
function around(random: () => number, x: number, y: number, reach: number, corners: number): Point[] {
  return cells(
    Array.from({ length: corners }, (_, i) => {
      const angle = (2 * Math.PI * i) / corners;
      const r = reach * (0.3 + 0.7 * random());
      return [Math.round(x + r * Math.cos(angle)), Math.round(y + r * Math.sin(angle))] as const;
    }),
  );
}

// By definition, with distances worked out pair by pair: a piece may be left out of noding only when nothing is near it.
describe('which pieces are to be noded', () => {
  const forgotten = (rings: readonly Ring[], paths: readonly Point[][] = []): string[] => {
    const { busy, pieces } = told(rings, paths);
    const found: string[] = [];
    pieces.forEach((p, i) => {
      for (const q of pieces.slice(i + 1)) {
        if (p.next === q.slot || q.next === p.slot) continue;
        if (apart(p, q) < 4 && !(busy[p.slot] && busy[q.slot])) found.push(`${p.a}–${p.b} by ${q.a}–${q.b}`);
      }
    });
    return found;
  };

  test.each([
    ['a few large outlines', 6, 400, 12],
    ['many small ones', 40, 60, 7],
    ['long runs of short sides', 4, 300, 90],
    ['sides of a few cells', 12, 30, 9],
  ])('%s: none of the pieces that come near another is forgotten', (_, count, reach, corners) => {
    for (let seed = 1; seed <= 12; seed++) {
      const random = randomNumbers(seed);
      const rings = Array.from({ length: count }, () =>
        around(random, Math.floor(600 * random()), Math.floor(600 * random()), reach, corners),
      );
      const paths = [0, 1, 2].map(() =>
        cells(
          Array.from({ length: 6 }, () => [Math.floor(600 * random()), Math.floor(600 * random())] as const),
        ),
      );
      expect(forgotten(rings, paths)).toEqual([]);
    }
  });

  test('more runs than are compared one by one: the index forgets none either', () => {
    for (const [seed, reach] of [
      [1, 60],
      [2, 25],
    ]) {
      const random = randomNumbers(seed!);
      const rings = Array.from({ length: 130 }, () =>
        around(random, Math.floor(2000 * random()), Math.floor(2000 * random()), reach!, 9),
      );
      expect(forgotten(rings)).toEqual([]);
    }
  });

  test('pieces with nothing near them are left as they are', () => {
    const far = told([
      square(0),
      square(105),
      cells([
        [20, 20],
        [80, 20],
        [50, 80],
      ]),
    ]);
    expect([...far.busy].every((b) => b === 0)).toBe(true);
    // One cell nearer, and the two sides that face each other are noded, and those that end there.
    const near = told([square(0), square(104)]);
    expect(near.busy[1]).toBe(BESIDE);
    expect(near.busy[7]).toBe(BESIDE);
    expect([near.busy[3], near.busy[5]]).toEqual([0, 0]);
  });

  test('lines whose boxes overlap are left alone when they pass far enough from each other', () => {
    const pair = (
      a: ReadonlyArray<readonly [number, number]>,
      b: ReadonlyArray<readonly [number, number]>,
    ) => {
      const { busy } = told([], [cells(a), cells(b)]);
      return busy[0]! > 0 && busy[a.length]! > 0;
    };
    const slope = [
      [0, 0],
      [1000, 1000],
    ] as const;
    // By Pythagoras 10 cells aside are 7.07 apart, 5 are 3.54.
    expect(
      pair(slope, [
        [10, 0],
        [1010, 1000],
      ]),
    ).toBe(false);
    expect(
      pair(slope, [
        [0, 10],
        [1000, 1010],
      ]),
    ).toBe(false);
    expect(
      pair(slope, [
        [5, 0],
        [1005, 1000],
      ]),
    ).toBe(true);
    expect(
      pair(slope, [
        [0, 5],
        [1000, 1005],
      ]),
    ).toBe(true);
    // Ending short of the other's side, on either side of it.
    expect(
      pair(slope, [
        [600, 400],
        [507, 493],
      ]),
    ).toBe(false);
    expect(
      pair(slope, [
        [600, 400],
        [502, 498],
      ]),
    ).toBe(true);
    expect(
      pair(slope, [
        [400, 600],
        [493, 507],
      ]),
    ).toBe(false);
    expect(
      pair(
        [
          [600, 400],
          [507, 493],
        ],
        slope,
      ),
    ).toBe(false);
    expect(
      pair(
        [
          [600, 400],
          [502, 498],
        ],
        slope,
      ),
    ).toBe(true);
    // One after another along the same line, five cells on; and four.
    expect(
      pair(
        [
          [0, 0],
          [500, 0],
        ],
        [
          [505, 0],
          [900, 0],
        ],
      ),
    ).toBe(false);
    expect(
      pair(
        [
          [0, 0],
          [500, 0],
        ],
        [
          [504, 0],
          [900, 0],
        ],
      ),
    ).toBe(true);
    expect(
      pair(
        [
          [0, 0],
          [0, 500],
        ],
        [
          [0, 900],
          [0, 505],
        ],
      ),
    ).toBe(false);
    expect(
      pair(
        [
          [505, 0],
          [900, 0],
        ],
        [
          [0, 0],
          [500, 0],
        ],
      ),
    ).toBe(false);
    expect(
      pair(
        [
          [0, 505],
          [0, 900],
        ],
        [
          [0, 0],
          [0, 500],
        ],
      ),
    ).toBe(false);
  });

  test('a line that runs beside another is told from one that crosses it, and from one that is the same', () => {
    const beside = (path: ReadonlyArray<readonly [number, number]>) => {
      const { busy } = told(
        [],
        [
          cells([
            [0, 0],
            [1000, 0],
          ]),
          cells(path),
        ],
      );
      return [busy[0], busy[2]];
    };
    expect(
      beside([
        [0, 2],
        [1000, 3],
      ]),
    ).toEqual([BESIDE, BESIDE]);
    expect(
      beside([
        [1000, 3],
        [0, 2],
      ]),
    ).toEqual([BESIDE, BESIDE]);
    expect(
      beside([
        [500, -300],
        [500, 300],
      ]),
    ).toEqual([1, 1]);
    expect(
      beside([
        [200, 0],
        [1500, 0],
      ]),
    ).toEqual([1, 1]);
    expect(
      beside([
        [0, 0],
        [900, 80],
      ]),
    ).toEqual([BESIDE, BESIDE]);
    expect(
      beside([
        [0, 0],
        [900, 100],
      ]),
    ).toEqual([1, 1]);
    expect(
      beside([
        [0, 5],
        [1000, 9],
      ]),
    ).toEqual([0, 0]);
  });

  test('a piece that folds back on the one before is noded with it, one that turns sharply aside is not', () => {
    const folded = (third: readonly [number, number]) => {
      const { busy } = told([], [cells([[0, 0], [1000, 0], third])]);
      return [busy[0]! > 0, busy[1]! > 0];
    };
    expect(folded([300, 0])).toEqual([true, true]);
    expect(folded([300, 2])).toEqual([true, true]);
    expect(folded([300, -2])).toEqual([true, true]);
    expect(folded([300, 9])).toEqual([false, false]);
    expect(folded([0, 0])).toEqual([true, true]);
    expect(folded([1400, 2])).toEqual([false, false]);
    expect(folded([1400, 0])).toEqual([false, false]);
    // Upright and slanting, with either of the two the longer.
    const turned = (ends: ReadonlyArray<readonly [number, number]>) =>
      [...told([], [cells(ends)]).busy].map((b) => b > 0);
    expect(
      turned([
        [0, 0],
        [0, 700],
        [1, 100],
      ]),
    ).toEqual([true, true, false]);
    expect(
      turned([
        [0, 0],
        [0, 100],
        [3, -900],
      ]),
    ).toEqual([true, true, false]);
    expect(
      turned([
        [0, 0],
        [300, 400],
        [3, 0],
      ]),
    ).toEqual([true, true, false]);
    expect(
      turned([
        [0, 0],
        [300, 400],
        [200, 100],
      ]),
    ).toEqual([false, false, false]);
    // There and back along one line is a ring of two sides.
    expect([
      ...told([
        cells([
          [0, 0],
          [500, 100],
        ]),
      ]).busy,
    ]).toEqual([1, 1]);
  });

  test('a piece of a few cells is noded, with those before and behind it', () => {
    const path = (dx: number, dy: number) =>
      [
        ...told(
          [],
          [
            cells([
              [0, 0],
              [500, 0],
              [500 + dx, dy],
              [500 + dx, dy + 600],
              [900, 1500],
            ]),
          ],
        ).busy,
      ].map((b) => b > 0);
    expect(path(7, 7)).toEqual([true, true, true, false, false]);
    expect(path(8, 0)).toEqual([false, false, false, false, false]);
    expect(path(0, 8)).toEqual([false, false, false, false, false]);
    // Of a ring, also over the corner where it begins.
    const ring = (corners: ReadonlyArray<readonly [number, number]>) =>
      [...told([cells(corners)]).busy].map((b) => b > 0);
    expect(
      ring([
        [0, 0],
        [5, 5],
        [300, 500],
        [-400, 300],
      ]),
    ).toEqual([true, true, false, true]);
    expect(
      ring([
        [5, 5],
        [300, 500],
        [-400, 300],
        [0, 0],
      ]),
    ).toEqual([true, false, true, true]);
    // The piece before is of the same outline: the last of the one before is left alone.
    const two = told([
      box(0, 0, 1, 1),
      cells([
        [40_000, 0],
        [40_005, 5],
        [40_300, 500],
        [39_600, 300],
      ]),
    ]);
    expect([...two.busy].map((b) => b > 0)).toEqual([false, false, false, false, true, true, false, true]);
    // A path has none before its first.
    const start = told(
      [],
      [
        cells([
          [0, 0],
          [5, 5],
          [600, 900],
        ]),
        cells([
          [0, 9000],
          [3, 9003],
        ]),
      ],
    );
    expect([...start.busy].map((b) => b > 0)).toEqual([true, true, false, true, true]);
  });
});

// By what is found without knowing anything.
describe('lines that were looked at before', () => {
  /** Far around everything: it holds the grid in its place. */
  const frame = (reach: number) =>
    cells([
      [-reach, -reach],
      [reach, -reach],
      [reach, reach],
      [-reach, reach],
    ]);

  /** Outlines and paths all over each other. */
  const scene = (random: () => number) => {
    const at = () => Math.floor(600 * random());
    const rings = [
      frame(20_000),
      ...[8, 12, 5, 30].map((corners) => around(random, at(), at(), 250, corners)),
      square(300),
      square(303),
    ];
    const paths = [0, 1].map(() => cells(Array.from({ length: 5 }, () => [at(), at()] as const)));
    return { rings, paths };
  };
  type Scene = ReturnType<typeof scene>;

  /** Some points elsewhere: by less than a cell, a few cells, or far. */
  function changed({ rings, paths }: Scene, random: () => number, count: number): Scene {
    const moved = [...rings, ...paths].map((points) => [...points]);
    for (let k = 0; k < count; k++) {
      const points = moved[1 + Math.floor((moved.length - 1) * random())]!;
      const at = Math.floor(points.length * random());
      const by = [0.2, 6, 200][Math.floor(3 * random())]! * CELL;
      const [x, y] = [by * (random() - 0.5), by * (random() - 0.5)];
      // Aside only, or up and down only, as often as both.
      const way = Math.floor(3 * random());
      points[at] = { x: points[at]!.x + (way === 0 ? 0 : x), y: points[at]!.y + (way === 1 ? 0 : y) };
    }
    return { rings: moved.slice(0, rings.length), paths: moved.slice(rings.length) };
  }

  test('are told the same as lines that are new, however often they change', () => {
    for (let seed = 1; seed <= 20; seed++) {
      const random = randomNumbers(seed);
      let now = scene(random);
      let { known } = told(now.rings, now.paths);
      for (let round = 0; round < 15; round++) {
        now = changed(now, random, 1 + Math.floor(4 * random()));
        const again = told(now.rings, now.paths, known);
        const anew = told(now.rings, now.paths);
        expect([...again.busy]).toEqual([...anew.busy]);
        const inOrder = (c: Contacts | null) => triples(c).map(String).sort();
        expect(inOrder(again.known)).toEqual(inOrder(anew.known));
        known = again.known;
      }
    }
  });

  test('what moved is looked at again, and nothing else', () => {
    const random = randomNumbers(3);
    const { rings, paths } = scene(random);
    const { known } = told(rings, paths);
    const [i, j] = triples(known).find(([p, q]) => p! > 4 && q! > 4)!;
    // What was said of two that did not move is taken as it stands, wrong as it is here.
    const lines = known!.lines;
    const nothing = told(rings, paths, { lines, pairs: [] });
    expect([nothing.busy[i!], nothing.busy[j!]]).toEqual([0, 0]);
    expect(nothing.known!.pairs).toEqual([]);
  });

  test('other lines, another grid, or too much that moved: all is looked at', () => {
    const { rings, paths } = scene(randomNumbers(5));
    const whole = told(rings, paths);
    const fromNothing = (r: readonly Ring[], p: readonly Point[][]) => {
      const { lines } = told(r, p).known!;
      return told(rings, paths, { lines, pairs: [] }).busy;
    };
    const shifted = (ring: Ring) => ring.map((p) => ({ x: p.x + CELL, y: p.y }));
    // The same, with the outer frame and so the grid a cell further.
    expect(fromNothing([shifted(rings[0]!), ...rings.slice(1)], paths)).toEqual(whole.busy);
    expect(fromNothing(rings.map(shifted), paths.map(shifted))).toEqual(whole.busy);
    const raised = (ring: Ring) => ring.map((p) => ({ x: p.x, y: p.y + CELL }));
    expect(fromNothing(rings.map(raised), paths.map(raised))).toEqual(whole.busy);
    expect(fromNothing(rings, paths.slice(1))).toEqual(whole.busy);
    expect(fromNothing(rings, [...paths, paths[0]!])).toEqual(whole.busy);
    // The frame so far out that the cells are larger, about the same origin.
    const wide = [frame(600 / CELL), ...rings.slice(1)];
    expect(told(wide, paths, { lines: whole.known!.lines, pairs: [] }).busy).toEqual(told(wide, paths).busy);
    // As many points, but not in the same outlines.
    expect(
      fromNothing(
        [...rings.slice(0, -2), [...rings.at(-2)!, ...rings.at(-1)!.slice(0, 1)], rings.at(-1)!.slice(1)],
        paths,
      ),
    ).toEqual(whole.busy);
    // Eight corners end sixteen sides; one more, and looking at everything is as quick.
    const ring = (dents: number) =>
      Array.from({ length: 60 }, (_, k) => {
        const angle = (2 * Math.PI * k) / 60;
        const r = 5000 + (k % 3 === 1 && k < 3 * dents ? 40 : 0);
        return [Math.round(r * Math.cos(angle)), Math.round(r * Math.sin(angle))] as const;
      });
    const crossed = (dents: number) => [
      frame(20_000),
      cells(ring(dents)),
      cells([
        [-9000, 10],
        [9000, 10],
        [9000, 900],
      ]),
    ];
    const few = told(crossed(0)).known!;
    const forgotten = { lines: few.lines, pairs: [] };
    expect([...told(crossed(8), [], forgotten).busy]).not.toEqual([...told(crossed(8)).busy]);
    expect(told(crossed(9), [], forgotten).busy).toEqual(told(crossed(9)).busy);
  });

  test('of lines with more pairs than are worth keeping nothing is kept', () => {
    // Each side of a dozen squares against three of each other square's: 792 pairs, and 192 are kept at most.
    const dozen = told(Array.from({ length: 12 }, () => square(0)));
    expect(dozen.known).toBeNull();
    expect([...dozen.busy].every((b) => b === 1)).toBe(true);
    const aside = (k: number) => square(0).map((p) => ({ x: p.x + 0.4 * k * CELL, y: p.y + 0.4 * k * CELL }));
    const beside = told(Array.from({ length: 12 }, (_, k) => aside(k)));
    expect(beside.known).toBeNull();
    expect([...beside.busy].every((b) => b === BESIDE)).toBe(true);
    // A path that ends above the last of them comes when all is said of the sides.
    const ending = cells([
      [50, 900],
      [50, 107],
    ]);
    const ended = told(
      Array.from({ length: 12 }, (_, k) => aside(k)),
      [ending],
    );
    expect(ended.known).toBeNull();
    expect(ended.busy[48]).toBe(1);
    // Of three there are few enough.
    const three = told(Array.from({ length: 3 }, () => square(0)));
    expect(triples(three.known)).toHaveLength(36);
  });
});

function triples(known: Contacts | null): number[][] {
  const { pairs } = known!;
  return Array.from({ length: pairs.length / 3 }, (_, k) => pairs.slice(3 * k, 3 * k + 3));
}
