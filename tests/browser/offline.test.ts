import { statSync } from 'node:fs';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import sharp from 'sharp';
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
    return ['photo-worker', 'libheif', 'pdfmake', 'exceljs', 'pdf.worker', 'DejaVuSans', 'plan-'].filter(
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
  expect(JSON.parse(data ?? '{}').share_target.params.files[0].accept).toContain('image/jpeg');
  expect(JSON.parse(data ?? '{}').file_handlers[0].accept['application/json']).toEqual(['.json']);
  await page.context().close();
}, 60_000);

test('a photo that another application shares is offered, and opened only when asked', async () => {
  const { page, said } = await openPage(desk);
  await page.evaluate(async () => {
    await navigator.serviceWorker.ready;
  });
  // The system sends what is shared as this form does.
  const form = `<form method="post" enctype="multipart/form-data" action="${desk.url}shared">
    <input type="file" name="files" multiple><button>Share</button></form>`;
  const other = createServer((_, answer) => answer.setHeader('content-type', 'text/html').end(form));
  await new Promise<void>((resolve) => other.listen(0, '127.0.0.1', resolve));
  await page.goto(`http://127.0.0.1:${(other.address() as AddressInfo).port}/`);
  const buffer = await sharp({ create: { width: 800, height: 600, channels: 3, background: '#8a5' } })
    .jpeg()
    .toBuffer();
  await page.locator('input').setInputFiles({ name: 'yard at noon.jpg', mimeType: 'image/jpeg', buffer });
  await page.getByRole('button', { name: 'Share' }).click();
  await page.getByText('yard at noon.jpg came from another application').waitFor();
  expect(page.url()).toBe(desk.url);
  await station(page, 'Measure');
  const sheets = page.getByRole('button', { name: 'yard at noon', exact: true });
  expect(await sheets.count()).toBe(0);
  await page.getByRole('button', { name: 'Open', exact: true }).click();
  await sheets.waitFor();
  // Once is enough.
  await page.reload();
  await page.getByRole('button', { name: 'Select', exact: true }).waitFor();
  await page.waitForTimeout(300);
  expect(await page.getByText('came from another application').count()).toBe(0);
  other.close();
  expect(said).toEqual([]);
  await page.context().close();
}, 60_000);
