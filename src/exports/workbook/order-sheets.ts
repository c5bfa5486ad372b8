import type { Workbook } from 'exceljs';
import type { Pack } from '../../job/types.ts';
import type { OrderLine } from '../../order/order.ts';
import { cheapestChoices, type PackChoice } from '../../order/packs.ts';
import type { Results } from '../../results.ts';
import { plainNumber } from '../../units/format.ts';
import { tr } from '../../words/tr.ts';
import { onSheet, SHEETS } from '../sheet-names.ts';
import type { Ledger, LiveCell } from './ledger.ts';
import { entryOf, forChanging, newSheet, printAll } from './sheets.ts';
import { quoted } from './spreadsheet-formula.ts';

/** The table of packs reaches from this share of what is needed to this many times it, and has no more rows. */
const FROM = 0.3;
const REACH = 3;
const MOST_CHOICES = 400;

/** One pack size of one product on the order sheet. */
export interface OrderedPack {
  readonly line: OrderLine;
  readonly pack: Pack;
  /** Its row on the sheet. */
  readonly row: number;
}

/** Choices about a need, as many as the table bears, and the litres above which they hold. */
function choicesAbout(line: OrderLine): { readonly above: number; readonly choices: readonly PackChoice[] } {
  const chosen = line.choice!;
  const need = line.need.value;
  const all = cheapestChoices(need * FROM, need * REACH, line.offers);
  const own = all.findIndex((c) => c.boughtL === chosen.boughtL);
  if (own < 0) return { above: need - 1e-9, choices: [chosen] };
  const first = Math.max(0, Math.min(own - MOST_CHOICES / 4, all.length - MOST_CHOICES));
  const choices = all.slice(first, first + MOST_CHOICES);
  return { above: first === 0 ? need * FROM : all[first - 1]!.boughtL, choices };
}

/** Packs to buy, found by the litres: a sheet that lists the choices, and one that picks among them. */
export function addOrderSheets(book: Workbook, { order }: Results, ledger: Ledger): OrderedPack[] {
  const sheet = newSheet(book, SHEETS.order, [
    { heading: tr`Product`, digits: null },
    { heading: tr`Colour`, digits: null },
    { heading: tr`Needed (L)`, digits: 2 },
    { heading: tr`Pack (L)`, digits: 3 },
    { heading: tr`Packs`, digits: 0 },
    { heading: tr`Price of a pack`, digits: 2 },
    { heading: tr`Cost`, digits: 2 },
    { heading: tr`Choice in the table of packs`, digits: 0 },
  ]);
  const packs = newSheet(book, SHEETS.packs, [
    { heading: tr`Product`, digits: null },
    { heading: tr`Enough up to (L)`, digits: 3 },
    {
      heading: tr`Packs of each size, the cheapest that hold it at the prices when this was written`,
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
        tr`no packs that fit`,
      ]);
      continue;
    }
    const name = `${line.product} ${line.tint}`.trim();
    const { above, choices } = choicesAbout(line);
    packs.addRow([
      tr`${name}, for more than`,
      above,
      ...line.offers.map((o) => `${plainNumber(o.sizeL)} L`),
    ]).font = {
      bold: true,
    };
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
        {
          formula: `IF(ISNUMBER(H${row}),INDEX(${onSheet('packs', `$${column}$${first}:$${column}$${last}`)},H${row}),"")`,
          result: count,
        },
        cents === null ? null : cents / 100,
        moneyCell(
          `E${row}`,
          `IF(ISNUMBER(F${row}),ROUND(E${row}*F${row},2),"")`,
          cents === null ? null : (cents * count) / 100,
        ),
        {
          // A need that is a hair above a whole millilitre by rounding is that millilitre, as in the tool.
          formula: `IF(OR(C${row}<=${onSheet('packs', `$B$${first - 1}`)},C${row}>${onSheet('packs', `$B$${last}`)}+0.000000001),${quoted(tr`choose again in the tool`)},SUMPRODUCT(--(${onSheet('packs', `$B$${first}:$B$${last}`)}<C${row}-0.000000001))+1)`,
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

/** Money that is nothing while a price is missing. */
export const moneyCell = (price: string, formula: string, result: number | null): LiveCell => ({
  formula: `IF(ISNUMBER(${price}),${formula},"")`,
  result: result ?? '',
});
