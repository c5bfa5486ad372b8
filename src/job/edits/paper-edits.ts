import { fail, ok } from '../../../geometry/result.ts';
import { tr } from '../../words/tr.ts';
import {
  type Business,
  type Customer,
  NO_BUSINESS,
  NO_CUSTOMER,
  type OfferName,
  type WorkRecord,
} from '../paper-types.ts';
import type { Id } from '../types.ts';
import type { EditKind } from './edit.ts';

/** Says who the papers are from, as far as it is given. */
export const setBusiness: EditKind<Partial<Business>> = {
  label: () => tr`Change the letterhead`,
  apply: (job, change) => {
    const { paper, ...business } = { ...NO_BUSINESS, ...job.business, ...change };
    // As usual is not written down.
    return ok({ ...job, business: paper ? { ...business, paper } : business });
  },
};

/** Says who the papers are for, as far as it is given. */
export const setCustomer: EditKind<Partial<Customer>> = {
  label: () => tr`Change the customer`,
  apply: (job, change) => ok({ ...job, customer: { ...NO_CUSTOMER, ...job.customer, ...change } }),
};

/** Gives the offer its number and day; null takes them back. */
export const nameOffer: EditKind<{ readonly offer: OfferName | null }> = {
  label: () => tr`Number the offer`,
  apply: (job, { offer }) => {
    const { offer: _old, ...rest } = job;
    return ok(offer ? { ...rest, offer } : rest);
  },
};

/** Writes down work as it was done, or writes it anew. */
export const setRecord: EditKind<WorkRecord> = {
  label: () => tr`Write down work done`,
  apply: (job, record) => {
    const amounts = [
      [tr`The paint used (L)`, record.usedL, 1e6],
      [tr`The hours of work (h)`, record.hoursH, 1e5],
    ] as const;
    for (const [what, value, high] of amounts) {
      if (value !== null && !(value >= 0 && value <= high))
        return fail({ code: 'value/out-of-range', what, low: 0, high });
    }
    return ok({ ...job, records: { ...job.records, [record.id]: record } });
  },
};

export const removeRecord: EditKind<{ readonly recordId: Id }> = {
  label: () => tr`Strike out work done`,
  apply: (job, { recordId }) => {
    if (!job.records || !Object.hasOwn(job.records, recordId))
      return fail({ code: 'entity/missing', what: tr`record of work`, id: recordId });
    const { [recordId]: _gone, ...rest } = job.records;
    return ok({ ...job, records: rest });
  },
};
