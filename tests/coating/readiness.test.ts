import { describe, expect, test } from 'vitest';
import { QUESTIONS } from '../../src/coating/questions.ts';
import type { Condition } from '../../src/job/types.ts';
import { results } from '../../src/results.ts';
import { answered, edited, oneSlab, SOUND } from './scene.ts';

const judged = (condition: Condition, found: Readonly<Record<string, string | number>>) =>
  results(answered(oneSlab({ condition }), found)).readiness[0]!;

/*
 * What each answer means. Limits: 28 days at 20 °C and Nurse-Saul, FROM MEMORY; 30 days FAA, READ; pH within 1 of the rinse
 * water, UFC 3-190-06 6.7.2.1, READ; chalk and adhesion ratings, drop test, plastic sheet size, FROM MEMORY; the rest
 * common practice, no source.
 */
const ROWS: ReadonlyArray<
  readonly [
    Condition,
    Readonly<Record<string, string | number>>,
    'coat' | 'test' | 'after' | 'refuse',
    RegExp,
  ]
> = [
  ['bare', SOUND, 'coat', /^$/],
  ['bare', { ...SOUND, age: 20 }, 'test', /at what temperature it cured/],
  ['bare', { ...SOUND, age: 27, 'cure-temperature': 20 }, 'after', /wants 28 days: wait 1 more/],
  ['bare', { ...SOUND, age: 28, 'cure-temperature': 20 }, 'coat', /^$/],
  ['bare', { ...SOUND, age: 41, 'cure-temperature': 10 }, 'after', /wants 42 days/],
  ['bare', { ...SOUND, age: 21, 'cure-temperature': 30 }, 'after', /wants 28 days/],
  ['bare', { ...SOUND, 'water-drop': 'stands' }, 'after', /etch will not bite/],
  ['sealed', { ...SOUND, 'water-drop': 'stands' }, 'refuse', /no coat holds on a sealer/],
  ['sealed', SOUND, 'coat', /^$/],
  ['bare', { ...SOUND, 'tape-bare': 'grains' }, 'after', /friable/],
  ['coloured', { ...SOUND, chalking: 'powder' }, 'refuse', /colour chalks/],
  ['coloured', { ...SOUND, chalking: 'nothing' }, 'coat', /^$/],
  ['bare', { ...SOUND, 'moisture-sheet': 'damp' }, 'after', /Water rises/],
  ['bare', { ...SOUND, vapour: 20 }, 'after', /above the 14.6/],
  ['bare', { ...SOUND, vapour: 14 }, 'coat', /^$/],
  ['bare', { ...SOUND, 'ph-surface': 8.1 }, 'after', /1.1 from the water’s 7/],
  ['bare', { ...SOUND, 'ph-surface': 8 }, 'coat', /^$/],
  ['bare', { ...SOUND, oil: 'stains' }, 'after', /degrease/],
  ['bare', { ...SOUND, oil: 'soaked' }, 'refuse', /comes back/],
  ['bare', { ...SOUND, cracks: 'moving' }, 'after', /show through/],
  ['bare', { ...SOUND, coldest: 9 }, 'after', /want 10 °C/],
  ['bare', { ...SOUND, hottest: 36 }, 'after', /35 °C or less/],
];

const PAINTED = {
  chalking: 'nothing',
  'old-paint': 'holds',
  'old-paint-date': 'later',
  'moisture-sheet': 'dry',
  oil: 'none',
  cracks: 'none',
  coldest: 12,
  hottest: 30,
} as const;

const PAINTED_ROWS: typeof ROWS = [
  ['painted', PAINTED, 'coat', /^$/],
  ['painted', { ...PAINTED, chalking: 'powder' }, 'after', /old paint chalks/],
  ['painted', { ...PAINTED, 'old-paint': 'edges' }, 'after', /holds only in part/],
  ['painted', { ...PAINTED, 'old-paint': 'peels' }, 'refuse', /does not hold/],
  ['painted', { ...PAINTED, 'old-paint-date': 'maybe' }, 'test', /lead/],
  ['painted', { ...PAINTED, 'old-paint-date': 'lead' }, 'refuse', /licensed work/],
];

