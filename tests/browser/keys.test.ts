import { readFileSync } from 'node:fs';
import type { Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { openPage, openTestDesk, type TestDesk } from './desk.ts';

let desk: TestDesk;
beforeAll(async () => {
  desk = await openTestDesk();
}, 300_000);
afterAll(() => desk.close());

/** Someone without a mouse: presses of keys, counted. Nothing is pointed at, and nothing is given the focus from outside. */
function keyboard(page: Page) {
  let count = 0;
  const press = async (key: string) => {
    count++;
    await page.keyboard.press(key);
  };
  const isFocused = (what: Locator) => what.first().evaluate((element) => element === document.activeElement);
  return {
    get count() {
      return count;
    },
    press,
    async type(text: string) {
      for (const letter of text) await press(letter === ' ' ? 'Space' : letter);
    },
    /** The list of commands: a few letters, and Enter. */
    async command(words: string) {
      await press('Control+k');
      await page.getByRole('dialog', { name: 'Commands' }).waitFor();
      await this.type(words);
      await press('Enter');
      await page.getByRole('dialog', { name: 'Commands' }).waitFor({ state: 'hidden' });
      await page.waitForTimeout(150);
    },
    /** Tab after Tab until something has the focus. */
    async tabTo(what: Locator, key = 'Tab') {
      await what.first().waitFor();
      for (let i = 0; i < 150; i++) {
        if (await isFocused(what)) return;
        await press(key);
      }
      throw new Error(`${what} is not reached by ${key}`);
    },
    async fill(what: Locator, text: string) {
      await this.tabTo(what);
      await press('Control+a');
      await this.type(text);
      await press('Enter');
      await page.waitForTimeout(80);
    },
  };
}

/** A corner, the way, the length: one side of a slab. */
const SIDES = [
  ['ArrowRight', '6'],
  ['ArrowDown', '2'],
  ['ArrowLeft', '3'],
  ['ArrowDown', '2'],
  ['ArrowLeft', '3'],
] as const;

test('a whole job by keys alone: slab, drain, posts, system, stations, papers', async () => {
  const { page, said } = await openPage(desk);
  const keys = keyboard(page);
  await keys.command('new job');
  await keys.command('blank grid');
  await keys.press('Space');
  for (const [arrow, length] of SIDES) {
    await keys.press(arrow);
    await page.waitForTimeout(60);
    await keys.type(length);
    await keys.press('Enter');
    await page.waitForTimeout(60);
  }
  await keys.press('Enter');
  const slabs = keys.count;

  // A drain and two posts by numbers; the slab’s first corner lies on the middle of the board, which is told by it.
  await keys.press('Alt+2');
  await page.getByRole('button', { name: 'Slab 1' }).waitFor();
  const corner = await slabCorner(page, keys);
  await keys.press('Alt+2');
  await keys.tabTo(page.getByText('without the board'));
  await keys.press('Enter');
  const what = page.getByLabel('What', { exact: true });
  await keys.tabTo(what);
  await keys.type('dr');
  await keys.fill(page.getByLabel('Across', { exact: true }), '2');
  await keys.fill(page.getByLabel('Its middle, right'), String(corner.x + 2));
  await keys.fill(page.getByLabel('and up', { exact: true }), String(corner.y - 1));
  await keys.tabTo(page.getByRole('button', { name: 'Add it' }));
  await keys.press('Enter');
  for (const x of [1, 2]) {
    await keys.tabTo(what, 'Shift+Tab');
    await keys.type('ro');
    await keys.fill(page.getByLabel('Its middle, right'), String(corner.x + x));
    await keys.fill(page.getByLabel('and up', { exact: true }), String(corner.y - 3));
    await keys.tabTo(page.getByRole('button', { name: 'Add it' }));
    await keys.press('Enter');
  }

  // What it gets, by the form below the table: the slab is still selected.
  await keys.press('Alt+3');
  const row = page.locator('table.zones tbody tr').first();
  // By hand: an L of 24 less 6, less 2 m of a drain of 0.1 m, less two posts of 0.1 m across.
  const net = 18 - 2 * 0.1 - 2 * Math.PI * 0.05 ** 2;
  await expect
    .poll(async () => Number.parseFloat(await row.locator('td.num').first().innerText()))
    .toBeCloseTo(net, 1);
  const system = page.getByLabel('System', { exact: true });
  await keys.tabTo(system);
  await keys.type('solv');
  await expect.poll(() => system.inputValue()).toBe('solvent-borne-paving');
  const traffic = page.getByLabel('Traffic', { exact: true });
  await keys.tabTo(traffic, 'Shift+Tab');
  await keys.type('cars');
  await expect.poll(() => traffic.inputValue()).toBe('cars');

  for (const [key, heading] of [
    ['Alt+1', 'Is the concrete ready?'],
    ['Alt+4', 'Totals by product'],
    ['Alt+5', 'Order'],
    ['Alt+6', 'Weather to come'],
    ['Alt+7', 'Papers'],
  ] as const) {
    await keys.press(key);
    await page.getByRole('heading', { name: heading, exact: true }).first().waitFor();
  }
  const write = page.getByRole('button', { name: 'Write the papers (PDF)' });
  await keys.tabTo(write);
  const download = page.waitForEvent('download');
  await keys.press('Enter');
  const pdf = readFileSync((await (await download).path())!);
  expect(pdf.subarray(0, 5).toString()).toBe('%PDF-');
  console.log(`by keys alone: ${slabs} for the slab, ${keys.count} from an empty job to its papers`);
  expect(said).toEqual([]);
  await page.context().close();
}, 180_000);

/** Where the first corner of the slab lies on its sheet, read from its fields in metres. */
async function slabCorner(page: Page, keys: ReturnType<typeof keyboard>) {
  await keys.tabTo(page.getByRole('button', { name: 'Slab 1' }));
  await keys.press('Enter');
  await keys.tabTo(page.getByText('Corners and sides in numbers'));
  await keys.press('Enter');
  const read = async (label: string) =>
    Number.parseFloat(await page.getByLabel(label, { exact: true }).inputValue());
  return { x: await read('A right'), y: await read('A up') };
}
