import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { openPage, openTestDesk, station, type TestDesk } from './desk.ts';

let desk: TestDesk;
beforeAll(async () => {
  desk = await openTestDesk();
}, 300_000);
afterAll(() => desk.close());

/** A new job with a slab of its own, by two taps. */
async function oneSlab(page: Page): Promise<void> {
  await station(page, 'Site');
  await page.getByRole('button', { name: 'New job' }).first().click();
  await page.getByRole('button', { name: 'Blank grid' }).last().click();
  await page.waitForTimeout(300);
  await page.getByRole('button', { name: 'Rectangle' }).click();
  const box = (await page.locator('.board').boundingBox())!;
  await page.mouse.click(box.x + 200, box.y + 200);
  await page.waitForTimeout(80);
  await page.mouse.click(box.x + 400, box.y + 350);
  await page.waitForTimeout(200);
}

test('what comes next is said once, and leads to where it is done', async () => {
  const { page, said } = await openPage(desk);
  await station(page, 'Site');
  await page.getByRole('button', { name: 'New job' }).first().click();
  await page.getByText('Open a photo or plan to trace over, or begin on a blank grid').waitFor();
  expect(await page.getByText('There is no slab yet').count()).toBe(0);
  await oneSlab(page);
  await page.getByText('Say how the concrete of “Slab 1” is').waitFor();
  expect(await page.getByText('Nobody has said yet').count()).toBe(0);
  await page.getByRole('button', { name: 'Go there' }).click();
  const age = page.getByLabel('Age of the concrete');
  await age.waitFor();
  expect(await page.evaluate(() => document.activeElement?.textContent)).toContain('Slab 1');

  // A number that is entered is typed over; the mouse may still put the caret into it.
  await age.fill('30');
  await age.press('Enter');
  await age.blur();
  await age.focus();
  await page.keyboard.type('45');
  expect(await age.inputValue()).toBe('45');
  await age.press('Enter');

  // A second new job has a name of its own.
  await expect.poll(() => page.getByText('Kept in this browser.', { exact: true }).count()).toBe(1);
  await page.getByRole('button', { name: 'New job' }).first().click();
  await station(page, 'Site');
  await expect.poll(() => page.getByLabel('Name of the job').inputValue()).toMatch(/^New job \d$/);
  expect(said).toEqual([]);
  await page.context().close();
}, 90_000);

test('a dialog closes by a click beside it, not by a text that was selected beyond its edge', async () => {
  const { page, said } = await openPage(desk);
  await page.getByRole('button', { name: 'Commands' }).click();
  const list = page.getByRole('dialog', { name: 'Commands' });
  await list.waitFor();
  const box = (await list.boundingBox())!;
  await page.mouse.move(box.x + 100, box.y + 40);
  await page.mouse.down();
  await page.mouse.move(box.x - 60, box.y + 40, { steps: 4 });
  await page.mouse.up();
  expect(await list.isVisible()).toBe(true);
  await page.mouse.click(box.x - 60, box.y + 40);
  await list.waitFor({ state: 'hidden' });
  expect(said).toEqual([]);
  await page.context().close();
}, 60_000);

test('of a shape with two sizes the second is asked for once the first is entered, and leaving a field leads nowhere', async () => {
  const { page, said } = await openPage(desk);
  await station(page, 'Site');
  await page.getByRole('button', { name: 'New job' }).first().click();
  await page.getByRole('button', { name: 'Blank grid' }).last().click();
  await page.waitForTimeout(300);
  await page.getByRole('button', { name: 'Rectangle' }).click();
  const box = (await page.locator('.board').boundingBox())!;
  await page.mouse.click(box.x + 200, box.y + 200);
  await page.mouse.move(box.x + 300, box.y + 300);
  const fields = page.locator('.entries input');
  await expect.poll(() => fields.count()).toBe(2);
  await fields.nth(0).fill('4');
  await fields.nth(0).press('Enter');
  await expect.poll(() => fields.nth(1).evaluate((f) => f === document.activeElement)).toBe(true);
  await fields.nth(0).fill('5');
  await station(page, 'Site');
  await page.getByLabel('Name of the job').click();
  await page.waitForTimeout(200);
  expect(await page.getByLabel('Name of the job').evaluate((f) => f === document.activeElement)).toBe(true);
  expect(said).toEqual([]);
  await page.context().close();
}, 60_000);

test('hours that are over say so, and their place stands in the fields without going before another file’s', async () => {
  const { page, said } = await openPage(desk);
  await oneSlab(page);
  await station(page, 'Days');
  await page.getByText('Paste it, or say where it is').click();
  const latitude = page.getByLabel('Latitude, north positive');
  await latitude.fill('-37');
  await latitude.press('Enter');
  await page.getByLabel('Longitude, east positive').fill('144');
  await page.getByLabel('Longitude, east positive').press('Enter');
  const hours = (day: string) =>
    [
      'time, temperature (°C), relative humidity (%), wind speed (km/h)',
      ...Array.from({ length: 24 }, (_, h) => `${day}T${String(h).padStart(2, '0')}:00, 18, 60, 5`),
    ].join('\n');
  const take = async (day: string) => {
    await page.getByLabel('Hours, one a line, with a heading').fill(hours(day));
    await page.getByRole('button', { name: 'Take these hours' }).click();
  };
  await take('2026-03-14');
  await page.getByText('These hours end on 2026-03-14, before today').waitFor();
  await take('2099-03-14');
  await page.getByText('from 2099-03-14').waitFor();
  expect(await page.getByText('before today').count()).toBe(0);
  // Left and come back to, the fields show where the weather in hand is of.
  await station(page, 'Site');
  await station(page, 'Days');
  await page.getByText('Paste it, or say where it is').click();
  expect(await latitude.inputValue()).toBe('-37');
  expect(await page.getByLabel('Clock ahead of UTC').inputValue()).toBe('10');
  expect(said).toEqual([]);
  await page.context().close();
}, 60_000);

test('a drawer that was opened stands open when one comes back to its station, one that was closed stays closed', async () => {
  const { page, said } = await openPage(desk);
  await station(page, 'Order');
  const drawer = page.locator('details', { has: page.getByText('Task by task') });
  const prices = page.locator('details', { has: page.getByText('Prices of labour, travel and sundries') });
  const isOpen = (of: typeof drawer) => of.evaluate((d) => (d as HTMLDetailsElement).open);
  expect(await isOpen(drawer)).toBe(false);
  await drawer.locator('summary').click();
  if (!(await isOpen(prices))) await prices.locator('summary').click();
  await prices.locator('summary').click();
  await station(page, 'Site');
  expect(await drawer.count()).toBe(0);
  await station(page, 'Order');
  await expect.poll(() => isOpen(drawer)).toBe(true);
  expect(await isOpen(prices)).toBe(false);
  expect(said).toEqual([]);
  await page.context().close();
}, 60_000);
