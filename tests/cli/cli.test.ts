import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';

const run = (...args: string[]) => {
  const done = spawnSync(process.execPath, ['--import', 'tsx', 'src/cli/main.ts', ...args], {
    encoding: 'utf8',
  });
  return { code: done.status, out: done.stdout, err: done.stderr };
};
const workshop = 'demo-plans/workshop/job.json';
const folder = mkdtempSync(join(tmpdir(), 'slabwright-'));

test('takeoff as JSON has the documented keys, and its sums hold', () => {
  const { code, out } = run('takeoff', workshop, '--format', 'json');
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

test('coating prints litres per zone and coat', () => {
  const json = JSON.parse(run('coating', workshop, '--format', 'json').out);
  for (const zone of json.zones) for (const coat of zone.coats) expect(coat.paint_L).toBeGreaterThan(0);
  expect(json.totals.length).toBeGreaterThan(2);
  expect(run('coating', workshop).out).toContain('P = A * k / (S * (1 - L))');
});

test('order has the documented keys, holds what is needed, and says when prices are missing', () => {
  const json = JSON.parse(run('order', workshop, '--format', 'json').out);
  expect(json.lines.length).toBeGreaterThan(2);
  for (const line of json.lines) {
    const held = line.packs.reduce(
      (s: number, p: { size_L: number; count: number }) => s + p.size_L * p.count,
      0,
    );
    expect(held).toBeCloseTo(line.bought_L, 9);
    expect(held).toBeGreaterThanOrEqual(line.need_L);
    expect(line.cost).toBeNull();
  }
  expect(json.sundries.length).toBeGreaterThan(0);
  expect(run('order', workshop).out).toContain('no prices yet');
});

test('check of a broken job exits 1 with one sentence; usage is 2; a missing file is said', () => {
  const broken = join(folder, 'broken.json');
  writeFileSync(broken, readFileSync(workshop, 'utf8').replace('"schema": 1', '"schema": 7'));
  const bad = run('check', broken);
  expect([bad.code, bad.out]).toEqual([1, '']);
  expect(bad.err.trim().split('\n')).toHaveLength(1);
  expect(bad.err).toContain('newer slabwright');
  expect(run('check', workshop)).toMatchObject({ code: 0 });
  expect(run('takeoff').code).toBe(2);
  expect(run('takeoff', join(folder, 'none.json'))).toMatchObject({ code: 1, out: '' });
});

test('export writes csv, xlsx and json by ending, and nothing for an ending it does not know', () => {
  for (const ending of ['csv', 'xlsx', 'json']) {
    const to = join(folder, `out.${ending}`);
    expect(run('export', workshop, '--to', to).code).toBe(0);
    expect(readFileSync(to).length).toBeGreaterThan(300);
  }
  const bad = run('export', workshop, '--to', join(folder, 'out.doc'));
  expect(bad.code).toBe(1);
  expect(bad.err).toContain('.csv, .xlsx, .json');
});
