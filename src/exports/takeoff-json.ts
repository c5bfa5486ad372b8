import type { Results } from '../results.ts';
import { type MeasuringRule, ruleOf } from '../takeoff/measuring-rules.ts';
import { sourceText } from '../working/source.ts';
import { quantityJson } from './quantity-json.ts';

/** Version of the keys below; raised when one changes its meaning. */
const SCHEMA = 1;

/** What was measured, with documented keys whose names end in their unit. Numbers are not rounded. */
export function takeoffJson({ job, takeoff, coating, remarks }: Results) {
  const sum = (pick: (zone: (typeof takeoff.zones)[number]) => number) =>
    takeoff.zones.reduce((total, zone) => total + pick(zone), 0);
  return {
    schema: SCHEMA,
    job: job.name,
    measuringRule: measuringRuleJson(ruleOf(job)),
    sheets: takeoff.sheets.map(({ id, fit }) => {
      const { name, picture, fit: kind } = job.sheets[id]!;
      return {
        id,
        name,
        fit: kind?.kind ?? null,
        width: picture?.widthPx ?? null,
        height: picture?.heightPx ?? null,
        page: picture?.page ?? null,
        measured: 'frame' in fit,
        checks:
          'frame' in fit
            ? fit.checks.map((c) => ({
                name: c.name,
                known_m: c.knownM,
                read_m: c.readM,
                off_m: c.offM,
                standardised: c.standardised,
                suspect: c.suspect,
              }))
            : [],
      };
    }),
    tapes: takeoff.figures.flatMap((f) =>
      f.checks.map((c) => ({
        name: c.name,
        known_m: c.knownM,
        adjusted_m: c.readM,
        off_m: c.offM,
        standardised: c.standardised,
        suspect: c.suspect,
      })),
    ),
    slabs: takeoff.slabs.map((s) => ({
      id: s.id,
      name: s.name,
      outlineArea_m2: s.outlineAreaM2,
      voidArea_m2: s.voidAreaM2,
      netArea_m2: s.netAreaM2,
    })),
    zones: takeoff.zones.map((z, i) => ({
      id: z.id,
      slabId: z.slabId,
      name: z.name,
      texture: z.surface.texture,
      traffic: z.surface.traffic,
      condition: z.surface.condition,
      system: z.surface.systemId,
      colour: z.surface.colour,
      faceArea_m2: z.faceAreaM2,
      voidArea_m2: z.voidAreaM2,
      netArea_m2: z.netArea.value,
      areaUncertainty_m2: z.areaUncertainty.value,
      area95_m2: z.area95.value,
      paymentArea_m2: z.paymentArea.value,
      facesUp_m2: z.facesUp.value,
      coatedArea_m2: z.coatedArea.value,
      brushArea_m2: z.brushArea.value,
      rollerArea_m2: z.rollerArea.value,
      boundary_m: z.boundary.value,
      boundaryUncertainty_m: z.boundaryUncertainty.value,
      cutIn_m: z.cutIn.value,
      masked_m: z.masked.value,
      nap_mm: coating.zones[i]!.nap.value,
      voids: z.voids.map((v) => ({ id: v.id, name: v.name, area_m2: v.areaM2 })),
      stretches: z.stretches.map((s) => ({
        kind: s.kind,
        ref: s.ref,
        beyond: s.beyond,
        length_m: s.lengthM,
        faceUp_m: s.faceUpM,
        brushed: s.brushed,
        masked: s.masked,
      })),
      confirmed: z.secondOpinion === 'agree',
      working: quantityJson(z.netArea),
    })),
    totals: {
      outlineArea_m2: takeoff.slabs.reduce((total, s) => total + s.outlineAreaM2, 0),
      voidArea_m2: takeoff.slabs.reduce((total, s) => total + s.voidAreaM2, 0),
      netArea_m2: sum((z) => z.netArea.value),
      paymentArea_m2: sum((z) => z.paymentArea.value),
      facesUp_m2: sum((z) => z.facesUp.value),
      coatedArea_m2: sum((z) => z.coatedArea.value),
      boundary_m: sum((z) => z.boundary.value),
      cutIn_m: sum((z) => z.cutIn.value),
      masked_m: sum((z) => z.masked.value),
    },
    remarks: remarks.map((r) => ({ severity: r.severity, where: r.where, sentence: r.sentence })),
  };
}

const measuringRuleJson = (rule: MeasuringRule) => ({
  id: rule.id,
  name: rule.name,
  voidsUpTo_m2: rule.voidsUpToM2,
  linesUpTo_m: rule.linesUpToM,
  source: sourceText(rule.source),
});