describe('readiness', () => {
  test.each([...ROWS, ...PAINTED_ROWS])('%s concrete, %j: %s', (condition, found, outcome, words) => {
    const r = judged(condition, found);
    expect([r.outcome, r.findings.map((f) => f.sentence)]).toEqual([
      outcome,
      r.findings.map((f) => f.sentence),
    ]);
    expect(r.findings[0]?.sentence ?? '').toMatch(words);
  });

  test('nothing answered: every question that applies is open, none of them refuses bare concrete', () => {
    const r = judged('bare', {});
    expect(r.outcome).toBe('test');
    expect(results(oneSlab()).remarks.map((x) => x.code)).toContain('readiness/unasked');
    expect(judged('patterned', {}).outcome).toBe('refuse');
  });

  test('an answer of another kind, or out of range, is no answer', () => {
    for (const odd of ['blue', 1e5, -3]) expect(judged('bare', { ...SOUND, age: odd }).outcome).toBe('test');
    expect(judged('bare', { ...SOUND, oil: 3 }).outcome).toBe('test');
  });

  test('a refusal keeps the order empty until it is mended, left uncoated, or overruled in writing', () => {
    const job = answered(oneSlab(), { ...SOUND, oil: 'soaked' });
    expect(results(job).order).toMatchObject({ lines: [], costCents: null });
    expect(results(job).order.blocks[0]!.sentence).toContain('Do not coat “A”');
    expect(results(job).quote.offer).toBeNull();
    const refusal = results(job).remarks.find((x) => x.code === 'readiness/refuse')!;
    expect(refusal.severity).toBe('stop');
    const left = edited(job, refusal.fixes[0]!.edit);
    expect(results(left).order.blocks).toEqual([]);
    const written = edited(job, {
      type: 'coat-anyway',
      args: { slabId: 'a', reason: ' Owner’s wish ', over: { oil: 'soaked' } },
    });
    expect(results(written).order.lines.length).toBe(1);
    expect(results(written).quote.scope.overruled.join()).toContain('Owner’s wish');
    const blank = edited(job, { type: 'coat-anyway', args: { slabId: 'a', reason: '   ', over: {} } });
    expect(results(blank).order.lines).toEqual([]);
    const back = edited(written, { type: 'coat-anyway', args: { slabId: 'a', reason: null, over: {} } });
    expect(back).toEqual(job);
    // Another refusal needs a reason of its own.
    const sealed = edited(written, {
      type: 'update-slab',
      args: { slabId: 'a', surface: { condition: 'sealed' } },
    });
    expect(results(answered(sealed, { 'water-drop': 'stands' })).order.lines).toEqual([]);
  });

  test('no reason in writing lets lead pass', () => {
    const job = answered(oneSlab({ condition: 'painted' }), { ...PAINTED, 'old-paint-date': 'lead' });
    const over = { 'old-paint-date': 'lead' };
    const written = edited(job, {
      type: 'coat-anyway',
      args: { slabId: 'a', reason: 'We are careful.', over },
    });
    expect(results(written).order.lines).toEqual([]);
  });

  test('every question says how to find out, and where it comes from', () => {
    for (const q of QUESTIONS) {
      expect(q.how.length, q.id).toBeGreaterThan(20);
      expect(q.source.kind, q.id).toMatch(/published|from memory|common practice/);
    }
    expect(new Set(QUESTIONS.map((q) => q.id)).size).toBe(QUESTIONS.length);
  });

  test('a slab with nothing to coat is not asked about', () => {
    expect(results(oneSlab({ systemId: null })).readiness).toEqual([]);
  });
});
