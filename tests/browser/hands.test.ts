import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { openPage, openTestDesk, station, type TestDesk } from './desk.ts';

let desk: TestDesk;
beforeAll(async () => {
  desk = await openTestDesk();
}, 300_000);
afterAll(() => desk.close());

/** An L of 6 m by 4 m less 3 m by 2 m, a drain of 2 m by 0.1 m and two posts of 0.1 m: by hand. */
const NET_M2 = 6 * 4 - 3 * 2 - 2 * 0.1 - 2 * Math.PI * 0.05 ** 2;

/** Net area of the first zone as the table shows it. */
async function netArea(page: Page): Promise<number> {
  await station(page, 'Zones');
  const cells = page.locator('.station tbody tr').first().locator('td.num');
  return Number.parseFloat((await cells.first().innerText()).replace(',', '.'));
}

const fill = async (page: Page, label: string, value: string) => {
  const field = page.getByLabel(label, { exact: true });
  await field.fill(value);
  await field.press('Enter');
};

test('a whole takeoff without the board: an L-shaped slab with a drain and two posts, by numbers', async () => {
  const { page, said } = await openPage(desk);
  await station(page, 'Site');
  await page.getByRole('button', { name: 'New job' }).first().click();
  await page.getByRole('button', { name: 'Blank grid' }).click();
  await page.getByText('without the board').click();
  await fill(page, 'Across', '6');
  await fill(page, 'Up', '4');
  await page.getByRole('button', { name: 'Add it' }).click();
  await page.getByRole('button', { name: 'Slab 1' }).click();
  await page.getByText('Corners and sides in numbers').click();
  // Two more corners in the right side, then the upper right corner goes in.
  await page.getByRole('button', { name: 'New corner in B–C' }).click();
  await page.getByRole('button', { name: 'New corner in C–D' }).click();
  await fill(page, 'C right', '6');
  await fill(page, 'C up', '2');
  await fill(page, 'D right', '3');
  await fill(page, 'D up', '2');
  await fill(page, 'E right', '3');
  expect(await netArea(page)).toBeCloseTo(18, 2);
  // The drawer still stands open.
  await station(page, 'Measure');
  for (const [x, y] of [
    ['1', '3'],
    ['2', '3'],
  ] as const) {
    await page.getByLabel('What', { exact: true }).selectOption('post');
    await fill(page, 'Its middle, right', x);
    await fill(page, 'and up', y);
    await page.getByRole('button', { name: 'Add it' }).click();
  }
  await page.getByLabel('What', { exact: true }).selectOption('drain');
  await fill(page, 'Across', '2');
  await fill(page, 'Its middle, right', '3');
  await fill(page, 'and up', '1');
  await page.getByRole('button', { name: 'Add it' }).click();
  expect(await netArea(page)).toBeCloseTo(NET_M2, 2);
  // A row of posts from the first one, and back.
  await station(page, 'Measure');
  await page.getByRole('button', { name: 'Post 1' }).click();
  await page.getByText('Copies in a row').click();
  await fill(page, 'Copies', '2');
  await fill(page, 'From middle to middle', '0.25');
  await page.getByRole('button', { name: 'Add the copies' }).click();
  expect(await netArea(page)).toBeCloseTo(NET_M2 - 2 * Math.PI * 0.05 ** 2, 2);
  await page.getByRole('button', { name: 'Undo' }).click();
  expect(await netArea(page)).toBeCloseTo(NET_M2, 2);
  expect(said).toEqual([]);
  await page.context().close();
}, 120_000);

