import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { openPage, openTestDesk, station, type TestDesk } from './desk.ts';

let desk: TestDesk;
beforeAll(async () => {
  desk = await openTestDesk();
}, 300_000);
afterAll(() => desk.close());

const AXE = readFileSync(new URL('../../node_modules/axe-core/axe.min.js', import.meta.url), 'utf8');
const STATIONS = ['Site', 'Measure', 'Zones', 'Coats', 'Order', 'Days', 'Papers'];
/** WCAG 2.2 A and AA, and what axe-core calls best practice. */
const RULES = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];

type Axe = {
  run: (
    where: Document,
    options: object,
  ) => Promise<{ violations: Array<{ id: string; nodes: Array<{ html: string }> }>; passes: unknown[] }>;
};

/** What axe-core finds wrong with the page as it is now. */
async function faults(page: Page): Promise<string[]> {
  const found = await page.evaluate(async (rules) => {
    const { axe } = globalThis as unknown as { axe: Axe };
    const { violations, passes } = await axe.run(document, { runOnly: rules, resultTypes: ['violations'] });
    return {
      faults: violations.map((v) => `${v.id}: ${v.nodes[0]?.html.slice(0, 160)}`),
      passes: passes.length,
    };
  }, RULES);
  expect(found.passes).toBeGreaterThan(10);
  return found.faults;
}

/** What of the page lies beyond its edge, tables in frames that scroll left out. */
const beyond = (page: Page): Promise<string[]> =>
  page.evaluate(() => {
    const wide = document.documentElement.scrollWidth > innerWidth + 1 ? ['the page scrolls sideways'] : [];
    const parts = [...document.querySelectorAll('.station *')].filter((e) => {
      const { left, right } = e.getBoundingClientRect();
      return (right > innerWidth + 1 || left < -1) && !e.closest('.scroll, table, .unseen');
    });
    return [...wide, ...parts.slice(0, 3).map((e) => `${e.tagName} ${e.textContent?.slice(0, 40)}`)];
  });

const looks = [
  { theme: 'usual', width: 1440, height: 900 },
  { theme: 'night', width: 2560, height: 1440 },
  { theme: 'sunlight', width: 390, height: 844 },
  { theme: 'night', width: 320, height: 640 },
  { theme: 'usual', width: 844, height: 390 },
];

test.each(looks)(
  'axe finds nothing and nothing is cut off: $theme at $width × $height, every station',
  async ({ theme, width, height }) => {
    const { page, said } = await openPage(desk, {
      viewport: { width, height },
      hasTouch: width < 820,
      bypassCSP: true,
    });
    await page.evaluate((t) => localStorage.setItem('slabwright look', t), theme);
    await page.reload();
    await page.getByRole('button', { name: 'Select', exact: true }).waitFor();
    await page.evaluate(AXE);
    for (const name of STATIONS) {
      await station(page, name);
      if (name === 'Zones') await page.locator('.station tbody button').first().click();
      await page.evaluate(() => {
        for (const d of document.querySelectorAll('details')) d.open = true;
      });
      await page.waitForTimeout(400);
      expect(await beyond(page), name).toEqual([]);
      expect(await faults(page), name).toEqual([]);
    }
    await page.keyboard.press('Control+k');
    await page.getByRole('dialog', { name: 'Commands' }).waitFor();
    expect(await faults(page), 'commands').toEqual([]);
    expect(said.filter((s) => !s.startsWith('debug'))).toEqual([]);
    await page.context().close();
  },
  120_000,
);

test('written from right to left and with long words nothing is cut off', async () => {
  const { page } = await openPage(desk, { viewport: { width: 390, height: 844 }, hasTouch: true });
  await station(page, 'Site');
  await page.getByLabel('Name of the job').fill('Betonoberflächenbeschichtungsangebotsnummernverzeichnis');
  await page.evaluate(() => {
    document.documentElement.dir = 'rtl';
  });
  for (const name of STATIONS) {
    await station(page, name);
    await page.waitForTimeout(200);
    expect(await beyond(page), name).toEqual([]);
  }
  await page.context().close();
}, 60_000);
