import { DEFERENCE } from '../coating/cautions.ts';
import { tintName } from '../coating/coat-need.ts';
import { TEXTURE_NAMES, TRAFFIC_NAMES } from '../coating/values.ts';
import type { Results } from '../results.ts';
import { moneyText } from '../units/money.ts';
import type { Quantity } from '../working/quantity.ts';

/** A value of a table: text, a number, or a quantity, whose working a workbook can follow. */
export type Cell = string | number | Quantity;

/** What a cell holds, without where it came from. */
export const plain = (cell: Cell): string | number => (typeof cell === 'object' ? cell.value : cell);

export interface Column {
  readonly heading: string;
  /** Digits after the point where the column holds numbers; null for text. */
  readonly digits: number | null;
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
      coating.zones[i]!.system?.name ?? 'not coated',
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
  return withTotals('Takeoff', rows, [
    text('Zone'),
    text('Slab'),
    text('Texture'),
    text('Traffic'),
    text('System'),
    number('Nap (mm)', 0),
    number('Net area (m²)'),
    number('± 95 % (m²)'),
    number('For payment (m²)'),
    number('Faces up (m²)'),
    number('Brushed (m²)'),
    number('Taken out (m²)'),
    text('Taken out'),
    number('Boundary (m)'),
    number('Slab sides (m)'),
    number('Along other slabs (m)'),
    number('Cuts (m)'),
    number('Around voids (m)'),
    number('Cut-in (m)'),
    number('Masked (m)'),
  ]);
}

/** Every coat of every zone. */
export function coatsTable({ takeoff, coating }: Results): Table {
  const rows = coating.zones.flatMap((z, i) =>
    z.coats.map((c) => [
      takeoff.zones[i]!.name,
      c.role,
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
  return withTotals('Coats', rows, [
    text('Zone'),
    text('Coat'),
    text('Product'),
    text('Colour'),
    number('Paint (L)'),
    text('Thinner'),
    number('Thinner (L)'),
    number('Grip additive (g)', 0),
    number('Wet film (µm)', 0),
    number('Dry film (µm)', 0),
    number('VOC (g/L)', 0),
  ]);
}

/** What to have on site, by product. */
export function materialsTable({ coating, order }: Results): Table {
  if (order.blocks.length > 0) return blockedTable('Materials', order);
  const paints = coating.paints.map((t) => [t.product.name, t.tint, t.quantity, 'L']);
  const others = order.sundries.map((t) => [t.name, '', t.quantity, t.unit]);
  return {
    name: 'Materials',
    columns: [text('Material'), text('Colour'), number('Amount'), text('Unit')],
    rows: [...paints, ...others],
    totals: [],
  };
}

/** Scope and costs of the quote, one row a cost. */
export function priceTable({ quote, order }: Results): Table {
  if (order.blocks.length > 0) return blockedTable('Price', order);
  const money = (cents: number | null) => (cents === null ? '' : moneyText(cents));
  const rows = quote.costs.map((c) => [c.kind, c.what, c.amount, c.unit, money(c.eachCents), money(c.cents)]);
  const { offer } = quote;
  const sums = offer
    ? [
        ...offer.lines.map((l) => ['offer', l.what, 1, '', '', moneyText(l.cents)]),
        ['offer', 'Net', 1, '', '', moneyText(offer.netCents)],
        ['offer', quote.tax.rule.taxName || 'No tax', 1, '', '', moneyText(offer.taxCents)],
        ['offer', 'Total', 1, '', '', moneyText(offer.totalCents)],
      ]
    : [];
  return {
    name: 'Price',
    columns: [text('Kind'), text('What'), number('Amount'), text('Unit'), text('Each'), text('Cost')],
    rows: [...rows, ...sums],
    totals: [],
  };
}

/** What is offered and what is not, one row a sentence. */
export function scopeTable({ quote }: Results): Table {
  const { scope } = quote;
  const rows = [
    ...scope.work.map((w) => ['Work', `${w.zone}: ${w.words}`]),
    ...scope.before.map((t) => ['Before the first coat', t]),
    ...scope.refused.map((t) => ['Not to be coated', t]),
    ...scope.overruled.map((t) => ['Coated against advice', t]),
    ...scope.exclusions.map((t) => ['Not included', t]),
    ...[...quote.cautions.map((c) => c.words), DEFERENCE].map((t) => ['Cautions', t]),
  ];
  return { name: 'Scope', columns: [text('Part'), text('Words')], rows, totals: [] };
}

/** The day plan, one row a piece of work; why there is none where there is none. */
export function daysTable({ days }: Results): Table {
  const columns = [text('From'), text('To'), text('Slab'), text('Work'), number('Crew (h)', 1)];
  if (!days || days.problem) {
    const why = days?.problem ?? 'There is no weather in this job.';
    return { name: 'Days', columns, rows: [[why, '', '', '', 0]], totals: [] };
  }
  const clock = (at: string | null) => at?.replace('T', ' ') ?? 'after the weather known ends';
  const work = days.tasks.map((t) => [clock(t.startAt), clock(t.endAt), t.slabName, t.name, t.hours]);
  const open = days.reopenings.flatMap((r) => [
    [clock(r.feetAt), '', r.slabName, 'feet, by estimate', 0],
    [clock(r.vehiclesAt), '', r.slabName, 'vehicles, by estimate', 0],
  ]);
  return { name: 'Days', columns, rows: [...work, ...open], totals: [] };
}

/** The order of rolling, one row a bay. */
export function rollingTable({ rollouts }: Results): Table {
  const rows = rollouts.flatMap((r) =>
    r.problem
      ? [[r.name, r.problem, 0, 0, 0, 0, 0, '']]
      : r.bays.map((b) => [
          r.name,
          `bay ${b.number}, off over ${r.exits.join(', ')}`,
          b.areaM2,
          b.cutInM,
          b.cutMin,
          b.rollMin,
          b.startMin,
          b.late ? 'two, and still late' : b.people === 2 ? 'one cuts in, one rolls' : 'one',
        ]),
  );
  return {
    name: 'Rolling',
    columns: [
      text('Slab'),
      text('Bay'),
      number('Area (m²)'),
      number('Cut in (m)'),
      number('Cutting in (min)', 0),
      number('Rolling (min)', 0),
      number('From minute', 0),
      text('People'),
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
    name: 'Order',
    columns: [
      text('Product'),
      text('Colour'),
      number('Needed (L)'),
      number('Pack (L)', 3),
      number('Packs', 0),
      text('Price of a pack'),
    ],
    rows,
    totals: [],
  };
}

/** What keeps anything from being ordered, in place of the table. */
const blockedTable = (name: string, order: Results['order']): Table => ({
  name,
  columns: [text('Nothing is to be ordered yet')],
  rows: order.blocks.map((b) => [b.sentence]),
  totals: [],
});

function priceOf(line: Results['order']['lines'][number], sizeL: number): string {
  const cents = line.offers.find((o) => o.sizeL === sizeL)?.priceCents ?? null;
  return cents === null ? '' : moneyText(cents);
}

/** Columns that are sizes of one thing do not add up. */
const NOT_SUMMED = /^(Nap|Wet film|Dry film|VOC|±)/;

function withTotals(name: string, rows: ReadonlyArray<readonly Cell[]>, columns: readonly Column[]): Table {
  const totals = columns.map((column, c): Cell => {
    if (c === 0) return 'Total';
    if (column.digits === null || NOT_SUMMED.test(column.heading)) return '';
    return rows.reduce((sum, row) => sum + Number(plain(row[c]!)), 0);
  });
  return { name, columns, rows, totals };
}
