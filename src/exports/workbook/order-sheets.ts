import type { Workbook } from 'exceljs';
import type { Pack } from '../../job/types.ts';
import type { OrderLine } from '../../order/order.ts';
import { cheapestPacks, type PackChoice } from '../../order/packs.ts';
import type { Results } from '../../results.ts';
import { plainNumber } from '../../units/format.ts';
import type { Ledger, LiveCell } from './ledger.ts';
import { entryOf, forChanging, newSheet, printAll } from './sheets.ts';

/** How far the table of packs reaches: this many times what is needed, and no more rows than this. */
const REACH = 4;
const MOST_CHOICES = 400;

/** One pack size of one product on the order sheet. */
export interface OrderedPack {
  readonly line: OrderLine;
  readonly pack: Pack;
  /** Its row on the sheet. */
  readonly row: number;
}

/**
 * The cheapest choice for every need up to several times the one there is, the smallest first: each serves every need
 * above the litres of the one before. Exact, as the choice for a need is the choice for all needs up to what it buys.
 */
export function choicesUpTo(needL: number, offers: readonly Pack[]): PackChoice[] {
  const choices: PackChoice[] = [];
  const step = Math.min(...offers.map((o) => o.sizeL)) / 1e6;
  for (let need = step; choices.length < MOST_CHOICES; ) {
    const choice = cheapestPacks(need, offers);
    if (!choice || choice.packs.length === 0) break;
    choices.push(choice);
    if (choice.boughtL > needL * REACH) break;
    need = choice.boughtL + Math.max(step, 0.001);
  }
  return choices;
}

/** Packs to buy, found by the litres: a sheet that lists the choices, and one that picks among them. */
export function addOrderSheets(book: Workbook, { order }: Results, ledger: Ledger): OrderedPack[] {
  const sheet = newSheet(book, 'Order', [
    { heading: 'Product', digits: null },
    { heading: 'Colour', digits: null },
    { heading: 'Needed (L)', digits: 2 },
    { heading: 'Pack (L)', digits: 3 },
    { heading: 'Packs', digits: 0 },
    { heading: 'Price of a pack', digits: 2 },
    { heading: 'Cost', digits: 2 },
    { heading: 'Choice in the table of packs', digits: 0 },
  ]);
  const packs = newSheet(book, 'Packs', [
    { heading: 'Product', digits: null },
    { heading: 'Enough up to (L)', digits: 3 },
    {
      heading: 'Packs of each size, the cheapest that hold it at the prices when this was written',
      digits: 0,
    },
  ]);
  const ordered: OrderedPack[] = [];
  for (const line of order.lines) {
    if (!line.choice) {
      sheet.addRow([
        line.product,
        line.tint,
        entryOf(line.need, ledger),
        null,
        null,
        null,
        null,
        'no packs that fit',
      ]);
      continue;
    }
    const name = `${line.product} ${line.tint}`.trim();
    const choices = tableFor(line);
    packs.addRow([name, null, ...line.offers.map((o) => `${plainNumber(o.sizeL)} L`)]).font = { bold: true };
    const first = packs.rowCount + 1;
    for (const choice of choices) {
      packs.addRow([
        name,
        choice.boughtL,
        ...line.offers.map((o) => choice.packs.find((p) => p.sizeL === o.sizeL)?.count ?? 0),
      ]);
    }
    const last = packs.rowCount;
    packs.addRow([]);
    const chosen = choices.findIndex((c) => c.boughtL === line.choice!.boughtL) + 1;
    line.offers.forEach((pack, k) => {
      const row = sheet.rowCount + 1;
      const column = packs.getColumn(3 + k).letter;
      const count = line.choice!.packs.find((p) => p.sizeL === pack.sizeL)?.count ?? 0;
      const cents = pack.priceCents;
      sheet.addRow([
        line.product,
        line.tint,
        entryOf(line.need, ledger),
        pack.sizeL,
        { formula: `INDEX(Packs!$${column}$${first}:$${column}$${last},H${row})`, result: count },
        cents === null ? null : cents / 100,
        moneyCell(`F${row}`, `ROUND(E${row}*F${row},2)`, cents === null ? null : (cents * count) / 100),
        {
          // A need that is a hair above a whole millilitre by rounding is that millilitre, as in the tool.
          formula: `SUMPRODUCT(--(Packs!$B$${first}:$B$${last}<C${row}-0.000000001))+1`,
          result: chosen,
        },
      ]);
      forChanging(sheet.getCell(`F${row}`), null);
      ordered.push({ line, pack, row });
    });
  }
  printAll(sheet);
  printAll(packs);
  return ordered;
}

function tableFor(line: OrderLine): PackChoice[] {
  const choices = choicesUpTo(line.need.value, line.offers);
  // Thousands of small packs: the table begins near the need.
  if (choices.some((c) => c.boughtL === line.choice!.boughtL)) return choices;
  return [line.choice!];
}

/** Money that is nothing while a price is missing. */
export const moneyCell = (price: string, formula: string, result: number | null): LiveCell => ({
  formula: `IF(ISNUMBER(${price}),${formula},"")`,
  result: result ?? '',
});
