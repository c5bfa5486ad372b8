import type { Workbook } from 'exceljs';
import { systemById } from '../../coating/systems/index.ts';
import { valueIn } from '../../coating/values.ts';
import { type CostLine, KIND_WORDS } from '../../quote/quote.ts';
import { quoteValue } from '../../quote/values.ts';
import type { Results } from '../../results.ts';
import { unitText } from '../../units/format.ts';
import type { Rounding } from '../../units/money.ts';
import { tr } from '../../words/tr.ts';
import type { Quantity } from '../../working/quantity.ts';
import { onSheet, SHEETS } from '../sheet-names.ts';
import type { Ledger } from './ledger.ts';
import { moneyCell, type OrderedPack } from './order-sheets.ts';
import { entryOf, forChanging, nameCell, newSheet, printAll } from './sheets.ts';
import { quoted } from './spreadsheet-formula.ts';

/** A fraction of a cent as a tax rule treats it; digits beyond a ten-thousandth of a cent are those of the computer. */
const ROUNDED: Readonly<Record<Rounding, (x: string) => string>> = {
  'half-up': (x) => `ROUND(${x},2)`,
  'half-down': (x) => `MAX(0,ROUNDUP(ROUND(${x}*100,6)-0.5,0))/100`,
  down: (x) => `ROUNDDOWN(ROUND(${x},6),2)`,
};

/** Hours by zone and task. */
export function addHoursSheet(book: Workbook, { quote }: Results, ledger: Ledger): void {
  const sheet = newSheet(book, SHEETS.hours, [
    { heading: tr`Zone`, digits: null },
    { heading: tr`Task`, digits: null },
    { heading: tr`Hours (h)`, digits: 2 },
  ]);
  for (const t of quote.hours.tasks) sheet.addRow([t.zoneName, t.name, entryOf(t.hours, ledger)]);
  const { work, days, paid } = quote.hours;
  for (const [name, words, q] of [
    ['Hours_work', tr`work of one person (h)`, work],
    ['Days_on_site', tr`days on site`, days],
    ['Hours_paid', tr`paid, with set-up, clean-up and travel (h)`, paid],
  ] as const) {
    const row = sheet.addRow([tr`All`, words, entryOf(q, ledger)]);
    row.font = { bold: true };
    nameCell(row.getCell(3), name);
  }
  printAll(sheet);
}

/** Costs, margin, tax and the offer, all of it live; prices are for changing. */
export function addPriceSheet(
  book: Workbook,
  results: Results,
  packs: readonly OrderedPack[],
  ledger: Ledger,
): void {
  const { job, quote } = results;
  const sheet = newSheet(book, SHEETS.price, [
    { heading: tr`Kind`, digits: null },
    { heading: tr`What`, digits: null },
    { heading: tr`Amount`, digits: 2 },
    { heading: tr`Unit`, digits: null },
    { heading: tr`Each`, digits: 2 },
    { heading: tr`Cost`, digits: 2 },
  ]);
  const add = (line: CostLine, amount: string, each: string | null) => {
    const row = sheet.rowCount + 1;
    sheet.addRow([
      KIND_WORDS[line.kind],
      line.what,
      { formula: amount, result: line.amount },
      unitText(line.unit),
      each === null ? (line.eachCents === null ? null : line.eachCents / 100) : eachOf(each, line),
      moneyCell(
        `E${row}`,
        `IF(ISNUMBER(C${row}),ROUND(C${row}*E${row},2),"")`,
        line.cents === null ? null : line.cents / 100,
      ),
    ]);
    if (each === null) forChanging(sheet.getCell(`E${row}`), null);
  };
  const sundries = new Map(results.order.sundries.map((s) => [`${s.key} ${s.name}`, s.quantity]));
  for (const { line, pack, row } of packs) {
    const cost = packLine(line, pack);
    add(cost, onSheet('order', `$E$${row}`), onSheet('order', `$F$${row}`));
  }
  for (const line of quote.costs) {
    if (line.key.startsWith('pack.')) {
      // What no pack holds has no price, and keeps the offer from being made.
      if (line.unit === 'L')
        sheet.addRow([KIND_WORDS[line.kind], line.what, line.amount, line.unit, null, '']);
      continue;
    }
    add(line, amountFormula(line, sundries, quote.hours, ledger), null);
  }
  const last = sheet.rowCount;
  sheet.addRow([]);
  const missing = sheet.addRow([
    tr`missing`,
    tr`Prices still to be entered: the offer is not whole before`,
    {
      // An amount that is none, as of paint beyond the table of packs, is missing too.
      formula: `SUMPRODUCT(1-ISNUMBER(C2:C${last}))+SUMPRODUCT(ISNUMBER(C2:C${last})*(C2:C${last}<>0)*(1-ISNUMBER(E2:E${last})))`,
      result: quote.unpriced.length,
    },
  ]);
  nameCell(missing.getCell(3), 'Prices_missing');
  const whole = (formula: string): string => `IF($C$${missing.number}>0,"",${formula})`;
  const margin = sheet.addRow([
    tr`margin`,
    tr`on top of cost`,
    entryOf(quoteValue(job, 'price.margin'), ledger),
    '%',
  ]);
  const { rule, ratePct, per, on } = quote.tax;
  const rate = sheet.addRow([tr`tax`, rule.taxName || tr`No tax`, rule.id === 'none' ? 0 : ratePct, '%']);
  forChanging(rate.getCell(3), { low: 0, high: 100 });
  const [m, t] = [`$C$${margin.number}`, `$C$${rate.number}`];
  const { offer } = quote;
  const lines = (['labour', 'materials', 'travel'] as const).map((kind) => {
    const row = sheet.rowCount + 1;
    const cost = `SUMIF($A$2:$A$${last},${quoted(KIND_WORDS[kind])},$F$2:$F$${last})`;
    const cents = offer?.lines.find((l) => l.kind === kind)?.cents ?? 0;
    const what = offer?.lines.find((l) => l.kind === kind)?.what ?? KIND_WORDS[kind];
    sheet.addRow([
      tr`offer, ${KIND_WORDS[kind]}`,
      what,
      null,
      null,
      null,
      { formula: whole(`${cost}+ROUND(${cost}*${m}/100,2)`), result: offer ? cents / 100 : '' },
    ]);
    return { kind, cell: `F${row}` };
  });
  const total = (kind: string, what: string, formula: string, cents: number | undefined, name: string) => {
    const row = sheet.addRow([
      kind,
      what,
      null,
      null,
      null,
      { formula: whole(formula), result: offer ? (cents ?? 0) / 100 : '' },
    ]);
    row.font = { bold: true };
    nameCell(row.getCell(6), name);
    return `F${row.number}`;
  };
  const net = total(tr`offer`, tr`Net`, lines.map((l) => l.cell).join('+'), offer?.netCents, 'Offer_net');
  const taxed = lines.filter((l) => on === 'all' || l.kind === 'materials').map((l) => l.cell);
  const rounded = ROUNDED[rule.rounding[per]];
  const taxFormula =
    per === 'line'
      ? taxed.map((cell) => rounded(`${cell}*${t}/100`)).join('+')
      : rounded(`(${taxed.join('+')})*${t}/100`);
  const tax = total(tr`offer`, rule.taxName || tr`No tax`, taxFormula, offer?.taxCents, 'Offer_tax');
  const all = total(tr`offer`, tr`Total`, `${net}+${tax}`, offer?.totalCents, 'Offer_total');
  const years = yearsFormula(results, ledger);
  if (years)
    total(
      tr`offer`,
      tr`For each year until it wants another coat`,
      `ROUND(${all}*${years},2)`,
      offer?.perYearCents ?? 0,
      'Offer_per_year',
    );
  if (job.settings.currency) sheet.addRow([tr`currency`, job.settings.currency]);
  printAll(sheet);
}

