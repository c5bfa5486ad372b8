import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { openTestDesk, station, storeOf, type TestDesk } from './desk.ts';

let desk: TestDesk;
beforeAll(async () => {
  desk = await openTestDesk();
}, 300_000);
afterAll(() => desk.close());

const open = async (page: Page) => {
  await page.goto(desk.url);
  await page.getByRole('button', { name: 'Select' }).waitFor();
  await station(page, 'Site');
};

const name = (page: Page) => page.getByLabel('Name of the job');
const note = (page: Page) => page.getByLabel('Notes from the site');

test('two tabs on one job see each other, and neither writes over what the other did', async () => {
  const context = await desk.browser.newContext({ viewport: { width: 1300, height: 850 } });
  const one = await context.newPage();
  await open(one);
  await name(one).fill('Yard');
  await one.getByText('Kept in this browser.', { exact: true }).waitFor();

  const two = await context.newPage();
  await open(two);
  await expect.poll(() => name(two).inputValue()).toBe('Yard');
  await note(two).fill('wet in the corner');
  await expect.poll(() => note(one).inputValue()).toBe('wet in the corner');
  await one.getByText('changed in another tab').waitFor();

  // Both at once, again and again: every price of either is there in the end, in both and after a reload.
  await Promise.all([station(one, 'Order'), station(two, 'Order')]);
  for (const page of [one, two]) await page.getByText('Prices of labour, travel and sundries').click();
  const fields = ['an hour of one person', 'a day’s journey'] as const;
  for (let i = 1; i <= 8; i++) {
    await Promise.all(
      [one, two].map(async (page, k) => {
        const field = page.getByLabel(fields[k]!);
        await field.fill(`${10 * i + k}.00`);
        await field.press('Enter');
      }),
    );
  }
  for (const page of [one, two]) {
    for (const [k, label] of fields.entries())
      await expect.poll(() => page.getByLabel(label).inputValue()).toBe(`${80 + k}.00`);
  }
  await one.reload();
  await station(one, 'Order');
  await one.getByText('Prices of labour, travel and sundries').click();
  for (const [k, label] of fields.entries())
    expect(await one.getByLabel(label).inputValue()).toBe(`${80 + k}.00`);
  await context.close();
}, 120_000);

test('what was done can be taken back after the page was left, and the day’s first state is opened beside it', async () => {
  const context = await desk.browser.newContext({ viewport: { width: 1300, height: 850 } });
  const page = await context.newPage();
  await open(page);
  const before = await name(page).inputValue();
  await name(page).fill('Renamed');
  await page.getByText('Kept in this browser.', { exact: true }).waitFor();
  await page.reload();
  await station(page, 'Site');
  expect(await name(page).inputValue()).toBe('Renamed');
  await page.getByRole('button', { name: 'Undo' }).click();
  await expect.poll(() => name(page).inputValue()).toBe(before);
  await page.getByText('Kept in this browser.', { exact: true }).waitFor();
  await page.reload();
  await station(page, 'Site');
  expect(await name(page).inputValue()).toBe(before);
  await page.getByRole('button', { name: 'Redo' }).click();
  await expect.poll(() => name(page).inputValue()).toBe('Renamed');
  await page.getByText('Kept in this browser.', { exact: true }).waitFor();

  await page.getByRole('button', { name: /^before the first change of/ }).click();
  await expect.poll(() => name(page).inputValue()).toMatch(/\(before \d{4}-\d\d-\d\d\)$/);
  await page.getByRole('button', { name: 'Renamed', exact: true }).click();
  await expect.poll(() => name(page).inputValue()).toBe('Renamed');
  await context.close();
}, 120_000);

test('a tab that slept while so much was done elsewhere that the log was cut has all of it when it wakes', async () => {
  const context = await desk.browser.newContext({ viewport: { width: 1300, height: 850 } });
  const one = await context.newPage();
  await open(one);
  await name(one).fill('Yard');
  await one.getByText('Kept in this browser.', { exact: true }).waitFor();
  const two = await context.newPage();
  await open(two);
  // More steps than a log may hold, as another tab would have added them, without telling anybody.
  await two.evaluate(async () => {
    const opened = indexedDB.open('slabwright');
    const db = await new Promise<IDBDatabase>((done) => {
      opened.onsuccess = () => done(opened.result);
    });
    const tx = db.transaction('log', 'readwrite');
    const log = tx.objectStore('log');
    const keys = log.getAllKeys();
    await new Promise((done) => {
      tx.oncomplete = done;
      keys.onsuccess = () => {
        const [id, last] = keys.result[keys.result.length - 1] as [string, number];
        for (let i = 1; i <= 1600; i++) {
          const edit = { type: 'rename-job', args: { name: `Yard ${i}`, note: '' } };
          log.put({ do: [edit], merge: null }, [id, last + i]);
        }
      };
    });
    db.close();
  });
  await two.reload();
  await station(two, 'Site');
  await expect.poll(() => name(two).inputValue()).toBe('Yard 1600');
  const begins = await (await storeOf(two, 'log')).evaluate(({ keys }) => (keys[0] as [string, number])[1]);
  expect(begins).toBeGreaterThan(1000);
  // The first tab knows nothing of it and goes on.
  await station(one, 'Order');
  await one.getByText('Prices of labour, travel and sundries').click();
  await one.getByLabel('an hour of one person').fill('61.00');
  await one.getByLabel('an hour of one person').press('Enter');
  await one.getByText('changed in another tab').waitFor();
  await station(one, 'Site');
  await expect.poll(() => name(one).inputValue()).toBe('Yard 1600');
  await one.getByText('Kept in this browser.', { exact: true }).waitFor();
  for (const page of [one, two]) {
    await page.reload();
    await station(page, 'Order');
    await page.getByText('Prices of labour, travel and sundries').click();
    await expect.poll(() => page.getByLabel('an hour of one person').inputValue()).toBe('61.00');
    await station(page, 'Site');
    expect(await name(page).inputValue()).toBe('Yard 1600');
  }
  await context.close();
}, 120_000);
