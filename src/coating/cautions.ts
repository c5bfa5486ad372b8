import type { ZoneTakeoff } from '../takeoff/zone.ts';
import { tr } from '../words/tr.ts';
import type { Source } from '../working/source.ts';
import type { Coating } from './coating.ts';

/** A warning, and where it comes from. */
export interface Caution {
  readonly words: string;
  readonly source: Source;
}

/** Shown with every caution. */
export const DEFERENCE = tr`General guidance only. Follow the product’s label and safety data sheet, local law, and a licensed or certified person where one is required.`;

const memory = (of: string): Source => ({ kind: 'from memory', of });
const text = (title: string, edition: string, clause: string): Source => ({
  kind: 'published',
  title,
  edition,
  clause,
});
const practice: Source = { kind: 'common practice' };

/** The cautions that the work of a job calls for. */
export function cautionsFor(takeoffZones: readonly ZoneTakeoff[], coating: Coating): Caution[] {
  const painted = takeoffZones.some(
    (z, i) => z.surface.condition === 'painted' && coating.zones[i]!.coats.length > 0,
  );
  const zones = coating.zones.filter((z) => z.coats.length > 0);
  if (zones.length === 0) return [];
  const prepares = (p: string) => zones.some((z) => z.preparation === p);
  const products = zones.flatMap((z) => z.coats.map((c) => c.product));
  const list: Caution[] = [
    {
      words: tr`Pressure washer: never point it at anybody; a wound that looks small needs a doctor. No engine in a garage or any closed space: its carbon monoxide kills. Electric ones on a residual-current device.`,
      source: text(tr`NIOSH Update 93-117`, tr`10 May 1993`, ''),
    },
    {
      words: tr`Wash, etch, paint and slurry water never into a storm drain: collect it, lead it onto soil with the owner’s leave, or into the sewer with the authority’s.`,
      source: text(
        tr`a county’s stormwater programme on surface cleaning; elsewhere the water authority`,
        '',
        '',
      ),
    },
  ];
  if (prepares('etch')) {
    list.push({
      words: tr`Acid burns, and citric acid hurts eyes: goggles, acid gloves, boots, water within reach; acid into water, never water into acid; no bleach near it; keep it off metal, plants and glass.`,
      source: memory(tr`usual acid precautions`),
    });
  }
  if (prepares('grind') || prepares('abrade')) {
    list.push({
      words: tr`Grinding and sanding concrete sets free silica dust that scars lungs: water feed or a shroud and an extractor with a 99 % filter, and no dry sweeping.`,
      source: text('29 CFR 1926.1153', '', tr`table 1, (xi) and (xii)`),
    });
  }
  if (prepares('grind')) {
    list.push({
      words: tr`Old floor felts, levellers and some texture coats hold asbestos: have what is not plainly concrete tested before it is ground.`,
      source: memory(tr`usual asbestos precautions`),
    });
  }
  if (painted) {
    list.push({
      words: tr`Old paint may hold lead: have it tested before it is sanded or ground; removing it is licensed work in many places.`,
      source: text(tr`EPA renovation, repair and painting rule, 73 FR 21692`, tr`22 April 2008`, tr`summary`),
    });
  }
  if (products.some((p) => p.carrier === 'solvent')) {
    list.push({
      words: tr`Solvents: their vapour burns and sinks into pits and garages; fresh air, no flame or spark, and oily rags out flat or under water.`,
      source: memory(tr`solvent safety data`),
    });
  }
  if (products.some((p) => p.kind === 'two-pack')) {
    list.push({
      words: tr`Two-pack hardeners: epoxy makes skin allergic and isocyanate in urethane brings on asthma; gloves and sleeves always, never sprayed without supplied air.`,
      source: memory(tr`exposure limits of isocyanates, and usual practice`),
    });
  }
  list.push({
    words: tr`Wet paint is slippery: keep people and pets off until the label’s time for feet, and vehicles until its time for vehicles, seven days where it names none. A coat can take grip away from concrete.`,
    source: practice,
  });
  list.push({
    words: tr`A full pail of 15–20 L weighs 20–28 kg: two people, or pour it over into smaller ones.`,
    source: memory(tr`NIOSH lifting equation, and HSE INDG143`),
  });
  return list;
}
