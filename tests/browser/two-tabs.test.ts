import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { openTestDesk, station, type TestDesk } from './desk.ts';

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
