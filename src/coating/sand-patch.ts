import type { Job, Texture } from '../job/types.ts';
import { tr } from '../words/tr.ts';
import { derive, leaf, type Quantity } from '../working/quantity.ts';
import { commonPractice, entered, type Source } from '../working/source.ts';
import { roughConsumption, roughness, sandPatch } from './formulas.ts';
import { valueByKey } from './values.ts';

/** Below this depth a patch of sand tells nothing. */
const LEAST_DEPTH_MM = 0.3;

const model: Source = {
  kind: 'derived',
  from: tr`chosen here, not published; the model lies up to a fifth above the usual multipliers`,
};

/** How far apart the grooves of a texture lie, mm. Common practice, no source. */
const PITCH_MM: Readonly<Record<Texture, number>> = {
  trowelled: 4,
  'light-broom': 4,
  'heavy-broom': 6,
  stipple: 6,
  'exposed-aggregate': 10,
};

/** What a patch of sand says of a texture before any paint was used. */
export interface SandPatch {
  readonly depth: Quantity;
  /** Multiplier of a first coat by the model; null where the patch is too shallow to tell. */
  readonly multiplier: Quantity | null;
}

/**
 * Depth of a texture from the circle that a volume of sand fills, and the multiplier that a model of grooves makes of it.
 * @param volumeML of sand, @param diameterMm of the circle it covers
 */
export function sandPatchOf(job: Job, texture: Texture, volumeML: number, diameterMm: number): SandPatch {
  const depth = derive(tr`mean texture depth`, sandPatch, {
    V: leaf(tr`sand`, 'V', volumeML, 'mL', entered),
    D: leaf(tr`circle`, 'D', diameterMm, 'mm', entered),
  });
  if (depth.value < LEAST_DEPTH_MM) return { depth, multiplier: null };
  const MTD = { ...depth, symbol: 'MTD' };
  const WFT = leaf(tr`wet film of a usual coat`, 'WFT', 111, 'mL/m²', commonPractice);
  const R = derive(tr`true surface over plan`, roughness, {
    MTD,
    p: leaf(tr`pitch of the grooves`, 'p', PITCH_MM[texture], 'mm', model),
  });
  const q = derive(tr`mix it takes`, roughConsumption, {
    WFT,
    R,
    f: leaf(tr`share of the depth that fills`, 'f', 0.05, '1', model),
    MTD,
  });
  const d = valueByKey(job, 'loss.dead-volume');
  const k: Quantity = {
    // What the pores take is counted with every first coat on bare concrete; it is not counted twice.
    ...leaf(tr`multiplier by the model`, 'k', Math.max(1, (q.value - d.value) / WFT.value), '1', model),
    inputs: { q, d, WFT },
    formula: '(q - d) / WFT',
  };
  return { depth, multiplier: k };
}
