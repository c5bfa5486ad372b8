import { ok } from '../../../geometry/result.ts';
import { tr } from '../../words/tr.ts';
import type { Id, Tag } from '../types.ts';
import { type EditKind, need, put, without } from './edit.ts';

/** Pins a description to the zone that holds its anchor, or changes it. */
export const setTag: EditKind<Tag> = {
  label: () => tr`Describe the zone`,
  apply: (job, tag) => {
    const slab = need(job, 'slabs', tag.slabId);
    return slab.ok ? ok(put(job, 'tags', tag)) : slab;
  },
};

export const removeTag: EditKind<{ readonly tagId: Id }> = {
  label: () => tr`Clear the description`,
  apply: (job, { tagId }) => {
    const tag = need(job, 'tags', tagId);
    return tag.ok ? ok(without(job, 'tags', [tagId])) : tag;
  },
};
