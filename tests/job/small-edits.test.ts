import { expect, test } from 'vitest';
import { type Edit, editLabel } from '../../src/job/edits/index.ts';
import type { WorkRecord } from '../../src/job/paper-types.ts';
import type { Reading, Trial } from '../../src/job/types.ts';
import { edited, oneSlab, refusal } from '../coating/scene.ts';

// What is expected is what was put in, or the range that the sentence names.

const JOB = oneSlab();

const READING: Reading = {
  id: 'r1',
  at: '2026-03-14T09:00',
  airC: 18,
  humidityPct: 60,
  slabC: 15,
  windKmH: 8,
} as Reading;

test.each([
  ['airC', 'The air’s temperature (°C)', -60, 70],
  ['humidityPct', 'The humidity (%)', 1, 100],
  ['slabC', 'The slab’s temperature (°C)', -60, 100],
  ['windKmH', 'The wind (km/h)', 0, 400],
] as const)('%s of a reading lies in its range, its ends included', (field, what, low, high) => {
  const reading = (value: number): Edit => ({ type: 'add-reading', args: { ...READING, [field]: value } });
  for (const value of [low, high]) expect(edited(JOB, reading(value)).readings!.r1![field]).toBe(value);
  for (const value of [low - 0.1, high + 0.1, Number.NaN])
    expect(refusal(JOB, reading(value))).toEqual({ code: 'value/out-of-range', what, low, high });
});

test('readings are added beside each other and struck out by their ids', () => {
  const job = edited(
    JOB,
    { type: 'add-reading', args: READING },
    { type: 'add-reading', args: { ...READING, id: 'r2', airC: 20 } },
  );
  expect(Object.keys(job.readings!)).toEqual(['r1', 'r2']);
  const left = edited(job, { type: 'remove-reading', args: { readingId: 'r1' } });
  expect(left.readings).toEqual({ r2: { ...READING, id: 'r2', airC: 20 } });
  for (const [from, readingId] of [
    [JOB, 'r1'],
    [left, 'r1'],
    [left, 'toString'],
  ] as const)
    expect(refusal(from, { type: 'remove-reading', args: { readingId } })).toEqual({
      code: 'entity/missing',
      what: 'reading',
      id: readingId,
    });
});

test('answers are given, given anew and taken back; the other answers stay', () => {
  const say = (question: string, value: string | number | null): Edit => ({
    type: 'answer',
    args: { slabId: 'a', question, answer: value },
  });
  const job = edited(JOB, say('age', 40), say('oil', 'none'), say('age', 41));
  expect(job.slabs.a!.answers).toEqual({ age: 41, oil: 'none' });
  expect(edited(job, say('age', null)).slabs.a!.answers).toEqual({ oil: 'none' });
  expect(edited(job, say('never', null)).slabs.a!.answers).toEqual({ age: 41, oil: 'none' });
  expect(refusal(job, { type: 'answer', args: { slabId: 'z', question: 'age', answer: 1 } })).toEqual({
    code: 'entity/missing',
    what: 'slab',
    id: 'z',
  });
});

test('coating against the answers needs words; none, blank ones, or null take it back', () => {
  const anyway = (reason: string | null): Edit => ({
    type: 'coat-anyway',
    args: { slabId: 'a', reason, over: { oil: 'stains' } },
  });
  const job = edited(JOB, anyway('  the owner wants it  '));
  expect(job.slabs.a!.coatAnyway).toEqual({ reason: 'the owner wants it', over: { oil: 'stains' } });
  for (const none of [null, '', '   ']) expect(edited(job, anyway(none)).slabs.a).toEqual(JOB.slabs.a);
  expect(refusal(JOB, { type: 'coat-anyway', args: { slabId: 'z', reason: 'x', over: {} } })?.code).toBe(
    'entity/missing',
  );
  expect(editLabel(anyway('x'))).toBe('Coat in spite of the answers');
  expect(editLabel(anyway(null))).toBe('Do not coat after all');
});

