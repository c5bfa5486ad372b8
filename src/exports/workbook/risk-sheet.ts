import type { CellFormulaValue, CellValue, Workbook } from 'exceljs';
import { COAT_NAMES } from '../../coating/systems/system.ts';
import { TEXTURE_NAMES, valueByKey } from '../../coating/values.ts';
import type { Texture } from '../../job/types.ts';
import type { OrderLine } from '../../order/order.ts';
import { type Amount, amountsOf } from '../../order/risk.ts';
import type { Results } from '../../results.ts';
import { tr } from '../../words/tr.ts';
import type { Quantity } from '../../working/quantity.ts';
import { onSheet, SHEETS } from '../sheet-names.ts';
import type { Ledger } from './ledger.ts';
import { entryOf, newSheet, printAll } from './sheets.ts';

/** With more amounts than this their spread is carried in proportion, not worked out anew. */
const MOST_AMOUNTS = 60;

/** The numbers of an order line that an algorithm, not a formula, finds. */
interface Moments {
  readonly E: Quantity;
  readonly V: Quantity;
  readonly z: Quantity;
  readonly chance: Quantity;
}

function momentsOf(line: OrderLine): Moments | null {
  const { m, s, z } = line.byChance.inputs ?? {};
  const [E, V, chance] = [m?.inputs?.E, s?.inputs?.V, z?.inputs?.c];
  return E && V && z && chance ? { E, V, z, chance } : null;
}

/**
 * How the litres that are really used are spread, worked out in cells: amounts are lognormal and share causes, so that
 * the mean is Σ m and the variance Σ Σ mᵢ mⱼ (exp(Σ dᵢ dⱼ) − 1) over the deviations they share.
 */
export function addRiskSheet(
  book: Workbook,
  { job, takeoff, coating, order }: Results,
  ledger: Ledger,
): void {
  const sheet = newSheet(book, SHEETS.risk, [
    { heading: tr`Amount`, digits: null },
    { heading: tr`Litres`, digits: 3 },
    { heading: tr`Mean (L)`, digits: 3 },
    { heading: tr`Deviations of the logarithm, one column a cause`, digits: 4 },
  ]);
  const alone = valueByKey(job, 'order.zone-spread');
  for (const line of order.lines) {
    const moments = momentsOf(line);
    const paint = coating.paints.find((p) => p === line.paint);
    if (!moments || !paint) continue;
    const { E, V, z, chance } = moments;
    ledger.follow(z, () => `NORMSINV(1-${ledger.cell(chance)}/100)`);
    const amounts = amountsOf(job, takeoff.zones, paint);
    if (amounts.length > MOST_AMOUNTS) {
      const P = paint.quantity;
      ledger.follow(E, () => `${ledger.cell(P)}*${E.value / P.value}`);
      ledger.follow(V, () => `POWER(${ledger.cell(E)},2)*${V.value / E.value ** 2}`);
      continue;
    }
    const causes = [
      ...new Set(amounts.flatMap((a) => a.causes.filter((c) => c.deviation !== 0).map((c) => c.key))),
    ];
    sheet.addRow([`${line.product} ${line.tint}`.trim(), null, null, ...causes.map(told)]).font = {
      bold: true,
    };
    const first = sheet.rowCount + 1;
    const last = first + amounts.length - 1;
    const [from, to] = [4, 3 + Math.max(1, causes.length)].map((c) => sheet.getColumn(c).letter);
    amounts.forEach((amount, i) => {
      const { zone, coat } = paint.parts[i]!;
      const own = amount.causes.reduce((v, c) => v + c.deviation ** 2, 0);
      const row = first + i;
      sheet.addRow([
        `${takeoff.zones[zone]!.name}: ${COAT_NAMES[coat.role]}`,
        entryOf(coat.paint, ledger),
        {
          formula: `B${row}*EXP(SUMSQ(${from}${row}:${to}${row})/2)`,
          result: amount.litres * Math.exp(own / 2),
        },
        ...causes.map((key) => deviationCell(key, amount, coat.spread, alone, ledger)),
      ]);
    });
    const deviations = `${from}${first}:${to}${last}`;
    const means = `C${first}:C${last}`;
    const mean = sheet.addRow([tr`litres to expect`, null, { formula: `SUM(${means})`, result: E.value }]);
    const variance = sheet.addRow([tr`their variance (L²)`]);
    variance.getCell(3).value = {
      formula: `SUM((EXP(MMULT(${deviations},TRANSPOSE(${deviations})))-1)*${means}*TRANSPOSE(${means}))`,
      result: V.value,
      shareType: 'array',
      ref: `C${variance.number}`,
    } as CellFormulaValue;
    variance.getCell(3).numFmt = '0.000000';
    sheet.addRow([]);
    ledger.follow(E, () => onSheet('risk', `$C$${mean.number}`));
    ledger.follow(V, () => onSheet('risk', `$C$${variance.number}`));
  }
  printAll(sheet);
}

/** A cause in words: what errs together. */
function told(key: string): string {
  const [kind, texture, coat] = key.split(' ');
  if (kind === 'texture') {
    const name = TEXTURE_NAMES[texture as Texture];
    return coat === 'first' ? tr`all first coats on ${name}` : tr`all later coats on ${name}`;
  }
  return { fit: tr`the fit of a sheet`, corners: tr`the corners of a zone` }[kind!] ?? tr`the coat by itself`;
}

/** A deviation as a number, or as the cell of the value that it is. */
function deviationCell(
  key: string,
  { causes }: Amount,
  spread: Quantity,
  alone: Quantity,
  ledger: Ledger,
): CellValue {
  const cause = causes.find((c) => c.key === key);
  if (!cause) return 0;
  if (key.startsWith('itself ')) return entryOf(alone, ledger);
  return key.startsWith('texture ') && spread.value === cause.deviation
    ? entryOf(spread, ledger)
    : cause.deviation;
}
