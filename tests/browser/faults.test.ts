import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { openPage, openTestDesk, station, type TestDesk } from './desk.ts';

let desk: TestDesk;
beforeAll(async () => {
  desk = await openTestDesk();
}, 300_000);
afterAll(() => desk.close());

test('a fault of ours stays in its part of the page; the job can be saved, and shown again', async () => {
  const { page } = await openPage(desk);
  await page.evaluate(() => {
    const { toFixed } = Number.prototype;
    Number.prototype.toFixed = () => {
      throw new Error('made for this test');
    };
    setTimeout(() => {
      Number.prototype.toFixed = toFixed;
    }, 3000);
  });
  await station(page, 'Coats');
  await page.getByText('This is a fault of slabwright (made for this test).').first().waitFor();
  await page.getByRole('button', { name: 'Slab' }).waitFor();
  const saving = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Save to a file' }).first().click();
  const saved = JSON.parse(readFileSync(await (await saving).path(), 'utf8'));
  expect(Object.keys(saved.job.slabs)).toContain('courtyard');
  await page.waitForTimeout(3000);
  while (await page.getByRole('button', { name: 'Try again' }).count())
    await page.getByRole('button', { name: 'Try again' }).first().click();
  await page.getByRole('heading', { name: 'Totals by product' }).waitFor();
  await page.context().close();
}, 60_000);

test('a job of a newer version is shown, says so, is not changed, and is saved as it came', async () => {
  const { page, said } = await openPage(desk);
  const newer = JSON.parse(readFileSync('demo-plans/yard/job.json', 'utf8'));
  newer.job.schema = 99;
  newer.job.heating = { on: true };
  await station(page, 'Site');
  const choosing = page.waitForEvent('filechooser');
  await page.getByRole('button', { name: 'Open a job file' }).click();
  const buffer = Buffer.from(JSON.stringify(newer));
  await (await choosing).setFiles({ name: 'newer.json', mimeType: 'application/json', buffer });
  await page.getByText('newer.json was opened').waitFor();
  await page.getByLabel('Name of the job').fill('Changed');
  await page.getByText('can be looked at and saved as it is, not changed').waitFor();
  await station(page, 'Zones');
  await page.getByText('what only the newer one knows is missing from these numbers').waitFor();
  // Opened again after a reload, still as it came.
  await page.reload();
  await station(page, 'Site');
  expect(await page.getByLabel('Name of the job').inputValue()).toBe(newer.job.name);
  const saving = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Save to a file' }).click();
  const saved = JSON.parse(readFileSync(await (await saving).path(), 'utf8'));
  expect(saved.job).toEqual(newer.job);
  expect(said).toEqual([]);
  await page.context().close();
}, 60_000);
