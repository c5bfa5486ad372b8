import { describe, expect, test } from 'vitest';
import { QUESTIONS } from '../../src/coating/questions.ts';
import { findingText, isRefused } from '../../src/coating/readiness.ts';
import type { Condition, Job } from '../../src/job/types.ts';
import { results } from '../../src/results.ts';
import { answered, edited, oneSlab, SOUND } from './scene.ts';

const judged = (condition: Condition, found: Readonly<Record<string, string | number>>) =>
  results(answered(oneSlab({ condition }), found)).readiness[0]!;

/** All that is sound, but one thing that nobody looked at. */
function without(id: keyof typeof SOUND): Readonly<Record<string, string | number>> {
  const { [id]: _unanswered, ...rest } = SOUND;
  return rest;
}

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
  ['bare', { ...SOUND, hottest: 35 }, 'coat', /^$/],
  ['bare', { ...SOUND, coldest: 10 }, 'coat', /^$/],
  ['bare', { ...SOUND, vapour: 14.6 }, 'coat', /^$/],
  ['bare', { ...SOUND, cracks: 'still' }, 'after', /clean and fill them/],
  ['bare', { ...SOUND, age: 364 }, 'test', /at what temperature it cured/],
  ['bare', { ...SOUND, age: 365 }, 'coat', /^$/],
  ['bare', without('age'), 'test', /age is not known/],
  ['bare', without('ph-water'), 'test', /compare its pH/],
  ['bare', without('ph-surface'), 'test', /compare its pH/],
  ['sealed', without('water-drop'), 'refuse', /no coat holds on a sealer/],
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
  ['painted', { ...PAINTED, 'old-paint-date': 'tested' }, 'coat', /^$/],
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

  test('numbers only where numbers are asked for, and only within their range', () => {
    const answerTo = (id: string, value: string | number) =>
      judged('bare', { ...SOUND, [id]: value }).questions.find((q) => q.question.id === id)!.answer;
    const age = QUESTIONS.find((q) => q.id === 'age')!;
    if (age.asks.kind !== 'number') throw new Error();
    expect(answerTo('age', age.asks.low)).toBe(age.asks.low);
    expect(answerTo('age', age.asks.high)).toBe(age.asks.high);
    expect(answerTo('age', age.asks.high + 1)).toBeUndefined();
    expect(answerTo('age', 'old')).toBeUndefined();
    expect(answerTo('oil', 'soaked')).toBe('soaked');
    expect(answerTo('oil', 'buttered')).toBeUndefined();
  });

  test('a reason holds against the answers it was written against, and no longer when they change', () => {
    const soaked = answered(oneSlab(), { ...SOUND, oil: 'soaked' });
    const anyway = edited(soaked, {
      type: 'coat-anyway',
      args: { slabId: 'a', reason: 'It is a test patch.', over: { oil: 'soaked' } },
    });
    const r = results(anyway);
    expect(isRefused(r.readiness[0]!)).toBe(false);
    expect(isRefused(results(soaked).readiness[0]!)).toBe(true);
    const words = r.remarks.find((x) => x.code === 'readiness/coat-anyway')!;
    expect(words.severity).toBe('mind');
    expect(words.sentence).toMatch(/should not be\. .*comes back.* Reason given: It is a test patch\./);
    const more = results(answered(anyway, { 'water-drop': 'stands', oil: 'stains' }));
    expect(more.remarks.some((x) => x.code === 'readiness/coat-anyway')).toBe(false);
    // Refused for another reason than the one that was answered for.
    const sealed = edited(answered(oneSlab({ condition: 'sealed' }), { ...SOUND, 'water-drop': 'stands' }), {
      type: 'coat-anyway',
      args: { slabId: 'a', reason: 'x', over: { oil: 'soaked' } },
    });
    expect(isRefused(results(sealed).readiness[0]!)).toBe(true);
  });

  test('what may be mended is only what can be: not where a zone has a system of its own', () => {
    const fixes = (job: Job) => results(job).remarks.find((x) => x.code === 'readiness/refuse')!.fixes;
    const soaked = answered(oneSlab(), { ...SOUND, oil: 'soaked' });
    expect(fixes(soaked)).toEqual([
      {
        label: 'Leave it uncoated',
        edit: { type: 'update-slab', args: { slabId: 'a', surface: { systemId: null } } },
      },
    ]);
    const tag = (surface: object) =>
      edited(soaked, {
        type: 'set-tag',
        args: { id: 't', slabId: 'a', anchor: { x: 1, y: 1 }, name: 'T', surface },
      });
    expect(fixes(tag({ systemId: 'two-pack-epoxy' }))).toEqual([]);
    expect(fixes(tag({ grip: true })).length).toBe(1);
  });

  test('the gravest is said, one remark for each; a slab that nobody looked at is said to be one', () => {
    const codes = (job: Job) =>
      results(job)
        .remarks.filter((x) => x.code.startsWith('readiness/'))
        .map((x) => [x.code, x.severity, x.where]);
    expect(codes(oneSlab())).toEqual([['readiness/unasked', 'mind', 'a']]);
    expect(codes(answered(oneSlab(), SOUND))).toEqual([]);
    expect(codes(answered(oneSlab(), { ...SOUND, oil: 'stains', cracks: 'moving' }))).toEqual([
      ['readiness/after', 'mind', 'a'],
      ['readiness/after', 'mind', 'a'],
    ]);
    expect(codes(answered(oneSlab(), { ...SOUND, oil: 'soaked', cracks: 'moving' }))).toEqual([
      ['readiness/refuse', 'stop', 'a'],
    ]);
  });

  test('a finding is said with what it rests on', () => {
    const [found] = judged('bare', { ...SOUND, oil: 'stains' }).findings;
    expect(findingText(found!)).toMatch(/degrease.* \(.+\)$/);
  });

  test('under a solvent-borne coat old paint is rubbed with its thinner first', () => {
    const under = (found: object) => {
      const job = oneSlab({ condition: 'painted', systemId: 'solvent-borne-paving' });
      const r = results(answered(job, { ...PAINTED, ...found })).readiness[0]!;
      return [r.outcome, r.findings[0]?.sentence.slice(0, 40) ?? ''];
    };
    expect(under({ 'old-paint-kind': 'stays' })).toEqual(['coat', '']);
    expect(under({ 'old-paint-kind': 'softens' })[0]).toBe('refuse');
    expect(under({})).toEqual(['test', 'Rub the old paint with the new coat’s th']);
  });

  test('the temperature it cured at is asked of young concrete only, for as long as it may matter', () => {
    const asks = (age: number | undefined, condition: Condition = 'bare', wants?: number) => {
      const job = wants
        ? edited(oneSlab({ condition }), { type: 'set-value', args: { key: 'ready.age', value: wants } })
        : oneSlab({ condition });
      const r = results(age === undefined ? job : answered(job, { age })).readiness[0]!;
      return r.questions.some((q) => q.question.id === 'cure-temperature');
    };
    expect([asks(undefined), asks(20), asks(364), asks(365), asks(20, 'painted')]).toEqual([
      false,
      true,
      true,
      false,
      false,
    ]);
    // Where more days are wanted it may matter up to twice that.
    expect([asks(399, 'bare', 200), asks(400, 'bare', 200)]).toEqual([true, false]);
  });

  test('the questions of old paint are asked for old paint, those of solvents for solvents', () => {
    const ids = (job: Job) => results(job).readiness[0]!.questions.map((q) => q.question.id);
    expect(ids(oneSlab({ condition: 'painted' }))).toContain('old-paint');
    expect(ids(oneSlab())).not.toContain('old-paint');
  });
});
