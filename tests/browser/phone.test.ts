import { readFileSync } from 'node:fs';
import type { Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type FittedPicture, fitPicture, onScreen, openPage, openTestDesk, type TestDesk } from './desk.ts';

let desk: TestDesk;
beforeAll(async () => {
  desk = await openTestDesk();
}, 300_000);
afterAll(() => desk.close());

const PHONE = { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true, deviceScaleFactor: 2 };

/** A finger that counts: taps, and keys of the screen's keyboard. */
function finger(page: Page) {
  let count = 0;
  const settle = () => page.waitForTimeout(120);
  return {
    get count() {
      return count;
    },
    begin() {
      count = 0;
    },
    async tap(what: Locator) {
      count++;
      await what.tap();
      await settle();
    },
    async at(x: number, y: number) {
      count++;
      await page.touchscreen.tap(x, y);
      await settle();
    },
    async type(into: Locator, text: string) {
      await this.tap(into);
      for (const key of [...text, 'Enter']) {
        count++;
        await page.keyboard.press(key);
      }
      await settle();
    },
    /** Opens a list and takes one of it: two taps. */
    async choose(list: Locator, value: string) {
      count += 2;
      await list.selectOption(value);
      await settle();
    },
  };
}

const button = (page: Page, name: string) => page.getByRole('button', { name, exact: true });
const station = (page: Page, name: string) =>
  page.getByRole('navigation', { name: 'Stations' }).getByRole('button', { name });

/** Screen pixels per metre of a blank grid: 12 m of it, with a margin of 18 pixels, across the board. */
const scaleOf = (width: number) => (width - 2 * 18) / 12;

/** Draws the L of 6 m by 4 m less 3 m by 2 m, with a drain of 2 m and two posts, from a blank grid on. */
async function takeoff(page: Page, f: ReturnType<typeof finger>): Promise<void> {
  await f.tap(button(page, 'A tape: draw by typed lengths'));
  await page.waitForTimeout(400);
  const box = (await page.locator('.board').boundingBox())!;
  const px = scaleOf(box.width);
  const corner = { x: box.x + 90, y: box.y + 140 };
  const on = (x: number, y: number) => f.at(corner.x + x * px, corner.y + y * px);
  const length = page.getByLabel('Length', { exact: true });
  await on(0, 0);
  // About where the next corner is, then how long the side truly is.
  for (const [x, y, side] of [
    [5.6, 0.1, '6'],
    [6.1, 2.3, '2'],
    [3.3, 2.1, '3'],
    [2.9, 4.4, '2'],
    [0.2, 3.9, '3'],
  ] as const) {
    await on(x, y);
    await f.type(length, side);
  }
  await f.tap(button(page, 'Finish'));
  await f.tap(button(page, 'Drain'));
  await on(1, 1);
  // In line with the inner corner: the tap is drawn to that.
  await on(2.9, 1.05);
  await f.tap(button(page, 'Post'));
  await on(1, 3);
  await on(2, 3);
}

test('on a phone, by touch alone: an L-shaped slab with a drain and two posts in at most 40 taps', async () => {
  const { page, said } = await openPage(desk, PHONE);
  const f = finger(page);
  await f.tap(button(page, 'Raise the panel'));
  await f.tap(station(page, 'Site'));
  await f.tap(button(page, 'New job').first());
  f.begin();
  await takeoff(page, f);
  console.log(`an L with a drain and two posts: ${f.count} taps`);
  expect(f.count).toBeLessThanOrEqual(40);

  await f.tap(station(page, 'Zones'));
  const row = page.locator('table.zones tbody tr').first();
  // By hand: 24 less 6, less two posts of 0.1 m across; and 2 m of a drain of 0.15 m as a finger puts it.
  const net = Number.parseFloat(await row.locator('td.num').first().innerText());
  const posts = 2 * Math.PI * 0.05 ** 2;
  expect(Math.abs(net - (18 - posts - 2 * 0.15))).toBeLessThan(0.02);

  // On to the papers: what it gets, the order, the days, the table of all of it.
  await f.tap(row.getByRole('button', { pressed: false }).first());
  await f.choose(page.getByLabel('System', { exact: true }), 'solvent-borne-paving');
  await f.choose(page.getByLabel('Traffic', { exact: true }), 'cars');
  await f.tap(station(page, 'Coats'));
  await f.tap(station(page, 'Order'));
  await page.getByRole('heading', { name: 'Order', exact: true }).waitFor();
  await f.tap(station(page, 'Days'));
  await page.getByRole('heading', { name: 'Weather to come' }).waitFor();
  await f.tap(station(page, 'Papers'));
  const download = page.waitForEvent('download');
  await f.tap(button(page, 'Write the papers (PDF)'));
  expect(
    readFileSync(await (await download).path())
      .subarray(0, 5)
      .toString(),
  ).toBe('%PDF-');
  console.log(`from an empty job to its papers: ${f.count} taps`);
  expect(f.count).toBeLessThanOrEqual(50);
  expect(said).toEqual([]);
  await page.context().close();
}, 120_000);

