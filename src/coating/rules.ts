import { type Remark, remark } from '../job/checks/check.ts';
import type { Job } from '../job/types.ts';
import type { ZoneTakeoff } from '../takeoff/zone.ts';
import { tr } from '../words/tr.ts';
import { gripOnlyInherited } from './coat-need.ts';
import type { ZoneCoating } from './coating.ts';
import { describeZone } from './describe-zone.ts';
import { isBare } from './preparation.ts';
import { PRIMERS } from './systems/index.ts';
import type { System } from './systems/system.ts';

/** One zone with the system it is to get. */
interface Place {
  readonly job: Job;
  readonly zone: ZoneTakeoff;
  readonly coating: ZoneCoating;
  readonly system: System;
}

/** A rule of what belongs together, with its reason; null where it holds. 'stop' keeps the zone out of an order. */
type Rule = (place: Place) => Remark | null;

const fixed = (r: Remark, label: string, fix: Remark['fixes'][number]['edit']): Remark => ({
  ...r,
  fixes: [...r.fixes, { label, edit: fix }],
});

const solventOverWater: Rule = ({ job, zone, coating }) => {
  const coats = coating.coats;
  const under = coats.find(
    (c, i) => c.product.carrier === 'water' && coats[i + 1]?.product.carrier === 'solvent',
  );
  if (!under) return null;
  const words = tr`On “${zone.name}” a solvent-borne coat would go over the water-borne ${under.product.name}, whose film its solvent softens and lifts: leave that primer out; a solvent-borne paint needs none.`;
  return fixed(
    remark('system/solvent-over-water', 'stop', zone.id, words),
    tr`Leave the primer out`,
    describeZone(job, zone, { primer: 'none' }),
  );
};

const primerUnderTyres: Rule = ({ job, zone, coating, system }) => {
  const asked = system.coats.find((c) => c.when === 'under-vehicles');
  if (!asked || zone.surface.traffic === 'foot' || coating.coats.some((c) => c.role === 'primer'))
    return null;
  const words = tr`“${zone.name}” has no primer, and tyres turn on it: warm tyres lift a water-borne paint off concrete without one; put the primer back.`;
  return fixed(
    remark('system/no-primer', 'stop', zone.id, words),
    tr`Put the primer back`,
    describeZone(job, zone, { primer: '' }),
  );
};

const noEtchOnPaint: Rule = ({ job, zone, coating }) => {
  if (coating.preparation !== 'etch' || isBare(zone.surface.condition)) return null;
  const words = tr`“${zone.name}” is painted, and etch does nothing to paint but creep under it: abrade it instead.`;
  return fixed(
    remark('preparation/etch-on-paint', 'stop', zone.id, words),
    tr`Abrade it`,
    describeZone(job, zone, { preparation: 'abrade' }),
  );
};

const profileOnBare: Rule = ({ job, zone, coating, system }) => {
  if (system.needs !== 'profile' || !isBare(zone.surface.condition)) return null;
  if (coating.preparation === 'etch' || coating.preparation === 'grind') return null;
  const words = tr`“${zone.name}” is bare concrete, and washing or abrading it opens no pores: a film needs them to hold on to; etch or grind it.`;
  return fixed(
    remark('preparation/no-profile', 'stop', zone.id, words),
    tr`Etch it`,
    describeZone(job, zone, { preparation: 'etch' }),
  );
};

const sealerNeedsPores: Rule = ({ zone, system }) =>
  system.needs === 'open pores' && !isBare(zone.surface.condition)
    ? remark(
        'system/sealer-on-paint',
        'stop',
        zone.id,
        tr`“${zone.name}” is painted, and a penetrating sealer cannot soak through paint: take the paint off first, or choose a paint.`,
      )
    : null;

const sealerWithoutPrimer: Rule = ({ job, zone, coating, system }) => {
  if (system.needs !== 'open pores' || !coating.coats.some((c) => c.role === 'primer')) return null;
  const words = tr`On “${zone.name}” a primer would keep the penetrating sealer out of the concrete: leave the primer out.`;
  return fixed(
    remark('system/primer-under-sealer', 'stop', zone.id, words),
    tr`Leave the primer out`,
    describeZone(job, zone, { primer: '' }),
  );
};

const abradedPaint: Rule = ({ job, zone, coating }) => {
  if (isBare(zone.surface.condition) || coating.preparation !== 'wash') return null;
  const words = tr`“${zone.name}” is painted, and a new coat holds on old paint only where that is abraded: washing alone is not enough.`;
  return fixed(
    remark('preparation/not-abraded', 'stop', zone.id, words),
    tr`Abrade it`,
    describeZone(job, zone, { preparation: 'abrade' }),
  );
};

const knownPrimer: Rule = ({ job, zone }) => {
  const { primer } = zone.surface;
  if (!primer || primer === 'none' || PRIMERS.some((p) => p.id === primer)) return null;
  const words = tr`“${zone.name}” asks for the primer “${primer}”, which this slabwright does not know: choose another.`;
  return fixed(
    remark('system/unknown-primer', 'stop', zone.id, words),
    tr`As the system has it`,
    describeZone(job, zone, { primer: '' }),
  );
};

const gripOnRough: Rule = ({ job, zone, coating }) => {
  if (!gripOnlyInherited(job, zone) || coating.coats.every((c) => c.dryFilm === null)) return null;
  const words = tr`Grip additive is asked for on the slab of “${zone.name}”, whose own texture is rougher; none is put in here unless it is asked for in this zone too.`;
  return fixed(
    remark('grip/rough-already', 'mind', zone.id, words),
    tr`Put it in here too`,
    describeZone(job, zone, { grip: true }),
  );
};

const gripNeedsFilm: Rule = ({ job, zone, coating }) =>
  zone.surface.grip && coating.coats.length > 0 && coating.coats.every((c) => c.dryFilm === null)
    ? fixed(
        remark(
          'grip/no-film',
          'mind',
          zone.id,
          tr`Grip additive is asked for on “${zone.name}”, but a sealer leaves no film to hold it: none is put in.`,
        ),
        tr`Do without`,
        describeZone(job, zone, { grip: false }),
      )
    : null;

const RULES: readonly Rule[] = [
  solventOverWater,
  primerUnderTyres,
  noEtchOnPaint,
  profileOnBare,
  sealerNeedsPores,
  sealerWithoutPrimer,
  abradedPaint,
  knownPrimer,
  gripOnRough,
  gripNeedsFilm,
];

/** What does not belong together, zone by zone. */
export const ruleRemarks = (
  job: Job,
  zones: readonly ZoneTakeoff[],
  coatings: readonly ZoneCoating[],
): Remark[] =>
  coatings.flatMap((coating, i) => {
    const { system } = coating;
    if (!system || coating.coats.length === 0) return [];
    return RULES.flatMap((rule) => rule({ job, zone: zones[i]!, coating, system }) ?? []);
  });
