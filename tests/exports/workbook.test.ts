import exceljs from 'exceljs';
import { readSheet } from 'read-excel-file/node';
import { describe, expect, test } from 'vitest';
import { spreadsheetFormula } from '../../src/exports/workbook/spreadsheet-formula.ts';
import type { Job } from '../../src/job/types.ts';
import { cheapestChoices, cheapestPacks } from '../../src/order/packs.ts';
import { results } from '../../src/results.ts';
import { allFormulas } from '../../src/working/formula.ts';
import { edited, oneSlab } from '../coating/scene.ts';
import { installed, recalculated } from '../office.ts';
import { DEMOS, demo, exported } from './scene.ts';

const workbook = (job: Job): Promise<Uint8Array> => exported(job, 'xlsx');

/** The workbook with some values of the sheet Rates changed, by their names in formulas, as a person would. */
async function withRates(book: Uint8Array, changes: Readonly<Record<string, number>>): Promise<Uint8Array> {
  const open = new exceljs.Workbook();
  await open.xlsx.load(Buffer.from(book) as never);
  const rates = open.getWorksheet('Rates')!;
  const left = new Set(Object.keys(changes));
  rates.eachRow((row) => {
    const name = String(row.getCell(7).value);
    if (!left.delete(name)) return;
    row.getCell(3).value = changes[name]!;
  });
  expect([...left]).toEqual([]);
  return new Uint8Array(await open.xlsx.writeBuffer());
}

/** Which row of the table of packs was taken: the table begins elsewhere for another need. */
const rows = new Set(['Order Choice in the table of packs']);

const FIGURES = ['Takeoff', 'Coats', 'Materials', 'Order', 'Hours', 'Price'];

/** Every number on the sheets that people use is the same to 1e-9 of its size; how many there were. */
async function sameFigures(
  wanted: Uint8Array,
  found: Uint8Array,
  sheets: readonly string[],
): Promise<number> {
  let count = 0;
  for (const name of sheets) {
    const [a, b] = await Promise.all([wanted, found].map((f) => readSheet(Buffer.from(f), name)));
    a!.forEach((row, i) => {
      row.forEach((value, j) => {
        if (typeof value !== 'number' || rows.has(`${name} ${a![0]![j]}`)) return;
        count++;
        const other = b![i]?.[j];
        const where = `${name}, row ${i + 1}, column ${j + 1}: ${value} and ${other}`;
        expect(typeof other, where).toBe('number');
        expect(Math.abs((other as number) - value), where).toBeLessThanOrEqual(
          1e-9 * Math.max(1, Math.abs(value)),
        );
      });
    });
  }
  return count;
}

/** One change of each kind that a person may make: a multiplier, a film, thinning, a chance, money, hours, etch, spreads. */
const CHANGES: Readonly<Record<string, Readonly<Record<string, number>>>> = {
  multiplier: { 'texture.light-broom.first': 1.9 },
  chance: { 'order.chance': 1, 'order.reserve': 1.25 },
  spreads: { 'texture.light-broom.spread': 0.35, 'order.zone-spread': 0.2 },
  loss: { 'loss.rough': 0.2, 'loss.smooth': 0.15, 'loss.dead-volume': 120 },
  etch: { 'etch.coverage': 7, 'etch.water': 12 },
  hours: { 'work.wash': 25, 'work.crew': 3, 'work.travel': 1.5, 'texture.light-broom.roll': 20 },
  margin: { 'price.margin': 33.5 },
  'a day that is all travel': { 'work.travel': 8 },
};

const nameInFormulas = (key: string): string => `rate_${key.replace(/[^A-Za-z0-9]+/g, '_')}`;

/** Laws' ways with fractions of a cent, line by line and in all. */
const TAXES = [
  { ruleId: 'uk-vat', ratePct: 20, per: 'total', on: 'all' },
  { ruleId: 'nz-gst', ratePct: 15, per: 'line', on: 'all' },
  { ruleId: 'us-sales', ratePct: 8.875, per: 'total', on: 'materials' },
] as const;

describe.skipIf(!installed('soffice'))('an office program that shares nothing with the tool', () => {
  test('works every figure of the demo jobs out anew and comes to the same; and follows values that are changed', async () => {
    const base = await workbook(demo('workshop'));
    const files: Record<string, Uint8Array> = { workshop: base };
    const wanted: Record<string, Uint8Array> = { workshop: base };
    for (const name of DEMOS.slice(1)) wanted[name] = files[name] = await workbook(demo(name));
    for (const [kind, values] of Object.entries(CHANGES)) {
      const renamed = Object.fromEntries(Object.entries(values).map(([k, v]) => [nameInFormulas(k), v]));
      files[kind] = await withRates(base, renamed);
      const job = demo('workshop');
      wanted[kind] = await workbook({ ...job, values: { ...job.values, ...values } });
    }
    for (const tax of TAXES) {
      const job = demo('yard');
      wanted[tax.ruleId] = files[tax.ruleId] = await workbook({ ...job, settings: { ...job.settings, tax } });
    }
    // Nothing has a price; all but the tape has; a size that is not bought has none.
    const yard = demo('yard');
    const { tape: _, ...noTape } = yard.prices!;
    const sizes = [...yard.packs!['solvent-borne-paint']!, { sizeL: 200, priceCents: null }];
    for (const [name, change] of Object.entries({
      'no prices': { prices: {}, packs: {} },
      'no tape': { prices: noTape },
      'nothing to pay for the way': {
        prices: { ...yard.prices, 'travel.day': 0 },
        settings: { ...yard.settings, tax: TAXES[1] },
      },
      'in feet and gallons': { settings: { ...yard.settings, units: 'us' as const }, packs: {} },
      'by percentage': { settings: { ...yard.settings, orderBy: 'percent' as const } },
      'a size without price': { packs: { ...yard.packs, 'solvent-borne-paint': sizes } },
    })) {
      wanted[name] = files[name] = await workbook({ ...yard, ...change });
    }
    const out = recalculated(files);
    for (const name of Object.keys(files)) {
      const whole = !(name in CHANGES);
      const sheets = whole ? [...FIGURES, 'Rates', 'Working', 'Risk'] : FIGURES;
      expect(await sameFigures(wanted[name]!, out[name]!, sheets), name).toBeGreaterThan(100);
    }
    // A change that changed nothing would prove nothing.
    for (const kind of Object.keys(CHANGES)) {
      await expect(sameFigures(base, out[kind]!, FIGURES), kind).rejects.toThrow();
    }
  }, 300_000);
});

