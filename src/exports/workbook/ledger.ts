import { tr } from '../../words/tr.ts';
import type { DefaultValue } from '../../working/default-value.ts';
import { type Quantity, total } from '../../working/quantity.ts';
import { sourceText } from '../../working/source.ts';
import { onSheet } from '../sheet-names.ts';
import { spreadsheetFormula } from './spreadsheet-formula.ts';

/** A cell that holds a formula and what it comes to. */
export interface LiveCell {
  readonly formula: string;
  /** Empty text where the formula gives none yet. */
  readonly result: number | '';
}

/** A row of a sheet that the ledger keeps. */
export interface LedgerRow {
  readonly quantity: Quantity;
  /** A formula over other cells; a plain number where it has none. */
  readonly cell: LiveCell | number;
}

/** A value that a person may change, with the range it may be in. */
export interface RateRow extends LedgerRow {
  readonly value: DefaultValue | null;
  /** What the cell is called in formulas. */
  readonly cellName: string;
}

/** Column of the values on both sheets. */
export const VALUE_COLUMN = 'C';

const FIRST_ROW = 2;

/** Every quantity once, each as a formula over the cells of its inputs: what makes the workbook live. */
export class Ledger {
  readonly rates: RateRow[] = [];
  readonly workings: LedgerRow[] = [];
  private readonly byObject = new Map<Quantity, string>();
  private readonly byContent = new Map<string, string>();
  private readonly special = new Map<Quantity, () => string>();
  private readonly names = new Set<string>();

  constructor(private readonly values: ReadonlyMap<string, DefaultValue>) {}

  /** Says how a number that an algorithm found follows from cells. */
  follow(q: Quantity, formula: () => string): void {
    this.special.set(q, formula);
  }

  /** The address of a quantity's cell, which is made, with those of its inputs, when it is first asked for. */
  cell(q: Quantity): string {
    const known = this.byObject.get(q);
    if (known) return known;
    const made = this.make(q);
    this.byObject.set(q, made);
    return made;
  }

  /** A reference to a quantity's cell, to put into another. */
  link(q: Quantity): LiveCell {
    return { formula: this.cell(q), result: q.value };
  }

  private make(whole: Quantity): string {
    const q = inPieces(whole);
    if (q.key !== undefined && !q.formula) {
      const rate = this.rate(q);
      if (rate) return rate;
    }
    const special = this.special.get(whole)?.();
    const inputs = q.formula
      ? Object.fromEntries(
          Object.entries(q.inputs ?? {}).map(([symbol, input]) => [symbol, this.cell(input)]),
        )
      : {};
    const formula =
      special ??
      (q.formula && Object.keys(inputs).length > 0 ? spreadsheetFormula(q.formula, (s) => inputs[s]!) : null);
    const content = [q.symbol, q.unit, q.value, formula ?? q.name, formula ? '' : sourceText(q.source)].join(
      '\u0000',
    );
    const same = this.byContent.get(content);
    if (same) return same;
    const cell = formula ? { formula, result: q.value } : q.value;
    const row = FIRST_ROW + this.workings.push({ quantity: q, cell }) - 1;
    const address = onSheet('working', `$${VALUE_COLUMN}$${row}`);
    this.byContent.set(content, address);
    return address;
  }

  /** The cell of a value that may be changed; null where the same value has another number elsewhere. */
  private rate(q: Quantity): string | null {
    const known = this.rates.findIndex((r) => r.quantity.key === q.key);
    if (known >= 0 && this.rates[known]!.quantity.value !== q.value) return null;
    const index =
      known >= 0
        ? known
        : this.rates.push({
            quantity: q,
            cell: q.value,
            value: this.values.get(q.key!) ?? null,
            cellName: this.nameFor(q.key!),
          }) - 1;
    return onSheet('rates', `$${VALUE_COLUMN}$${FIRST_ROW + index}`);
  }

  /** A name that spreadsheets take: letters, digits and underscores, and none twice. */
  private nameFor(key: string): string {
    const plain = `rate_${key.replace(/[^A-Za-z0-9]+/g, '_')}`;
    let name = plain;
    for (let i = 2; this.names.has(name.toLowerCase()); i++) name = `${plain}_${i}`;
    this.names.add(name.toLowerCase());
    return name;
  }
}

/** A cell's formula holds no more terms than this: spreadsheets cut it off at 8,192 characters (from memory). */
const MOST_TERMS = 200;

/** A sum of very many parts as a sum of sums. */
function inPieces(q: Quantity): Quantity {
  const parts = Object.values(q.inputs ?? {});
  if (!q.formula || parts.length <= MOST_TERMS || !/^\w+( \+ \w+)*$/.test(q.formula)) return q;
  const pieces: Quantity[] = [];
  for (let i = 0; i < parts.length; i += MOST_TERMS) {
    const some = parts.slice(i, i + MOST_TERMS);
    pieces.push(total(tr`${q.name}, part ${pieces.length + 1}`, q.symbol, q.unit, some, q.source));
  }
  return inPieces({ ...total(q.name, q.symbol, q.unit, pieces, q.source), value: q.value });
}
