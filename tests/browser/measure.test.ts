import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { boardAt, fitPicture, openPage, openTestDesk, station, storeOf, type TestDesk } from './desk.ts';

let desk: TestDesk;
beforeAll(async () => {
  desk = await openTestDesk();
}, 300_000);
afterAll(() => desk.close());

/** Where the demo photo shows a place on the ground: its camera is 1.7 m up and looks 38° down (demo-plans/draw/patio-photo.ts). */
function seen(x: number, y: number): { x: number; y: number } {
  const [cos, sin] = [Math.cos((38 * Math.PI) / 180), Math.sin((38 * Math.PI) / 180)];
  const depth = y * cos + 1.7 * sin;
  return { x: 800 + (950 * x) / depth, y: 600 + (950 * (1.7 * cos - y * sin)) / depth };
}

/** Area and ± of the first zone, as the table shows them. */
async function shownArea(page: Page): Promise<{ area: number; within: number }> {
  await station(page, 'Zones');
  const cell = await page.locator('table.zones tbody td').first().innerText();
  const [area, within] = cell.split('±').map((t) => Number.parseFloat(t));
  return { area: area!, within: within! };
}

test('the demo photo is straightened by its mat, and the patio on it is as large as it was drawn', async () => {
  const { page, said } = await openPage(desk);
  await station(page, 'Site');
  await page.getByRole('button', { name: 'A patio on a photo' }).click();
  await station(page, 'Measure');
  // One scale is out by much on a photo taken at an angle.
  await page.getByText('where its scale cannot be believed').waitFor();
  await page.getByRole('button', { name: 'Straighten', exact: true }).click();
  const tap = boardAt(page, await fitPicture(page, 1600, 1200));
  for (const [x, y] of [
    [-0.6, 2.1],
    [0.4, 2.1],
    [0.4, 3.1],
    [-0.6, 3.1],
  ] as const) {
    const p = seen(x, y);
    await tap(p.x, p.y);
  }
  await page.getByLabel('Mark 1 to 2').fill('1');
  await page.keyboard.press('Enter');
  await page.getByLabel('Mark 2 to 3').fill('1');
  await page.keyboard.press('Enter');
  const { area, within } = await shownArea(page);
  expect(Math.abs(area - 3.6 * 2.7)).toBeLessThan(within);
  expect(within).toBeLessThan(0.6);

  await station(page, 'Measure');
  await page.getByRole('button', { name: 'Make a straight picture' }).click();
  await page.getByText('straightened from Patio photo').waitFor();
  expect(said).toEqual([]);
}, 120_000);

test('a five-sided patio from tape alone: the wrong diagonal is named, and left out the area is right', async () => {
  const { page, said } = await openPage(desk, { viewport: { width: 390, height: 844 }, hasTouch: true });
  await page.getByRole('button', { name: 'Raise the panel' }).click();
  await station(page, 'Site');
  await page.getByRole('button', { name: 'New job' }).first().click();
  await station(page, 'Measure');
  await page.getByLabel('Or a slab by tape alone, with').selectOption('5');
  await page.getByRole('button', { name: 'Begin by tape' }).click();
  const ring = [
    [0, 0],
    [5, 0],
    [6.2, 3.1],
    [2.8, 5.4],
    [-0.8, 3.3],
  ] as const;
  const letters = 'ABCDE';
  const length = (i: number, j: number) => Math.hypot(ring[i]![0] - ring[j]![0], ring[i]![1] - ring[j]![1]);
  for (let i = 0; i < 5; i++) {
    const j = (i + 1) % 5;
    await page.getByLabel(`${letters[i]}–${letters[j]}`, { exact: true }).fill(length(i, j).toFixed(3));
    await page.keyboard.press('Enter');
  }
  await page.getByText(/can still change its shape: take 2 more measures/).waitFor();
  for (const [i, j] of [
    [0, 2],
    [0, 3],
    [1, 3],
    [2, 4],
    [1, 4],
  ] as const) {
    await page.getByLabel('Diagonal from').selectOption({ label: letters[i]! });
    await page.getByLabel('to', { exact: true }).selectOption({ label: letters[j]! });
    const wrong = i === 1 && j === 4 ? 0.3 : 0;
    await page.getByLabel(`${letters[i]}–${letters[j]} by tape`).fill((length(i, j) + wrong).toFixed(3));
    await page.keyboard.press('Enter');
  }
  await page.getByText(/B–E of “Slab 1” is noted as 6\.97\d m but by the others reads 6\.67\d m/).waitFor();
  await page.getByRole('button', { name: 'Leave out B–E' }).click();
  const { area, within } = await shownArea(page);
  expect(Math.abs(area - 26.93)).toBeLessThanOrEqual(within + 0.005);
  expect(within).toBeLessThan(0.1);
  expect(said).toEqual([]);
}, 120_000);

