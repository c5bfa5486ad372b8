import { DEFERENCE } from '../coating/cautions.ts';
import { tintName } from '../coating/coat-need.ts';
import { COAT_NAMES } from '../coating/systems/system.ts';
import { TEXTURE_NAMES, TRAFFIC_NAMES } from '../coating/values.ts';
import { peopleWords } from '../days/rollout/words.ts';
import { KIND_WORDS } from '../quote/quote.ts';
import type { Results } from '../results.ts';
import { unitText } from '../units/format.ts';
import { moneyText } from '../units/money.ts';
import { tr } from '../words/tr.ts';
import type { Quantity } from '../working/quantity.ts';
import { SHEETS } from './sheet-names.ts';

/** A value of a table: text, a number, or a quantity, whose working a workbook can follow. */
export type Cell = string | number | Quantity;

/** What a cell holds, without where it came from. */
export const plain = (cell: Cell): string | number => (typeof cell === 'object' ? cell.value : cell);

export interface Column {
  readonly heading: string;
  /** Digits after the point where the column holds numbers; null for text. */
  readonly digits: number | null;
  /** Sizes of one thing, as a nap or a film, do not add up. */
  readonly apart?: boolean;
}

/** A table as every export writes it: metric units, named in the headings. */
export interface Table {
  readonly name: string;
  readonly columns: readonly Column[];
  readonly rows: ReadonlyArray<readonly Cell[]>;
  /** The sums below the rows; empty where a column does not add up. */
  readonly totals: readonly Cell[];
}

const text = (heading: string): Column => ({ heading, digits: null });
const number = (heading: string, digits = 2): Column => ({ heading, digits });
const size = (heading: string, digits = 2): Column => ({ heading, digits, apart: true });

/** Zones with their areas and edges. */
export function takeoffTable({ takeoff, coating }: Results): Table {
  const rows = takeoff.zones.map((z, i) => {
    const along = (kind: string) =>
      z.stretches.filter((s) => s.kind === kind).reduce((sum, s) => sum + s.lengthM, 0);
    return [
      z.name,
      takeoff.slabs.find((s) => s.id === z.slabId)!.name,
      TEXTURE_NAMES[z.surface.texture],
      TRAFFIC_NAMES[z.surface.traffic],
      coating.zones[i]!.system?.name ?? tr`not coated`,
      coating.zones[i]!.nap,
      z.netArea,
      z.area95,
      z.paymentArea,
      z.facesUp,
      z.brushArea,
      z.voidAreaM2,
      z.voids.map((v) => v.name).join('; '),
      z.boundary,
      along('side'),
      along('slab'),
      along('cut'),
      along('void'),
      z.cutIn,
      z.masked,
    ];
  });
  return withTotals(SHEETS.takeoff, rows, [
    text(tr`Zone`),
    text(tr`Slab`),
    text(tr`Texture`),
    text(tr`Traffic`),
    text(tr`System`),
    size(tr`Nap (mm)`, 0),
    number(tr`Net area (m²)`),
    size('± 95 % (m²)'),
    number(tr`For payment (m²)`),
    number(tr`Faces up (m²)`),
    number(tr`Brushed (m²)`),
    number(tr`Taken out (m²)`),
    text(tr`Taken out`),
    number(tr`Boundary (m)`),
    number(tr`Slab sides (m)`),
    number(tr`Along other slabs (m)`),
    number(tr`Cuts (m)`),
    number(tr`Around voids (m)`),
    number(tr`Cut-in (m)`),
    number(tr`Masked (m)`),
  ]);
}

/** Every coat of every zone. */
export function coatsTable({ takeoff, coating }: Results): Table {
  const rows = coating.zones.flatMap((z, i) =>
    z.coats.map((c) => [
      takeoff.zones[i]!.name,
      COAT_NAMES[c.role],
      c.product.name,
      tintName(c),
      c.paint,
      c.thinner?.name ?? '',
      c.thinner ?? 0,
      c.additive ?? 0,
      c.wetFilm,
      c.dryFilm ?? 0,
      c.voc,
    ]),
  );
  return withTotals(SHEETS.coats, rows, [
    text(tr`Zone`),
    text(tr`Coat`),
    text(tr`Product`),
    text(tr`Colour`),
    number(tr`Paint (L)`),
    text(tr`Thinner`),
    number(tr`Thinner (L)`),
    number(tr`Grip additive (g)`, 0),
    size(tr`Wet film (µm)`, 0),
    size(tr`Dry film (µm)`, 0),
    size(tr`VOC (g/L)`, 0),
  ]);
}

/** What to have on site, by product. */
export function materialsTable({ coating, order }: Results): Table {
  if (order.blocks.length > 0) return blockedTable('Materials', order);
  const paints = coating.paints.map((t) => [t.product.name, t.tint, t.quantity, 'L']);
  const others = order.sundries.map((t) => [t.name, '', t.quantity, unitText(t.unit)]);
  return {
    name: SHEETS.materials,
    columns: [text(tr`Material`), text(tr`Colour`), number(tr`Amount`), text(tr`Unit`)],
    rows: [...paints, ...others],
    totals: [],
  };
}

