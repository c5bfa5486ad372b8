import type { Edit } from './edits/index.ts';
import type { Id, Job, Surface, Tag } from './types.ts';

/** Another way to coat a whole job; what is left out stays as it is in each zone. */
export interface Variant {
  readonly systemId?: Id;
  readonly grip?: boolean;
}

/** The changes that make a job this variant: of every slab and zone that is coated, and of none that is not. */
export function variantEdits(job: Job, { systemId, grip }: Variant): Edit[] {
  const changed = (own: Partial<Surface>): Partial<Surface> => ({
    ...(systemId !== undefined && own.systemId ? { systemId } : {}),
    ...(grip !== undefined && own.grip !== undefined ? { grip } : {}),
  });
  const isCoated = (tag: Tag) => (tag.surface.systemId ?? null) !== null || inherits(job, tag);
  const tags = Object.values(job.tags).filter(isCoated);
  const slabs = Object.values(job.slabs).filter(
    (slab) => slab.surface.systemId !== null || tags.some((tag) => tag.slabId === slab.id),
  );
  return [
    ...slabs.map(
      (slab): Edit => ({
        type: 'update-slab',
        args: { slabId: slab.id, surface: changed(slab.surface) },
      }),
    ),
    ...tags.map(
      (tag): Edit => ({
        type: 'set-tag',
        args: { ...tag, surface: { ...tag.surface, ...changed(tag.surface) } },
      }),
    ),
  ];
}

/** Whether a zone says nothing of a system itself and its slab has one. */
const inherits = (job: Job, { slabId, surface }: Tag): boolean =>
  surface.systemId === undefined && (job.slabs[slabId]?.surface.systemId ?? null) !== null;
