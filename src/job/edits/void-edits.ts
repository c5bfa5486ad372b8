import { fail, ok } from '../../../geometry/result.ts';
import type { Problem } from '../../problem.ts';
import { tr } from '../../words/tr.ts';
import { voidProblem } from '../integrity.ts';
import { VOID_NAMES, voidCalled } from '../names.ts';
import type { Id, Void, VoidKind, VoidShape } from '../types.ts';
import { type EditKind, need, put, without } from './edit.ts';

const sizesOf = (shape: VoidShape): number[] =>
  shape.type === 'line'
    ? [shape.widthM]
    : shape.type === 'circle'
      ? [shape.radiusM]
      : shape.type === 'rectangle'
        ? [shape.lengthM, shape.widthM]
        : [];

function problemOf(v: Void): Problem | null {
  if (sizesOf(v.shape).some((size) => !(size > 0))) {
    return { code: 'void/no-size', what: voidCalled(v) };
  }
  return voidProblem(v);
}

export const addVoid: EditKind<Void> = {
  label: ({ kind }) => tr`Take out a ${VOID_NAMES[kind]}`,
  apply: (job, v) => {
    const sheet = need(job, 'sheets', v.sheetId);
    if (!sheet.ok) return sheet;
    const problem = problemOf(v);
    return problem ? fail(problem) : ok(put(job, 'voids', v));
  },
};

export const updateVoid: EditKind<{
  readonly voidId: Id;
  readonly name?: string;
  readonly kind?: VoidKind;
  readonly shape?: VoidShape;
}> = {
  label: () => tr`Change what is taken out`,
  apply: (job, { voidId, ...change }) => {
    const found = need(job, 'voids', voidId);
    if (!found.ok) return found;
    const next = { ...found.value, ...change };
    const problem = problemOf(next);
    return problem ? fail(problem) : ok(put(job, 'voids', next));
  },
};

export const removeVoid: EditKind<{ readonly voidId: Id }> = {
  label: () => tr`Put the area back`,
  apply: (job, { voidId }) => {
    const found = need(job, 'voids', voidId);
    return found.ok ? ok(without(job, 'voids', [voidId])) : found;
  },
};
