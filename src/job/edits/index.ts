import { fail, ok, type Result } from '../../../geometry/result.ts';
import type { Problem } from '../../problem.ts';
import { CURRENT_SCHEMA } from '../migrations/index.ts';
import type { Job } from '../types.ts';
import { insertCorner, moveCorner, removeCorner } from './corner-edits.ts';
import type { EditKind } from './edit.ts';
import {
  addTrial,
  changeSettings,
  removeTrial,
  renameJob,
  setPacks,
  setPrice,
  setValue,
} from './job-edits.ts';
import { nameOffer, removeRecord, setBusiness, setCustomer, setRecord } from './paper-edits.ts';
import { addReading, answer, coatAnyway, removeReading, setWeather } from './readiness-edits.ts';
import { addSheet, removeSheet, setFit, setPicture } from './sheet-edits.ts';
import { addCut, addSlab, loosenSlab, removeCut, removeSlab, updateSide, updateSlab } from './slab-edits.ts';
import { removeTag, setTag } from './tag-edits.ts';
import { placeCorners, removeTape, setTape } from './tape-edits.ts';
import { addVoid, removeVoid, updateVoid } from './void-edits.ts';

/** Every way to change a job. */
const KINDS = {
  'rename-job': renameJob,
  'change-settings': changeSettings,
  'set-value': setValue,
  'set-packs': setPacks,
  'set-price': setPrice,
  'add-trial': addTrial,
  'remove-trial': removeTrial,
  'add-sheet': addSheet,
  'set-picture': setPicture,
  'set-fit': setFit,
  'remove-sheet': removeSheet,
  'add-slab': addSlab,
  'update-slab': updateSlab,
  'update-side': updateSide,
  'loosen-slab': loosenSlab,
  'remove-slab': removeSlab,
  'add-cut': addCut,
  'remove-cut': removeCut,
  'move-corner': moveCorner,
  'insert-corner': insertCorner,
  'remove-corner': removeCorner,
  'set-tape': setTape,
  'remove-tape': removeTape,
  'place-corners': placeCorners,
  'add-void': addVoid,
  'update-void': updateVoid,
  'remove-void': removeVoid,
  answer,
  'coat-anyway': coatAnyway,
  'add-reading': addReading,
  'remove-reading': removeReading,
  'set-weather': setWeather,
  'set-business': setBusiness,
  'set-customer': setCustomer,
  'name-offer': nameOffer,
  'set-record': setRecord,
  'remove-record': removeRecord,
  'set-tag': setTag,
  'remove-tag': removeTag,
} as const;

type Kinds = typeof KINDS;
type ArgsOf<K> = K extends EditKind<infer A> ? A : never;

/** A change as data: it can be logged, replayed and sent to another thread. */
export type Edit = { [K in keyof Kinds]: { readonly type: K; readonly args: ArgsOf<Kinds[K]> } }[keyof Kinds];

/** The kinds by name; for tests and documents. */
export const EDIT_TYPES = Object.keys(KINDS) as ReadonlyArray<Edit['type']>;

const kindOf = (edit: Edit): EditKind<Edit['args']> => KINDS[edit.type] as EditKind<Edit['args']>;

/** The next job, or why the change is refused; the job given is never touched. */
export const applyEdit = (job: Job, edit: Edit): Result<Job, Problem> =>
  job.schema > CURRENT_SCHEMA
    ? fail({ code: 'job/read-only', version: job.schema, known: CURRENT_SCHEMA })
    : kindOf(edit).apply(job, edit.args);

/** The job after changes in turn, all or none of them. */
export function applyEdits(job: Job, edits: readonly Edit[]): Result<Job, Problem> {
  let next = job;
  for (const edit of edits) {
    const done = applyEdit(next, edit);
    if (!done.ok) return done;
    next = done.value;
  }
  return ok(next);
}

/** What a person would call the change; shown beside undo. */
export const editLabel = (edit: Edit): string => kindOf(edit).label(edit.args);