/** A page in points with what is drawn on it, by hand, PDF 1.4. */
function pdf(width: number, height: number, stream: string): Buffer {
  const objects = [
    '<< /Type /Catalog /Pages 2 0 R >>',
    '<< /Type /Pages /Kids [3 0 R] /Count 1 >>',
    `<< /Type /Page /Parent 2 0 R /MediaBox [0 0 ${width.toFixed(3)} ${height.toFixed(3)}] /Contents 4 0 R >>`,
    `<< /Length ${stream.length} >>\nstream\n${stream}\nendstream`,
  ];
  let text = '%PDF-1.4\n';
  const at = objects.map((o, i) => {
    const start = text.length;
    text += `${i + 1} 0 obj\n${o}\nendobj\n`;
    return start;
  });
  const table = text.length;
  text += `xref\n0 5\n0000000000 65535 f \n${at.map((n) => `${String(n).padStart(10, '0')} 00000 n \n`).join('')}`;
  text += `trailer\n<< /Size 5 /Root 1 0 R >>\nstartxref\n${table}\n%%EOF\n`;
  return Buffer.from(text);
}

/** A page of 220 × 200 mm with a rectangle of 200 × 100 mm on it: 40 m by 20 m at 1 : 200. */
function onePagePdf(): Buffer {
  const k = 72 / 25.4;
  return pdf(220 * k, 200 * k, `${[10, 50, 200, 100].map((mm) => (mm * k).toFixed(3)).join(' ')} re S`);
}

async function give(page: Page, name: string, buffer: Buffer): Promise<void> {
  const chooser = page.waitForEvent('filechooser');
  await page.getByRole('button', { name: 'Open a photo, plan or drawing' }).click();
  await (await chooser).setFiles({ name, mimeType: 'application/octet-stream', buffer });
}

test('a page, a drawing, places and what is none of these', async () => {
  const { page, said } = await openPage(desk);
  await station(page, 'Measure');
  await give(page, 'plan.pdf', onePagePdf());
  await page.getByText('Page 1 of 1, 220.0 × 200.0 mm').waitFor();
  await page.getByLabel('Scale of the page, 1 : N').fill('200');
  await page.keyboard.press('Enter');
  await page.getByText('page at 1 : 200').waitFor();
  // Taps some pixels off its corners are drawn to the ends of the plan's own lines: 40 m by 20 m to the last bit.
  const pt = 72 / 25.4;
  await page.getByRole('button', { name: 'Slab', exact: true }).click();
  const tap = boardAt(page, await fitPicture(page, 220 * pt, 200 * pt));
  for (const [x, y] of [
    [10, 150],
    [210, 150],
    [210, 50],
    [10, 50],
    [10, 150],
  ] as const)
    await tap(x * pt + 3, y * pt - 3);
  await station(page, 'Zones');
  await page.getByRole('button', { name: '800.00', exact: true }).first().waitFor();
  await station(page, 'Measure');

  const dxf =
    '0\nSECTION\n2\nHEADER\n9\n$INSUNITS\n70\n4\n0\nENDSEC\n0\nSECTION\n2\nENTITIES\n' +
    [
      '0\nLWPOLYLINE\n8\nslab\n90\n4\n70\n1',
      '10\n0\n20\n0',
      '10\n6000\n20\n0',
      '10\n6000\n20\n4000',
      '10\n0\n20\n4000',
    ].join('\n') +
    '\n0\nCIRCLE\n8\npit\n10\n3000\n20\n2000\n40\n500\n0\nENDSEC\n0\nEOF\n';
  await give(page, 'yard.dxf', Buffer.from(dxf));
  await page.getByRole('checkbox', { name: 'pit' }).waitFor();
  await page.getByRole('button', { name: 'Open it' }).click();
  await page.getByText('1 slab and 1 void from 2 outlines').waitFor();
  await station(page, 'Zones');
  await page
    .getByRole('button', { name: (24 - Math.PI / 4).toFixed(2), exact: true })
    .first()
    .waitFor();
  await station(page, 'Measure');

  const geo = {
    type: 'Polygon',
    coordinates: [
      [
        [8, 47],
        [8.0001, 47],
        [8.0001, 47.0001],
        [8, 47.0001],
        [8, 47],
      ],
    ],
  };
  await give(page, 'yard.geojson', Buffer.from(JSON.stringify(geo)));
  await page.getByText('on the ellipsoid; a sphere would make it').waitFor();

  await give(page, 'song.mp3', Buffer.from('ID3 and then some music'));
  await page.getByText('“song.mp3” is nothing I can measure').waitFor();
  await give(page, 'broken.pdf', Buffer.from('%PDF-1.4 and nothing more'));
  await page.getByText('The document “broken.pdf” is damaged').waitFor();

  // All of it is there again after the page is left.
  await page.waitForTimeout(600);
  await page.reload();
  await station(page, 'Measure');
  await page.getByRole('button', { name: 'plan', exact: true }).click();
  await page.getByText('page at 1 : 200').waitFor();
  expect(said.filter((s) => !s.includes('Indexing all PDF objects'))).toEqual([]);
}, 120_000);

