import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { slabwright } from '../../src/cli/program.ts';

const run = async (...args: string[]) => {
  let [out, err] = ['', ''];
  const code = await slabwright(args, {
    out: (text) => {
      out += text;
    },
    err: (text) => {
      err += text;
    },
  });
  return { code, out, err };
};
const workshop = 'demo-plans/workshop/job.json';
const folder = mkdtempSync(join(tmpdir(), 'slabwright-'));

test('the command itself prints, says what is wrong, and ends with a number; who stops reading does not break it', () => {
  const command = (line: string) =>
    spawnSync('bash', ['-c', line.replace('slabwright', 'npm run --silent slabwright --')], {
      encoding: 'utf8',
    });
  const done = command(`slabwright takeoff ${workshop} --format json`);
  expect([done.status, done.stderr]).toEqual([0, '']);
  expect(JSON.parse(done.stdout).zones.length).toBeGreaterThan(2);
  const missing = command(`slabwright takeoff ${join(folder, 'none.json')}`);
  expect(missing).toMatchObject({ status: 1, stdout: '' });
  expect(missing.stderr).toContain('there is no such file or folder');
  const cut = command(`slabwright takeoff ${workshop} --format json | head -c 5`);
  expect([cut.status, cut.stderr]).toEqual([0, '']);
});

test('takeoff as JSON has the documented keys, and its sums hold', async () => {
  const { code, out } = await run('takeoff', workshop, '--format', 'json');
  expect(code).toBe(0);
  const json = JSON.parse(out);
  expect(json.schema).toBe(1);
  for (const zone of json.zones) {
    const edges = zone.stretches.reduce((sum: number, s: { length_m: number }) => sum + s.length_m, 0);
    expect(edges).toBeCloseTo(zone.boundary_m, 9);
    expect(zone.cutIn_m).toBeGreaterThan(0);
    expect(zone.nap_mm).toBeGreaterThan(0);
  }
  for (const slab of json.slabs) {
    const zones = json.zones.filter((z: { slabId: string }) => z.slabId === slab.id);
    const net = zones.reduce((sum: number, z: { netArea_m2: number }) => sum + z.netArea_m2, 0);
    expect(net + slab.voidArea_m2).toBeCloseTo(slab.outlineArea_m2, 9);
  }
  const shared = (from: string, to: string) =>
    json.zones.find((z: { id: string }) => z.id === from).stretches.find((s: { ref: string }) => s.ref === to)
      .length_m;
  expect(shared('drive', 'walk')).toBe(shared('walk', 'drive'));
});

test('coating prints litres per zone and coat', async () => {
  const json = JSON.parse((await run('coating', workshop, '--format', 'json')).out);
  for (const zone of json.zones) for (const coat of zone.coats) expect(coat.paint_L).toBeGreaterThan(0);
  expect(json.totals.length).toBeGreaterThan(2);
  expect((await run('coating', workshop)).out).toContain(
    'P = (A * k / S + A * d / (1000 * (1 + T))) / (1 - L)',
  );
});

test('order has the documented keys, holds what is needed, costs what its packs cost, and says when prices are missing', async () => {
  const json = JSON.parse((await run('order', workshop, '--format', 'json')).out);
  expect(json.lines.length).toBeGreaterThan(2);
  for (const line of json.lines) {
    const held = line.packs.reduce(
      (s: number, p: { size_L: number; count: number }) => s + p.size_L * p.count,
      0,
    );
    expect(held).toBeCloseTo(line.bought_L, 9);
    expect(held).toBeGreaterThanOrEqual(line.need_L);
    expect(line.cost).toBeGreaterThan(0);
  }
  expect(json.sundries.length).toBeGreaterThan(0);
  expect(json.cost).toBe(json.lines.reduce((sum: number, line: { cost: number }) => sum + line.cost, 0));
  expect((await run('order', 'demo-plans/patio-photo/job.json')).out).toContain('no prices yet');
});

