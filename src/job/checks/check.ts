import type { Takeoff } from '../../takeoff/zone.ts';
import type { Edit } from '../edits/index.ts';
import type { Id, Job } from '../types.ts';

/** How much it matters: numbers are missing or wrong; numbers may be wrong; worth knowing. */
export type Severity = 'stop' | 'mind' | 'note';

/** Something about a job that a person should know, where it is, and what would mend it. */
export interface Remark {
  readonly code: string;
  readonly severity: Severity;
  /** The slab, zone, cut, void, tag or sheet it is about; null for the whole job. */
  readonly where: Id | null;
  readonly sentence: string;
  readonly fixes: ReadonlyArray<{ readonly label: string; readonly edit: Edit }>;
}

/** Looks at a job and what was measured of it. Pure; one file each. */
export type Check = (job: Job, takeoff: Takeoff) => Remark[];

/** A remark without a fix of its own. */
export const remark = (code: string, severity: Severity, where: Id | null, sentence: string): Remark => ({
  code,
  severity,
  where,
  sentence,
  fixes: [],
});
