import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { openTestDesk, station, type TestDesk } from './desk.ts';

let desk: TestDesk;
beforeAll(async () => {
  desk = await openTestDesk();
}, 300_000);
afterAll(() => desk.close());

const name = (page: Page) => page.getByLabel('Name of the job');
const kept = (page: Page) => page.getByText('Kept in this browser.', { exact: true }).waitFor();

/** The table of zones, as text. */
async function zonesOf(page: Page): Promise<string> {
  await station(page, 'Zones');
  const text = (await page.getByRole('table').first().innerText()).trim();
  await station(page, 'Site');
  return text;
}

/** Throws the database away while no page of the desk is open, as a browser does that finds it damaged. */
async function loseDatabase(page: Page): Promise<void> {
  await page.goto(`${desk.url}icon.svg`);
  const outcome = await page.evaluate(
    () =>
      new Promise((resolve) => {
        const gone = indexedDB.deleteDatabase('slabwright');
        gone.onsuccess = () => resolve('gone');
        gone.onerror = () => resolve('still there');
        gone.onblocked = () => resolve('blocked');
      }),
  );
  expect(outcome).toBe('gone');
}

async function atDesk(page: Page): Promise<void> {
  await page.goto(desk.url);
  await page.getByRole('button', { name: 'Select' }).waitFor();
  await station(page, 'Site');
}

test('when the browser has lost its database, the jobs come back from the second copy with the way back', async () => {
  const context = await desk.browser.newContext({ viewport: { width: 1300, height: 850 } });
  const page = await context.newPage();
  await atDesk(page);
  await name(page).fill('Yard of the first');
  await kept(page);
  const zones = await zonesOf(page);
  expect(zones).toContain('Vehicle bay');
  await page.getByRole('button', { name: 'New job' }).first().click();
  await station(page, 'Site');
  await name(page).fill('Path of the second');
  await name(page).press('Enter');
  await kept(page);
  await page.waitForTimeout(300);
  await loseDatabase(page);

  await atDesk(page);
  await page.getByText(/“(Yard|Path).*”, “(Yard|Path).*” came back from a second copy/).waitFor();
  expect(await name(page).inputValue()).toBe('Path of the second');
  await page.getByRole('button', { name: 'Yard of the first', exact: true }).click();
  await expect.poll(() => name(page).inputValue()).toBe('Yard of the first');
  expect(await zonesOf(page)).toBe(zones);
  await page.getByRole('button', { name: 'Undo' }).click();
  await expect.poll(() => name(page).inputValue()).not.toBe('Yard of the first');
  await page.getByRole('button', { name: 'Redo' }).click();
  await expect.poll(() => name(page).inputValue()).toBe('Yard of the first');
  await kept(page);

  // They are in the database now: nothing is brought back twice.
  await atDesk(page);
  expect(await name(page).inputValue()).toBe('Yard of the first');
  expect(await page.getByText('came back from a second copy').count()).toBe(0);
  await context.close();
}, 120_000);

/** What lies in the second store, and the first's jobs made as the first version of the database had them. */
const secondStore = (page: Page, empty: boolean) =>
  page.evaluate(async (emptied) => {
    const opened = (indexed: IDBFactory) =>
      new Promise<IDBDatabase>((resolve, reject) => {
        const request = indexed.open('slabwright');
        request.onsuccess = () => resolve(request.result);
        request.onerror = () => reject(request.error);
      });
    const asked = <T>(request: IDBRequest<T>) =>
      new Promise<T>((resolve) => {
        request.onsuccess = () => resolve(request.result);
      });
    const { storageBuckets } = navigator as unknown as {
      storageBuckets: { open(name: string): Promise<{ indexedDB: IDBFactory }> };
    };
    const second = await opened((await storageBuckets.open('second')).indexedDB);
    const names = [...second.objectStoreNames];
    const count = async () =>
      Object.fromEntries(
        await Promise.all(
          names.map(async (n) => [n, await asked(second.transaction(n).objectStore(n).count())]),
        ),
      ) as Record<string, number>;
    if (emptied) {
      for (const n of names) await asked(second.transaction(n, 'readwrite').objectStore(n).clear());
      const first = await opened(indexedDB);
      const jobs = first.transaction('jobs', 'readwrite').objectStore('jobs');
      for (const id of await asked(jobs.getAllKeys())) {
        const { seq: _, ...old } = await asked(jobs.get(id));
        await asked(jobs.put(old, id));
      }
      first.close();
    }
    const found = await count();
    second.close();
    return found;
  }, empty);

test('the second store is filled again after it was lost, with jobs of the first version of the database too', async () => {
  const context = await desk.browser.newContext({ viewport: { width: 1300, height: 850 } });
  const page = await context.newPage();
  await atDesk(page);
  await name(page).fill('An old yard');
  await kept(page);
  await expect.poll(async () => (await secondStore(page, false)).log).toBeGreaterThan(0);
  await page.goto(`${desk.url}icon-192.png`);
  expect((await secondStore(page, true)).jobs).toBe(0);
  await atDesk(page);
  await expect.poll(() => secondStore(page, false)).toMatchObject({ jobs: 1, titles: 1, versions: 1 });
  expect((await secondStore(page, false)).images).toBeGreaterThan(0);
  expect(await page.getByText('came back from a second copy').count()).toBe(0);
  // And what is changed from then on is copied as before.
  const steps = (await secondStore(page, false)).log!;
  await name(page).fill('An older yard');
  await expect.poll(async () => (await secondStore(page, false)).log).toBeGreaterThan(steps);
  await context.close();
}, 60_000);
