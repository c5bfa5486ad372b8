import { fail, ok } from '../../../geometry/result.ts';
import type { Fit, Id, Sheet } from '../types.ts';
import { type EditKind, need, put } from './edit.ts';

export const addSheet: EditKind<Sheet> = {
  label: (sheet) => `Add sheet ${sheet.name}`,
  apply: (job, sheet) => ok(put(job, 'sheets', sheet)),
};

/** Puts a picture under a sheet, or replaces it; what was traced stays where it is in the sheet's coordinates. */
export const setPicture: EditKind<{ readonly sheetId: Id; readonly picture: Sheet['picture'] }> = {
  label: () => 'Change the picture',
  apply: (job, { sheetId, picture }) => {
    const sheet = need(job, 'sheets', sheetId);
    return sheet.ok ? ok(put(job, 'sheets', { ...sheet.value, picture })) : sheet;
  },
};

export const setFit: EditKind<{ readonly sheetId: Id; readonly fit: Fit }> = {
  label: () => 'Set the scale',
  apply: (job, { sheetId, fit }) => {
    const sheet = need(job, 'sheets', sheetId);
    if (!sheet.ok) return sheet;
    if (fit.kind === 'scale') {
      for (const { a, b, lengthM } of fit.lengths) {
        if (!(lengthM > 0)) return fail({ code: 'scale/zero', what: 'length' });
        if (a.x === b.x && a.y === b.y) return fail({ code: 'scale/zero', what: 'line' });
      }
    }
    return ok(put(job, 'sheets', { ...sheet.value, fit }));
  },
};
