import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { deskFor } from '../../src/cli/desk.ts';
import type { PaperId } from '../../src/exports/papers/paper.ts';
import type { Job } from '../../src/job/types.ts';
import { results } from '../../src/results.ts';
import { areaNumber, lengthNumber, packText, volumeNumber } from '../../src/units/format.ts';
import { moneyText } from '../../src/units/money.ts';
import { edited, oneSlab } from '../coating/scene.ts';
import { installed } from '../office.ts';
import { DEMOS, DESK, demo, demoFile, exported } from './scene.ts';

const folder = mkdtempSync(join(tmpdir(), 'slabwright-papers-'));
let files = 0;

/** A job's papers as a file on disk. */
async function papers(job: Job, wanted?: readonly PaperId[], desk = DESK): Promise<string> {
  const path = join(folder, `${files++}.pdf`);
  writeFileSync(
    path,
    await exported(job, 'pdf', { ...desk, ...(wanted ? { papers: new Set(wanted) } : {}) }),
  );
  return path;
}

const run = (program: string, ...args: readonly string[]): string =>
  execFileSync(program, [...args], { encoding: 'utf8', maxBuffer: 50_000_000 });

/** Text without the spaces that a reader puts between the pieces of a line. */
const squeezed = (text: string): string => text.replace(/[\u200b-\u200f\u202a-\u202e\s]+/g, '');

/** A logo of one grey pixel. */
const PIXEL = 'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAAAAAA6fptVAAAACklEQVR4nGNoAAAAggCBd81ytgAAAABJRU5ErkJggg==';

/** Everything that a person may add for the papers. */
const addressed = (job: Job): Job =>
  edited(
    job,
    {
      type: 'set-business',
      args: {
        name: 'Fernhollow Coatings',
        details: '1 Invented Lane\nFernhollow',
        terms: 'Half on the first day, half on the last.',
        logo: { type: 'image/png', base64: PIXEL },
        validDays: 14,
      },
    },
    { type: 'set-customer', args: { name: 'O. Quill', address: '2 Invented Lane', site: 'Behind the shed' } },
    { type: 'name-offer', args: { offer: { number: 'Q-0042', on: '2026-03-02' } } },
    {
      type: 'set-record',
      args: {
        id: 'r1',
        on: '2026-03-12',
        slabId: '',
        work: 'coat',
        productId: 'solvent-borne-paint',
        usedL: 12.5,
        hoursH: 6,
        batch: 'B-77',
        note: 'second coat',
        photos: [],
      },
    },
    {
      type: 'add-reading',
      args: { id: 'w1', at: '2026-03-12T09:00', airC: 16, humidityPct: 55, slabC: 18, windKmH: 8 },
    },
  );

