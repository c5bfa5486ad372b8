import type { Edit } from '../../src/job/edits/index.ts';
import { DEFAULT_SURFACE, type Job, TEXTURES } from '../../src/job/types.ts';
import type { randomNumbers } from './numbers.ts';

type Random = ReturnType<typeof randomNumbers>;

/** A change that a person might make to a job as it is: sound in its shape, and now and then impossible. */
export function someEdit(job: Job, random: Random, fresh: () => string): Edit {
  const one = <T>(list: readonly T[]): T => list[Math.floor(random() * list.length)]!;
  const between = (low: number, high: number) => low + random() * (high - low);
  const slabs = Object.values(job.slabs);
  const corners = Object.values(job.corners);
  const voids = Object.values(job.voids);
  const sheetId = one(Object.keys(job.sheets)) ?? 'g';
  const slab = one(slabs);
  const corner = slab && one(slab.corners);
  const kinds: Array<() => Edit> = [
    () => ({ type: 'rename-job', args: { name: `Job ${Math.floor(random() * 9)}`, note: job.note } }),
    () => ({
      type: 'set-value',
      args: {
        key: one(['order.chance', 'loss.smooth', 'etch.coverage', 'measure.brush-width', 'measure.weld']),
        value: between(0.05, 9),
      },
    }),
    () => ({
      type: 'set-price',
      args: { key: one(['labour.hour', 'tape', 'brush']), cents: Math.floor(between(1, 9e4)) },
    }),
    () => ({ type: 'change-settings', args: { units: one(['metric', 'us'] as const) } }),
    () => ({
      type: 'change-settings',
      args: { measuringRule: { id: one(['net', 'din-18363', 'nrm2-29']), voidsUpToM2: null } },
    }),
    () => {
      const [x, y, w, h] = [between(-30, 30), between(-30, 30), between(0.5, 9), between(0.5, 9)];
      const at = [
        [x, y],
        [x + w, y],
        [x + w, y + h],
        [x, y + h],
      ] as const;
      return {
        type: 'add-slab',
        args: {
          id: fresh(),
          name: 'New',
          sheetId,
          corners: at.map(([u, v]) => ({ id: fresh(), x: u, y: v, via: null })),
          surface: { ...DEFAULT_SURFACE, texture: one(TEXTURES) },
        },
      };
    },
    () => ({
      type: 'add-void',
      args: {
        id: fresh(),
        name: 'Post',
        kind: 'post',
        sheetId,
        shape: {
          type: 'circle',
          centre: { x: between(-5, 15), y: between(-5, 15) },
          radiusM: between(0.05, 1),
        },
      },
    }),
  ];
  if (slab && corner) {
    kinds.push(
      () => ({ type: 'update-slab', args: { slabId: slab.id, surface: { texture: one(TEXTURES) } } }),
      () => {
        const c = job.corners[corner.cornerId]!;
        const anchor = { x: c.x + between(-2, 2), y: c.y + between(-2, 2) };
        const surface = { texture: one(TEXTURES), grip: random() < 0.5 };
        return {
          type: 'set-tag',
          args: { id: fresh(), slabId: slab.id, name: one(['', 'Ramp']), anchor, surface },
        };
      },
      () => {
        const [a, b] = [corner.cornerId, one(slab.corners)!.cornerId];
        return { type: 'set-tape', args: { id: fresh(), kind: 'distance', a, b, lengthM: between(1, 9) } };
      },
      () => ({ type: 'update-slab', args: { slabId: slab.id, name: `Slab ${Math.floor(random() * 99)}` } }),
      () => ({
        type: 'update-side',
        args: { slabId: slab.id, cornerId: corner.cornerId, beyond: one(['wall', 'open', 'kerb'] as const) },
      }),
      () => ({
        type: 'loosen-slab',
        args: { slabId: slab.id, corners: { [corner.cornerId]: fresh(), [one(corners)!.id]: fresh() } },
      }),
      () => ({
        type: 'place-corners',
        args: {
          places: { [corner.cornerId]: { x: between(-9, 19), y: between(-9, 19) } },
          vias: { [slab.id]: { [corner.cornerId]: { x: between(-9, 19), y: between(-9, 19) } } },
        },
      }),
      () => {
        const c = one(corners)!;
        return {
          type: 'move-corner',
          args: { cornerId: c.id, x: c.x + between(-2, 2), y: c.y + between(-2, 2) },
        };
      },
      () => ({
        type: 'insert-corner',
        args: { slabId: slab.id, cornerId: corner.cornerId, newId: fresh(), t: between(0.1, 0.9) },
      }),
      () => ({ type: 'remove-corner', args: { cornerId: corner.cornerId } }),
      () => ({
        type: 'answer',
        args: { slabId: slab.id, question: 'age', answer: Math.floor(between(1, 900)) },
      }),
      () => {
        const [p, q] = [corner, one(slab.corners)!];
        return {
          type: 'add-cut',
          args: {
            id: fresh(),
            slabId: slab.id,
            points: [
              { at: 'side', cornerId: p.cornerId, t: between(0.1, 0.9) },
              { at: 'side', cornerId: q.cornerId, t: between(0.1, 0.9) },
            ],
          },
        };
      },
    );
    if (random() < 0.3) kinds.push(() => ({ type: 'remove-slab', args: { slabId: slab.id } }));
  }
  const v = one(voids);
  if (v) kinds.push(() => ({ type: 'remove-void', args: { voidId: v.id } }));
  return one(kinds)();
}
