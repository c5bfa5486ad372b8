import type { Litres } from '../units/types.ts';
import type { Id } from './types.ts';

/** A picture inside the job, small enough to go with it everywhere. */
export interface Logo {
  readonly type: 'image/png' | 'image/jpeg';
  readonly base64: string;
}

/** Who the papers are from: entered once, in every later job. Empty text is nothing said. */
export interface Business {
  readonly name: string;
  /** Address, telephone, registration; a line each. */
  readonly details: string;
  /** What every offer is made under. */
  readonly terms: string;
  readonly logo: Logo | null;
  /** How long an offer holds; 0 where it does not say. */
  readonly validDays: number;
  /** What papers are printed on; as the units have it where absent. */
  readonly paper?: 'A4' | 'LETTER' | undefined;
}

export const NO_BUSINESS: Business = { name: '', details: '', terms: '', logo: null, validDays: 30 };

/** Who the papers are for. */
export interface Customer {
  readonly name: string;
  readonly address: string;
  /** Where the work is, if elsewhere. */
  readonly site: string;
}

export const NO_CUSTOMER: Customer = { name: '', address: '', site: '' };

/** What an offer goes by, and its day, YYYY-MM-DD. */
export interface OfferName {
  readonly number: string;
  readonly on: string;
}

export const RECORDED_WORK = ['wash', 'etch', 'grind', 'abrade', 'mask', 'coat', 'other'] as const;
export type RecordedWork = (typeof RECORDED_WORK)[number];

/** Work as it was done. */
export interface WorkRecord {
  readonly id: Id;
  /** YYYY-MM-DD. */
  readonly on: string;
  /** Empty where it is about all of them. */
  readonly slabId: Id | '';
  readonly work: RecordedWork;
  /** Empty where no paint was used. */
  readonly productId: Id | '';
  /** Neat paint; null where it was not written down. */
  readonly usedL: Litres | null;
  /** Hours of one person. */
  readonly hoursH: number | null;
  /** Batch numbers as they stand on the packs. */
  readonly batch: string;
  readonly note: string;
  readonly photos: readonly Id[];
}
