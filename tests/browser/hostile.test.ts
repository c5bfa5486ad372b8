import { existsSync, readdirSync, readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type HostileFile, hostileFiles } from '../hostile/files.ts';
import { openTestDesk, type TestDesk } from './desk.ts';

let desk: TestDesk;
beforeAll(async () => {
  desk = await openTestDesk();
}, 300_000);
afterAll(() => desk.close());

/** Drops a file on the page and waits for what comes of it; in milliseconds how long that took, and in words what. */
async function drop(
  page: Page,
  { name, bytes }: HostileFile,
): Promise<{ readonly ms: number; readonly said: string }> {
  const started = Date.now();
  const said = await page.evaluate(
    async ([fileName, base64]) => {
      const data = Uint8Array.from(atob(base64!), (c) => c.charCodeAt(0));
      const transfer = new DataTransfer();
      transfer.items.add(new File([data], fileName!));
      document.querySelector('.message .link')?.dispatchEvent(new MouseEvent('click', { bubbles: true }));
      document
        .querySelector('.desk')!
        .dispatchEvent(new DragEvent('drop', { dataTransfer: transfer, bubbles: true, cancelable: true }));
      for (let i = 0; i < 1200; i++) {
        await new Promise((r) => setTimeout(r, 25));
        const shown = document.querySelector('.message');
        const message = shown ? `${shown.classList.contains('problem') ? '! ' : ''}${shown.textContent}` : '';
        if (message.startsWith('Reading ')) continue;
        const asked = [...document.querySelectorAll('h2')].find((h) => h.textContent?.startsWith('Open '));
        if (message || asked) return message || asked!.textContent!;
        if (i > 40 && document.querySelector('.entries input')) return 'asks for the scale';
      }
      return '';
    },
    [name, bytes.toString('base64')],
  );
  return { ms: Date.now() - started, said };
}

/** The most memory that a process of a page has had so far; 0 where the machine does not say. */
function heaviestMB(): number {
  if (!existsSync('/proc/self/status')) return 0;
  const peaks = readdirSync('/proc')
    .filter((name) => /^\d+$/.test(name))
    .map((pid) => {
      try {
        if (!readFileSync(`/proc/${pid}/cmdline`, 'utf8').includes('--type=renderer')) return 0;
        return Number(/VmHWM:\s+(\d+)/.exec(readFileSync(`/proc/${pid}/status`, 'utf8'))?.[1] ?? 0) / 1024;
      } catch {
        // It ended while it was looked at.
        return 0;
      }
    });
  return Math.max(0, ...peaks);
}

/** A file that has not ended by now never does; how long each kind took is printed, as other tests share the machine. */
const MOST_MS = 25_000;

test('files from strangers end in a sentence or a sheet; no script of theirs runs, nothing is asked of anybody', async () => {
  const files = hostileFiles();
  // Half of them are real files, damaged: those lie beside the project.
  expect(files.length).toBeGreaterThanOrEqual(140);
  const tally = new Map<string, { tried: number; refused: number; taken: number; slowest: number }>();
  const faults: string[] = [];
  let page: Page | null = null;
  const asked: string[] = [];
  let heaviest = 0;
  for (const [i, file] of files.entries()) {
    if (i % 30 === 0) {
      await page?.context().close();
      const context = await desk.browser.newContext({ viewport: { width: 1200, height: 800 } });
      page = await context.newPage();
      page.on('request', (r) => {
        const url = r.url();
        if (!url.startsWith(desk.url) && !/^(blob|data):/.test(url)) asked.push(`${file.name}: ${url}`);
      });
      page.on('dialog', (d) => {
        faults.push(`${file.name}: a dialog “${d.message()}”`);
        void d.dismiss();
      });
      page.on('pageerror', (e) => faults.push(`${files[i]!.name}: ${e.message.slice(0, 200)}`));
      page.on('crash', () => faults.push(`${file.name}: the page is gone`));
      await page.goto(desk.url);
      await page.getByRole('button', { name: 'Select' }).waitFor();
    }
    const { ms, said } = await drop(page!, file);
    const row = tally.get(file.kind) ?? { tried: 0, refused: 0, taken: 0, slowest: 0 };
    row.tried++;
    row.slowest = Math.max(row.slowest, ms);
    if (said.startsWith('!')) row.refused++;
    else row.taken++;
    tally.set(file.kind, row);
    if (said === '') faults.push(`${file.name}: nothing was said`);
    if (ms > MOST_MS) faults.push(`${file.name}: took ${ms} ms`);
    const hacked = await page!.evaluate(() => [
      (globalThis as Record<string, unknown>).hacked ?? null,
      ({} as Record<string, unknown>).hacked ?? null,
      document.querySelectorAll('.desk script, .desk iframe, .desk img[src="x"]').length,
    ]);
    heaviest = Math.max(heaviest, heaviestMB());
    if (JSON.stringify(hacked) !== '[null,null,0]')
      faults.push(`${file.name}: ran or got in: ${JSON.stringify(hacked)}`);
  }
  await page?.context().close();
  console.log(
    [...tally]
      .map(
        ([kind, t]) =>
          `${kind}: ${t.tried} tried, ${t.refused} refused in a sentence, ${t.taken} taken, slowest ${t.slowest} ms`,
      )
      .join('\n'),
  );
  console.log(`the heaviest process of a page reached ${heaviest.toFixed(0)} MB`);
  expect(heaviest).toBeLessThan(1024);
  expect(faults).toEqual([]);
  expect(asked).toEqual([]);
}, 900_000);
