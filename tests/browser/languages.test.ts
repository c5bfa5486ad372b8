import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import spanish from '../../src/words/spanish.json';
import { openTestDesk, type TestDesk } from './desk.ts';

let desk: TestDesk;
beforeAll(async () => {
  desk = await openTestDesk();
}, 300_000);
afterAll(() => desk.close());

const STATIONS = ['Site', 'Measure', 'Zones', 'Coats', 'Order', 'Days', 'Papers'] as const;

/** A page of a browser that is set to a language. */
async function openIn(locale: string, viewport = { width: 1440, height: 900 }) {
  const context = await desk.browser.newContext({ locale, viewport, acceptDownloads: true });
  const page = await context.newPage();
  const said: string[] = [];
  page.on('console', (message) => said.push(`${message.type()}: ${message.text()}`));
  page.on('pageerror', (error) => said.push(`error: ${error.message}`));
  await page.goto(desk.url);
  await page.locator('.station').waitFor();
  return { page, said };
}

const stationAt = (page: Page, i: number) => page.locator('nav.stations button').nth(i).click();

/** All that can be read or heard on the page, closed parts too. */
const textsOn = (page: Page): Promise<string[]> =>
  page.evaluate(() => {
    for (const part of document.querySelectorAll('details')) part.open = true;
    const texts: string[] = [];
    const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    while (walker.nextNode()) texts.push(walker.currentNode.textContent ?? '');
    for (const name of ['aria-label', 'title', 'placeholder', 'alt'])
      for (const element of document.querySelectorAll(`[${name}]`)) texts.push(element.getAttribute(name)!);
    return texts.map((t) => t.trim()).filter(Boolean);
  });

/** The patterns of English texts that read otherwise in Spanish. Of short ones a name of the job may be the same. */
const ENGLISH = Object.entries(spanish)
  .filter(([key, text]) => key !== text && /[a-z]{3,}.* .*[a-z]{2,}/.test(key.replace(/\{\d+\}/g, '')))
  .map(
    ([key]) =>
      new RegExp(
        `^${key
          .split(/\{\d+\}/)
          .map((s) => s.replace(/[.*+?^${}()|[\]\\]/g, '\\$&'))
          .join('.+')}$`,
        's',
      ),
  );

test('a browser that is set to Spanish shows Spanish in every station, and the same numbers', async () => {
  const english = await openIn('en-US');
  const { page, said } = await openIn('es-MX');
  expect(await page.evaluate(() => document.documentElement.lang)).toBe('es');
  const numbers = (texts: readonly string[]) => texts.filter((t) => /^[±\s\d.,%/:–×-]+$/.test(t));
  for (const [i, name] of STATIONS.entries()) {
    await stationAt(page, i);
    await stationAt(english.page, i);
    expect(await page.locator('nav.stations button').nth(i).innerText()).toBe(spanish[name]);
    const texts = await textsOn(page);
    expect(texts.filter((t) => ENGLISH.some((e) => e.test(t)))).toEqual([]);
    // Units and kinds are words too.
    expect(texts.filter((t) => /\b(packs?|pieces?|rolls?|days|first|second|later)\b/.test(t))).toEqual([]);
    expect(numbers(texts)).toEqual(numbers(await textsOn(english.page)));
  }
  expect(said).toEqual([]);
  await page.context().close();
  await english.page.context().close();
}, 120_000);

test('papers and tables are written in the language of the page, by the worker too', async () => {
  const { page, said } = await openIn('es');
  await stationAt(page, 6);
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: 'Tabla de zonas (CSV)' }).click(),
  ]);
  const csv = readFileSync((await download.path())!, 'utf8');
  expect(csv).toContain('Área neta (m²)');
  expect(csv).toContain('escobillado fino');
  expect(csv).not.toContain('Net area');
  expect(said).toEqual([]);
  await page.context().close();
}, 120_000);

test('the language is chosen beside the look; what was entered is there in the other one', async () => {
  const { page, said } = await openIn('en-US');
  await stationAt(page, 0);
  await page.getByRole('button', { name: 'New job' }).first().click();
  await stationAt(page, 0);
  await page.getByLabel('Name of the job').fill('Backyard');
  await page.getByLabel('Name of the job').blur();
  await page.getByLabel('Language').selectOption('es');
  await page.getByLabel('Nombre del trabajo').waitFor();
  expect(await page.getByLabel('Nombre del trabajo').inputValue()).toBe('Backyard');
  await page.getByRole('button', { name: 'Deshacer' }).waitFor();
  await page.getByLabel('Idioma').selectOption('en');
  await page.getByLabel('Name of the job').waitFor();
  expect(await page.getByLabel('Name of the job').inputValue()).toBe('Backyard');
  expect(said).toEqual([]);
  await page.context().close();
}, 120_000);

test('nothing is pushed off the page by the longer words, on a desk, a phone and the narrowest screen', async () => {
  for (const viewport of [
    { width: 1280, height: 800 },
    { width: 390, height: 844 },
    { width: 320, height: 568 },
  ]) {
    const { page } = await openIn('es', viewport);
    if (viewport.width < 700) await page.getByRole('button', { name: 'Subir el panel' }).click();
    for (const i of STATIONS.keys()) {
      await stationAt(page, i);
      await textsOn(page);
      const over = await page.evaluate(() => {
        const parts = ['html', '.station', '.tools'].map((part) => document.querySelector(part)!);
        return parts.map((part) => part.scrollWidth - part.clientWidth);
      });
      expect(
        over.every((px) => px <= 0),
        `${viewport.width} ${STATIONS[i]} ${over}`,
      ).toBe(true);
    }
    await page.context().close();
  }
}, 120_000);
