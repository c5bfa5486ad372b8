import { fail, ok } from '../../../geometry/result.ts';
import { tr } from '../../words/tr.ts';
import type { Id, Pack, Settings, Trial } from '../types.ts';
import type { EditKind } from './edit.ts';

export const renameJob: EditKind<{ readonly name: string; readonly note: string }> = {
  label: () => tr`Describe the job`,
  apply: (job, { name, note }) => ok({ ...job, name, note }),
};

export const changeSettings: EditKind<Partial<Settings>> = {
  label: () => tr`Change settings`,
  apply: (job, change) => ok({ ...job, settings: { ...job.settings, ...change } }),
};

/** Replaces a default value of the calculator; null goes back to the default. */
export const setValue: EditKind<{ readonly key: string; readonly value: number | null }> = {
  label: () => tr`Change a value`,
  apply: (job, { key, value }) => {
    const { [key]: _old, ...rest } = job.values;
    return ok({ ...job, values: value === null ? rest : { ...rest, [key]: value } });
  },
};

/** Says what packs a product can be bought in; null goes back to the usual sizes. */
export const setPacks: EditKind<{ readonly productId: Id; readonly packs: readonly Pack[] | null }> = {
  label: () => tr`Change the packs`,
  apply: (job, { productId, packs }) => {
    const { [productId]: _old, ...rest } = job.packs ?? {};
    if (packs === null || packs.length === 0) return ok({ ...job, packs: rest });
    if (packs.length > 50)
      return fail({ code: 'value/out-of-range', what: tr`The number of packs`, low: 1, high: 50 });
    if (packs.some((p) => !(p.sizeL >= 0.001 && p.sizeL <= 1000))) {
      return fail({ code: 'value/out-of-range', what: tr`The size of a pack (L)`, low: 0.001, high: 1000 });
    }
    const whole = (cents: number | null) =>
      cents === null || (Number.isInteger(cents) && cents >= 0 && cents <= 1e9);
    if (packs.some((p) => !whole(p.priceCents))) {
      return fail({ code: 'value/out-of-range', what: tr`The price of a pack (cents)`, low: 0, high: 1e9 });
    }
    const sizes = packs.map((p) => Math.round(p.sizeL * 1000));
    if (new Set(sizes).size < sizes.length) return fail({ code: 'pack/twice' });
    return ok({ ...job, packs: { ...rest, [productId]: packs } });
  },
};

/** Says what something costs, in integer cents; null where it has no price. */
export const setPrice: EditKind<{ readonly key: Id; readonly cents: number | null }> = {
  label: () => tr`Change a price`,
  apply: (job, { key, cents }) => {
    const { [key]: _old, ...rest } = job.prices ?? {};
    if (cents === null) return ok({ ...job, prices: rest });
    if (!(Number.isInteger(cents) && cents >= 0 && cents <= 1e9)) {
      return fail({ code: 'value/out-of-range', what: tr`A price (cents)`, low: 0, high: 1e9 });
    }
    return ok({ ...job, prices: { ...rest, [key]: cents } });
  },
};

/** Writes down paint used on a known area; the texture's multiplier learns from it. */
export const addTrial: EditKind<Trial> = {
  label: () => tr`Write down paint used`,
  apply: (job, trial) => {
    const sizes = [
      [tr`The area of a trial (m²)`, trial.areaM2, 1e6],
      [tr`The paint of a trial (L)`, trial.usedL, 1e6],
      [tr`The spreading rate of a trial (m²/L)`, trial.rateM2PerL, 1e4],
    ] as const;
    for (const [what, value, high] of sizes) {
      if (!(value > 0 && value <= high)) return fail({ code: 'value/out-of-range', what, low: 0, high });
    }
    return ok({ ...job, trials: { ...job.trials, [trial.id]: trial } });
  },
};

export const removeTrial: EditKind<{ readonly trialId: Id }> = {
  label: () => tr`Strike out paint used`,
  apply: (job, { trialId }) => {
    if (!job.trials || !Object.hasOwn(job.trials, trialId)) {
      return fail({ code: 'entity/missing', what: tr`trial`, id: trialId });
    }
    const { [trialId]: _gone, ...rest } = job.trials;
    return ok({ ...job, trials: rest });
  },
};
