import { describe, expect, test } from 'vitest';
import { careOf, nextCoats, paintUsed, productName, recordsOf } from '../../src/coating/handover.ts';
import type { Edit } from '../../src/job/edits/index.ts';
import type { WorkRecord } from '../../src/job/paper-types.ts';
import { results } from '../../src/results.ts';
import { edited, oneSlab, slabEdit } from './scene.ts';

const BLANK: WorkRecord = {
  id: 'r',
  on: '2026-11-02',
  slabId: '',
  work: 'coat',
  productId: '',
  usedL: null,
  hoursH: null,
  batch: '',
  note: '',
  photos: [],
};
const record = (change: Partial<WorkRecord>): Edit => ({
  type: 'set-record',
  args: { ...BLANK, ...change },
});

/** Two slabs of 80 m² and 6 m², one for feet and one for cars, with what was written down. */
const site = (...records: Array<Partial<WorkRecord>>) =>
  results(
    edited(oneSlab(), slabEdit('b', [20, 3, 2], { traffic: 'cars' }), ...records.map((r) => record(r))),
  );
const paint = site().coating.zones[0]!.coats.at(-1)!.product;
const primer = site().coating.zones[1]!.coats[0]!.product;

test('records come in the order of the days, on one day in the order of their names', () => {
  const { job } = site(
    { id: 'b', on: '2026-11-03' },
    { id: 'c', on: '2026-11-02' },
    { id: 'a', on: '2026-11-03' },
  );
  expect(recordsOf(job).map((r) => r.id)).toEqual(['c', 'a', 'b']);
  expect(recordsOf(oneSlab())).toEqual([]);
});

test('a product that is not known any more goes by its id', () => {
  expect(productName(paint.id)).toBe(paint.name);
  expect(productName('gone')).toBe('gone');
});

describe('paint planned beside paint used', () => {
  test('what was used is summed, its batches once each; where nothing was written down it is not known', () => {
    const r = site(
      { id: 'a', productId: paint.id, usedL: 11.5, batch: ' B1 ' },
      { id: 'b', productId: paint.id, usedL: 4, batch: 'B2' },
      { id: 'c', productId: paint.id, batch: 'B1' },
      { id: 'd', productId: '', usedL: 99, batch: 'X' },
    );
    const used = paintUsed(r.job, r.coating);
    const line = used.find((u) => u.productId === paint.id)!;
    expect(line).toMatchObject({ name: paint.name, usedL: 15.5, batches: ['B1', 'B2'] });
    const planned = r.coating.zones.flatMap((z) => z.coats).filter((c) => c.product.id === paint.id);
    expect(line.plannedL).toBeCloseTo(
      planned.reduce((sum, c) => sum + c.paint.value, 0),
      9,
    );
    expect(used.find((u) => u.productId === primer.id)).toMatchObject({ usedL: null, batches: [] });
    expect(used.some((u) => u.productId === '')).toBe(false);
  });

  test('what was used though it was not planned is there too, with nothing planned', () => {
    const r = site({ productId: 'old-paint', usedL: 2 });
    expect(paintUsed(r.job, r.coating).find((u) => u.productId === 'old-paint')).toEqual({
      productId: 'old-paint',
      name: 'old-paint',
      plannedL: 0,
      usedL: 2,
      batches: [],
    });
  });
});

describe('the next coat', () => {
  const dates = (...records: Array<Partial<WorkRecord>>) => {
    const r = site(...records);
    return nextCoats(r.job, r.takeoff.zones, r.coating).map((n) => n.coatedOn);
  };

  test('counts from the last coat that was written down, of this slab or of all', () => {
    expect(dates()).toEqual([null, null]);
    expect(dates({ on: '2026-11-02' }, { id: 's', on: '2026-11-04' })).toEqual(['2026-11-04', '2026-11-04']);
    expect(dates({ slabId: 'a' })).toEqual(['2026-11-02', null]);
    expect(dates({ slabId: 'b', productId: paint.id })).toEqual([null, '2026-11-02']);
  });

  test('a primer, a wash or an etch does not begin the years', () => {
    expect(dates({ slabId: 'b', productId: primer.id })).toEqual([null, null]);
    expect(dates({ work: 'wash' }, { id: 's', work: 'etch' })).toEqual([null, null]);
  });

  test('says the years that its system is expected to last, and leaves out what is not coated', () => {
    const r = results(edited(oneSlab(), slabEdit('b', [20, 3, 2], { systemId: null })));
    const next = nextCoats(r.job, r.takeoff.zones, r.coating);
    expect(next.map((n) => n.zone)).toEqual(['A']);
    expect(next[0]!.system).toBe(r.coating.zones[0]!.system!.name);
    expect(next[0]!.years.value).toBe(r.coating.zones[0]!.system!.repaint.value);
  });
});

describe('looking after it', () => {
  const care = (surface: Parameters<typeof oneSlab>[0]) => {
    const r = results(oneSlab(surface));
    return careOf(r.takeoff.zones, r.coating).join(' ');
  };

  test('says only what the coat and its traffic call for', () => {
    const foot = care({ traffic: 'foot' });
    expect(foot).toContain('neutral detergent');
    expect(foot).toContain('pressure washer');
    expect(foot).toContain('slippery');
    expect(foot).not.toContain('tyres');
    expect(foot).not.toContain('Grip wears');
    expect(care({ traffic: 'cars' })).toContain('Hot tyres');
    expect(care({ grip: true })).toContain('Grip wears');
    // A sealer leaves no film that a jet could lift.
    expect(care({ systemId: 'penetrating-sealer' })).not.toContain('lifts a coat');
  });

  test('where nothing is coated there is nothing to look after', () => {
    expect(care({ systemId: null })).toBe('');
  });

  test('a slab that is not coated does not bring its cars in', () => {
    const r = results(
      edited(oneSlab({ traffic: 'foot' }), slabEdit('b', [20, 3, 2], { systemId: null, traffic: 'cars' })),
    );
    expect(careOf(r.takeoff.zones, r.coating).join(' ')).not.toContain('tyres');
  });
});
