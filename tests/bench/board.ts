import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type CDPSession, chromium, type Page } from 'playwright-core';
import sharp from 'sharp';
import { writeJobFile } from '../../src/job/file.ts';
import { DEFAULT_SURFACE, emptyJob, type Job, TEXTURES } from '../../src/job/types.ts';
import { ARGS, findBrowser, openTestDesk } from '../browser/desk.ts';

/*
 * What a frame of the board costs beside a plain drawing of the same scene on one canvas, measured in one page in turn:
 * a corner dragged, and the view panned, with many zones over a photo of 20 megapixels.
 */

const ZONES = Number(process.argv[2] ?? 1000);
const CORNERS = 30;
const PHOTO = { width: 5472, height: 3648 };
const MOVES = 40;
/** Pixels of the photo to the metre. */
const SCALE = 20;

/** Blobs of thirty corners in rows over the whole photo. */
function outlines(): Array<Array<{ x: number; y: number }>> {
  const columns = Math.ceil(Math.sqrt((ZONES * PHOTO.width) / PHOTO.height));
  const rows = Math.ceil(ZONES / columns);
  const [w, h] = [PHOTO.width / columns, PHOTO.height / rows];
  return Array.from({ length: ZONES }, (_, n) => {
    const [cx, cy] = [((n % columns) + 0.5) * w, (Math.floor(n / columns) + 0.5) * h];
    return Array.from({ length: CORNERS }, (_, k) => {
      const turn = (2 * Math.PI * k) / CORNERS;
      const r = 0.36 + 0.08 * Math.sin(5 * turn + n);
      return { x: cx + Math.cos(turn) * r * w, y: cy + Math.sin(turn) * r * h };
    });
  });
}

function job(rings: ReturnType<typeof outlines>): Job {
  const corners: Record<string, Job['corners'][string]> = {};
  const slabs: Record<string, Job['slabs'][string]> = {};
  rings.forEach((ring, n) => {
    const ids = ring.map((p, k) => {
      const id = `c${n}-${k}`;
      corners[id] = { id, sheetId: 'photo', x: p.x, y: p.y };
      return { cornerId: id, via: null, beyond: null };
    });
    const surface = { ...DEFAULT_SURFACE, texture: TEXTURES[n % TEXTURES.length]! };
    slabs[`s${n}`] = { id: `s${n}`, name: `S${n}`, sheetId: 'photo', corners: ids, slope: 0, surface };
  });
  return {
    ...emptyJob('bench', 'Bench'),
    sheets: {
      photo: {
        id: 'photo',
        name: 'Photo',
        picture: { imageId: 'i', widthPx: PHOTO.width, heightPx: PHOTO.height },
        fit: { kind: 'drawing', metresPerUnit: 1 / SCALE },
      },
    },
    corners,
    slabs,
  };
}

/** What is measured, move by move, and what goes before and after it unmeasured. */
interface Work {
  readonly begin?: () => Promise<void>;
  readonly moves: (count: number) => Promise<void>;
  readonly end?: () => Promise<void>;
}

/** Milliseconds of the page's main thread that one move takes, drawing in it; the median of several runs. */
async function busyMs(session: CDPSession, work: Work, runs = 5): Promise<number> {
  const spent = async () => {
    const { metrics } = await session.send('Performance.getMetrics');
    return metrics.find((m) => m.name === 'TaskDuration')!.value * 1000;
  };
  const times: number[] = [];
  for (let i = 0; i < runs; i++) {
    await work.begin?.();
    const before = await spent();
    await work.moves(MOVES);
    times.push((await spent()) - before);
    await work.end?.();
  }
  return times.sort((a, b) => a - b)[Math.floor(runs / 2)]! / MOVES;
}

