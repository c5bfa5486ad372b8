import { fail, ok } from '../../../geometry/result.ts';
import { tr } from '../../words/tr.ts';
import type { Id, Reading, Slab, Weather } from '../types.ts';
import { type EditKind, need, put } from './edit.ts';

/** Answers a question about a slab's concrete; null takes the answer back. */
export const answer: EditKind<{
  readonly slabId: Id;
  readonly question: Id;
  readonly answer: string | number | null;
}> = {
  label: () => tr`Answer a question`,
  apply: (job, args) => {
    const slab = need(job, 'slabs', args.slabId);
    if (!slab.ok) return slab;
    const { [args.question]: _old, ...rest } = slab.value.answers ?? {};
    const answers = args.answer === null ? rest : { ...rest, [args.question]: args.answer };
    return ok(put(job, 'slabs', { ...slab.value, answers }));
  },
};

/** Coats a slab although some answers say no, for a reason that stays with the job; null takes that back. */
export const coatAnyway: EditKind<{
  readonly slabId: Id;
  readonly reason: string | null;
  /** The answers that it goes against; 'none' where there was none. */
  readonly over: Readonly<Record<Id, string | number>>;
}> = {
  label: ({ reason }) => (reason === null ? tr`Do not coat after all` : tr`Coat in spite of the answers`),
  apply: (job, { slabId, reason, over }) => {
    const slab = need(job, 'slabs', slabId);
    if (!slab.ok) return slab;
    const { coatAnyway: _old, ...rest } = slab.value;
    const words = reason?.trim() ?? '';
    const next: Slab = words === '' ? rest : { ...rest, coatAnyway: { reason: words, over } };
    return ok(put(job, 'slabs', next));
  },
};

const LIMITS = [
  ['airC', tr`The air’s temperature (°C)`, -60, 70],
  ['humidityPct', tr`The humidity (%)`, 1, 100],
  ['slabC', tr`The slab’s temperature (°C)`, -60, 100],
  ['windKmH', tr`The wind (km/h)`, 0, 400],
] as const;

/** Writes down the weather on the slab. */
export const addReading: EditKind<Reading> = {
  label: () => tr`Write down the weather`,
  apply: (job, reading) => {
    for (const [field, what, low, high] of LIMITS) {
      if (!(reading[field] >= low && reading[field] <= high)) {
        return fail({ code: 'value/out-of-range', what, low, high });
      }
    }
    return ok({ ...job, readings: { ...job.readings, [reading.id]: reading } });
  },
};

export const removeReading: EditKind<{ readonly readingId: Id }> = {
  label: () => tr`Strike out a reading`,
  apply: (job, { readingId }) => {
    if (!job.readings || !Object.hasOwn(job.readings, readingId)) {
      return fail({ code: 'entity/missing', what: tr`reading`, id: readingId });
    }
    const { [readingId]: _gone, ...rest } = job.readings;
    return ok({ ...job, readings: rest });
  },
};

/** Puts the weather to plan by in place of what there was; null takes it away. */
export const setWeather: EditKind<{ readonly weather: Weather | null }> = {
  label: ({ weather }) => (weather ? tr`Take the weather` : tr`Drop the weather`),
  apply: (job, { weather }) => {
    const { weather: _old, ...rest } = job;
    return ok(weather ? { ...rest, weather } : rest);
  },
};