describe.skipIf(!installed('pdftotext', '-v'))('papers as another program reads them', () => {
  test.each(DEMOS)('%s: every figure that people act on is there, as the tool has it', async (name) => {
    const job = demo(name);
    const r = results(job);
    const words = squeezed(run('pdftotext', '-layout', await papers(job), '-'));
    const has = (text: string) => expect(words.includes(squeezed(text)), text).toBe(true);
    const { units } = job.settings;
    for (const z of r.takeoff.zones) {
      has(areaNumber(z.netArea.value, units));
      has(lengthNumber(z.boundary.value, units));
    }
    for (const z of r.coating.zones) for (const c of z.coats) has(volumeNumber(c.paint.value, units));
    for (const line of r.order.lines) {
      has(volumeNumber(line.need.value, units));
      for (const p of line.choice!.packs) has(`${p.count} ${packText(p.sizeL, units)}`);
    }
    if (r.quote.offer) {
      for (const cents of [r.quote.offer.netCents, r.quote.offer.taxCents, r.quote.offer.totalCents])
        has(moneyText(cents));
    } else has('No price yet');
    for (const c of r.quote.cautions) has(c.words.slice(0, 40));
    for (const t of r.days?.tasks ?? []) has(t.startAt.slice(11, 16));
  });

  test('a quote shows what is charged, and neither costs nor margin', async () => {
    const job = addressed(demo('workshop'));
    const { quote } = results(job);
    const text = run('pdftotext', '-layout', await papers(job, ['quote']), '-');
    for (const words of ['Fernhollow Coatings', '1 Invented Lane', 'Q-0042', 'O. Quill', 'Behind the shed'])
      expect(text).toContain(words);
    expect(text).toMatch(/Date\s+2 March 2026/);
    expect(text).toMatch(/Holds until\s+16 March 2026/);
    expect(text).toContain('Half on the first day');
    expect(text.match(/Cautions/g)).toHaveLength(1);
    for (const line of quote.offer!.lines) expect(text).toContain(moneyText(line.cents));
    const cost = quote.costs.filter((c) => c.kind === 'labour')[0]!;
    expect(text).not.toContain(moneyText(cost.cents!));
    expect(text).not.toContain(moneyText(cost.eachCents!));
  });

  test('the handover has batches, paint used beside what was worked out, the weather and the next coat', async () => {
    const job = addressed(demo('workshop'));
    const text = run('pdftotext', '-layout', await papers(job, ['handover']), '-').replace(/\s+/g, ' ');
    expect(text).toContain('B-77');
    expect(text).toContain('12.50');
    expect(text).toContain('12 March 2026');
    // Four years by the value of its system.
    expect(text).toContain('March 2030');
    expect(text).toContain('2026-03-12 09:00');
  });

  test('a photo of the work is set into the handover', async () => {
    const job = addressed(oneSlab());
    const with1 = edited(job, { type: 'set-record', args: { ...job.records!.r1!, photos: ['p'] } });
    const photo = {
      type: 'image/jpeg',
      bytes: new Uint8Array(readFileSync('demo-plans/patio-photo/photo.jpg')),
    };
    const path = await papers(with1, ['handover'], {
      ...DESK,
      image: async (id) => (id === 'p' ? photo : null),
    });
    expect(run('pdfimages', '-list', path)).toContain('jpeg');
  });

  test('typefaces are inside, the title and the language are said, nothing runs and nothing is locked', async () => {
    const path = await papers(addressed(demo('workshop')));
    const fonts = run('pdffonts', path).trim().split('\n').slice(2);
    expect(fonts.length).toBe(2);
    // Name, type, encoding, and then whether it is embedded, a subset, and has a way back to Unicode.
    for (const font of fonts) expect(font).toMatch(/\byes +yes +yes\b/);
    const info = run('pdfinfo', path);
    expect(info).toMatch(/Title: +Q-0042 · Fernhollow Workshop/);
    expect(info).toMatch(/JavaScript: +no/);
    expect(info).toMatch(/Encrypted: +no/);
    expect(info).toMatch(/Page size: +595\.28 x 841\.89 pts \(A4\)/);
    // ISO 19005-2, level B, as the document says of itself; no checker of that standard was at hand.
    expect(run('pdfinfo', '-meta', path)).toMatch(/<pdfaid:part>2<.*<pdfaid:conformance>B</s);
  });

  test('on US letter where the letterhead says so', async () => {
    const job = edited(demo('yard'), { type: 'set-business', args: { paper: 'LETTER' } });
    expect(run('pdfinfo', await papers(job))).toMatch(/Page size: +612 x 792 pts \(letter\)/);
  });

  test('the drawing prints true: lengths on paper are those on the ground by the scale it states', async () => {
    const path = await papers(demo('workshop'), ['drawing']);
    const text = run('pdftotext', path, '-');
    const ratio = Number(/Scale 1 : (\d+)/.exec(text)![1]);
    const svg = join(folder, 'page.svg');
    run('pdftocairo', '-svg', '-noshrink', '-nocenter', '-f', '1', '-l', '1', path, svg);
    // Slabs are the lines of half a millimetre; the matrix takes millimetres to points.
    const lines = readFileSync(svg, 'utf8').match(/<path[^>]*stroke-width:0\.5;[^>]*>/g)!;
    const sides = lines.flatMap((line) => {
      const [a] = /matrix\(([\d.]+),/.exec(line)!.slice(1).map(Number);
      const data = / d="([^"]+)"/.exec(line)![1]!;
      const points = [...data.matchAll(/[ML] ([\d.-]+) ([\d.-]+)/g)].map((m) => [Number(m[1]), Number(m[2])]);
      return points.slice(1).map(([x, y], i) => {
        const mm = (Math.hypot(x! - points[i]![0]!, y! - points[i]![1]!) * a! * 25.4) / 72;
        return (mm * ratio) / 1000;
      });
    });
    // As lettered on the plan: 12.00 m of forecourt, 6.50 m of bay, 1.50 m of ramp.
    for (const metres of [12, 7, 6.5, 6, 1.5]) {
      const nearest = sides.reduce((best, s) => (Math.abs(s - metres) < Math.abs(best - metres) ? s : best));
      expect(Math.abs(nearest - metres)).toBeLessThan(0.001);
    }
  });

  test('names in other scripts, with quotes, and of 500 letters are set and found again', async () => {
    for (const name of ['שלום עולם', 'Двор “7”', 'x'.repeat(3) + 'long'.repeat(120)]) {
      const job = oneSlab();
      const path = await papers({ ...job, slabs: { a: { ...job.slabs.a!, name } } });
      const text = squeezed(run('pdftotext', path, '-'));
      // Right-to-left letters may be handed over in either order.
      const wanted = /[א-ת]/.test(name) ? /שלום|םולש/ : squeezed(name).slice(0, 200);
      expect(typeof wanted === 'string' ? text.includes(wanted) : wanted.test(text), name.slice(0, 20)).toBe(
        true,
      );
    }
  });
});

describe.skipIf(!installed('qpdf'))('qpdf', () => {
  test.each(DEMOS)('%s: no fault in its structure, a bookmark for each paper', async (name) => {
    const path = await papers(addressed(demo(name)));
    expect(run('qpdf', '--check', path)).toContain('No syntax or stream encoding errors found');
    const { outlines } = JSON.parse(run('qpdf', '--json', '--json-key=outlines', path)) as {
      outlines: Array<{ title: string }>;
    };
    const titles = outlines.map((o) => o.title);
    expect(titles[0]).toBe('Quote Q-0042');
    expect(titles.filter((t) => t.startsWith('Drawing: ')).length).toBeGreaterThan(0);
    expect(titles).toContain('Readiness and safety');
    const document = JSON.parse(run('qpdf', '--json', '--json-key=qpdf', path)) as { qpdf: object[] };
    expect(JSON.stringify(document)).toContain('"/Lang":"u:en"');
    expect(JSON.stringify(document)).not.toMatch(/"\/(JavaScript|JS|Launch|URI)"/);
  });
});

test('papers that say nothing are left out; a job’s pictures are found in its file or beside it', async () => {
  const bytes = await exported(oneSlab({ systemId: null }), 'pdf', {
    ...DESK,
    papers: new Set(['mixes', 'quote']),
  });
  expect(new TextDecoder('latin1').decode(bytes.slice(0, 8))).toBe('%PDF-1.7');
  const desk = deskFor('demo-plans/patio-photo/job.json', demoFile('patio-photo'), undefined);
  const [id] = Object.keys(demoFile('patio-photo').images);
  expect((await desk.image(id!))!.bytes.length).toBeGreaterThan(1000);
  expect(await desk.image('none')).toBeNull();
});
