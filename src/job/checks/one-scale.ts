import { tr } from '../../words/tr.ts';
import { type Check, remark } from './check.ts';

/**
 * A picture with one known length, of which nobody has said that its scale holds all over: a photo taken at an angle
 * measures what is nearer too large and what is farther too small. A second length would show it; a page of a document
 * and a drawing are flat.
 */
export const oneScale: Check = (job) =>
  Object.values(job.sheets).flatMap(({ id, name, picture, fit }) => {
    if (fit?.kind !== 'scale' || fit.lengths.length > 1 || fit.reach || fit.flat) return [];
    if (!picture || picture.page !== undefined || picture.drawn) return [];
    const flat = {
      label: tr`It is a plan, or taken from straight above`,
      edit: { type: 'set-fit', args: { sheetId: id, fit: { ...fit, flat: true } } },
    } as const;
    const words = tr`“${name}” goes by one scale. If it is a photo taken at an angle, areas on it can be out by half: straighten it by four marks, or add a length in another direction.`;
    return [{ ...remark('fit/one-scale', 'mind', id, words), fixes: [flat] }];
  });
