import fc from 'fast-check';
import { expect, test } from 'vitest';
import { EDIT_TYPES, type Edit } from '../../src/job/edits/index.ts';
import { readJobFile, writeJobFile } from '../../src/job/file.ts';
import { commit, startHistory } from '../../src/job/history.ts';
import { sentence } from '../../src/problem.ts';
import { results } from '../../src/results.ts';
import { oneSlab } from '../coating/scene.ts';

/** Anything that might be typed, parsed or left out where a field of an edit belongs. */
const odd = fc.oneof(
  fc.constantFrom<unknown>(
    undefined,
    null,
    '',
    'a',
    'g',
    'a0',
    'x'.repeat(501),
    'usd',
    '2026-03-14T09:00',
    [],
    {},
  ),
  fc.constantFrom<unknown>(Number.NaN, Infinity, -1, 0, 0.5, 1, 2, 150, 5000, 2e5, 1e7, 1e10, true, false),
  fc.double(),
  fc.constantFrom<unknown>({ x: 1e7, y: 0 }, { x: 1, y: 1 }, [{ x: 0, y: 0 }], { a: 1 }, [1, 2]),
);
const FIELDS =
  'id slabId cornerId sheetId voidId cutId tagId trialId readingId name note key value cents productId packs ' +
  'units thinningOf filmHeld orderBy tax currency measuringRule question answer reason over texture coat areaM2 usedL ' +
  'rateM2PerL bare thinning at airC humidityPct slabC windKmH weather slope surface beyond faceUpM exit via shape ' +
  'kind anchor picture fit x y corners points args';
const args = fc.dictionary(fc.constantFrom(...FIELDS.split(' ')), odd, { maxKeys: 8 });
const surface = fc.dictionary(
  fc.constantFrom(
    'texture',
    'traffic',
    'condition',
    'systemId',
    'colour',
    'grip',
    'primer',
    'preparation',
    'base',
    'tintPct',
    'finish',
  ),
  odd,
  { maxKeys: 3 },
);

/** An edit of any kind with arguments that are wrong in most ways that arguments can be. */
const edits: fc.Arbitrary<Edit> = fc
  .tuple(fc.constantFrom(...EDIT_TYPES), args, surface, fc.boolean())
  .map(([type, fields, s, known]) => ({
    type,
    args: {
      ...(known ? { slabId: 'a', id: 'n', cornerId: 'a0', key: 'k' } : {}),
      ...fields,
      ...(known ? { surface: s } : {}),
    },
  })) as unknown as fc.Arbitrary<Edit>;

test('whatever an edit brings, it is refused in a sentence or the job can be opened again and worked out', () => {
  fc.assert(
    fc.property(fc.array(edits, { minLength: 1, maxLength: 4 }), (list) => {
      let history = startHistory(oneSlab());
      for (const edit of list) {
        let next: ReturnType<typeof commit>;
        try {
          next = commit(history, edit);
        } catch (error) {
          // Arguments of a kind that the compiler refuses may be thrown out; they do not get in.
          expect(error).toBeInstanceOf(Error);
          continue;
        }
        if (next.ok) history = next.value;
        else expect(sentence(next.problem)).toMatch(/\.$/);
      }
      const file = readJobFile(writeJobFile({ job: history.job, images: {} }), 'job.json');
      expect(file.ok ? '' : sentence(file.problem)).toBe('');
      const r = results(history.job);
      expect(
        [r.order.lines.length, r.quote.costs.length, r.remarks.length, r.verdicts.length].every(
          Number.isInteger,
        ),
      ).toBe(true);
    }),
    { numRuns: Number(process.env.SLABWRIGHT_RUNS ?? 100) * 20, seed: 5 },
  );
});
