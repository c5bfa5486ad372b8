import { fail, ok } from '../../../geometry/result.ts';
import { tr } from '../../words/tr.ts';
import type { Fit, Id, Sheet } from '../types.ts';
import { type EditKind, need, put, without, withoutStrayTapes } from './edit.ts';

export const addSheet: EditKind<Sheet> = {
  label: (sheet) => tr`Add sheet ${sheet.name}`,
  apply: (job, sheet) => ok(put(job, 'sheets', sheet)),
};

/** Puts a picture under a sheet, or replaces it; what was traced stays where it is in the sheet's coordinates. */
export const setPicture: EditKind<{ readonly sheetId: Id; readonly picture: Sheet['picture'] }> = {
  label: () => tr`Change the picture`,
  apply: (job, { sheetId, picture }) => {
    const sheet = need(job, 'sheets', sheetId);
    return sheet.ok ? ok(put(job, 'sheets', { ...sheet.value, picture })) : sheet;
  },
};

export const setFit: EditKind<{ readonly sheetId: Id; readonly fit: Fit }> = {
  label: () => tr`Set the scale`,
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

/** Takes a sheet away with all that is drawn on it. */
export const removeSheet: EditKind<{ readonly sheetId: Id }> = {
  label: () => tr`Delete the sheet`,
  apply: (job, { sheetId }) => {
    const sheet = need(job, 'sheets', sheetId);
    if (!sheet.ok) return sheet;
    const gone = new Set([sheetId]);
    for (const { id, fit } of Object.values(job.sheets)) {
      if (fit?.kind === 'straightened' && fit.sheetId === sheetId) gone.add(id);
    }
    const on = (e: { readonly sheetId: Id }) => gone.has(e.sheetId);
    const slabs = new Set(
      Object.values(job.slabs)
        .filter(on)
        .map((s) => s.id),
    );
    const ids = (entities: Iterable<{ readonly id: Id }>) => [...entities].map((e) => e.id);
    const across = (e: { readonly slabId: Id }) => slabs.has(e.slabId);
    let next = without(job, 'sheets', gone);
    next = without(next, 'slabs', slabs);
    next = without(next, 'cuts', ids(Object.values(job.cuts).filter(across)));
    next = without(next, 'tags', ids(Object.values(job.tags).filter(across)));
    next = without(next, 'voids', ids(Object.values(job.voids).filter(on)));
    return ok(withoutStrayTapes(without(next, 'corners', ids(Object.values(job.corners).filter(on)))));
  },
};
