import { describe, expect, test } from 'vitest';
import { gripAdvice, rampPendulum } from '../../src/coating/grip.ts';
import { multiplierOf, trialShows } from '../../src/coating/multipliers.ts';
import { sandPatchOf } from '../../src/coating/sand-patch.ts';
import { valueByKey } from '../../src/coating/values.ts';
import type { Trial } from '../../src/job/types.ts';
import { results } from '../../src/results.ts';
import { sourceText } from '../../src/working/source.ts';
import { edited, oneSlab } from './scene.ts';

const TRIAL: Trial = {
  id: 't',
  texture: 'heavy-broom',
  coat: 'first',
  areaM2: 10,
  usedL: 2,
  rateM2PerL: 8,
  bare: false,
  thinning: 0,
  note: '',
};
const tried = (...trials: Array<Partial<Trial>>) =>
  edited(
    oneSlab(),
    ...trials.map((t, i) => ({ type: 'add-trial', args: { ...TRIAL, id: `t${i}`, ...t } }) as const),
  );

describe('what a trial shows', () => {
  const job = oneSlab();

  test('litres over area times the rate, less what is lost: 2 L on 10 m² at 8 m²/L and 10 % loss are 1.44', () => {
    expect(trialShows(job, TRIAL)!.value).toBeCloseTo(((2 * 0.9) / 10) * 8, 12);
    expect(trialShows(job, { ...TRIAL, texture: 'trowelled' })!.value).toBeCloseTo(((2 * 0.95) / 10) * 8, 12);
  });

  test('on bare concrete the pores take their part first, of the thinned paint', () => {
    const pores = valueByKey(job, 'loss.dead-volume').value;
    const bare = trialShows(job, { ...TRIAL, bare: true, thinning: 0.2 })!;
    expect(bare.value).toBeCloseTo(((2 * 0.9) / 10 - pores / 1000 / 1.2) * 8, 12);
  });

  test('less paint than the pores take shows nothing', () => {
    expect(trialShows(job, { ...TRIAL, bare: true, usedL: 0.01 })).toBeNull();
    expect(multiplierOf(tried({ bare: true, usedL: 0.01 }), 'heavy-broom', 'first').trials).toBe(0);
  });
});

describe('a multiplier that learns', () => {
  const usual = multiplierOf(oneSlab(), 'heavy-broom', 'first');

  test('is the usual one until something was tried on this texture and coat', () => {
    expect(usual.trials).toBe(0);
    expect(usual.k.value).toBe(valueByKey(oneSlab(), 'texture.heavy-broom.first').value);
    for (const other of [{ texture: 'stipple' }, { coat: 'later' }] as const) {
      const m = multiplierOf(tried(other), 'heavy-broom', 'first');
      expect([m.trials, m.k.value, m.spread.value]).toEqual([0, usual.k.value, usual.spread.value]);
    }
  });

  test('lies between the usual one and the trials, weighted by their precisions: Bayes for a normal mean, DERIVED', () => {
    const job = tried({ usedL: 2.5 }, { usedL: 3 });
    const m = multiplierOf(job, 'heavy-broom', 'first');
    const shown = [2.5, 3].map((litres) => ((litres * 0.9) / 10) * 8);
    const [s, t] = [usual.spread.value, valueByKey(job, 'order.trial-spread').value];
    const [w0, w] = [1 / s ** 2, 1 / t ** 2];
    const logs = shown.reduce((sum, k) => sum + Math.log(k), 0);
    expect(m.trials).toBe(2);
    expect(m.k.value).toBeCloseTo(Math.exp((Math.log(usual.k.value) * w0 + logs * w) / (w0 + 2 * w)), 12);
    expect(m.spread.value).toBeCloseTo(1 / Math.sqrt(w0 + 2 * w), 12);
    // Its working leads to every trial.
    expect(Object.keys(m.k.inputs!.m!.inputs!)).toEqual(['k1', 'k2', 'n']);
    expect(m.k.inputs!.m!.formula).toBe('exp((log(k1) + log(k2)) / n)');
  });
});

