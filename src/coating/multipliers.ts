import type { Job, Texture, Trial } from '../job/types.ts';
import { tr } from '../words/tr.ts';
import { derive, leaf, type Quantity } from '../working/quantity.ts';
import { commonPractice, entered, type Source } from '../working/source.ts';
import * as formulas from './formulas.ts';
import { isRough, valueByKey } from './values.ts';

/** A texture multiplier and how far it may be off, as the deviation of its logarithm. */
export interface Multiplier {
  readonly k: Quantity;
  readonly spread: Quantity;
  readonly trials: number;
}

const wrote: Source = { kind: 'measured', how: tr`paint used, as written down` };

/** The multiplier that one trial shows; null where it shows none, as less paint than the pores take. */
export function trialShows(job: Job, trial: Trial): Quantity | null {
  const none = leaf(tr`no pores to fill`, 'd', 0, 'mL/m²', commonPractice);
  const inputs = {
    V: leaf(tr`neat paint used`, 'V', trial.usedL, 'L', wrote),
    L: lossOf(job, trial.texture),
    A: leaf(tr`area it covered`, 'A', trial.areaM2, 'm²', wrote),
    d: trial.bare ? valueByKey(job, 'loss.dead-volume') : none,
    T: leaf(tr`thinner in it, by volume of paint`, 'T', trial.thinning, '1', wrote),
    S: leaf(tr`spreading rate of that paint`, 'S', trial.rateM2PerL, 'm²/L', entered),
  };
  const k = derive(tr`multiplier shown by the trial`, formulas.trialMultiplier, inputs);
  return k.value > 0 ? k : null;
}

/** The share of paint that does not end as film on a texture. */
export const lossOf = (job: Job, texture: Texture): Quantity =>
  valueByKey(job, isRough(texture) ? 'loss.rough' : 'loss.smooth');

/**
 * The multiplier in force: the default, or the user's own, moved towards what trials showed by the weight of
 * both (Bayes' rule for a normal mean, on logarithms).
 */
export function multiplierOf(job: Job, texture: Texture, coat: 'first' | 'later'): Multiplier {
  const prior = valueByKey(job, `texture.${texture}.${coat}`);
  const spread = valueByKey(job, `texture.${texture}.spread`);
  const shown = Object.values(job.trials ?? {})
    .filter((t) => t.texture === texture && t.coat === coat)
    .flatMap((t) => trialShows(job, t) ?? []);
  if (shown.length === 0) return { k: prior, spread, trials: 0 };
  const mean = Math.exp(shown.reduce((sum, k) => sum + Math.log(k.value), 0) / shown.length);
  const n = leaf(tr`trials`, 'n', shown.length, '1', wrote);
  const t = valueByKey(job, 'order.trial-spread');
  const logs = shown.map((_, i) => `log(k${i + 1})`).join(' + ');
  const m: Quantity = {
    ...leaf(tr`geometric mean of the trials`, 'm', mean, '1', wrote),
    formula: `exp((${logs}) / n)`,
    inputs: { ...Object.fromEntries(shown.map((k, i) => [`k${i + 1}`, k])), n },
  };
  return {
    k: derive(tr`${prior.name}, learnt`, formulas.learntMultiplier, { k0: prior, s: spread, n, m, t }),
    spread: derive(tr`${spread.name}, learnt`, formulas.learntSpread, { s0: spread, n, t }),
    trials: shown.length,
  };
}