/** Puts into the page what moves a pointer over the board, frame by frame, and a plain canvas with the same scene. */
async function instruments(page: Page, rings: ReturnType<typeof outlines>): Promise<void> {
  await page.evaluate(
    ({ rings, photo }) => {
      Element.prototype.setPointerCapture = () => {};
      const frame = () => new Promise((resolve) => requestAnimationFrame(resolve));
      const board = document.querySelector('.board')!;
      const box = board.getBoundingClientRect();
      const send = (type: string, x: number, y: number, button: number) =>
        board.dispatchEvent(
          new PointerEvent(type, {
            pointerId: 1,
            pointerType: 'mouse',
            isPrimary: true,
            bubbles: true,
            button,
            clientX: box.left + x,
            clientY: box.top + y,
          }),
        );
      const settled = async () => {
        await frame();
        await frame();
      };
      const press = async (x: number, y: number, button: number) => {
        send('pointerdown', x, y, button);
        for (let i = 0; i < 4; i++) {
          send('pointermove', x + 8 + i, y + 8, button);
          await settled();
        }
      };
      const moves = async (x: number, y: number, button: number, count: number) => {
        for (let i = 0; i < count; i++) {
          send('pointermove', x + 12 + (i % 9), y + 8 + (i % 5), button);
          await settled();
        }
      };
      const lift = async (x: number, y: number, button: number) => {
        send('pointerup', x, y, button);
        await settled();
      };
      const zoom = Math.min((box.width - 80) / photo.width, (box.height - 80) / photo.height);
      const place = (p: { x: number; y: number }) => ({
        x: (p.x - photo.width / 2) * zoom + box.width / 2,
        y: (p.y - photo.height / 2) * zoom + box.height / 2,
      });
      const canvas = document.createElement('canvas');
      const ratio = Math.min(devicePixelRatio, 2);
      canvas.width = box.width * ratio;
      canvas.height = box.height * ratio;
      Object.assign(canvas.style, {
        position: 'fixed',
        left: `${box.left}px`,
        top: `${box.top}px`,
        width: `${box.width}px`,
        height: `${box.height}px`,
        zIndex: '9',
        display: 'none',
      });
      document.body.append(canvas);
      const c = canvas.getContext('2d')!;
      const tile = document.createElement('canvas');
      tile.width = tile.height = 12;
      const t = tile.getContext('2d')!;
      t.beginPath();
      t.moveTo(0, 12);
      t.lineTo(12, 0);
      t.stroke();
      const hatch = c.createPattern(tile, 'repeat')!;
      const plain = (image: ImageBitmap, dx: number, dy: number) => {
        c.setTransform(ratio, 0, 0, ratio, 0, 0);
        c.clearRect(0, 0, box.width, box.height);
        const [a, b] = [place({ x: 0, y: 0 }), place({ x: photo.width, y: photo.height })];
        c.drawImage(image, a.x + dx, a.y + dy, b.x - a.x, b.y - a.y);
        c.font = '500 11px system-ui, sans-serif';
        c.textAlign = 'center';
        for (const ring of rings) {
          c.beginPath();
          let [mx, my] = [0, 0];
          ring.forEach((p, i) => {
            const q = place(p);
            mx += q.x / ring.length;
            my += q.y / ring.length;
            if (i === 0) c.moveTo(q.x + dx, q.y + dy);
            else c.lineTo(q.x + dx, q.y + dy);
          });
          c.closePath();
          c.fillStyle = 'rgba(255, 246, 219, 0.78)';
          c.fill();
          c.fillStyle = hatch;
          c.fill();
          c.lineWidth = 1;
          c.strokeStyle = '#4f5a66';
          c.stroke();
          c.lineWidth = 1.8;
          c.strokeStyle = '#17202a';
          c.stroke();
          c.lineWidth = 4;
          c.strokeStyle = '#fff';
          c.strokeText('12.3 m²', mx + dx, my + dy);
          c.fillStyle = '#17202a';
          c.fillText('12.3 m²', mx + dx, my + dy);
        }
      };
      const plainMoves = async (image: ImageBitmap, count: number) => {
        canvas.style.display = 'block';
        plain(image, 0, 0);
        await settled();
        for (let i = 0; i < count; i++) {
          plain(image, i % 9, i % 5);
          await settled();
        }
        canvas.style.display = 'none';
      };
      const idle = async (count: number) => {
        for (let i = 0; i < count; i++) await settled();
      };
      Object.assign(globalThis, { bench: { press, moves, lift, plainMoves, place, idle } });
    },
    { rings, photo: PHOTO },
  );
}

