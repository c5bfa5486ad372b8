import { z } from 'zod';
import { RECORDED_WORK } from './paper-types.ts';

/** A picture of half a megabyte is no letterhead. */
export const LARGEST_LOGO_BASE64 = 700_000;

const id = z.string().min(1).max(100);
const line = z.string().max(500);
const text = z.string().max(5000);
const day = z.iso.date();

/** What a job holds for its papers: who they are from and for, what the offer goes by, and work as it was done. */
export const paperShape = {
  business: z
    .looseObject({
      name: line,
      details: text,
      terms: text,
      logo: z
        .looseObject({
          type: z.enum(['image/png', 'image/jpeg']),
          base64: z.base64().max(LARGEST_LOGO_BASE64),
        })
        .nullable(),
      validDays: z.int().min(0).max(3650),
      paper: z.enum(['A4', 'LETTER']).optional(),
    })
    .optional(),
  customer: z.looseObject({ name: line, address: text, site: text }).optional(),
  offer: z.looseObject({ number: z.string().max(60), on: day }).optional(),
  records: z
    .record(
      id,
      z.looseObject({
        id,
        on: day,
        slabId: z.string().max(100),
        work: z.enum(RECORDED_WORK),
        productId: z.string().max(100),
        usedL: z.number().min(0).max(1e6).nullable(),
        hoursH: z.number().min(0).max(1e5).nullable(),
        batch: line,
        note: text,
        photos: z.array(id).max(50),
      }),
    )
    .optional(),
};
