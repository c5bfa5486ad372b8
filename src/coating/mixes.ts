import type { Id, Job, Texture } from '../job/types.ts';
import type { ZoneTakeoff } from '../takeoff/zone.ts';
import type { Grams, Kilograms, Litres, SquareMetres } from '../units/types.ts';
import { tr } from '../words/tr.ts';
import { derive, found, type Quantity } from '../working/quantity.ts';
import type { CoatNeed } from './coat-need.ts';
import { tintName } from './coat-need.ts';
import type { Coating } from './coating.ts';
import { citricEquivalents, wetEdgeBay } from './formulas.ts';
import { COAT_NAMES, THINNER_NAMES } from './systems/system.ts';
import { valueByKey, valueIn } from './values.ts';

/** What goes into one bucket. */
export interface Bucket {
  /** Base and hardener together where it is a two-pack. */
  readonly paintL: Litres;
  readonly hardenerL: Litres;
  readonly thinnerL: Litres;
  readonly additiveG: Grams;
  /** How far it goes, as the litres of the coat were worked out. */
  readonly coversM2: SquareMetres;
}

/** One coat in one colour and mix over all the zones that get it. */
export interface MixSheet {
  readonly key: Id;
  readonly title: string;
  readonly zoneNames: readonly string[];
  readonly thinner: string;
  /** So many full buckets, and one last that holds the rest; null where the full ones are enough. */
  readonly full: Bucket | null;
  readonly fullCount: number;
  readonly last: Bucket | null;
  /** Why a bucket holds no more. */
  readonly limit: string;
  readonly notes: readonly string[];
}

/** Etch, can by can. */
export interface EtchSheet {
  readonly cans: number;
  readonly waterL: Litres;
  readonly acidKg: Kilograms;
  readonly lastWaterL: Litres;
  readonly lastAcidKg: Kilograms;
  readonly coversM2: SquareMetres;
  readonly dwellMin: number;
  readonly neutraliserKg: Kilograms;
  /** Acid for each square metre, to compare recipes by. */
  readonly strength: Quantity;
}

interface Part {
  readonly zone: ZoneTakeoff;
  readonly coat: CoatNeed;
}

/** Bucket by bucket for every coat, in the order they go on. */
export function mixSheets(job: Job, zones: readonly ZoneTakeoff[], coating: Coating): MixSheet[] {
  const groups = new Map<string, Part[]>();
  coating.zones.forEach((z, i) => {
    for (const coat of z.coats) {
      const dose = coat.additive ? coat.additive.value / coat.paint.value : 0;
      const key = [
        coat.product.id,
        coat.role,
        zones[i]!.surface.texture,
        tintName(coat),
        coat.thinning.value.toFixed(6),
        dose.toFixed(6),
      ].join(' ');
      groups.set(key, [...(groups.get(key) ?? []), { zone: zones[i]!, coat }]);
    }
  });
  return [...groups].map(([key, parts]) => mixSheet(job, key, parts));
}

const sum = (parts: readonly Part[], pick: (p: Part) => number) => parts.reduce((s, p) => s + pick(p), 0);

function mixSheet(job: Job, key: Id, parts: readonly Part[]): MixSheet {
  const { coat } = parts[0]!;
  const { product } = coat;
  const paint = sum(parts, (p) => p.coat.paint.value);
  const thinner = sum(parts, (p) => p.coat.thinner?.value ?? 0);
  const additive = sum(parts, (p) => p.coat.additive?.value ?? 0);
  const area = sum(parts, (p) => p.zone.coatedArea.value);
  const mix = paint + thinner;
  const { most, limit } = mostInOneGo(job, parts, mix / area);
  const fullCount = Math.floor(mix / most + 1e-9);
  const rest = mix - fullCount * most;
  const ratio = product.twoPack ? valueIn(job, product.twoPack.ratio).value : null;
  const bucket = (litres: number): Bucket => {
    const share = litres / mix;
    return {
      paintL: paint * share,
      hardenerL: ratio === null ? 0 : (paint * share) / (ratio + 1),
      thinnerL: thinner * share,
      additiveG: additive * share,
      coversM2: area * share,
    };
  };
  const tint = tintName(coat);
  return {
    key,
    title: `${COAT_NAMES[coat.role]}: ${product.name}${tint ? `, ${tint}` : ''}`,
    zoneNames: parts.map((p) => p.zone.name),
    thinner: THINNER_NAMES[product.thinner],
    full: fullCount > 0 ? bucket(most) : null,
    fullCount,
    last: rest > 1e-6 ? bucket(rest) : null,
    limit,
    notes: notesOf(job, parts),
  };
}

