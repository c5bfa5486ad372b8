import type { Takeoff } from '../../takeoff/zone.ts';
import type { Job } from '../types.ts';
import { beyondReach } from './beyond-reach.ts';
import type { Check, Remark, Severity } from './check.ts';
import { cutWithoutEffect } from './cut-without-effect.ts';
import { fitDisagrees } from './fit-disagrees.ts';
import { newerVersion } from './newer-version.ts';
import { noGround } from './no-ground.ts';
import { noScale } from './no-scale.ts';
import { nothingDrawn } from './nothing-drawn.ts';
import { oneScale } from './one-scale.ts';
import { overlappingSlabs } from './overlapping-slabs.ts';
import { enginesDisagree } from './second-opinion.ts';
import { sliverZone } from './sliver.ts';
import { tagOutside, twoTagsInOneZone } from './tags.ts';
import { tapes } from './tapes.ts';
import { voidOutside } from './void-outside.ts';
import { weakPhoto } from './weak-photo.ts';

/** Every check, in the order their remarks are shown within one severity. */
const CHECKS: readonly Check[] = [
  newerVersion,
  nothingDrawn,
  noScale,
  noGround,
  oneScale,
  fitDisagrees,
  tapes,
  weakPhoto,
  voidOutside,
  cutWithoutEffect,
  twoTagsInOneZone,
  tagOutside,
  overlappingSlabs,
  beyondReach,
  sliverZone,
  enginesDisagree,
];

const RANK: Readonly<Record<Severity, number>> = { stop: 0, mind: 1, note: 2 };

/** What a person should know about what is drawn. */
export const remarksOn = (job: Job, takeoff: Takeoff): Remark[] =>
  CHECKS.flatMap((check) => check(job, takeoff));

/** The gravest first, else as they come. */
export const gravestFirst = (remarks: readonly Remark[]): Remark[] =>
  [...remarks].sort((a, b) => RANK[a.severity] - RANK[b.severity]);

export type { Remark, Severity } from './check.ts';
