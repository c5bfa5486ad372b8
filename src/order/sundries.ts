import type { Coating } from '../coating/coating.ts';
import { COAT_NAMES } from '../coating/systems/system.ts';
import { valueByKey } from '../coating/values.ts';
import type { Id, Job } from '../job/types.ts';
import type { Takeoff } from '../takeoff/zone.ts';
import { napText } from '../units/format.ts';
import { tr } from '../words/tr.ts';
import { derive, found, type Quantity, total } from '../working/quantity.ts';
import { commonPractice, type Source } from '../working/source.ts';
import { sleeveLives, tapeRolls, wholeSleeves } from './formulas.ts';

/** Something to have on site besides paint. */
export interface Sundry {
  /** What its price goes by. */
  readonly key: Id;
  readonly name: string;
  readonly quantity: Quantity;
  /** What it is counted in. */
  readonly unit: string;
  /** Whether it is bought: water comes out of the customer's tap. */
  readonly bought: boolean;
}

/** What comes out of the customer’s tap. */
const FROM_THE_TAP = new Set(['thinner.water', 'etch-water', 'rinse']);

const summed: Source = { kind: 'derived', from: tr`summed over zones` };

/** Thinners, etch, soda, additive; sleeves by nap; brushes, trays and tape. */
export function sundries(job: Job, { zones }: Takeoff, coating: Coating): Sundry[] {
  const fluids = coating.others.map(
    ({ key, material, quantity }): Sundry => ({
      key,
      name: material,
      quantity,
      unit: quantity.unit,
      bought: !FROM_THE_TAP.has(key),
    }),
  );
  return [...fluids, ...sleeves(job, zones, coating), ...tools(coating), ...tape(job, zones, coating)];
}

/**
 * Whole sleeves for each nap and paint: a sleeve is not washed out for another colour, and one that held solvent is not
 * kept for the next coat.
 */
function sleeves(job: Job, zones: Takeoff['zones'], coating: Coating): Sundry[] {
  // By the nap as it is asked for: two that are the same in inches are bought together.
  const byNap = new Map<string, { readonly mm: number; readonly parts: Quantity[] }>();
  for (const paint of coating.paints) {
    const kept = paint.product.carrier === 'water';
    const lives = new Map<string, { nap: number; parts: Quantity[] }>();
    for (const { zone: i, coat } of paint.parts) {
      const zone = zones[i]!;
      const nap = coating.zones[i]!.nap.value;
      const used = derive(tr`${zone.name}: ${COAT_NAMES[coat.role]}, lives of a sleeve`, sleeveLives, {
        A: zone.coatedArea,
        l: valueByKey(job, `texture.${zone.surface.texture}.sleeve`),
      });
      const key = `${nap} ${kept ? '' : coat.role}`;
      const group = lives.get(key) ?? { nap, parts: [] };
      group.parts.push(used);
      lives.set(key, group);
    }
    for (const { nap, parts } of lives.values()) {
      const u = total(tr`${paint.product.name} ${paint.tint}, lives of a sleeve`, 'u', '1', parts, summed);
      const n = derive(tr`sleeves for ${paint.product.name} ${paint.tint}`.trim(), wholeSleeves, { u });
      const called = napText(nap, job.settings.units);
      const known = byNap.get(called);
      byNap.set(called, { mm: known?.mm ?? nap, parts: [...(known?.parts ?? []), n] });
    }
  }
  return [...byNap]
    .sort(([, a], [, b]) => a.mm - b.mm)
    .map(([nap, { parts }]) => ({
      key: 'sleeve',
      name: tr`roller sleeves, ${nap} nap`,
      quantity: total(tr`sleeves of ${nap} nap`, 'n', '1', parts, summed),
      unit: 'pieces',
      bought: true,
    }));
}

/** A brush and a tray for each paint that must not get into another. Common practice, no source. */
function tools(coating: Coating): Sundry[] {
  const paints = coating.paints.length;
  if (paints === 0) return [];
  const each = (key: Id, name: string): Sundry => ({
    key,
    name,
    quantity: found(name, 'n', paints, '1', tr`one for each product and colour`, commonPractice),
    unit: 'pieces',
    bought: true,
  });
  return [each('brush', tr`brushes, 63–75 mm`), each('tray', tr`trays or scuttles`)];
}

function tape(job: Job, zones: Takeoff['zones'], coating: Coating): Sundry[] {
  const masked = zones.filter((z, i) => coating.zones[i]!.coats.length > 0 && z.masked.value > 0);
  if (masked.length === 0) return [];
  const M = total(
    tr`masked edges`,
    'M',
    'm',
    masked.map((z) => ({ ...z.masked, name: tr`${z.name}: masked edges` })),
    summed,
  );
  const R = valueByKey(job, 'order.tape-roll');
  return [
    {
      key: 'tape',
      name: tr`masking tape, rolls of ${R.value} m`,
      quantity: derive(tr`rolls of tape`, tapeRolls, { M, o: valueByKey(job, 'order.tape-overlap'), R }),
      unit: 'rolls',
      bought: true,
    },
  ];
}