test('what is seen is fitted in again when the raised panel goes down', async () => {
  const { page, said } = await openPage(desk, PHONE);
  const f = finger(page);
  const board = page.locator('.board');
  const picture = async () => (await board.screenshot()).toString('base64');
  await page.waitForTimeout(400);
  const height = async () => (await board.boundingBox())!.height;
  // As it opens: fitted. Raised to the top, then down again: fitted into the full board as before.
  const [before, tall] = [await picture(), await height()];
  await f.tap(button(page, 'Raise the panel'));
  await page.waitForTimeout(300);
  expect(await height()).toBeLessThan(tall);
  for (let i = 0; i < 2; i++) {
    const down = button(page, 'Lower the panel');
    await f.tap((await down.count()) > 0 ? down : button(page, 'Raise the panel'));
    await page.waitForTimeout(300);
  }
  await expect.poll(height).toBe(tall);
  expect(await picture()).toBe(before);
  expect(said).toEqual([]);
  await page.context().close();
}, 60_000);

test('a photo taken with the phone: opened, straightened, and the board has room for it all the while', async () => {
  const { page, said } = await openPage(desk, PHONE);
  const f = finger(page);
  const board = page.locator('.board');
  const height = async () => (await board.boundingBox())!.height;
  const toFull = async () => {
    while ((await page.locator('.dock-full').count()) === 0) await f.tap(page.locator('.grip'));
  };
  await toFull();
  await f.tap(station(page, 'Site'));
  await f.tap(button(page, 'New job').first());
  // The question is on the board, which has the screen.
  const chooser = page.waitForEvent('filechooser');
  await f.tap(button(page, 'A photo, plan or drawing'));
  const photo = new URL('../photos/floor.heic', import.meta.url);
  await (await chooser).setFiles({ name: 'floor.heic', mimeType: '', buffer: readFileSync(photo) });
  await f.tap(station(page, 'Measure'));
  await page.getByText('It has no scale yet').waitFor();
  await toFull();
  expect(await height()).toBeLessThan(300);
  await f.tap(button(page, 'Straighten a photo taken at an angle'));
  await expect.poll(height).toBeGreaterThan(220);
  const tap = touchAt(await fitPicture(page, 640, 480), f);
  // As tests/photos/floor.heic was drawn: a floor of 4 m by 2 m.
  for (const [x, y] of [
    [240, 140],
    [400, 140],
    [560, 400],
    [80, 400],
  ] as const)
    await tap(x, y);
  await f.type(page.getByLabel('Mark 1 to 2'), '4');
  await f.type(page.getByLabel('Mark 2 to 3'), '2');
  await f.tap(button(page, 'Make a straight picture'));
  await page.getByText('straightened from floor').waitFor();
  expect(await height()).toBeGreaterThan(220);
  expect(said).toEqual([]);
  await page.context().close();
}, 120_000);

const touchAt =
  (fitted: FittedPicture, f: ReturnType<typeof finger>) =>
  (x: number, y: number): Promise<void> => {
    const at = onScreen(fitted, x, y);
    return f.at(at.x, at.y);
  };

test('the panel is drawn up and down by its edge', async () => {
  const { page, said } = await openPage(desk, PHONE);
  const touch = await page.context().newCDPSession(page);
  const heights = ['low', 'half', 'full'] as const;
  const height = async () => {
    for (const h of heights) if ((await page.locator(`.dock-${h}`).count()) > 0) return h;
    return null;
  };
  const draw = async (by: number) => {
    const box = (await page.locator('.grip').boundingBox())!;
    const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
    const send = (type: 'touchStart' | 'touchMove' | 'touchEnd', dy: number) =>
      touch.send('Input.dispatchTouchEvent', {
        type,
        touchPoints: type === 'touchEnd' ? [] : [{ x, y: y + dy }],
      });
    await send('touchStart', 0);
    for (let i = 1; i <= 6; i++) await send('touchMove', (by * i) / 6);
    await send('touchEnd', by);
    await page.waitForTimeout(200);
  };
  expect(await height()).toBe('half');
  await draw(-120);
  expect(await height()).toBe('full');
  await draw(120);
  expect(await height()).toBe('half');
  await draw(120);
  expect(await height()).toBe('low');
  await draw(60);
  expect(await height()).toBe('low');
  await draw(-120);
  expect(await height()).toBe('half');
  expect(said).toEqual([]);
  await page.context().close();
}, 60_000);
