import { type Partition, type Plan, type Point, partition, type Ring } from '../../geometry/index.ts';

/** What a plan of finite numbers comes to. */
export const made = (plan: Plan): Partition => {
  const result = partition(plan);
  if (!result.ok) throw new Error('finite plan');
  return result.value;
};

export const box = (x0: number, y0: number, x1: number, y1: number): Ring => [
  { x: x0, y: y0 },
  { x: x1, y: y0 },
  { x: x1, y: y1 },
  { x: x0, y: y1 },
];

export const line = (...xy: Array<[number, number]>): Point[] => xy.map(([x, y]) => ({ x, y }));