describe('a patch of sand', () => {
  const job = oneSlab();

  test('depth is the volume over the circle: ASTM E965 and EN 13036-1, FROM MEMORY', () => {
    const { depth } = sandPatchOf(job, 'heavy-broom', 25, 200);
    // 25 mL over a circle of 200 mm: 25 000 mm³ / 31 416 mm².
    expect(depth.value).toBeCloseTo(25000 / (Math.PI * 100 ** 2), 9);
  });

  test('too shallow a texture tells nothing', () => {
    expect(sandPatchOf(job, 'trowelled', 10, 300).multiplier).toBeNull();
    // 0.3 mm is the least: 9.43 mL on 200 mm.
    expect(sandPatchOf(job, 'trowelled', 0.0299 * Math.PI * 100, 200).multiplier).toBeNull();
    expect(sandPatchOf(job, 'trowelled', 0.0301 * Math.PI * 1000, 200).multiplier).not.toBeNull();
  });

  test('deeper takes more, wider grooves take less, and never less than a smooth slab', () => {
    const of = (texture: 'heavy-broom' | 'exposed-aggregate', mL: number) =>
      sandPatchOf(job, texture, mL, 200).multiplier!.value;
    expect(of('heavy-broom', 50)).toBeGreaterThan(of('heavy-broom', 25));
    expect(of('heavy-broom', 50)).toBeGreaterThan(of('exposed-aggregate', 50));
    expect(of('exposed-aggregate', 9.5)).toBeGreaterThanOrEqual(1);
  });

  test('what the pores take is not counted twice', () => {
    const m = sandPatchOf(job, 'heavy-broom', 50, 200).multiplier!;
    const { q, d, WFT } = m.inputs!;
    expect(m.value).toBeCloseTo((q!.value - d!.value) / WFT!.value, 12);
    expect(d!.value).toBe(valueByKey(job, 'loss.dead-volume').value);
  });
});

describe('grip', () => {
  const zone = (traffic: 'foot' | 'cars') => results(oneSlab({ traffic })).takeoff.zones[0]!;
  const said = (slope: number, traffic: 'foot' | 'cars' = 'foot') =>
    gripAdvice(zone(traffic), slope).map((a) => `${a.place}: ${a.suggests}`);

  test('P4 up to 1:14 and P5 beyond, SA HB 198:2014 table 3B as reproduced, READ', () => {
    expect(said(0)[0]).toMatch(/^outdoor walkway or courtyard up to 1:14: P4/);
    expect(said(1 / 14)[0]).toMatch(/P4/);
    expect(said(1 / 13.9)[0]).toMatch(/^outdoor ramp, drive or path steeper than 1:14: P5/);
    expect(said(0, 'cars')[0]).toMatch(/^outdoor driveway or car park up to 1:14: P4/);
  });

  test('on the level 36, and more the steeper it is: 45 at 1:12', () => {
    expect(said(0)[1]).toBe('low slip potential: pendulum value of 36 or more, wet');
    expect(said(1 / 12)[1]).toBe(
      'low slip potential, on this slope as on the level: pendulum value of 45 or more, wet',
    );
    expect(rampPendulum(0).value).toBeCloseTo(36, 9);
  });

  test('friction on the level is only said of what is level, and nothing is corrected for a wall', () => {
    expect(said(0).length).toBe(3);
    expect(said(0.02)[2]).toContain('0.55');
    expect(said(0.021).length).toBe(2);
    expect(said(0.25).length).toBe(2);
    expect(said(0.26).length).toBe(1);
  });

  test('each says where it comes from', () => {
    for (const a of gripAdvice(zone('foot'), 0)) expect(sourceText(a.source).length).toBeGreaterThan(10);
    expect(gripAdvice(zone('foot'), 0.1)[1]!.source).not.toEqual(gripAdvice(zone('foot'), 0)[1]!.source);
  });
});