test('the same slab by keys alone', async () => {
  const { page, said } = await openPage(desk);
  const command = async (words: string) => {
    await page.keyboard.press('Control+k');
    await page.getByRole('dialog', { name: 'Commands' }).waitFor();
    await page.keyboard.type(words);
    await page.keyboard.press('Enter');
    await page.getByRole('dialog', { name: 'Commands' }).waitFor({ state: 'hidden' });
    await page.waitForTimeout(100);
  };
  await command('new job');
  await command('blank grid');
  // The first corner in the middle of the board, then one arrow for the way and the length as it is typed.
  await page.keyboard.press('Space');
  const side = async (arrow: string, length: string) => {
    await page.keyboard.press(arrow);
    await page.waitForTimeout(60);
    await page.keyboard.type(length);
    await page.keyboard.press('Enter');
    await page.waitForTimeout(60);
  };
  await side('ArrowRight', '6');
  await side('ArrowDown', '2');
  await side('ArrowLeft', '3');
  await side('ArrowDown', '2');
  await side('ArrowLeft', '3');
  await page.keyboard.press('Enter');
  expect(await netArea(page)).toBeCloseTo(18, 2);
  await command('undo trace');
  expect(await page.locator('.station tbody tr').count()).toBe(0);
  await command('redo');
  expect(await netArea(page)).toBeCloseTo(18, 2);
  // Arrow keys move what is selected by a centimetre; one step takes it all back.
  await page.locator('.station tbody button').first().click();
  await page.locator('.board').focus();
  for (let i = 0; i < 5; i++) await page.keyboard.press('ArrowRight');
  await page.keyboard.press('Control+z');
  await page.keyboard.press('Control+z');
  expect(await page.locator('.station tbody tr').count()).toBe(0);
  await page.keyboard.press('Alt+2');
  await page.getByRole('heading', { name: 'Sheets' }).waitFor();
  expect(said).toEqual([]);
  await page.context().close();
}, 120_000);

test('several things are selected, described, moved and taken back as one', async () => {
  const { page, said } = await openPage(desk);
  await station(page, 'Zones');
  const rows = page.locator('.station table.zones tbody th button[aria-pressed]');
  const names = await rows.allInnerTexts();
  expect(names.length).toBeGreaterThan(3);
  await rows.nth(0).click();
  await rows.nth(1).click({ modifiers: ['Shift'] });
  await page.getByRole('heading', { name: '2 selected' }).waitFor();
  await page.getByLabel('Texture').selectOption({ label: 'exposed aggregate' });
  for (const k of [0, 1])
    await expect
      .poll(() => page.locator('table.zones tbody tr').nth(k).innerText())
      .toContain('exposed aggregate');
  await page.getByRole('button', { name: 'Undo' }).click();
  await expect
    .poll(() => page.locator('table.zones tbody tr').nth(1).innerText())
    .not.toContain('exposed aggregate');
  // Everything, by keys; an arrow moves it, and one step back takes the move back.
  await page.locator('.board').focus();
  await page.keyboard.press('Control+a');
  await page.getByRole('heading', { name: /^\d+ selected$/ }).waitFor();
  const undo = page.getByRole('button', { name: 'Undo' });
  await page.keyboard.press('ArrowRight');
  await page.keyboard.press('ArrowRight');
  await expect.poll(() => undo.getAttribute('title')).toMatch(/Move|Change/);
  await undo.click();
  await page.locator('.board').focus();
  await page.keyboard.press('Control+a');
  await page.keyboard.press('Delete');
  await expect.poll(() => page.locator('table.zones tbody tr').count()).toBe(0);
  await undo.click();
  await expect.poll(() => rows.allInnerTexts()).toEqual(names);
  expect(said).toEqual([]);
  await page.context().close();
}, 60_000);

test('under a finger that draws a loupe shows what it covers; two fingers never draw', async () => {
  const { page, said } = await openPage(desk, { viewport: { width: 390, height: 844 }, hasTouch: true });
  await page.getByRole('button', { name: 'Slab', exact: true }).click();
  const box = (await page.locator('.board').boundingBox())!;
  const session = await page.context().newCDPSession(page);
  const at = (x: number, y: number, id = 0) => ({ x: box.x + x, y: box.y + y, id });
  const touch = (type: string, ...touchPoints: Array<ReturnType<typeof at>>) =>
    session.send('Input.dispatchTouchEvent', { type: type as 'touchStart', touchPoints });
  await touch('touchStart', at(150, 120));
  await page.locator('.loupe').waitFor();
  await touch('touchMove', at(190, 110));
  await page.waitForTimeout(100);
  // What the loupe shows is not blank.
  const colours = await page.evaluate(() => {
    const canvas = document.querySelector<HTMLCanvasElement>('.loupe canvas')!;
    const { data } = canvas.getContext('2d')!.getImageData(0, 0, canvas.width, canvas.height);
    return new Set(new Uint32Array(data.buffer)).size;
  });
  expect(colours).toBeGreaterThan(4);
  await touch('touchStart', at(190, 110), at(240, 150, 1));
  await page.locator('.loupe').waitFor({ state: 'detached' });
  await touch('touchMove', at(170, 100), at(260, 170, 1));
  await touch('touchEnd');
  expect(await page.getByRole('button', { name: 'Cancel' }).count()).toBe(0);
  expect(said).toEqual([]);
  await page.context().close();
}, 60_000);