test('weather and the offer’s number are put in and taken away whole', () => {
  const weather = { name: 'Invented week', hours: [] } as never;
  const job = edited(JOB, { type: 'set-weather', args: { weather } });
  expect(job.weather).toBe(weather);
  expect(edited(job, { type: 'set-weather', args: { weather: null } })).toEqual(JOB);
  expect(editLabel({ type: 'set-weather', args: { weather } })).toBe('Take the weather');
  expect(editLabel({ type: 'set-weather', args: { weather: null } })).toBe('Drop the weather');
  const offer = { number: '0001', day: '2026-03-14' } as never;
  const named = edited(JOB, { type: 'name-offer', args: { offer } });
  expect(named.offer).toBe(offer);
  expect(edited(named, { type: 'name-offer', args: { offer: null } })).toEqual(JOB);
});

test('letterhead and customer take what is given and keep the rest; usual paper is not written down', () => {
  const job = edited(
    JOB,
    { type: 'set-business', args: { name: 'Fernhollow Coatings' } },
    { type: 'set-business', args: { paper: 'LETTER' } },
    { type: 'set-customer', args: { name: 'O. Quill' } },
  );
  expect(job.business).toMatchObject({ name: 'Fernhollow Coatings', paper: 'LETTER' });
  expect(job.customer).toMatchObject({ name: 'O. Quill' });
  expect('paper' in edited(JOB, { type: 'set-business', args: { name: 'F' } }).business!).toBe(false);
  const again = edited(job, { type: 'set-customer', args: { address: 'Mill Lane' } as never });
  expect(again.customer).toMatchObject({ name: 'O. Quill', address: 'Mill Lane' });
});

const RECORD = { id: 'w1', usedL: 5, hoursH: 3, photos: [] } as unknown as WorkRecord;

test.each([
  ['usedL', 'The paint used (L)', 1e6],
  ['hoursH', 'The hours of work (h)', 1e5],
] as const)('%s of work done is nothing or a possible amount', (field, what, high) => {
  const record = (value: number | null): Edit => ({
    type: 'set-record',
    args: { ...RECORD, [field]: value },
  });
  for (const value of [0, high, null]) expect(edited(JOB, record(value)).records!.w1![field]).toBe(value);
  for (const value of [-0.1, high + 1, Number.NaN])
    expect(refusal(JOB, record(value))).toEqual({ code: 'value/out-of-range', what, low: 0, high });
});

test('records of work are written anew and struck out', () => {
  const job = edited(
    JOB,
    { type: 'set-record', args: RECORD },
    { type: 'set-record', args: { ...RECORD, id: 'w2' } },
    { type: 'set-record', args: { ...RECORD, usedL: 6 } },
  );
  expect(Object.values(job.records!).map((r) => [r.id, r.usedL])).toEqual([
    ['w1', 6],
    ['w2', 5],
  ]);
  const left = edited(job, { type: 'remove-record', args: { recordId: 'w1' } });
  expect(Object.keys(left.records!)).toEqual(['w2']);
  for (const from of [JOB, left])
    expect(refusal(from, { type: 'remove-record', args: { recordId: 'w1' } })).toEqual({
      code: 'entity/missing',
      what: 'record of work',
      id: 'w1',
    });
});

test('name, settings and values change alone; null brings a value back to its default', () => {
  const job = edited(
    JOB,
    { type: 'rename-job', args: { name: 'Yard', note: 'wet' } },
    { type: 'change-settings', args: { units: 'us' } },
    { type: 'set-value', args: { key: 'loss.tray', value: 3 } },
    { type: 'set-value', args: { key: 'measure.tap', value: 2 } },
  );
  expect(job).toMatchObject({ name: 'Yard', note: 'wet', values: { 'loss.tray': 3, 'measure.tap': 2 } });
  expect(job.settings).toEqual({ ...JOB.settings, units: 'us' });
  expect(edited(job, { type: 'set-value', args: { key: 'loss.tray', value: null } }).values).toEqual({
    'measure.tap': 2,
  });
});