/** Scope and costs of the quote, one row a cost. */
export function priceTable({ quote, order }: Results): Table {
  if (order.blocks.length > 0) return blockedTable('Price', order);
  const money = (cents: number | null) => (cents === null ? '' : moneyText(cents));
  const rows = quote.costs.map((c) => [
    KIND_WORDS[c.kind],
    c.what,
    c.amount,
    unitText(c.unit),
    money(c.eachCents),
    money(c.cents),
  ]);
  const { offer } = quote;
  const sums = offer
    ? [
        ...offer.lines.map((l) => [tr`offer`, l.what, 1, '', '', moneyText(l.cents)]),
        [tr`offer`, tr`Net`, 1, '', '', moneyText(offer.netCents)],
        [tr`offer`, quote.tax.rule.taxName || tr`No tax`, 1, '', '', moneyText(offer.taxCents)],
        [tr`offer`, tr`Total`, 1, '', '', moneyText(offer.totalCents)],
      ]
    : [];
  return {
    name: SHEETS.price,
    columns: [
      text(tr`Kind`),
      text(tr`What`),
      number(tr`Amount`),
      text(tr`Unit`),
      text(tr`Each`),
      text(tr`Cost`),
    ],
    rows: [...rows, ...sums],
    totals: [],
  };
}

/** What is offered and what is not, one row a sentence. */
export function scopeTable({ quote }: Results): Table {
  const { scope } = quote;
  const rows = [
    ...scope.work.map((w) => [tr`Work`, `${w.zone}: ${w.words}`]),
    ...scope.before.map((t) => [tr`Before the first coat`, t]),
    ...scope.refused.map((t) => [tr`Not to be coated`, t]),
    ...scope.overruled.map((t) => [tr`Coated against advice`, t]),
    ...scope.exclusions.map((t) => [tr`Not included`, t]),
    ...[...quote.cautions.map((c) => c.words), DEFERENCE].map((t) => [tr`Cautions`, t]),
  ];
  return { name: SHEETS.scope, columns: [text(tr`Part`), text(tr`Words`)], rows, totals: [] };
}

/** The day plan, one row a piece of work; why there is none where there is none. */
export function daysTable({ days }: Results): Table {
  const columns = [text(tr`From`), text(tr`To`), text(tr`Slab`), text(tr`Work`), number(tr`Crew (h)`, 1)];
  if (!days || days.problem) {
    const why = days?.problem ?? tr`There is no weather in this job.`;
    return { name: SHEETS.days, columns, rows: [[why, '', '', '', 0]], totals: [] };
  }
  const clock = (at: string | null) => at?.replace('T', ' ') ?? tr`after the weather known ends`;
  const work = days.tasks.map((t) => [clock(t.startAt), clock(t.endAt), t.slabName, t.name, t.hours]);
  const open = days.reopenings.flatMap((r) => [
    [clock(r.feetAt), '', r.slabName, tr`feet, by estimate`, 0],
    [clock(r.vehiclesAt), '', r.slabName, tr`vehicles, by estimate`, 0],
  ]);
  return { name: SHEETS.days, columns, rows: [...work, ...open], totals: [] };
}

/** The order of rolling, one row a bay. */
export function rollingTable({ rollouts }: Results): Table {
  const rows = rollouts.flatMap((r) =>
    r.problem
      ? [[r.name, r.problem, 0, 0, 0, 0, 0, '']]
      : r.bays.map((b) => [
          r.name,
          tr`bay ${b.number}, off over ${r.exits.join(', ')}`,
          b.areaM2,
          b.cutInM,
          b.cutMin,
          b.rollMin,
          b.startMin,
          peopleWords(b),
        ]),
  );
  return {
    name: SHEETS.rolling,
    columns: [
      text(tr`Slab`),
      text(tr`Bay`),
      number(tr`Area (m²)`),
      number(tr`Cut in (m)`),
      number(tr`Cutting in (min)`, 0),
      number(tr`Rolling (min)`, 0),
      number(tr`From minute`, 0),
      text(tr`People`),
    ],
    rows,
    totals: [],
  };
}

/** Packs to buy, one row a size. */
export function orderTable({ order }: Results): Table {
  if (order.blocks.length > 0) return blockedTable('Order', order);
  const rows = order.lines.flatMap((line) =>
    (line.choice?.packs ?? []).map((p) => [
      line.product,
      line.tint,
      line.need.value,
      p.sizeL,
      p.count,
      priceOf(line, p.sizeL),
    ]),
  );
  return {
    name: SHEETS.order,
    columns: [
      text(tr`Product`),
      text(tr`Colour`),
      number(tr`Needed (L)`),
      number(tr`Pack (L)`, 3),
      number(tr`Packs`, 0),
      text(tr`Price of a pack`),
    ],
    rows,
    totals: [],
  };
}

/** What keeps anything from being ordered, in place of the table. */
const blockedTable = (name: string, order: Results['order']): Table => ({
  name,
  columns: [text(tr`Nothing is to be ordered yet`)],
  rows: order.blocks.map((b) => [b.sentence]),
  totals: [],
});

function priceOf(line: Results['order']['lines'][number], sizeL: number): string {
  const cents = line.offers.find((o) => o.sizeL === sizeL)?.priceCents ?? null;
  return cents === null ? '' : moneyText(cents);
}

function withTotals(name: string, rows: ReadonlyArray<readonly Cell[]>, columns: readonly Column[]): Table {
  const totals = columns.map((column, c): Cell => {
    if (c === 0) return tr`Total`;
    if (column.digits === null || column.apart) return '';
    return rows.reduce((sum, row) => sum + Number(plain(row[c]!)), 0);
  });
  return { name, columns, rows, totals };
}