test('a quote adds up to the cent, and says what it is made of', async () => {
  const json = JSON.parse((await run('quote', workshop, '--format', 'json')).out);
  const sum = (list: Array<{ price?: number; cost?: number }>) =>
    list.reduce((total, x) => total + (x.price ?? x.cost ?? 0), 0);
  expect(sum(json.offer.lines)).toBe(json.offer.net);
  expect(json.offer.net + json.offer.tax).toBe(json.offer.total);
  // 10 % of the net, half a cent up, in whole numbers: (n + 5) div 10.
  expect(json.offer.tax).toBe(Math.floor((json.offer.net + 5) / 10));
  for (const c of json.costs) expect(Number.isInteger(c.cost), c.what).toBe(true);
  expect((await run('quote', 'demo-plans/patio-photo/job.json')).out).toContain('No price yet');
});

test('a slab that should not be coated is not ordered, and the quote says so; a written reason lets it through', async () => {
  const job = JSON.parse(readFileSync('demo-plans/yard/job.json', 'utf8'));
  job.job.slabs.yard.answers['old-paint'] = 'peels';
  const refused = join(folder, 'refused.json');
  writeFileSync(refused, JSON.stringify(job));
  const order = await run('order', refused);
  expect([order.code, order.out]).toEqual([1, '']);
  expect(order.err).toContain('Do not coat “Yard”');
  const quote = await run('quote', refused);
  expect(quote.out).toContain('Do not coat Yard');
  expect(quote.out).toContain('No price: it should not be coated as it is.');
  job.job.slabs.yard.coatAnyway = {
    reason: 'The owner asks for a coat for one summer.',
    over: { 'old-paint': 'peels' },
  };
  writeFileSync(refused, JSON.stringify(job));
  expect((await run('order', refused)).code).toBe(0);
  expect((await run('quote', refused)).out).toContain('The owner asks for a coat for one summer.');
});

test('check of a broken job exits 1 with one sentence; usage is 2; a missing file is said', async () => {
  const broken = join(folder, 'broken.json');
  writeFileSync(broken, readFileSync(workshop, 'utf8').replace('"schema": 1', '"schema": 0'));
  const bad = await run('check', broken);
  expect([bad.code, bad.out]).toEqual([1, '']);
  expect(bad.err.trim().split('\n')).toHaveLength(1);
  expect(bad.err).toContain('version 0, which never existed');
  const newer = join(folder, 'newer.json');
  writeFileSync(newer, readFileSync(workshop, 'utf8').replace('"schema": 1', '"schema": 7'));
  expect((await run('check', newer)).out).toContain('saved by a newer slabwright (version 7');
  expect(await run('check', workshop)).toMatchObject({ code: 0 });
  expect((await run('takeoff')).code).toBe(2);
  expect(await run('takeoff', join(folder, 'none.json'))).toMatchObject({ code: 1, out: '' });
});

test('days prints the plan and the order of rolling, with the weather of a file; without any it says so', async () => {
  const weather = 'demo-plans/workshop/weather.csv';
  const json = JSON.parse((await run('days', workshop, '--weather', weather, '--format', 'json')).out);
  expect(json.plan.problem).toBeNull();
  expect(json.plan.tasks.length).toBeGreaterThan(5);
  expect(json.rollouts.map((r: { problem: string | null }) => r.problem)).toEqual([null, null, null, null]);
  expect((await run('days', workshop)).out).toContain('no other order of these pieces of work ends earlier');
  expect(await run('days', 'demo-plans/yard/job.json')).toMatchObject({ code: 1, out: '' });
  const nowhere = await run('days', 'demo-plans/yard/job.json', '--weather', weather);
  expect(nowhere.err).toContain('does not say where its weather is');
  const here = ['--latitude', '-37.6', '--longitude', '144.6', '--zone', '10'];
  expect((await run('days', 'demo-plans/yard/job.json', '--weather', weather, ...here)).code).toBe(0);
});

test('the day plan goes into a calendar that another library reads', async () => {
  const { default: ICAL } = await import('ical.js');
  const to = join(folder, 'plan.ics');
  expect((await run('export', workshop, '--to', to)).code).toBe(0);
  const calendar = new ICAL.Component(ICAL.parse(readFileSync(to, 'utf8')));
  const events = calendar.getAllSubcomponents('vevent').map((e) => new ICAL.Event(e));
  const { plan } = JSON.parse((await run('days', workshop, '--format', 'json')).out);
  for (const task of plan.tasks) {
    const event = events.find((e) => e.summary === `${task.slab}: ${task.task}`);
    expect(event?.startDate.toString().slice(0, 16), task.task).toBe(task.startAt);
    expect(event?.endDate.toString().slice(0, 16)).toBe(task.endAt);
  }
  expect(new Set(events.map((e) => e.uid)).size).toBe(events.length);
  expect(await run('export', 'demo-plans/yard/job.json', '--to', to)).toMatchObject({ code: 1 });
});

