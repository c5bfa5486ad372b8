import { type ChildProcess, spawn } from 'node:child_process';
import { appendFileSync, cpSync, existsSync, mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { type Browser, chromium, type Page } from 'playwright-core';
import { build, preview } from 'vite';
import { type History, startHistory } from '../../src/job/history.ts';
import { ARGS, findBrowser } from '../browser/desk.ts';
import { randomNumbers } from '../random/numbers.ts';
import { digest, type Found, firstJob, stepped, stepsOfRound } from './steps.ts';

/** What came of many kills. */
export interface CrashTally {
  rounds: number;
  /** Steps that were said to be made before a kill. */
  steps: number;
  /** Rounds that came back as they were, and those that lacked the last step. */
  whole: number;
  lastMissing: number;
  /** Rounds that lacked more, or came back as something that never was. */
  lost: number;
  /** Openings at which the browser had thrown its store away. */
  thrownAway: number;
}

interface Running {
  readonly process: ChildProcess;
  readonly browser: Browser;
  readonly page: Page;
}

/**
 * Works on a job in a real browser and kills it at a random moment, again and again, in one profile.
 * @param keep a folder for the stores as the kill left them, in a round where something was lost
 */
export async function crash(
  rounds: number,
  say: (line: string) => void = () => {},
  keep: string | null = null,
): Promise<CrashTally> {
  const here = fileURLToPath(new URL('.', import.meta.url));
  const dir = mkdtempSync(join(tmpdir(), 'slabwright-crash-'));
  const outDir = join(dir, 'built');
  await build({
    root: here,
    configFile: false,
    logLevel: 'error',
    base: './',
    worker: { format: 'es' },
    build: {
      outDir,
      emptyOutDir: true,
      target: 'es2022',
      rolldownOptions: { input: join(here, 'probe.html') },
    },
  });
  const server = await preview({
    root: here,
    configFile: false,
    logLevel: 'error',
    build: { outDir },
    preview: { port: 0, host: '127.0.0.1' },
  });
  const url = `${server.resolvedUrls!.local[0]!}probe.html`;
  const random = randomNumbers(77);
  const tally: CrashTally = { rounds: 0, steps: 0, whole: 0, lastMissing: 0, lost: 0, thrownAway: 0 };
  let at: Place = { step: 0, seq: 0, history: startHistory(firstJob()) };
  /** The round before, which shows what came of it when the browser is opened again. */
  let last: { readonly round: number; readonly made: number } | null = null;
  try {
    for (let round = 0; round <= rounds; round++) {
      if (round % TEAR_EVERY === TEAR_EVERY - 1) tear(join(dir, 'profile'));
      if (keep) keepStores(join(dir, 'profile'), keep);
      const running = await open(join(dir, 'profile'), url);
      const found = (await running.page.evaluate('probe.found()')) as Found;
      if (found.broughtBack) tally.thrownAway++;
      if (last) {
        const came = whereIn(at, last.round, found);
        judge(tally, last, came?.step ?? null, say);
        if (!came) say(`  its last step is number ${found.seq}; the round began after number ${at.seq}`);
        if (!came || (keep && tally.lost > 0)) {
          await kill(running);
          break;
        }
        at = came;
      } else if (found.digest !== digest(at.history))
        throw new Error('a new profile does not begin with the first job');
      if (round === rounds) {
        await kill(running);
        break;
      }
      let made = 0;
      running.page.on('console', (message) => {
        const step = /^step (\d+)$/.exec(message.text());
        if (step) made = Number(step[1]);
      });
      running.page.evaluate(`probe.work(${round})`).catch(() => {});
      await new Promise((resolve) => setTimeout(resolve, 60 + random() * 900));
      last = { round, made };
      await kill(running);
    }
  } finally {
    await server.close();
    rmSync(dir, { recursive: true, force: true });
  }
  return tally;
}

/** Every so many rounds the store is left as a kill seldom leaves it. */
const TEAR_EVERY = 20;

/**
 * What a kill between the two writes of a record leaves: its head (checksum, length, kind) without its body. Chromium
 * appends behind it at the next opening, and throws the store away at the one after that.
 * https://github.com/google/leveldb/blob/main/doc/log_format.md, from memory; seen in stores kept with --keep
 */
function tear(profile: string): void {
  const stores = join(profile, 'Default', 'IndexedDB');
  for (const store of readdirSync(stores).filter((name) => name.endsWith('.leveldb'))) {
    const logs = readdirSync(join(stores, store)).filter((name) => /^\d+\.log$/.test(name));
    const last = logs.sort()[logs.length - 1];
    if (last) appendFileSync(join(stores, store, last), Buffer.from([1, 2, 3, 4, 0xa7, 0x03, 1]));
  }
}

/** Copies what the browser has of the page's stores on the disk. */
function keepStores(profile: string, to: string): void {
  rmSync(to, { recursive: true, force: true });
  for (const store of ['IndexedDB', 'WebStorage', 'Local Storage'])
    if (existsSync(join(profile, 'Default', store)))
      cpSync(join(profile, 'Default', store), join(to, store), { recursive: true });
}

/** Counts a round by how many of the steps that were said to be made came back. */
function judge(
  tally: CrashTally,
  { round, made }: { readonly round: number; readonly made: number },
  step: number | null,
  say: (line: string) => void,
): void {
  tally.rounds++;
  tally.steps += made;
  if (step === null || step < made - 1) {
    tally.lost++;
    say(
      `round ${round}: ${made} steps were made, ${step === null ? 'what came back never was' : `${step} came back`}`,
    );
  } else if (step < made) tally.lastMissing++;
  else tally.whole++;
}

/** A place among the steps of a round: after how many, the number of the last that changed something, and the history. */
interface Place {
  readonly step: number;
  readonly seq: number;
  readonly history: History;
}

/** After which step of a round a job was as it was found, number and all; null where it never was. */
function whereIn(start: Place, round: number, found: Found): Place | null {
  const steps = stepsOfRound(round);
  let at: Place = { ...start, step: 0 };
  let last: Place | null = null;
  while (at.seq <= found.seq && at.step < MOST_STEPS) {
    // A refused edit leaves everything as it was: the last place with the number counts.
    if (at.seq === found.seq) last = at;
    steps.gap();
    const history = stepped(at.history, steps.next(at.history));
    at = { step: at.step + 1, seq: at.seq + (history === at.history ? 0 : 1), history };
  }
  return last && digest(last.history) === found.digest ? last : null;
}

/** No round comes to as many steps. */
const MOST_STEPS = 500;

async function open(profile: string, url: string): Promise<Running> {
  const process = spawn(
    findBrowser(),
    [...ARGS, '--headless=new', '--remote-debugging-port=0', `--user-data-dir=${profile}`, 'about:blank'],
    { detached: true, stdio: ['ignore', 'ignore', 'pipe'] },
  );
  const endpoint = await new Promise<string>((resolve, reject) => {
    let told = '';
    process.stderr!.on('data', (chunk: Buffer) => {
      told += chunk.toString();
      const found = /DevTools listening on (ws:\S+)/.exec(told);
      if (found) resolve(found[1]!);
    });
    process.on('exit', () => reject(new Error(`the browser ended: ${told.slice(-300)}`)));
  });
  const browser = await chromium.connectOverCDP(endpoint);
  const page = await browser.contexts()[0]!.newPage();
  await page.goto(url);
  await page.waitForFunction(() => document.title === 'ready');
  return { process, browser, page };
}

/** The whole browser at once, as when the power goes. */
async function kill({ process: child }: Running): Promise<void> {
  const gone = new Promise((resolve) => child.on('exit', resolve));
  process.kill(-child.pid!, 'SIGKILL');
  await gone;
}
