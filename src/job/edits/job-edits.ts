import { fail, ok } from '../../../geometry/result.ts';
import type { Id, Pack, Settings } from '../types.ts';
import type { EditKind } from './edit.ts';

export const renameJob: EditKind<{ readonly name: string; readonly note: string }> = {
  label: () => 'Describe the job',
  apply: (job, { name, note }) => ok({ ...job, name, note }),
};

export const changeSettings: EditKind<Partial<Settings>> = {
  label: () => 'Change settings',
  apply: (job, change) => ok({ ...job, settings: { ...job.settings, ...change } }),
};

/** Replaces a default value of the calculator; null goes back to the default. */
export const setValue: EditKind<{ readonly key: string; readonly value: number | null }> = {
  label: () => 'Change a value',
  apply: (job, { key, value }) => {
    const { [key]: _old, ...rest } = job.values;
    return ok({ ...job, values: value === null ? rest : { ...rest, [key]: value } });
  },
};

/** Says what packs a product can be bought in; null goes back to the usual sizes. */
export const setPacks: EditKind<{ readonly productId: Id; readonly packs: readonly Pack[] | null }> = {
  label: () => 'Change the packs',
  apply: (job, { productId, packs }) => {
    const { [productId]: _old, ...rest } = job.packs ?? {};
    if (packs === null || packs.length === 0) return ok({ ...job, packs: rest });
    if (packs.some((p) => !(p.sizeL >= 0.001 && p.sizeL <= 1000))) {
      return fail({ code: 'value/out-of-range', what: 'The size of a pack (L)', low: 0.001, high: 1000 });
    }
    const whole = (cents: number | null) =>
      cents === null || (Number.isInteger(cents) && cents >= 0 && cents <= 1e9);
    if (packs.some((p) => !whole(p.priceCents))) {
      return fail({ code: 'value/out-of-range', what: 'The price of a pack (cents)', low: 0, high: 1e9 });
    }
    return ok({ ...job, packs: { ...rest, [productId]: packs } });
  },
};
