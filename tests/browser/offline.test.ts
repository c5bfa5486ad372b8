import { statSync } from 'node:fs';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { openPage, openTestDesk, station, type TestDesk } from './desk.ts';

let desk: TestDesk;
beforeAll(async () => {
  desk = await openTestDesk();
}, 300_000);
afterAll(() => desk.close());

test('after the first visit everything works without a network: the demo, the papers, a phone picture’s decoder', async () => {
  const { page } = await openPage(desk);
  await page.evaluate(async () => {
    await navigator.serviceWorker.ready;
  });
  await page.context().setOffline(true);
  await page.reload();
  await page.getByRole('button', { name: 'Select', exact: true }).waitFor();
  await station(page, 'Papers');
  const writing = page.waitForEvent('download', { timeout: 60_000 });
  await page.getByRole('button', { name: 'Write the papers (PDF)' }).click();
  const pdf = await writing;
  expect(statSync(await pdf.path()).size).toBeGreaterThan(20_000);
  // Every script that is loaded only when it is needed lies in the cache.
  const missing = await page.evaluate(async () => {
    const cached = (
      await Promise.all((await caches.keys()).map(async (name) => (await caches.open(name)).keys()))
    ).flat();
    const names = cached.map((r) => new URL(r.url).pathname.split('/').pop() ?? '');
    return ['heic', 'pdfmake', 'exceljs', 'pdf.worker', 'DejaVuSans', 'plan-'].filter(
      (part) => !names.some((name) => name.startsWith(part)),
    );
  });
  expect(missing).toEqual([]);
  await page.context().close();
}, 120_000);

test('the browser finds nothing that keeps it from being installed', async () => {
  const { page } = await openPage(desk);
  await page.evaluate(async () => {
    await navigator.serviceWorker.ready;
  });
  const session = await page.context().newCDPSession(page);
  const { installabilityErrors } = await session.send('Page.getInstallabilityErrors');
  expect(installabilityErrors.filter((e) => e.errorId !== 'in-incognito')).toEqual([]);
  const { errors, data } = await session.send('Page.getAppManifest');
  expect(errors).toEqual([]);
  expect(JSON.parse(data ?? '{}').file_handlers[0].accept['application/json']).toEqual(['.json']);
  await page.context().close();
}, 60_000);