/** A floor of 4 m by 2 m, seen at an angle, in pixels of a picture of 640 × 480: from far left, clockwise. */
const FLOOR = [
  [240, 140],
  [400, 140],
  [560, 400],
  [80, 400],
] as const;

/** A page of one PDF point a pixel with the floor filled black. */
const floorPdf = (): Buffer =>
  pdf(640, 480, `${FLOOR.map(([x, y], i) => `${x} ${480 - y} ${i === 0 ? 'm' : 'l'}`).join(' ')} h f`);

const floorSvg = (): Buffer =>
  Buffer.from(
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 640 480"><polygon points="${FLOOR.join(' ')}"/></svg>`,
  );

/** The only JPEG among the pictures kept in the browser: its size, how far its dark part goes, and how many pixels that has. */
const keptJpeg = async (page: Page) =>
  (await storeOf(page, 'images')).evaluate(async ({ values }) => {
    const [jpeg, ...more] = (values as Blob[]).filter((b) => b.type === 'image/jpeg');
    if (!jpeg || more.length > 0) return null;
    const picture = await createImageBitmap(jpeg);
    const context = new OffscreenCanvas(picture.width, picture.height).getContext('2d')!;
    context.drawImage(picture, 0, 0);
    const { data } = context.getImageData(0, 0, picture.width, picture.height);
    const box = { left: Infinity, top: Infinity, right: -1, bottom: -1 };
    let dark = 0;
    for (let i = 0; i < data.length; i += 4) {
      // Outside the photo nothing is shown; a line of a drawing is grey.
      if (data[i]! > 128) continue;
      dark += 1;
      const [x, y] = [(i / 4) % picture.width, Math.floor(i / 4 / picture.width)];
      box.left = Math.min(box.left, x);
      box.right = Math.max(box.right, x);
      box.top = Math.min(box.top, y);
      box.bottom = Math.max(box.bottom, y);
    }
    return { width: picture.width, height: picture.height, dark, box };
  });

/** The floor as a photo: filled by ImageMagick, written by heif-enc of libheif 1.15. */
const floorHeic = (): Buffer => readFileSync(new URL('../photos/floor.heic', import.meta.url));

test.each([
  ['floor.heic', floorHeic, { width: 640, height: 480, left: 0, top: 0 }, 0.01],
  ['floor.pdf', floorPdf, { width: 640, height: 480, left: 0, top: 0 }, 0.01],
  // The board shows a drawing with a margin of 2 % about it, as lines that have a width of their own.
  [
    'floor.svg',
    floorSvg,
    { width: 480 * 1.04, height: 260 + 480 * 0.04, left: 80 - 9.6, top: 140 - 9.6 },
    0.04,
  ],
] as const)(
  '%s is straightened: what is a trapezium on it is a rectangle of its length and width',
  async (name, bytes, shown, within) => {
    const { page, said } = await openPage(desk);
    await station(page, 'Site');
    await page.getByRole('button', { name: 'New job' }).first().click();
    await station(page, 'Measure');
    await give(page, name, bytes());
    await page.getByText('It has no scale yet').waitFor();
    await page.getByRole('button', { name: 'Straighten', exact: true }).click();
    const tap = boardAt(page, await fitPicture(page, shown.width, shown.height));
    for (const [x, y] of FLOOR) await tap(x - shown.left, y - shown.top);
    for (const [label, length] of [
      ['Mark 1 to 2', '4'],
      ['Mark 2 to 3', '2'],
    ] as const) {
      await page.getByLabel(label).fill(length);
      await page.keyboard.press('Enter');
    }
    await page.getByRole('button', { name: 'Make a straight picture' }).click();
    await page.getByText('straightened from floor').waitFor();
    const { box, dark } = (await keptJpeg(page))!;
    const [width, height] = [box.right - box.left + 1, box.bottom - box.top + 1];
    expect(Math.abs(width / height / 2 - 1)).toBeLessThan(within);
    // A trapezium would fill 0.67 of its box, and its lines all the more of it.
    if (name !== 'floor.svg') expect(Math.abs(dark / (width * height) - 1)).toBeLessThan(within);
    else expect(dark / (width * height)).toBeLessThan(0.2);
    await page.context().close();
    expect(said).toEqual([]);
  },
  120_000,
);
