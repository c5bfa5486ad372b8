import { brushedPaint } from '../coating/coat-need.ts';
import { gripAdvice } from '../coating/grip.ts';
import type { Bucket } from '../coating/mixes.ts';
import { PREPARATION_NAMES } from '../coating/preparation.ts';
import type { Results } from '../results.ts';
import { tr } from '../words/tr.ts';
import { sourceText } from '../working/source.ts';
import { quantityJson } from './quantity-json.ts';

/** Version of the keys below; raised when one changes its meaning. */
const SCHEMA = 1;

/** What it takes, per zone and coat, with workings. */
export function coatingJson(r: Results) {
  const { job, takeoff, coating } = r;
  return {
    schema: SCHEMA,
    job: job.name,
    readiness: r.readiness.map((slab) => ({
      slabId: slab.slabId,
      name: slab.name,
      outcome: slab.outcome,
      coatAnyway: slab.coatAnyway || null,
      findings: slab.findings.map((f) => ({
        question: f.questionId,
        outcome: f.outcome,
        sentence: f.sentence,
        source: sourceText(f.source),
      })),
    })),
    zones: coating.zones.map((z, i) => {
      const zone = takeoff.zones[i]!;
      return {
        id: z.zoneId,
        name: zone.name,
        system: z.system?.id ?? null,
        preparation: z.preparation,
        preparationWords: z.preparation ? PREPARATION_NAMES[z.preparation] : tr`not coated`,
        nap_mm: z.nap.value,
        etch_kg: z.etch?.value ?? 0,
        water_L: z.etchWater?.value ?? 0,
        rinse_L: z.rinse?.value ?? 0,
        neutraliser_kg: z.neutraliser?.value ?? 0,
        coats: z.coats.map((c) => ({
          product: c.product.id,
          name: c.product.name,
          role: c.role,
          colour: c.colour,
          base: c.base,
          tint_pct: c.strengthPct,
          finish: c.finish,
          paint_L: c.paint.value,
          brushed_L: brushedPaint(zone, c).value,
          thinner_L: c.thinner?.value ?? 0,
          thinner: c.thinner ? c.product.thinner : null,
          additive_g: c.additive?.value ?? 0,
          wetFilm_um: c.wetFilm.value,
          dryFilm_um: c.dryFilm?.value ?? 0,
          voc_gPerL: c.voc.value,
          reasons: c.reasons,
          working: quantityJson(c.paint),
        })),
        grip: z.coats.length > 0 ? gripJson(r, i) : [],
      };
    }),
    totals: coating.paints.map((t) => ({
      productId: t.product.id,
      product: t.product.name,
      tint: t.tint,
      paint_L: t.quantity.value,
    })),
    others: coating.others.map((t) => ({
      key: t.key,
      material: t.material,
      amount: t.quantity.value,
      unit: t.quantity.unit,
    })),
    mixes: r.mixes.map((m) => ({
      key: m.key,
      coat: m.title,
      zones: m.zoneNames,
      thinner: m.thinner,
      buckets: m.fullCount,
      each: m.full && bucketJson(m.full),
      last: m.last && bucketJson(m.last),
      limit: m.limit,
      notes: m.notes,
    })),
    etchCans: r.etchSheet && {
      cans: r.etchSheet.cans,
      water_L: r.etchSheet.waterL,
      acid_kg: r.etchSheet.acidKg,
      lastWater_L: r.etchSheet.lastWaterL,
      lastAcid_kg: r.etchSheet.lastAcidKg,
      covers_m2: r.etchSheet.coversM2,
      dwell_min: r.etchSheet.dwellMin,
      neutraliser_kg: r.etchSheet.neutraliserKg,
    },
  };
}

const bucketJson = (b: Bucket) => ({
  paint_L: b.paintL,
  hardener_L: b.hardenerL,
  thinner_L: b.thinnerL,
  additive_g: b.additiveG,
  covers_m2: b.coversM2,
});

function gripJson({ job, takeoff }: Results, index: number) {
  const zone = takeoff.zones[index]!;
  return gripAdvice(zone, job.slabs[zone.slabId]!.slope).map((a) => ({
    place: a.place,
    suggests: a.suggests,
    source: sourceText(a.source),
  }));
}
