import { readFileSync } from 'node:fs';
import sharp from 'sharp';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { openPage, openTestDesk, station, type TestDesk } from './desk.ts';

let desk: TestDesk;
beforeAll(async () => {
  desk = await openTestDesk();
}, 300_000);
afterAll(() => desk.close());

/** How many pixels of a board are the colour of fresh paint. */
async function wetPixels(shot: Buffer): Promise<number> {
  const { data, info } = await sharp(shot).removeAlpha().raw().toBuffer({ resolveWithObject: true });
  let n = 0;
  for (let i = 0; i < info.width * info.height; i++) {
    const [r, g, b] = [data[3 * i]!, data[3 * i + 1]!, data[3 * i + 2]!];
    if (Math.abs(r - 0x6f) < 6 && Math.abs(g - 0xb0) < 6 && Math.abs(b - 0xa8) < 6) n++;
  }
  return n;
}

test('weather from a file, the plan in it, and the order of rolling played on the board', async () => {
  const { page, said } = await openPage(desk);
  await station(page, 'Site');
  await page.getByRole('button', { name: 'A yard by tape alone' }).click();
  await station(page, 'Days');
  await page.getByText('nothing is fetched').waitFor();

  // A file that does not say where it is asks for the place; with it the plan is there.
  const weather = {
    name: 'week.csv',
    mimeType: 'text/csv',
    buffer: readFileSync('demo-plans/workshop/weather.csv'),
  };
  const open = async () => {
    const chooser = page.waitForEvent('filechooser');
    await page.getByRole('button', { name: 'Open weather' }).click();
    await (await chooser).setFiles(weather);
  };
  await open();
  await page.getByText('does not say where its weather is').waitFor();
  await page.getByText('Paste it, or say where it is').click();
  for (const [label, value] of [
    ['Latitude, north positive', '-37.6'],
    ['Longitude, east positive', '144.6'],
    ['Clock ahead of UTC', '10'],
  ] as const) {
    await page.getByLabel(label).fill(value);
    await page.keyboard.press('Enter');
  }
  await open();
  await page.getByText('no other order of these pieces of work ends earlier').waitFor();
  expect(await page.getByRole('row', { name: /Yard: second coat/ }).count()).toBe(1);
  await page
    .getByText(/^(too near the dew point|dew before it is dry)$/)
    .first()
    .waitFor();
  expect(await page.getByRole('img', { name: /2026-03-10: .*dew/ }).count()).toBeGreaterThan(0);

  // Rolling: more paint lies on the board with every step, and at the end on all of it.
  await page.getByLabel('Show on the board').selectOption({ label: 'Yard' });
  const scrub = page.getByLabel('Bay being rolled');
  const last = Number(await scrub.getAttribute('max'));
  const wet: number[] = [];
  for (const step of [0, 3, 6, last]) {
    await scrub.fill(String(step));
    await page.waitForTimeout(200);
    wet.push(await wetPixels(await page.locator('.board').screenshot()));
  }
  expect(wet[0]).toBe(0);
  for (let i = 1; i < wet.length; i++) expect(wet[i]).toBeGreaterThan(wet[i - 1]! + 200);

  // A way out is marked in the slab's form, and the order follows.
  await station(page, 'Zones');
  await page.getByRole('button', { name: 'Yard', exact: true }).click();
  await page.getByRole('button', { name: '+ way out' }).nth(4).click();
  await page.getByRole('button', { name: 'way out ✓' }).waitFor();
  await station(page, 'Days');
  await page.getByText('off over side 5').waitFor();
  await page.getByRole('button', { name: 'Play' }).click();
  await expect.poll(() => scrub.inputValue(), { timeout: 8000 }).not.toBe(String(last));
  expect(said.filter((s) => /^(error|warning)/.test(s))).toEqual([]);
}, 120_000);