const eachOf = (cell: string, line: CostLine) => ({
  formula: `IF(ISNUMBER(${cell}),${cell},"")`,
  result: line.eachCents === null ? '' : line.eachCents / 100,
});

/** A pack as a line of costs, also one of which none is bought now. */
function packLine(line: OrderedPack['line'], pack: OrderedPack['pack']): CostLine {
  const count = line.choice?.packs.find((p) => p.sizeL === pack.sizeL)?.count ?? 0;
  const cents = pack.priceCents;
  return {
    kind: 'materials',
    key: `pack.${line.productId}.${pack.sizeL}`,
    what: `${line.product}${line.tint ? `, ${line.tint}` : ''}, ${pack.sizeL} L`,
    amount: count,
    unit: 'packs',
    eachCents: cents,
    cents: cents === null ? null : cents * count,
  };
}

/** Amounts are charged to two places, up; grams as kilograms. */
function amountFormula(
  line: CostLine,
  sundries: ReadonlyMap<string, Quantity>,
  hours: Results['quote']['hours'],
  ledger: Ledger,
): string {
  const up = (cell: string) => `ROUNDUP(ROUND(${cell}*100,7),0)/100`;
  if (line.kind === 'labour') return up(ledger.cell(hours.paid));
  if (line.kind === 'travel') return ledger.cell(hours.days);
  const q = sundries.get(`${line.key} ${line.what}`);
  if (!q) return String(line.amount);
  return up(q.unit === 'g' ? `${ledger.cell(q)}/1000` : ledger.cell(q));
}

/** More zones than this make a formula that spreadsheets refuse. */
const MOST_TERMS = 60;

/** The share of the total that a year bears: each zone's area over the years of its system, over all area. */
function yearsFormula({ job, takeoff, coating }: Results, ledger: Ledger): string | null {
  const coated = coating.zones.flatMap((z, i) =>
    z.system && z.coats.length > 0 ? [{ zone: takeoff.zones[i]!, system: systemById(z.system.id)! }] : [],
  );
  if (coated.length === 0 || coated.length > MOST_TERMS) return null;
  // To a square centimetre and a hundredth of a year, as the tool shares it out.
  const area = coated.map(({ zone }) => `ROUND(${ledger.cell(zone.coatedArea)},4)`);
  const yearly = coated.map(
    ({ system }, i) => `${area[i]}/ROUND(${ledger.cell(valueIn(job, system.repaint))},2)`,
  );
  return `(${yearly.join('+')})/(${area.join('+')})`;
}
