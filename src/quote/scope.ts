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
import { tr } from '../words/tr.ts';

/** What is offered, what is not, and what has to be done or known first; in sentences. */
export interface Scope {
  readonly work: ReadonlyArray<{ readonly zone: string; readonly areaM2: number; readonly words: string }>;
  /** What must be done or tested before the first coat. */
  readonly before: readonly string[];
  /** What is not to be coated, and why. */
  readonly refused: readonly string[];
  /** What is coated against advice, with the reason given. */
  readonly overruled: readonly string[];
  readonly exclusions: readonly string[];
}

/** Usual exclusions; common practice, no source. */
const EXCLUSIONS: readonly string[] = [
  tr`Repairs to the concrete that are not named above, and cracks that move.`,
  tr`Damp that rises through the slab, and salts that come with it.`,
  tr`Moving vehicles and goods; the surface is to be clear on the morning of the first day.`,
  tr`Waiting for weather: a coat goes on only when concrete, air and forecast allow it.`,
  tr`Differences in shade between batches, and against samples on paper or screens.`,
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
      return tr`${COAT_NAMES[c.role]} of ${c.product.name}${tint ? ` (${tint})` : ''}${c.additive ? tr` with grip additive` : ''}`;
    });
    const years = plainNumber(valueIn(job, z.system.repaint).value);
    const grip = z.coats.some((c) => c.additive) ? '' : tr` No grip additive.`;
    const prepared =
      z.preparation === 'wash' ? tr`Wash and let dry` : tr`Wash; ${PREPARATION_NAMES[z.preparation]}`;
    const words = tr`${prepared}; ${coats.join('; ')}.${grip} Expected to want another coat after about ${years} years outdoors, which nobody can promise.`;
    return [{ zone: zone.name, areaM2: zone.coatedArea.value, words }];
  });
  const before = readiness.flatMap((r) =>
    isRefused(r)
      ? []
      : r.findings
          .filter((f) => f.outcome === 'after' || f.outcome === 'test')
          .map((f) => `${r.name}: ${f.sentence}`),
  );
  const sentences = (r: Readiness, overruled: boolean) =>
    r.findings.filter((f) => f.outcome === 'refuse' && f.overruled === overruled).map((f) => f.sentence);
  const refused = readiness
    .filter(isRefused)
    .map((r) => tr`Do not coat ${r.name}. ${sentences(r, false).join(' ')}`);
  const overruled = readiness.flatMap((r) => {
    const against = sentences(r, true);
    return against.length === 0 || isRefused(r)
      ? []
      : [
          tr`${r.name} is coated although it should not be. ${against.join(' ')} Reason given: ${r.coatAnyway}`,
        ];
  });
  const grip = coating.zones.some((z) => z.coats.some((c) => c.additive));
  return {
    work,
    before,
    refused,
    overruled,
    exclusions: [
      ...EXCLUSIONS,
      grip ? tr`A slip class. ${GRIP_STATEMENT}` : tr`A slip class: none is offered.`,
    ],
  };
}
