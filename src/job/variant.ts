import type { Edit } from './edits/index.ts';
import type { Id, Job, Surface } from './types.ts';

/** Another way to coat a whole job; what is left out stays as it is in each zone. */
export interface Variant {
  readonly systemId?: Id;
  readonly grip?: boolean;
}

/** The changes that make a job this variant: every slab and zone that is coated, and none that is not. */
export function variantEdits(job: Job, { systemId, grip }: Variant): Edit[] {
  const changed = (surface: Partial<Surface>): Partial<Surface> => ({
    ...(systemId !== undefined && surface.systemId ? { systemId } : {}),
    ...(grip !== undefined && surface.grip !== undefined ? { grip } : {}),
  });
  const slabs = Object.values(job.slabs).flatMap((slab): Edit[] => {
    if (slab.surface.systemId === null && grip === undefined) return [];
    return [{ type: 'update-slab', args: { slabId: slab.id, surface: changed(slab.surface) } }];
  });
  const tags = Object.values(job.tags).map((tag): Edit => {
    const surface = { ...tag.surface, ...changed(tag.surface) };
    return { type: 'set-tag', args: { ...tag, surface } };
  });
  return [...slabs, ...tags];
}