test('packs: possible sizes, whole cents, each size once, at most fifty; none go back to the usual', () => {
  const packs = (
    list: ReadonlyArray<readonly [number, number | null]> | null,
    productId = 'paint',
  ): Edit => ({
    type: 'set-packs',
    args: { productId, packs: list?.map(([sizeL, priceCents]) => ({ sizeL, priceCents })) ?? null },
  });
  const job = edited(
    JOB,
    packs([
      [0.001, 0],
      [1000, 1e9],
      [5, null],
    ]),
    packs([[2, 100]], 'primer'),
  );
  expect(job.packs!.paint!.map((p) => p.sizeL)).toEqual([0.001, 1000, 5]);
  for (const none of [null, []] as const) {
    const usual = edited(job, packs(none));
    expect(Object.keys(usual.packs!)).toEqual(['primer']);
  }
  const size = { code: 'value/out-of-range', what: 'The size of a pack (L)', low: 0.001, high: 1000 };
  for (const bad of [0, 0.0009, 1000.1, Number.NaN])
    expect(
      refusal(
        JOB,
        packs([
          [5, 1],
          [bad, 1],
        ]),
      ),
    ).toEqual(size);
  const price = { code: 'value/out-of-range', what: 'The price of a pack (cents)', low: 0, high: 1e9 };
  for (const bad of [-1, 0.5, 1e9 + 1, Number.NaN]) expect(refusal(JOB, packs([[5, bad]]))).toEqual(price);
  expect(
    refusal(
      JOB,
      packs([
        [5, 1],
        [5.0004, 2],
      ]),
    ),
  ).toEqual({ code: 'pack/twice' });
  expect(
    refusal(
      JOB,
      packs([
        [5, 1],
        [5.001, 2],
      ]),
    ),
  ).toBeNull();
  const many = Array.from({ length: 50 }, (_, i) => [i + 1, null] as const);
  expect(refusal(JOB, packs(many))).toBeNull();
  expect(refusal(JOB, packs([...many, [60, null]]))).toEqual({
    code: 'value/out-of-range',
    what: 'The number of packs',
    low: 1,
    high: 50,
  });
});

test('prices are whole cents or none', () => {
  const price = (key: string, cents: number | null): Edit => ({ type: 'set-price', args: { key, cents } });
  const job = edited(JOB, price('hour', 0), price('day', 1e9));
  expect(job.prices).toEqual({ hour: 0, day: 1e9 });
  expect(edited(job, price('hour', null)).prices).toEqual({ day: 1e9 });
  expect(edited(JOB, price('hour', null)).prices).toEqual({});
  for (const bad of [-1, 1.5, 1e9 + 1, Number.NaN])
    expect(refusal(JOB, price('hour', bad))).toEqual({
      code: 'value/out-of-range',
      what: 'A price (cents)',
      low: 0,
      high: 1e9,
    });
});

const TRIAL = {
  id: 't1',
  texture: 'trowelled',
  coat: 0,
  areaM2: 2,
  usedL: 0.5,
  rateM2PerL: 8,
} as unknown as Trial;

test.each([
  ['areaM2', 'The area of a trial (m²)', 1e6],
  ['usedL', 'The paint of a trial (L)', 1e6],
  ['rateM2PerL', 'The spreading rate of a trial (m²/L)', 1e4],
] as const)('%s of a trial is more than nothing and possible', (field, what, high) => {
  const trial = (value: number): Edit => ({ type: 'add-trial', args: { ...TRIAL, [field]: value } });
  for (const value of [1e-9, high]) expect(edited(JOB, trial(value)).trials!.t1![field]).toBe(value);
  for (const value of [0, -1, high * 1.01, Number.NaN])
    expect(refusal(JOB, trial(value))).toEqual({ code: 'value/out-of-range', what, low: 0, high });
});

test('trials are struck out by their ids', () => {
  const job = edited(
    JOB,
    { type: 'add-trial', args: TRIAL },
    { type: 'add-trial', args: { ...TRIAL, id: 't2' } },
  );
  const left = edited(job, { type: 'remove-trial', args: { trialId: 't2' } });
  expect(left.trials).toEqual({ t1: TRIAL });
  for (const from of [JOB, left])
    expect(refusal(from, { type: 'remove-trial', args: { trialId: 't2' } })).toEqual({
      code: 'entity/missing',
      what: 'trial',
      id: 't2',
    });
});
