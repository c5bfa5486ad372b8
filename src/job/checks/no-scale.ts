import { sentence } from '../../problem.ts';
import { type Check, remark } from './check.ts';

export const noScale: Check = (job) =>
  Object.values(job.sheets)
    .filter((sheet) => !sheet.fit)
    .map((sheet) =>
      remark('sheet/no-scale', 'stop', sheet.id, sentence({ code: 'scale/none', sheet: sheet.name })),
    );
