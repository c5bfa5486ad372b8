import { expect, test } from 'vitest';
import { ringArea } from '../../geometry/index.ts';
import { importFile } from '../../src/imports/index.ts';
import { readSvg } from '../../src/imports/svg/svg.ts';
import { applyEdit } from '../../src/job/edits/index.ts';
import { emptyJob, type Job } from '../../src/job/types.ts';
import { sentence } from '../../src/problem.ts';
import { takeoff } from '../../src/takeoff/takeoff.ts';

type Corner = readonly [number, number];
const polyline = (corners: readonly Corner[], more = ''): string =>
  `0\nLWPOLYLINE\n8\nyard\n${more}90\n${corners.length}\n70\n1\n${corners.map(([x, y]) => `10\n${x}\n20\n${y}\n`).join('')}`;
const square = (at: number, size: number): Corner[] => [
  [at, at],
  [at + size, at],
  [at + size, at + size],
  [at, at + size],
];

/** Net area on the ground of a drawing in metres or millimetres, and what was said of it. */
async function measured(entities: string, unit = 6): Promise<{ area: number; notes: string }> {
  const dxf = `0\nSECTION\n2\nHEADER\n9\n$INSUNITS\n70\n${unit}\n0\nENDSEC\n0\nSECTION\n2\nENTITIES\n${entities}0\nENDSEC\n0\nEOF\n`;
  let n = 0;
  const read = await importFile(Buffer.from(dxf), 'yard.dxf', {}, (p) => `${p}${++n}`);
  if (!read.ok) throw new Error(sentence(read.problem));
  const job = read.value.edits.reduce<Job>(
    (j, edit) => {
      const next = applyEdit(j, edit);
      if (!next.ok) throw new Error(sentence(next.problem));
      return next.value;
    },
    emptyJob('j', 'Job'),
  );
  const area = takeoff(job).slabs.reduce((s, slab) => s + slab.netAreaM2, 0);
  return { area, notes: read.value.notes.join(' ') };
}

test('two triangles that share a diagonal are two slabs, an outline drawn twice is one', async () => {
  const lower: Corner[] = [
    [0, 0],
    [10, 0],
    [10, 10],
  ];
  const upper: Corner[] = [
    [0, 0],
    [10, 10],
    [0, 10],
  ];
  expect((await measured(polyline(lower) + polyline(upper))).area).toBeCloseTo(100, 9);
  const twice = await measured(polyline(lower) + polyline([...lower].reverse()));
  expect(twice.area).toBeCloseTo(50, 9);
  expect(twice.notes).toContain('1 drawn twice');
});

test.each([6, 4])('an island in a bed in a slab is ground again (unit %i)', async (unit) => {
  const k = unit === 4 ? 1000 : 1;
  const all = [square(0, 10 * k), square(2 * k, 6 * k), square(4 * k, 2 * k)]
    .map((s) => polyline(s))
    .join('');
  // 100 − 36 + 4, less a hairline of a quarter of a millimetre.
  expect((await measured(all, unit)).area).toBeCloseTo(68, 2);
});

test.each([0, 1, 2, 3])(
  'a slab that fills the notch of another lies beside it, turned %i quarters',
  async (quarters) => {
    const turned = ([x, y]: Corner): Corner => {
      let p: Corner = [x - 5, y - 5];
      for (let i = 0; i < quarters; i++) p = [-p[1], p[0]];
      return p;
    };
    const u: Corner[] = [
      [0, 0],
      [10, 0],
      [10, 10],
      [7, 10],
      [7, 3],
      [3, 3],
      [3, 10],
      [0, 10],
    ];
    const notch: Corner[] = [
      [3, 3],
      [7, 3],
      [7, 10],
      [3, 10],
    ];
    expect((await measured(polyline(u.map(turned)) + polyline(notch.map(turned)))).area).toBeCloseTo(100, 9);
  },
);

test('what is invisible is left out, what is not read is said', async () => {
  const { area, notes } = await measured(
    `${polyline(square(0, 10))}${polyline(square(20, 5), '60\n1\n')}0\nREGION\n8\nyard\n`,
  );
  expect(area).toBeCloseTo(100, 9);
  expect(notes).toContain('1 invisible pieces were left out');
  expect(notes).toContain('1 regions, solids and multiple lines were left out');
});

test('an SVG page that is not as its view box is drawn to fit it, and a picture within it to its place', () => {
  const svg = (head: string, inside: string) => {
    const drawing = readSvg(`<svg xmlns="http://www.w3.org/2000/svg" ${head}>${inside}</svg>`, 't.svg');
    if (!drawing.ok) throw new Error(sentence(drawing.problem));
    return drawing.value;
  };
  const box = 'viewBox="0 0 100 100"';
  const rect = '<rect width="80" height="80"/>';
  expect(svg(`width="200mm" height="100mm" ${box}`, rect).metresPerUnit).toBeCloseTo(0.001, 12);
  expect(svg(`height="100mm" ${box}`, rect).metresPerUnit).toBeCloseTo(0.001, 12);
  expect(
    svg(`width="200mm" height="100mm" preserveAspectRatio="none" ${box}`, rect).metresPerUnit,
  ).toBeNull();
  const inner = svg(
    box,
    `<svg width="20" height="20" viewBox="0 0 100 100"><rect width="100" height="100"/></svg>`,
  );
  expect(Math.abs(ringArea(inner.outlines[0]!.ring))).toBeCloseTo(400, 6);
});
