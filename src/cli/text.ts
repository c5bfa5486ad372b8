import type { Results } from '../results.ts';
import { stretchName } from '../takeoff/describe.ts';
import { areaNumber, lengthNumber, plainNumber } from '../units/format.ts';
import { moneyText } from '../units/money.ts';
import { workingText } from '../working/quantity.ts';

const pad = (text: string, width: number): string => text.padEnd(width);
const num = (text: string, width: number): string => text.padStart(width);

/** Zones and their edges for a terminal. */
export function takeoffText({ job, takeoff, remarks }: Results): string {
  const lines = [job.name, ''];
  const width = Math.max(4, ...takeoff.zones.map((z) => z.name.length));
  lines.push(
    `${pad('Zone', width)} ${num('net m²', 10)} ${num('± 95 %', 8)} ${num('out m²', 9)} ${num('edge m', 9)} ${num('cut-in m', 9)}`,
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
      const done = [s.brushed ? 'cut in' : '', s.masked ? 'masked' : ''].filter(Boolean).join(', ');
      lines.push(
        `  ${num(lengthNumber(s.lengthM, 'metric'), 8)} m  ${stretchName(s)}${done ? ` — ${done}` : ''}`,
      );
    }
  }
  const net = takeoff.zones.reduce((sum, z) => sum + z.netArea.value, 0);
  lines.push(`${pad('Total', width)} ${num(areaNumber(net, 'metric'), 10)}`);
  if (remarks.length > 0) lines.push('', ...remarks.map((r) => `! ${r.sentence}`));
  return lines.join('\n');
}

/** Coats with their workings for a terminal. */
export function coatingText({ job, takeoff, coating }: Results): string {
  const lines = [job.name];
  coating.zones.forEach((z, i) => {
    lines.push(
      '',
      `${takeoff.zones[i]!.name}: ${z.system?.name ?? 'not coated'}; ${z.preparation}; nap ${z.nap.value} mm`,
    );
    for (const q of [z.etch, z.etchWater]) if (q) lines.push(indent(workingText(q)));
    for (const c of z.coats) {
      for (const q of [c.paint, c.thinner, c.additive, c.wetFilm]) if (q) lines.push(indent(workingText(q)));
      for (const reason of c.reasons) lines.push(`  ${reason}`);
    }
  });
  lines.push('', 'Totals');
  for (const t of [...coating.paints, ...coating.others]) {
    const colour = t.colour ? ` (${t.colour})` : '';
    lines.push(`  ${t.quantity.value.toFixed(2)} ${t.quantity.unit}  ${t.material}${colour}`);
  }
  return lines.join('\n');
}

/** Packs to buy for a terminal. */
export function orderText({ job, order, coating }: Results): string {
  const lines = [job.name, ''];
  for (const line of order.lines) {
    const packs = line.choice?.packs.map((p) => `${p.count} × ${plainNumber(p.sizeL)} L`).join(', ');
    const cost = line.choice?.costCents ?? null;
    const name = line.colour ? `${line.product} (${line.colour})` : line.product;
    lines.push(
      `${name}: ${line.need.value.toFixed(2)} L → ${packs ?? 'no packs that fit'}${cost === null ? '' : `, ${moneyText(cost)}`}`,
    );
    lines.push(indent(workingText(line.need)));
  }
  for (const t of coating.others)
    lines.push(`${t.material}: ${t.quantity.value.toFixed(2)} ${t.quantity.unit}`);
  lines.push(
    '',
    order.costCents === null
      ? 'Cost: not known, as packs have no prices yet; chosen by what is left over.'
      : `Cost of the packs: ${moneyText(order.costCents)}`,
  );
  return lines.join('\n');
}

const indent = (text: string): string =>
  text
    .split('\n')
    .map((line) => `  ${line}`)
    .join('\n');