type Bench = {
  readonly press: (x: number, y: number, button: number) => Promise<void>;
  readonly lift: (x: number, y: number, button: number) => Promise<void>;
  readonly moves: (x: number, y: number, button: number, count: number) => Promise<void>;
  readonly plainMoves: (image: ImageBitmap, count: number) => Promise<void>;
  readonly place: (p: { x: number; y: number }) => { x: number; y: number };
  readonly idle: (count: number) => Promise<void>;
};
type InPage = { bench: Bench; benchImage: ImageBitmap };

const rings = outlines();
const folder = mkdtempSync(join(tmpdir(), 'slabwright-bench-'));
const { width, height } = PHOTO;
const noise = await sharp({
  create: {
    width,
    height,
    channels: 3,
    background: '#999',
    noise: { type: 'gaussian', mean: 130, sigma: 40 },
  },
})
  .jpeg({ quality: 60 })
  .toBuffer();
const jobPath = join(folder, 'bench.json');
writeFileSync(
  jobPath,
  writeJobFile({ job: job(rings), images: { i: { type: 'image/jpeg', base64: noise.toString('base64') } } }),
);
const photoPath = join(folder, 'photo.jpg');
writeFileSync(photoPath, noise);
const desk = await openTestDesk();
const browser = await chromium.launch({
  executablePath: findBrowser(),
  args: [...ARGS, '--disable-frame-rate-limit', '--disable-gpu-vsync'],
});
try {
  const page = await browser.newPage({ viewport: { width: 1440, height: 900 } });
  // Functions that are sent into the page are named by the runner's own helper.
  await page.addInitScript('globalThis.__name = (f) => f');
  await page.goto(desk.url);
  await page.getByRole('navigation', { name: 'Stations' }).getByRole('button', { name: 'Site' }).click();
  const choosing = page.waitForEvent('filechooser');
  await page.getByRole('button', { name: 'Open a job file' }).click();
  await (await choosing).setFiles(jobPath);
  await page.getByText('bench.json was opened').waitFor({ timeout: 120_000 });
  await page.getByRole('navigation', { name: 'Stations' }).getByRole('button', { name: 'Zones' }).click();
  await page.waitForTimeout(3000);
  await page.getByRole('button', { name: 'Fit' }).click();
  await page.waitForTimeout(2000);
  await instruments(page, rings);
  await page.evaluate(async (base64) => {
    const blob = await (await fetch(`data:image/jpeg;base64,${base64}`)).blob();
    const whole = await createImageBitmap(blob);
    const small = await createImageBitmap(whole, { resizeWidth: 2600, resizeQuality: 'medium' });
    Object.assign(globalThis, { benchImage: small });
  }, noise.toString('base64'));
  const plain: Work = {
    moves: (count) =>
      page.evaluate((n) => {
        const { bench, benchImage } = globalThis as unknown as InPage;
        return bench.plainMoves(benchImage, n);
      }, count),
  };
  const idle: Work = {
    moves: (count) => page.evaluate((n) => (globalThis as unknown as InPage).bench.idle(n), count),
  };
  /** Presses a button at a place of the board, moves, and lets go. */
  const gesture = (x: number, y: number, button: number): Required<Work> => {
    const tell = (what: 'press' | 'moves' | 'lift', count = 0) =>
      page.evaluate(([w, at, down, n]) => (globalThis as unknown as InPage).bench[w](at.x, at.y, down, n), [
        what,
        { x, y },
        button,
        count,
      ] as const);
    return { begin: () => tell('press'), moves: (count) => tell('moves', count), end: () => tell('lift') };
  };
  const onBoard = (p: { x: number; y: number }) =>
    page.evaluate((q) => (globalThis as unknown as InPage).bench.place(q), p);
  const outline = rings[Math.floor(ZONES / 2)]!;
  // The slab is selected by a tap inside it, then its corner is dragged.
  const at = await onBoard({
    x: outline.reduce((s, p) => s + p.x, 0) / outline.length,
    y: outline.reduce((s, p) => s + p.y, 0) / outline.length,
  });
  const box = (await page.locator('.board').boundingBox())!;
  await page.mouse.click(box.x + at.x, box.y + at.y);
  await page.waitForTimeout(500);
  const corner = await onBoard(outline[0]!);
  const onCorner = gesture(corner.x, corner.y, 0);
  const drag: Work = {
    ...onCorner,
    async end() {
      await onCorner.end();
      // A drag that moved nothing would be no measure.
      await page
        .getByRole('button', { name: 'Undo' })
        .and(page.locator(':enabled'))
        .waitFor({ timeout: 5000 });
      await page.keyboard.press('Control+z');
      await page.waitForTimeout(300);
    },
  };
  const pan = gesture(20, 20, 1);
  const session = await page.context().newCDPSession(page);
  await session.send('Performance.enable');
  const none = await busyMs(session, idle);
  const drawn = await busyMs(session, plain);
  const dragged = await busyMs(session, drag);
  const panned = await busyMs(session, pan);
  const ratio = (ms: number) => ((ms - none) / (drawn - none)).toFixed(2);
  console.log(
    `${ZONES} zones of ${CORNERS} corners over a photo of ${((width * height) / 1e6).toFixed(0)} megapixels`,
  );
  console.log(
    `plain canvas drawing of the scene: ${drawn.toFixed(1)} ms a move, ${none.toFixed(1)} ms of it idle`,
  );
  console.log(
    `panning the board: ${panned.toFixed(1)} ms, ${ratio(panned)} of the plain drawing (wanted: 0.5 at most)`,
  );
  console.log(
    `dragging a corner: ${dragged.toFixed(1)} ms, ${ratio(dragged)} of the plain drawing (wanted: 1 at most)`,
  );
  await openingAPhoto();
} finally {
  await browser.close();
  await desk.close();
  rmSync(folder, { recursive: true, force: true });
}

