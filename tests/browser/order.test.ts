import { afterAll, beforeAll, expect, test } from 'vitest';
import { openPage, openTestDesk, station, type TestDesk } from './desk.ts';

let desk: TestDesk;
beforeAll(async () => {
  desk = await openTestDesk();
}, 300_000);
afterAll(() => desk.close());

test('from a refusal to an offer: question, reason, order, price, trial, reading, and the next job', async () => {
  const { page, said } = await openPage(desk);
  await station(page, 'Site');
  await page.getByRole('button', { name: 'A yard by tape alone' }).click();
  await page.getByText('Yard ready to coat').click();

  // Old paint that peels: nothing is ordered.
  await page
    .getByRole('group', { name: 'Old paint, cut crosswise and pulled with tape' })
    .getByLabel('peels beyond the cuts')
    .check();
  await page.getByText('The old paint does not hold').first().waitFor();
  await station(page, 'Order');
  await page.getByText('Nothing is to be ordered yet.').waitFor();
  expect(await page.getByText('There is no price: it should not be coated as it is.').count()).toBe(1);

  // A written reason lets it through, and shows wherever it matters.
  await station(page, 'Site');
  await page.getByText('Yard do not coat').waitFor();
  await page
    .getByLabel('Coat it all the same, because')
    .fill('One summer only, the yard is torn up in autumn.');
  await page.getByRole('button', { name: 'Coat it all the same' }).click();
  await station(page, 'Order');
  await page.getByText('One summer only').first().waitFor();
  const total = page.locator('.offer tfoot tr', { hasText: 'Total' }).locator('td');
  const before = Number(await total.innerText());
  expect(before).toBeGreaterThan(100);

  // A dearer hour makes a dearer offer, and its working goes down to what was entered.
  await page.getByText('Prices of labour, travel and sundries').click();
  await page.getByLabel('an hour of one person').fill('71.50');
  await page.keyboard.press('Enter');
  await expect.poll(async () => Number(await total.innerText())).toBeGreaterThan(before);
  await page.getByText(/solvent-borne, charcoal: chances/).click();
  expect(await page.getByRole('img', { name: /runs short in/ }).count()).toBe(1);

  // Paint used teaches the multiplier.
  await station(page, 'Coats');
  await page.getByLabel('Paint was used on').selectOption({ label: 'Yard, second coat' });
  await page.getByLabel('Paint used, without thinner').fill('12');
  await page.keyboard.press('Enter');
  await page.getByRole('button', { name: 'Write it down' }).click();
  await page.getByText('heavy broom, later coat: 12.00 L').waitFor();
  await page.getByRole('row', { name: /heavy broom, later coats/ }).waitFor();

  // A cold morning with dew on the slab.
  await station(page, 'Days');
  for (const [label, value] of [
    ['Air', '20'],
    ['Humidity', '70'],
    ['Slab', '17'],
  ] as const) {
    await page.getByLabel(label, { exact: true }).fill(value);
    await page.keyboard.press('Enter');
  }
  await page.getByRole('button', { name: 'Write it down' }).click();
  await page.getByText('dew would settle on it').waitFor();

  // The next job starts with the price and the trial.
  await station(page, 'Site');
  await page.getByRole('button', { name: 'New job' }).click();
  await station(page, 'Site');
  await page.reload();
  await page.getByRole('button', { name: 'Select' }).waitFor();
  await station(page, 'Site');
  await page.getByRole('button', { name: 'New job' }).click();
  await page.getByRole('button', { name: 'Blank grid' }).last().click();
  await page.waitForTimeout(400);
  const job = await page.evaluate(
    () =>
      new Promise<{ prices: Record<string, number>; trials: Record<string, { usedL: number }> }>((done) => {
        const open = indexedDB.open('slabwright');
        open.onsuccess = () => {
          const desk = open.result.transaction(['desk', 'jobs']);
          const id = desk.objectStore('desk').get('open');
          id.onsuccess = () => {
            const kept = desk.objectStore('jobs').get(id.result as string);
            kept.onsuccess = () => done(JSON.parse((kept.result as { text: string }).text).job);
          };
        };
      }),
  );
  expect(job.prices['labour.hour']).toBe(7150);
  expect(Object.values(job.trials).map((t) => t.usedL)).toEqual([12]);
  expect(said.filter((s) => /^(error|warning)/.test(s))).toEqual([]);
}, 120_000);
