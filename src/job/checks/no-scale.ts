import { sentence } from '../../problem.ts';
import type { NoFit } from '../../takeoff/zone.ts';
import { tr } from '../../words/tr.ts';
import type { Sheet } from '../types.ts';
import { type Check, remark } from './check.ts';

/** Sheets without a way to the ground, and what is missing. */
export const noScale: Check = (job, takeoff) =>
  takeoff.sheets.flatMap(({ id, fit }) => {
    const sheet = job.sheets[id];
    return !sheet || 'frame' in fit ? [] : [remark('sheet/no-scale', 'stop', id, wordsFor(sheet, fit))];
  });

function wordsFor({ name, fit }: Sheet, why: NoFit): string {
  switch (why.kind) {
    case 'none':
      return fit?.kind === 'straightened'
        ? tr`The photo that “${name}” was made from is not straightened any more: give it its marks again.`
        : sentence({ code: 'scale/none', sheet: name });
    case 'unusable':
      return fit?.kind === 'scale' && fit.stretched
        ? tr`The known lengths on “${name}” do not show how it is stretched: add one across and one up and down.`
        : tr`What is known of “${name}” gives no scale: set it again from a line whose length you know.`;
    case 'too-few-marks':
      return tr`“${name}” needs four marks on the ground to be straightened: add ${why.missing} more.`;
    case 'marks-in-line':
      return tr`The marks on “${name}” lie in a line, or not as they do on the ground: spread them round the slab and name them in the same turn.`;
    case 'marks-mirrored':
      return tr`The places of the marks on “${name}” run the other way round than the photo shows: across goes to the right, up goes away; mend their signs.`;
    case 'mark-without-place':
      return tr`Mark ${why.mark} on “${name}” has no place on the ground: type how far across and up it lies.`;
    case 'marks-loose':
      return tr`The tapes between the marks of “${name}” do not fix their shape yet: measure from mark ${why.a} to mark ${why.b} next.`;
  }
}