/** The bucket, or for a two-pack what can be rolled out within its pot life. */
function mostInOneGo(
  job: Job,
  parts: readonly Part[],
  litresPerM2: number,
): { readonly most: Litres; readonly limit: string } {
  const bucket = valueByKey(job, 'mix.bucket').value;
  const { twoPack } = parts[0]!.coat.product;
  const asBucket = { most: bucket, limit: tr`the bucket of ${bucket} L` };
  if (!twoPack) return asBucket;
  const minutes = valueIn(job, twoPack.potLife).value;
  // Half of the pot life is kept for stirring, pouring and edges. Common practice, no source.
  const rate = valueByKey(job, `texture.${slowest(job, parts)}.roll`).value;
  const within = ((rate * minutes) / 60 / 2) * litresPerM2;
  return within < bucket
    ? { most: within, limit: tr`half the pot life of ${minutes} min at ${rate} m² an hour` }
    : asBucket;
}

/** The texture among them that takes longest to roll. */
const slowest = (job: Job, parts: readonly Part[]): Texture =>
  parts
    .map((p) => p.zone.surface.texture)
    .reduce((a, b) =>
      valueByKey(job, `texture.${b}.roll`).value < valueByKey(job, `texture.${a}.roll`).value ? b : a,
    );

function notesOf(job: Job, parts: readonly Part[]): string[] {
  const { coat } = parts[0]!;
  const { product } = coat;
  const notes: string[] = [];
  if (product.twoPack) {
    notes.push(
      tr`Mix only what goes down within its pot life of ${valueIn(job, product.twoPack.potLife).value} min at 20 °C; pour it out onto the slab at once, in the bucket it goes off sooner.`,
    );
  } else {
    const key = product.carrier === 'water' ? 'mix.wet-edge-water' : 'mix.wet-edge-solvent';
    const bay = derive(tr`bay`, wetEdgeBay, {
      r: valueByKey(job, `texture.${slowest(job, parts)}.roll`),
      t: valueByKey(job, key),
    });
    notes.push(
      tr`Keep a wet edge: lap within ${valueByKey(job, key).value} min, which is a bay of ${bay.value.toFixed(1)} m² for one person; less in sun and wind.`,
    );
  }
  if (product.twoPack)
    notes.push(
      tr`Stir the base alone, then the hardener in, for as long as the label says; scrape the sides.`,
    );
  if (coat.thinner) notes.push(tr`Stir the paint first, then the thinner in, slowly.`);
  if (coat.additive)
    notes.push(tr`Sprinkle the grip additive in while stirring, and stir again at every tray: it sinks.`);
  return notes;
}

/** Etch over all zones, can by can; null where nothing is etched. */
export function etchSheet(job: Job, zones: readonly ZoneTakeoff[], coating: Coating): EtchSheet | null {
  const etched = coating.zones.flatMap((z, i) => (z.etch ? [{ z, zone: zones[i]! }] : []));
  if (etched.length === 0) return null;
  const acid = etched.reduce((s, { z }) => s + z.etch!.value, 0);
  const water = etched.reduce((s, { z }) => s + z.etchWater!.value, 0);
  const area = etched.reduce((s, { zone }) => s + zone.coatedArea.value, 0);
  const can = valueByKey(job, 'mix.etch-bucket').value;
  const full = Math.floor(water / can + 1e-9);
  const rest = Math.max(0, water - full * can);
  return {
    cans: full,
    waterL: can,
    acidKg: (acid * can) / water,
    lastWaterL: rest > 1e-6 ? rest : 0,
    lastAcidKg: rest > 1e-6 ? (acid * rest) / water : 0,
    coversM2: (area * can) / water,
    dwellMin: valueByKey(job, 'etch.dwell').value,
    neutraliserKg: etched.reduce((s, { z }) => s + z.neutraliser!.value, 0),
    strength: derive(tr`acid on the slab`, citricEquivalents, {
      m: found(tr`citric acid on a square metre`, 'm', (1000 * acid) / area, 'g/m²', tr`acid over area`, {
        kind: 'derived',
        from: tr`summed over zones`,
      }),
    }),
  };
}
