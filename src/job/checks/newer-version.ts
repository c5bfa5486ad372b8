import { tr } from '../../words/tr.ts';
import { CURRENT_SCHEMA } from '../migrations/index.ts';
import { type Check, remark } from './check.ts';

/** Jobs that were written by a newer version of this program, of which it may not know everything. */
export const newerVersion: Check = (job) =>
  job.schema <= CURRENT_SCHEMA
    ? []
    : [
        remark(
          'job/read-only',
          'mind',
          null,
          tr`This job was saved by a newer slabwright (version ${job.schema} of the file, this one knows ${CURRENT_SCHEMA}): it can be looked at, not changed, and what only the newer one knows is missing from these numbers.`,
        ),
      ];
