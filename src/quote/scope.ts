import { tintName } from '../coating/coat-need.ts';
import type { Coating } from '../coating/coating.ts';
import { GRIP_STATEMENT } from '../coating/grip.ts';
import { PREPARATION_NAMES } from '../coating/preparation.ts';
import { isRefused, type Readiness } from '../coating/readiness.ts';
import { COAT_NAMES } from '../coating/systems/system.ts';
import { valueIn } from '../coating/values.ts';
import type { Job } from '../job/types.ts';
import type { Takeoff } from '../takeoff/zone.ts';
import { plainNumber } from '../units/format.ts';

/** What is offered, what is not, and what has to be done or known first; in sentences. */
export interface Scope {
  readonly work: ReadonlyArray<{ readonly zone: string; readonly areaM2: number; readonly words: string }>;
  /** What must be done or tested before the first coat. */
  readonly before: readonly string[];
  /** What is not coated, and what is coated at the customer's own risk. */
  readonly refused: readonly string[];
  readonly exclusions: readonly string[];
}

/** Usual exclusions; common practice, no source. */
const EXCLUSIONS: readonly string[] = [
  'Repairs to the concrete that are not named above, and cracks that move.',
  'Damp that rises through the slab, and salts that come with it.',
  'Moving vehicles and goods; the surface is to be clear on the morning of the first day.',
  'Waiting for weather: a coat goes on only when concrete, air and forecast allow it.',
  'Differences in shade between batches, and against samples on paper or screens.',
];

/** Words for what a quote offers. */
export function scopeOf(
  job: Job,
  { zones }: Takeoff,
  coating: Coating,
  readiness: readonly Readiness[],
): Scope {
  const refusedSlabs = new Set(readiness.filter(isRefused).map((r) => r.slabId));
  const work = coating.zones.flatMap((z, i) => {
    const zone = zones[i]!;
    if (!z.system || !z.preparation || z.coats.length === 0 || refusedSlabs.has(zone.slabId)) return [];
    const coats = z.coats.map((c) => {
      const tint = tintName(c);
      return `${COAT_NAMES[c.role]} of ${c.product.name}${tint ? ` (${tint})` : ''}${c.additive ? ' with grip additive' : ''}`;
    });
    const years = plainNumber(valueIn(job, z.system.repaint).value);
    const words = `Wash; ${PREPARATION_NAMES[z.preparation]}; ${coats.join('; ')}. Expected to want another coat after about ${years} years outdoors, which nobody can promise.`;
    return [{ zone: zone.name, areaM2: zone.coatedArea.value, words }];
  });
  const before = readiness.flatMap((r) =>
    isRefused(r)
      ? []
      : r.findings
          .filter((f) => f.outcome === 'after' || f.outcome === 'test')
          .map((f) => `${r.name}: ${f.sentence}`),
  );
  const refused = readiness.flatMap((r) => {
    const why = r.findings.filter((f) => f.outcome === 'refuse').map((f) => f.sentence);
    if (why.length === 0) return [];
    return isRefused(r)
      ? [`Do not coat ${r.name}. ${why.join(' ')}`]
      : [`${r.name} is coated although it should not be. ${why.join(' ')} Reason given: ${r.coatAnyway}`];
  });
  const grip = coating.zones.some((z) => z.coats.some((c) => c.additive));
  return {
    work,
    before,
    refused,
    exclusions: [...EXCLUSIONS, grip ? `A slip class. ${GRIP_STATEMENT}` : 'A slip class: none is offered.'],
  };
}
