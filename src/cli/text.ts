import { cautionsFor, DEFERENCE } from '../coating/cautions.ts';
import { brushedPaint, tintName } from '../coating/coat-need.ts';
import { GRIP_STATEMENT, gripAdvice } from '../coating/grip.ts';
import type { Bucket, EtchSheet, MixSheet } from '../coating/mixes.ts';
import { PREPARATION_NAMES } from '../coating/preparation.ts';
import { findingText, OUTCOME_WORDS } from '../coating/readiness.ts';
import { COAT_NAMES } from '../coating/systems/system.ts';
import { countText } from '../quote/quote.ts';
import type { Results } from '../results.ts';
import { stretchName } from '../takeoff/describe.ts';
import { areaNumber, lengthNumber, napText, plainNumber, unitText } from '../units/format.ts';
import { moneyText } from '../units/money.ts';
import { tr } from '../words/tr.ts';
import { workingText } from '../working/quantity.ts';
import { sourceText } from '../working/source.ts';

const pad = (text: string, width: number): string => text.padEnd(width);
const num = (text: string, width: number): string => text.padStart(width);

/** Zones and their edges for a terminal. */
export function takeoffText({ job, takeoff, remarks }: Results): string {
  const lines = [job.name, ''];
  const width = Math.max(4, ...takeoff.zones.map((z) => z.name.length));
  lines.push(
    `${pad(tr`Zone`, width)} ${num(tr`net m²`, 10)} ${num('± 95 %', 8)} ${num(tr`out m²`, 9)} ${num(tr`edge m`, 9)} ${num(tr`cut-in m`, 9)}`,
  );
  for (const z of takeoff.zones) {
    const cells = [
      num(areaNumber(z.netArea.value, 'metric'), 10),
      num(areaNumber(2 * z.areaUncertainty.value, 'metric'), 8),
      num(areaNumber(z.voidAreaM2, 'metric'), 9),
      num(lengthNumber(z.boundary.value, 'metric'), 9),
      num(lengthNumber(z.cutIn.value, 'metric'), 9),
    ];
    lines.push(`${pad(z.name, width)} ${cells.join(' ')}`);
    for (const s of z.stretches) {
      const done = [s.brushed ? tr`cut in` : '', s.masked ? tr`masked` : ''].filter(Boolean).join(', ');
      lines.push(
        `  ${num(lengthNumber(s.lengthM, 'metric'), 8)} m  ${stretchName(s)}${done ? ` — ${done}` : ''}`,
      );
    }
  }
  const net = takeoff.zones.reduce((sum, z) => sum + z.netArea.value, 0);
  lines.push(`${pad(tr`Total`, width)} ${num(areaNumber(net, 'metric'), 10)}`);
  if (remarks.length > 0) lines.push('', ...remarks.map((r) => `! ${r.sentence}`));
  return lines.join('\n');
}

/** Coats with their workings for a terminal. */
export function coatingText({ job, takeoff, coating, readiness, mixes, etchSheet }: Results): string {
  const lines = [job.name, ''];
  for (const r of readiness) {
    lines.push(`${r.name}: ${OUTCOME_WORDS[r.outcome]}`);
    lines.push(...r.findings.map((f) => `  ${findingText(f)}`));
  }
  coating.zones.forEach((z, i) => {
    const zone = takeoff.zones[i]!;
    const preparation = z.preparation ? PREPARATION_NAMES[z.preparation] : tr`not coated`;
    lines.push(
      '',
      tr`${zone.name}: ${z.system?.name ?? tr`no system`}; ${preparation}; nap ${napText(z.nap.value, job.settings.units)}`,
    );
    for (const q of [z.etch, z.etchWater, z.rinse, z.neutraliser]) if (q) lines.push(indent(workingText(q)));
    for (const c of z.coats) {
      const tint = tintName(c);
      lines.push(`  ${COAT_NAMES[c.role]}: ${c.product.name}${tint ? `, ${tint}` : ''}`);
      for (const q of [c.paint, brushedPaint(zone, c), c.thinner, c.additive, c.wetFilm, c.dryFilm, c.voc])
        if (q) lines.push(indent(workingText(q)));
      for (const reason of c.reasons) lines.push(`  ${reason}`);
    }
    if (z.coats.length > 0) {
      for (const a of gripAdvice(zone, job.slabs[zone.slabId]!.slope))
        lines.push(tr`  Grip, ${a.place}: ${a.suggests} [${sourceText(a.source)}]`);
    }
  });
  lines.push('', GRIP_STATEMENT, '', tr`Mixes`);
  for (const m of mixes) {
    lines.push(tr`  ${m.title} — ${m.zoneNames.join(', ')} (at most ${m.limit})`);
    if (m.full) lines.push(`    ${m.fullCount} × ${bucketText(m, m.full)}`);
    if (m.last) lines.push(`    ${m.full ? tr`the last` : tr`one`}: ${bucketText(m, m.last)}`);
    lines.push(...m.notes.map((n) => `    ${n}`));
  }
  if (etchSheet) lines.push(...etchText(etchSheet).map((t) => `  ${t}`));
  lines.push('', tr`Totals`);
  for (const t of coating.paints) {
    lines.push(`  ${t.quantity.value.toFixed(2)} L  ${t.product.name}${t.tint ? ` (${t.tint})` : ''}`);
  }
  for (const t of coating.others)
    lines.push(`  ${t.quantity.value.toFixed(2)} ${t.quantity.unit}  ${t.material}`);
  const cautions = cautionsFor(takeoff.zones, coating).map((c) => c.words);
  if (cautions.length > 0) lines.push('', tr`Cautions`, ...[...cautions, DEFERENCE].map((t) => `  ${t}`));
  return lines.join('\n');
}

