import { readdirSync, readFileSync } from 'node:fs';
import { afterEach, expect, test, vi } from 'vitest';
import { installed, recalculated } from '../office.ts';

afterEach(() => {
  vi.unstubAllEnvs();
  vi.resetModules();
});

/** What the program is in a terminal of some locale. */
async function inLocale<T>(locale: Readonly<Record<string, string>>, load: () => Promise<T>): Promise<T> {
  for (const name of ['LC_ALL', 'LC_MESSAGES', 'LANG']) vi.stubEnv(name, locale[name] ?? '');
  vi.resetModules();
  return load();
}

// POSIX, environment variables of internationalization: LC_ALL goes before LC_MESSAGES, that before LANG; from memory.
test.each([
  [{ LANG: 'es_MX.UTF-8' }, 'es'],
  [{ LANG: 'es_MX.UTF-8', LC_MESSAGES: 'en_US.UTF-8' }, 'en'],
  [{ LANG: 'en_US.UTF-8', LC_MESSAGES: 'fr_FR', LC_ALL: 'es' }, 'es'],
  [{ LANG: 'de_DE.UTF-8' }, 'en'],
  [{ LC_ALL: 'C', LANG: 'es_ES' }, 'en'],
  [{}, 'en'],
])('a command in the locale %o speaks %s', async (locale, expected) => {
  const { language } = await inLocale(locale, () => import('../../src/words/language.ts'));
  expect(language).toBe(expected);
});

test('values stand where the other language wants them, and what is unknown stays English', async () => {
  const { tr, partsOf } = await inLocale({ LANG: 'es' }, () => import('../../src/words/tr.ts'));
  expect(tr`The ${'drenaje'} “${'D 1'}”`).toBe('“D 1” (drenaje)');
  expect(tr`Nothing has ${2} of this ${'yet'}.`).toBe('Nothing has 2 of this yet.');
  const pieces = (english: TemplateStringsArray, ...values: readonly object[]) => partsOf(english, values);
  const link = { href: 'x' };
  expect(pieces`Texture depth ${link} mm.`).toEqual(['Profundidad de textura ', link, ' mm.']);
});

/** Every number in some data, by where it stands. */
function numbersIn(value: unknown, path = ''): string[] {
  if (typeof value === 'number') return [`${path} ${value}`];
  if (Array.isArray(value)) return value.flatMap((v, i) => numbersIn(v, `${path}.${i}`));
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, v]) => numbersIn(v, `${path}.${key}`));
}

const jobs = readdirSync('demo-plans').flatMap((name) => {
  try {
    return [[name, readFileSync(`demo-plans/${name}/job.json`, 'utf8')] as const];
  } catch {
    return [];
  }
});

test.each(jobs)(
  'no number of a table, its sums and the workbook’s cells depends on the language: %s',
  async (name, text) => {
    const numbers = async (locale: string) =>
      inLocale({ LANG: locale }, async () => {
        const { readJobFile } = await import('../../src/job/file.ts');
        const { results } = await import('../../src/results.ts');
        const tables = await import('../../src/exports/table.ts');
        const { workbookBytes } = await import('../../src/exports/workbook/book.ts');
        const { default: Excel } = await import('exceljs');
        const file = readJobFile(text, 'job');
        if (!file.ok) throw new Error('the demo job cannot be read');
        const all = results(file.value.job);
        const written = [
          tables.takeoffTable,
          tables.coatsTable,
          tables.materialsTable,
          tables.priceTable,
          tables.orderTable,
        ].flatMap((make) => {
          const { rows, totals } = make(all);
          return [...rows, totals].map((row) => row.map(tables.plain).filter((v) => typeof v === 'number'));
        });
        if (name !== 'workshop') return written;
        const book = new Excel.Workbook();
        await book.xlsx.load(Buffer.from(await workbookBytes(all)) as never);
        book.eachSheet((sheet) =>
          sheet.eachRow((row) =>
            row.eachCell((cell) => {
              if (typeof cell.value === 'number') written.push([cell.value]);
              else if (typeof cell.result === 'number') written.push([cell.result]);
            }),
          ),
        );
        return written;
      });
    const english = await numbers('en');
    expect(english.flat().length).toBeGreaterThan(20);
    expect(await numbers('es')).toEqual(english);
  },
);

test.each(jobs)('no number of the demo job %s depends on the language', async (_, text) => {
  const numbers = async (locale: string) =>
    inLocale({ LANG: locale }, async () => {
      const { readJobFile } = await import('../../src/job/file.ts');
      const { results } = await import('../../src/results.ts');
      const { resultsJson } = await import('../../src/exports/json.ts');
      const file = readJobFile(text, 'job');
      if (!file.ok) throw new Error('the demo job cannot be read');
      return numbersIn(resultsJson(results(file.value.job)));
    });
  const english = await numbers('en');
  expect(english.length).toBeGreaterThan(100);
  expect(await numbers('es')).toEqual(english);
});

test.skipIf(!installed('soffice'))(
  'the workbook’s sheets are called by words of the language, and an office program works its formulas out over them',
  async () => {
    const written = await inLocale({ LANG: 'es' }, async () => {
      const { readJobFile } = await import('../../src/job/file.ts');
      const { results } = await import('../../src/results.ts');
      const { workbookBytes } = await import('../../src/exports/workbook/book.ts');
      const file = readJobFile(jobs.find(([name]) => name === 'workshop')![1], 'job');
      if (!file.ok) throw new Error('the demo job cannot be read');
      return workbookBytes(results(file.value.job));
    });
    const { default: Excel } = await import('exceljs');
    const cellsOf = async (bytes: Uint8Array) => {
      const book = new Excel.Workbook();
      await book.xlsx.load(Buffer.from(bytes) as never);
      const cells = new Map<string, number>();
      book.eachSheet((sheet) =>
        sheet.eachRow((row) =>
          row.eachCell((cell) => {
            const value = typeof cell.value === 'number' ? cell.value : cell.result;
            if (typeof value === 'number') cells.set(`${sheet.name} ${cell.address}`, value);
          }),
        ),
      );
      return { names: book.worksheets.map((s) => s.name), cells };
    };
    const wanted = await cellsOf(written);
    expect(wanted.names.slice(0, 5)).toEqual(['Acerca de', 'Medición', 'Manos', 'Materiales', 'Pedido']);
    const found = await cellsOf(recalculated({ libro: written }).libro!);
    expect(found.names).toEqual(wanted.names);
    expect(wanted.cells.size).toBeGreaterThan(500);
    for (const [place, value] of wanted.cells)
      expect(Math.abs(found.cells.get(place)! - value), place).toBeLessThanOrEqual(
        1e-9 * Math.max(1, Math.abs(value)),
      );
  },
  60_000,
);
