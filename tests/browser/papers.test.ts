import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import sharp from 'sharp';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { installed } from '../office.ts';
import { openPage, openTestDesk, station, type TestDesk } from './desk.ts';

let desk: TestDesk;
beforeAll(async () => {
  desk = await openTestDesk();
}, 300_000);
afterAll(() => desk.close());

const field = (page: Page, label: string) => page.getByLabel(label, { exact: true });

async function downloaded(page: Page, button: string): Promise<string> {
  const download = page.waitForEvent('download');
  await page.getByRole('button', { name: button }).click();
  return (await download).path();
}

async function choose(page: Page, button: string, name: string, type: string, bytes: Buffer): Promise<void> {
  const chooser = page.waitForEvent('filechooser');
  await page.getByRole('button', { name: button }).click();
  await (await chooser).setFiles({ name, mimeType: type, buffer: bytes });
}

const picture = (width: number, height: number, type: 'png' | 'jpeg') =>
  sharp({ create: { width, height, channels: 3, background: '#8a5' } })
    .toFormat(type)
    .toBuffer();

test('letterhead, number, work as it was done and photos end up on the papers, and later jobs start with the letterhead', async () => {
  const { page, said } = await openPage(desk);
  await station(page, 'Papers');
  await field(page, 'Customer').fill('O. Quill');
  await page.getByRole('button', { name: 'Number the offer: 0001' }).click();
  await field(page, 'Business').fill('Fernhollow Coatings');
  await field(page, 'Terms of every offer').fill('Half on the first day.');
  await choose(page, 'Add a logo', 'logo.png', 'image/png', await picture(1200, 400, 'png'));
  await page.getByRole('img', { name: 'Logo' }).waitFor();

  await field(page, 'Paint used, without thinner').fill('12,5');
  await page.keyboard.press('Enter');
  await field(page, 'Batch numbers on the packs').fill('B-77');
  await page.getByRole('button', { name: 'Write it down' }).click();
  await page.getByText('batch B-77').waitFor();
  await choose(page, 'Add a photo', 'wet.jpg', 'image/jpeg', await picture(3000, 2000, 'jpeg'));
  await page.getByText('(1 photo)').waitFor();

  await page.getByLabel('Handover and care, for the customer').check();
  const pdf = await downloaded(page, 'Write the papers (PDF)');
  expect(readFileSync(pdf).subarray(0, 5).toString()).toBe('%PDF-');
  if (installed('pdftotext', '-v')) {
    const text = execFileSync('pdftotext', ['-layout', pdf, '-'], { encoding: 'utf8', maxBuffer: 1e8 });
    for (const words of ['Quote 0001', 'O. Quill', 'Fernhollow Coatings', 'Half on the first day.', 'B-77'])
      expect(text.includes(words), words).toBe(true);
    const images = execFileSync('pdfimages', ['-list', pdf], { encoding: 'utf8' });
    // The logo and the photo, made smaller: no larger than they are printed sharp.
    expect(images).toMatch(/\b600 +200\b/);
    expect(images).toMatch(/\b1600 +1067\b/);
  }

  // A file can be stopped while it is written, and nothing comes of it.
  let downloads = 0;
  page.on('download', () => {
    downloads += 1;
  });
  await page.getByRole('button', { name: 'Write the papers (PDF)' }).click();
  await page.getByRole('button', { name: 'Stop writing' }).click();
  await expect
    .poll(() => page.getByRole('button', { name: 'Write the papers (PDF)' }).isEnabled())
    .toBe(true);
  expect(downloads).toBe(0);

  // All of it is there again after the page was left, pictures too.
  await page.waitForTimeout(600);
  await page.reload();
  await station(page, 'Papers');
  await page.getByText('(1 photo)').waitFor();
  expect(await field(page, 'Offer number').inputValue()).toBe('0001');
  expect(
    readFileSync(await downloaded(page, 'The job itself, pictures inside'), 'utf8').length,
  ).toBeGreaterThan(10_000);

  // The next job has the letterhead, and the next number.
  const book = await downloaded(page, 'Save what later jobs start with');
  await station(page, 'Site');
  await page.getByRole('button', { name: 'New job' }).first().click();
  await station(page, 'Papers');
  await page.getByRole('button', { name: 'Number the offer: 0002' }).waitFor();
  await page.getByText('Fernhollow Coatings').first().waitFor();

  // So has another browser that takes it from the file; what is no such file is refused.
  const other = await openPage(desk);
  await station(other.page, 'Papers');
  await choose(other.page, 'Take it from a file', 'x.json', 'application/json', Buffer.from('{"a":1}'));
  await other.page.getByText('does not hold what later jobs start with').waitFor();
  await choose(other.page, 'Take it from a file', 'book.json', 'application/json', readFileSync(book));
  await station(other.page, 'Site');
  await other.page.getByRole('button', { name: 'New job' }).first().click();
  await station(other.page, 'Papers');
  await other.page.getByRole('button', { name: 'Number the offer: 0002' }).waitFor();
  await other.page.getByText('Fernhollow Coatings').first().waitFor();
  expect([...said, ...other.said]).toEqual([]);
}, 120_000);

test('on a phone, by touch, the crew’s papers are three taps away', async () => {
  const { page, said } = await openPage(desk, {
    viewport: { width: 390, height: 844 },
    hasTouch: true,
    isMobile: true,
  });
  await page.getByRole('button', { name: 'Raise the panel' }).tap();
  await page.getByRole('navigation', { name: 'Stations' }).getByRole('button', { name: 'Papers' }).tap();
  const download = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Write the papers (PDF)' }).tap();
  expect((await download).suggestedFilename()).toMatch(/^Fernhollow Workshop.*\.pdf$/);
  expect(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth)).toBe(true);
  expect(said).toEqual([]);
}, 120_000);
