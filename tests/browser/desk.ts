import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
} from 'node:fs';
import { join, resolve } from 'node:path';
import { type Browser, type BrowserContextOptions, chromium, type Page } from 'playwright-core';
import { build, type PreviewServer, preview } from 'vite';

const PLACES = [
  process.env.CHROMIUM,
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
  '/usr/bin/google-chrome-stable',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  'C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe',
];

export const ARGS = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

/** A Chromium on this machine; on Debian as root it is installed if need be. */
export function findBrowser(): string {
  const there = () => PLACES.find((place) => place && existsSync(place));
  const found = there();
  if (found) return found;
  try {
    execFileSync('apt-get', ['update'], { stdio: 'ignore' });
    execFileSync('apt-get', ['install', '-y', 'chromium'], { stdio: 'ignore' });
  } catch {
    // Not Debian, or not root: the sentence below says what to do.
  }
  const installed = there();
  if (installed) return installed;
  throw new Error(
    'No Chromium was found: install it (on Debian: apt-get install chromium), or set CHROMIUM to its path, and run the tests again.',
  );
}

const DAY_MS = 86_400_000;
const CACHE = join('node_modules', '.cache');

/** The application as it is built from what lies here now; built once for all files of tests that open it. */
async function built(): Promise<string> {
  const name = `desk-${sourcesDigest()}`;
  const outDir = join(CACHE, name);
  if (existsSync(outDir)) return outDir;
  mkdirSync(CACHE, { recursive: true });
  const making = mkdtempSync(join(CACHE, 'making-desk-'));
  // The test runner's own mode would build React for development.
  const mode = process.env.NODE_ENV;
  process.env.NODE_ENV = 'production';
  try {
    await build({
      configFile: 'vite.config.ts',
      logLevel: 'error',
      mode: 'production',
      build: { outDir: resolve(making), emptyOutDir: true },
    });
  } finally {
    process.env.NODE_ENV = mode;
  }
  try {
    renameSync(making, outDir);
  } catch {
    // Another file of tests was quicker.
    rmSync(making, { recursive: true, force: true });
  }
  // Another run may still serve a younger one.
  for (const old of readdirSync(CACHE).filter((n) => /^(making-)?desk-/.test(n)))
    if (Date.now() - statSync(join(CACHE, old)).mtimeMs > DAY_MS)
      rmSync(join(CACHE, old), { recursive: true, force: true });
  return outDir;
}

/** All that the built application is made of, in few letters. */
function sourcesDigest(): string {
  const hash = createHash('sha256');
  const add = (path: string): void => {
    if (!statSync(path).isDirectory()) hash.update(path).update(readFileSync(path));
    else for (const name of readdirSync(path).sort()) add(join(path, name));
  };
  for (const path of ['src', 'geometry', 'demo-plans', 'vite.config.ts', 'package-lock.json']) add(path);
  return hash.digest('hex').slice(0, 16);
}

/** The built application, served, and a browser to look at it with. */
export interface TestDesk {
  readonly url: string;
  readonly browser: Browser;
  readonly close: () => Promise<void>;
}

export async function openTestDesk(): Promise<TestDesk> {
  const outDir = await built();
  const server: PreviewServer = await preview({
    configFile: 'vite.config.ts',
    logLevel: 'error',
    build: { outDir: resolve(outDir) },
    preview: { port: 0, host: '127.0.0.1' },
  });
  const browser = await chromium.launch({ executablePath: findBrowser(), args: ARGS });
  return {
    url: server.resolvedUrls!.local[0]!,
    browser,
    async close() {
      await browser.close();
      await server.close();
    },
  };
}

/** A fresh page whose console and errors are kept, so that a test can ask that there were none. */
export async function openPage(
  desk: TestDesk,
  options: BrowserContextOptions = { viewport: { width: 1440, height: 900 } },
): Promise<{ readonly page: Page; readonly said: string[] }> {
  const context = await desk.browser.newContext({ acceptDownloads: true, ...options });
  const page = await context.newPage();
  const said: string[] = [];
  page.on('console', (message) => said.push(`${message.type()}: ${message.text()}`));
  page.on('pageerror', (error) => said.push(`error: ${error.message}`));
  await page.goto(desk.url);
  await page.getByRole('button', { name: 'Select' }).waitFor();
  return { page, said };
}

/** Opens a station of the job. */
export const station = (page: Page, name: string): Promise<void> =>
  page.getByRole('navigation', { name: 'Stations' }).getByRole('button', { name }).click();

/**
 * Clicks the board at a place of the sheet's picture, by where the picture lay on the screen when it was fitted:
 * what is seen stays where it is while the bars around it change.
 */
export function boardAt(page: Page, fitted: FittedPicture) {
  return async (x: number, y: number) => {
    const at = onScreen(fitted, x, y);
    await page.mouse.move(at.x, at.y, { steps: 3 });
    await page.waitForTimeout(40);
    await page.mouse.click(at.x, at.y);
    await page.waitForTimeout(40);
  };
}

/** A picture fitted into the board: its middle on the screen, and screen pixels per pixel of it. */
export interface FittedPicture {
  readonly zoom: number;
  readonly middle: { readonly x: number; readonly y: number };
  readonly width: number;
  readonly height: number;
}

/** Where a place of a fitted picture is on the screen. */
export const onScreen = ({ zoom, middle, width, height }: FittedPicture, x: number, y: number) => ({
  x: middle.x + (x - width / 2) * zoom,
  y: middle.y + (y - height / 2) * zoom,
});

/** Fits the picture into the board, as the Fit button does, and says where it then lies. */
export async function fitPicture(page: Page, width: number, height: number): Promise<FittedPicture> {
  await page.waitForTimeout(300);
  await page.getByRole('button', { name: 'Fit' }).click();
  const box = (await page.locator('.board').boundingBox())!;
  const margin = box.width < 600 ? 18 : 40;
  const zoom = Math.min((box.width - 2 * margin) / width, (box.height - 2 * margin) / height);
  return { zoom, middle: { x: box.x + box.width / 2, y: box.y + box.height / 2 }, width, height };
}

/** All that a store of the browser's database holds, with its keys; it stays in the page. */
export const storeOf = (page: Page, name: string) =>
  page.evaluateHandle(async (store) => {
    const opened = indexedDB.open('slabwright');
    const db = await new Promise<IDBDatabase>((done) => {
      opened.onsuccess = () => done(opened.result);
    });
    const tx = db.transaction(store);
    const [keys, values] = [tx.objectStore(store).getAllKeys(), tx.objectStore(store).getAll()];
    await new Promise((done) => {
      tx.oncomplete = done;
    });
    db.close();
    return { keys: keys.result, values: values.result as unknown[] };
  }, name);