test('the offer on the sheet is the tool’s, to the cent', async () => {
  for (const name of DEMOS) {
    const { offer } = results(demo(name)).quote;
    const rows = await readSheet(Buffer.from(await workbook(demo(name))), 'Price');
    if (offer) expect(rows.find((r) => r[1] === 'Total')![5]).toBe(offer.totalCents / 100);
    else expect(rows.find((r) => r[0] === 'missing')![2]).toBeGreaterThan(0);
  }
});

test('a choice from the table of packs is the cheapest for every need, priced or not, and not only at its ends', () => {
  const metric = [
    { sizeL: 1, priceCents: 2100 },
    { sizeL: 4, priceCents: 6400 },
    { sizeL: 10, priceCents: 13900 },
    { sizeL: 15, priceCents: 19900 },
  ];
  const us = [0.946, 3.785, 18.927].map((sizeL, i) => ({ sizeL, priceCents: [2900, 7900, 32900][i]! }));
  const bare = us.map((o) => ({ ...o, priceCents: null }));
  for (const offers of [metric, us, bare]) {
    for (const [low, high] of [
      [0, 60],
      [40, 200],
    ] as const) {
      const choices = cheapestChoices(low, high, offers);
      expect(choices[choices.length - 1]!.boughtL).toBeGreaterThanOrEqual(high);
      for (let need = low + 0.013; need < high; need += 1.137) {
        const picked = choices.find((c) => c.boughtL >= need - 1e-9)!;
        const best = cheapestPacks(need, offers)!;
        expect([picked.costCents, picked.boughtL, picked.packs]).toEqual([
          best.costCents,
          best.boughtL,
          best.packs,
        ]);
      }
    }
  }
});

test('every formula of the tool can be said in the language of spreadsheets', () => {
  for (const f of allFormulas())
    expect(
      spreadsheetFormula(f.text, () => 'A1'),
      f.text,
    ).not.toBe('');
  expect(spreadsheetFormula('-x^2 + ceil(a / (b - c))', (s) => s.toUpperCase())).toBe(
    '0-POWER(X,2)+ROUNDUP(ROUND((A/(B-C)),9),0)',
  );
  expect(() => spreadsheetFormula('sin(x)', (s) => s)).toThrow('sin');
});

test('names with signs that begin formulas are text in the workbook, whatever they are', async () => {
  const names = ['=1+1', '+a', '-b', '@c', '\tx', '"quoted", \'too\'', 'شارع 7 🚧', 'x'.repeat(400)];
  let job = oneSlab();
  job = edited(job, { type: 'update-slab', args: { slabId: 'a', name: '=HYPERLINK("x")' } });
  for (const name of names) {
    const made = await workbook({ ...job, slabs: { a: { ...job.slabs.a!, name } } });
    const book = new exceljs.Workbook();
    await book.xlsx.load(Buffer.from(made) as never);
    const cell = book.getWorksheet('Takeoff')!.getCell('B2');
    expect(cell.type).toBe(exceljs.ValueType.String);
    expect(cell.value).toBe(name);
    for (const sheet of book.worksheets) {
      sheet.eachRow((row) => {
        row.eachCell((c) => {
          if (c.formula) expect(c.formula).not.toMatch(/HYPERLINK|^1\+1|cmd/i);
        });
      });
    }
  }
});

test('sheets can be printed: a heading on each page, an area, a width; and the cells for changing are named', async () => {
  const book = new exceljs.Workbook();
  await book.xlsx.load(Buffer.from(await workbook(demo('workshop'))) as never);
  expect(book.worksheets.map((s) => s.name)).toEqual(
    'About Takeoff Coats Materials Order Hours Price Rates Working Risk Packs Scope Days Rolling'.split(' '),
  );
  for (const sheet of book.worksheets) {
    expect(sheet.views[0]).toMatchObject({ state: 'frozen', ySplit: 1 });
    expect(sheet.pageSetup).toMatchObject({ printTitlesRow: '1:1', fitToWidth: 1, fitToHeight: 0 });
    expect(sheet.pageSetup.printArea).toMatch(/^A1:[A-Z]+\d+$/);
  }
  const named = book.definedNames.model.map((n) => n.name);
  for (const name of ['Area_net', 'Offer_total', 'Hours_paid', 'rate_order_chance'])
    expect(named).toContain(name);
  expect(new Set(named.map((n) => n.toLowerCase())).size).toBe(named.length);
});