function bucketText(m: MixSheet, b: Bucket): string {
  const parts = [
    b.hardenerL > 0
      ? tr`${(b.paintL - b.hardenerL).toFixed(2)} L base, ${b.hardenerL.toFixed(2)} L hardener`
      : tr`${b.paintL.toFixed(2)} L paint`,
    b.thinnerL > 0 ? `${b.thinnerL.toFixed(2)} L ${m.thinner}` : '',
    b.additiveG > 0 ? tr`${b.additiveG.toFixed(0)} g grip additive` : '',
  ];
  return tr`${parts.filter(Boolean).join(', ')}; goes ${b.coversM2.toFixed(1)} m²`;
}

function etchText(e: EtchSheet): string[] {
  const cans = tr`${e.cans} × ${e.acidKg.toFixed(2)} kg citric acid into ${e.waterL.toFixed(1)} L of water`;
  const last = tr`${e.lastAcidKg.toFixed(2)} kg into ${e.lastWaterL.toFixed(1)} L`;
  return [
    tr`Etch: ${[e.cans > 0 ? cans : '', e.lastWaterL > 0 ? last : ''].filter(Boolean).join(tr`, then `)}; a can goes ${e.coversM2.toFixed(0)} m², ${e.dwellMin} min, scrub, rinse before it dries`,
    tr`Neutraliser at hand: ${e.neutraliserKg.toFixed(2)} kg sodium bicarbonate at most`,
  ];
}

/** Packs to buy for a terminal. */
export function orderText({ job, order, quote }: Results): string {
  const lines = [job.name, '', ...quote.scope.overruled.map((words) => `! ${words}`)];
  for (const line of order.lines) {
    const packs = line.choice?.packs.map((p) => `${p.count} × ${plainNumber(p.sizeL)} L`).join(', ');
    const cost = line.choice?.costCents ?? null;
    const name = line.tint ? `${line.product} (${line.tint})` : line.product;
    lines.push(
      `${name}: ${line.need.value.toFixed(2)} L → ${packs ?? tr`no packs that fit`}${cost === null ? '' : `, ${moneyText(cost)}`}`,
    );
    lines.push(
      tr`  plain ${line.paint.quantity.value.toFixed(2)} L, by chance ${line.byChance.value.toFixed(2)} L, by percentage ${line.byPercent.value.toFixed(2)} L${line.chanceShort === null ? '' : tr`; what is bought runs short with a chance of ${(100 * line.chanceShort).toFixed(1)} %`}`,
    );
    lines.push(indent(workingText(line.need)));
    if (line.boxing) lines.push(`  ${line.boxing}`);
  }
  for (const s of order.sundries) {
    lines.push(`${s.name}: ${plainNumber(Number(s.quantity.value.toFixed(2)))} ${unitText(s.unit)}`);
  }
  lines.push(
    '',
    order.costCents === null
      ? tr`Cost: not known, as packs have no prices yet; chosen by what is left over.`
      : tr`Cost of the packs: ${moneyText(order.costCents)}`,
  );
  return lines.join('\n');
}

/** The quote for a terminal. */
export function quoteText({ job, quote }: Results): string {
  const { scope, offer, tax } = quote;
  const currency = job.settings.currency ? ` ${job.settings.currency}` : '';
  const list = (title: string, items: readonly string[]) =>
    items.length > 0 ? ['', title, ...items.map((t) => `  ${t}`)] : [];
  const lines = [
    job.name,
    ...list(
      tr`Work`,
      scope.work.map((w) => `${w.zone}, ${areaNumber(w.areaM2, 'metric')} m²: ${w.words}`),
    ),
    ...list(tr`Before the first coat`, scope.before),
    ...list(tr`Not to be coated`, scope.refused),
    ...list(tr`Coated against advice`, scope.overruled),
    ...list(tr`Not included`, scope.exclusions),
    ...list(
      tr`Costs (before ${plainNumber(quote.marginPct)} % on top)`,
      quote.costs.map(
        (c) =>
          `${c.what}: ${countText(c)}${c.eachCents === null ? tr`, no price yet` : tr` at ${moneyText(c.eachCents)} = ${moneyText(c.cents!)}`}`,
      ),
    ),
    '',
    tr`Hours`,
    indent(workingText(quote.hours.paid)),
    '',
  ];
  if (offer) {
    lines.push(
      tr`Offer${currency}`,
      ...offer.lines.map((l) => `  ${l.what}: ${moneyText(l.cents)}`),
      tr`  Net: ${moneyText(offer.netCents)}`,
      tax.rule.taxName
        ? tr`  ${tax.rule.taxName} ${plainNumber(tax.ratePct)} %, rounded by ${tax.per === 'line' ? tr`line` : tr`total`} [${sourceText(tax.rule.source)}]: ${moneyText(offer.taxCents)}`
        : tr`  No tax is added.`,
      tr`  Total: ${moneyText(offer.totalCents)}`,
      ...(offer.perYearCents === null
        ? []
        : [tr`  That is ${moneyText(offer.perYearCents)} for each year until it wants another coat.`]),
    );
  } else if (quote.blocks.length > 0) {
    lines.push(
      tr`No price: it should not be coated as it is.`,
      ...quote.blocks.map((b) => `  ${b.sentence}`),
    );
  } else if (quote.unpriced.length > 0) {
    lines.push(tr`No price yet: enter what these cost: ${quote.unpriced.join('; ')}.`);
  }
  lines.push(...list(tr`Cautions`, [...quote.cautions.map((c) => c.words), DEFERENCE]));
  return lines.join('\n');
}

const indent = (text: string): string =>
  text
    .split('\n')
    .map((line) => `  ${line}`)
    .join('\n');