test('export writes csv, xlsx and json by ending, and nothing for an ending it does not know', async () => {
  for (const ending of ['csv', 'xlsx', 'json']) {
    const to = join(folder, `out.${ending}`);
    expect((await run('export', workshop, '--to', to)).code).toBe(0);
    expect(readFileSync(to).length).toBeGreaterThan(300);
  }
  const bad = await run('export', workshop, '--to', join(folder, 'out.doc'));
  expect(bad.code).toBe(1);
  expect(bad.err).toContain('.pdf, .xlsx, .svg, .dxf, .geojson, .csv');
});

test('import makes a job of a drawing, adds to one that is there, and refuses in a sentence', async () => {
  const dxf = join(folder, 'yard.dxf');
  const corners = [
    [0, 0],
    [6, 0],
    [6, 4],
    [0, 4],
  ];
  const polyline = corners.map(([x, y]) => `10\n${x}\n20\n${y}`).join('\n');
  writeFileSync(
    dxf,
    `0\nSECTION\n2\nHEADER\n9\n$INSUNITS\n70\n6\n0\nENDSEC\n0\nSECTION\n2\nENTITIES\n0\nLWPOLYLINE\n8\nyard\n90\n4\n70\n1\n${polyline}\n0\nENDSEC\n0\nEOF\n`,
  );
  const job = join(folder, 'imported.json');
  expect(await run('import', dxf, '--to', job)).toMatchObject({ code: 0, err: '' });
  const totals = async (path: string) =>
    JSON.parse((await run('takeoff', path, '--format', 'json')).out).totals.netArea_m2;
  expect(await totals(job)).toBeCloseTo(24, 9);
  // Again into the same job: a second sheet beside the first. In feet it is smaller.
  expect((await run('import', dxf, '--to', job, '--units', 'ft')).code).toBe(0);
  expect(await totals(job)).toBeCloseTo(24 * (1 + 0.3048 ** 2), 9);
  const before = readFileSync(job, 'utf8');
  const bad = await run('import', 'tests/cli/cli.test.ts', '--to', job);
  expect(bad.code).toBe(1);
  expect(bad.err).toMatch(/^“cli\.test\.ts” is nothing I can measure: .*\.\n$/);
  expect((await run('import', dxf, '--to', job, '--units', 'ells')).err).toContain('one of mm, cm');
  expect(readFileSync(job, 'utf8')).toBe(before);
  expect((await run('import', dxf)).code).toBe(2);
});

test('two copies changed apart are merged; what both changed is asked about', async () => {
  const copy = (name: string, change: (job: { name: string; note: string; prices: object }) => void) => {
    const file = JSON.parse(readFileSync(workshop, 'utf8'));
    change(file.job);
    const path = join(folder, name);
    writeFileSync(path, JSON.stringify(file));
    return path;
  };
  const a = copy('a.json', (job) => {
    job.note = 'Gate code asked for';
    job.name = 'A';
  });
  const b = copy('b.json', (job) => {
    job.prices = { ...job.prices, tape: 777 };
    job.name = 'B';
  });
  const to = join(folder, 'merged.json');
  const asked = await run('merge', workshop, a, b, '--to', to);
  expect(asked.code).toBe(1);
  expect(asked.out).toBe('The name was changed in A and in B, each in another way.\n');
  expect(asked.err).toContain('--take a, b or base');
  expect(existsSync(to)).toBe(false);
  expect(await run('merge', workshop, a, b, '--to', to, '--take', 'b')).toMatchObject({ code: 0, err: '' });
  const { job } = JSON.parse(readFileSync(to, 'utf8'));
  expect(job).toMatchObject({ name: 'B', note: 'Gate code asked for' });
  expect(job.prices.tape).toBe(777);
});
