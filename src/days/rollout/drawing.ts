import type { Point } from '../../../geometry/index.ts';
import type { Rollout } from './rollout.ts';

/** A bay as it is drawn: its cells as squares, and the lines around it. */
export interface DrawnBay {
  readonly number: number;
  readonly label: Point;
  readonly squares: ReadonlyArray<readonly Point[]>;
  readonly edges: ReadonlyArray<readonly [Point, Point]>;
}

/** Every bay of an order, on the ground. */
export function drawnBays({ floor, bays }: Rollout): DrawnBay[] {
  if (!floor) return [];
  const bayOf = new Int32Array(floor.inside.length).fill(-1);
  bays.forEach((bay, i) => {
    for (const cell of bay.cells) bayOf[cell] = i;
  });
  const o = floor.middle(0);
  const right = floor.middle(1);
  const up = floor.middle(floor.columns);
  const half = { x: (right.x - o.x) / 2, y: (right.y - o.y) / 2 };
  const rise = { x: (up.x - o.x) / 2, y: (up.y - o.y) / 2 };
  const corner = (p: Point, i: number, j: number): Point => ({
    x: p.x + i * half.x + j * rise.x,
    y: p.y + i * half.y + j * rise.y,
  });
  const sides: ReadonlyArray<readonly [number, readonly [number, number], readonly [number, number]]> = [
    [1, [1, -1], [1, 1]],
    [-1, [-1, 1], [-1, -1]],
    [floor.columns, [1, 1], [-1, 1]],
    [-floor.columns, [-1, -1], [1, -1]],
  ];
  return bays.map((bay, i): DrawnBay => {
    const edges: Array<readonly [Point, Point]> = [];
    const squares = bay.cells.map((cell) => {
      const p = floor.middle(cell);
      for (const [step, from, to] of sides) {
        if (bayOf[cell + step] !== i) edges.push([corner(p, ...from), corner(p, ...to)]);
      }
      return [corner(p, -1, -1), corner(p, 1, -1), corner(p, 1, 1), corner(p, -1, 1)];
    });
    return { number: bay.number, label: bay.label, squares, edges };
  });
}