/** How long opening the photo and first drawing it hold the page, beside a page that makes it smaller by itself. */
async function openingAPhoto(): Promise<void> {
  const page = await browser.newPage({ viewport: { width: 1440, height: 900 } });
  await page.addInitScript(`globalThis.__name = (f) => f; globalThis.longest = 0;
    new PerformanceObserver((list) => {
      for (const task of list.getEntries()) longest = Math.max(longest, task.duration);
    }).observe({ entryTypes: ['longtask'] })`);
  await page.goto(desk.url);
  const longest = async (work: () => Promise<void>) => {
    await page.waitForTimeout(1000);
    await page.evaluate('longest = 0');
    await work();
    await page.waitForTimeout(3000);
    return (await page.evaluate('longest')) as number;
  };
  await page.getByRole('navigation', { name: 'Stations' }).getByRole('button', { name: 'Site' }).click();
  await page.getByRole('button', { name: 'New job' }).first().click();
  const choosing = page.waitForEvent('filechooser');
  await page.getByRole('button', { name: 'A photo, plan or drawing', exact: true }).click();
  const chosen = await choosing;
  const board = await longest(() => chosen.setFiles(photoPath));
  const plain = await longest(() =>
    page.evaluate(async (base64) => {
      const blob = await (await fetch(`data:image/jpeg;base64,${base64}`)).blob();
      const image = await createImageBitmap(blob, { resizeWidth: 4896, resizeQuality: 'low' });
      const canvas = document.createElement('canvas');
      canvas.width = 1440;
      canvas.height = 900;
      canvas.getContext('2d')!.drawImage(image, 0, 0, 1350, 900);
      document.body.append(canvas);
    }, noise.toString('base64')),
  );
  const said = (ms: number) => (ms < 50 ? 'under 50 ms' : `${ms.toFixed(0)} ms`);
  console.log(
    `opening the photo holds the page for ${said(board)} (wanted: 50 at most), shrinking it in the page ${said(plain)}`,
  );
}
