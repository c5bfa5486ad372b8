import { execFileSync } from 'node:child_process';
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { XMLParser } from 'fast-xml-parser';
import geographiclib from 'geographiclib-geodesic';
import sharp from 'sharp';
import { describe, expect, test } from 'vitest';
import { circleRing, equalAreaPoints, insidePoints, type Ring, ringArea } from '../../geometry/index.ts';
import { barOf, PAPERS, ratioFor, ratioText } from '../../src/exports/drawing/paper.ts';
import { importFile } from '../../src/imports/index.ts';
import { DEFAULT_SURFACE, emptyJob, type Job } from '../../src/job/types.ts';
import { results } from '../../src/results.ts';
import { edited, slabEdit } from '../coating/scene.ts';
import { installed } from '../office.ts';
import { DEMOS, demo, exported } from './scene.ts';

/** Names that have broken files of other programs: quotes, markup, signs, other scripts, 500 characters. */
const NAMES = [
  '"quoted" \'too\'',
  '<b>&amp; ]]>',
  '=1+1',
  'שלום، مرحبا 🚧',
  'two\nlines\tand a tab',
  '100%%d of ^J',
  'x'.repeat(500),
];

/** A slab with an arc, a cut, a post and a drain that cuts it in two, somewhere on earth: an invented place. */
function garden(name = 'Garden'): Job {
  return edited(
    emptyJob('j', name.slice(0, 100)),
    {
      type: 'add-sheet',
      args: {
        id: 'g',
        name: 'Walk',
        picture: null,
        fit: { kind: 'georeferenced', latitude: -37.6, longitude: 144.6, from: 'map', deviationM: null },
      },
    },
    {
      type: 'add-slab',
      args: {
        id: 'a',
        name,
        sheetId: 'g',
        corners: [
          { id: 'a0', x: 0, y: 0, via: null },
          { id: 'a1', x: 8, y: 0, via: { x: 11, y: 3 } },
          { id: 'a2', x: 8, y: 6, via: null },
          { id: 'a3', x: 0, y: 6, via: { x: 1.1, y: 3.2 } },
        ],
        surface: DEFAULT_SURFACE,
      },
    },
    slabEdit('b', [14, 3, 2.5]),
    {
      type: 'add-void',
      args: {
        id: 'post',
        name: 'Post',
        kind: 'post',
        sheetId: 'g',
        shape: { type: 'circle', centre: { x: 6, y: 3.5 }, radiusM: 0.12 },
      },
    },
    {
      type: 'add-void',
      args: {
        id: 'drain',
        name: 'Drain',
        kind: 'drain',
        sheetId: 'g',
        shape: { type: 'line', a: { x: 3, y: -1 }, b: { x: 3.5, y: 7 }, widthM: 0.15 },
      },
    },
  );
}

const JOBS: ReadonlyArray<readonly [string, () => Job]> = [
  ...DEMOS.map((name) => [name, () => demo(name)] as const),
  ['garden', garden],
];

/** Net area of the plan, slopes left out: what any drawing encloses. */
const planNet = (job: Job): number =>
  results(job).takeoff.zones.reduce((sum, z) => sum + z.netOutlines.reduce((s, r) => s + ringArea(r), 0), 0);

const save = (name: string, bytes: Uint8Array): string => {
  const path = join(mkdtempSync(join(tmpdir(), 'slabwright-')), name);
  writeFileSync(path, bytes);
  return path;
};

/** What our own readers make of a file: its areas on the ground. */
async function readBack(bytes: Uint8Array, name: string, options: object): Promise<number> {
  let n = 0;
  const read = await importFile(bytes, name, options, (prefix) => `${prefix}${n++}`);
  if (!read.ok) throw new Error(JSON.stringify(read.problem));
  return planNet(edited(emptyJob('back', 'Back'), ...read.value.edits));
}

describe.each(JOBS)('%s', (_, job) => {
  test('DXF and SVG read back by our own readers have the same areas to 1e-6', async () => {
    const area = planNet(job());
    const dxf = await exported(job(), 'dxf');
    expect(Math.abs((await readBack(dxf, 'x.dxf', { layers: ['ZONES'] })) / area - 1)).toBeLessThan(1e-6);
    const svg = await exported(job(), 'svg');
    const ratio = Number(/Drawn at 1 : (\d+)/.exec(new TextDecoder().decode(svg))![1]);
    expect(Math.abs((await readBack(svg, 'x.svg', { layers: ['zones'], ratio })) / area - 1)).toBeLessThan(
      1e-6,
    );
  });

  test('the drawing on paper has as much of each slab as the scale says, by a picture of it', async () => {
    const svg = new TextDecoder().decode(await exported(job(), 'svg'));
    const ratio = Number(/Drawn at 1 : (\d+)/.exec(svg)![1]);
    // Zones alone, in black: hatches, lettering and outlines are left out.
    const zones = /<g id="zones">.*?<\/g>/s.exec(svg)![0].replace(/fill="#[0-9a-f]+"/g, 'fill="#000"');
    const bare = svg
      .replace(/<g id="zones">.*<\/svg>/s, `${zones}</svg>`)
      .replace(/<path[^>]*fill="url[^>]*>/g, '');
    const widthMm = Number(/viewBox="0 0 ([\d.]+)/.exec(svg)![1]);
    const { data, info } = await sharp(Buffer.from(bare), { density: 100 })
      .flatten({ background: '#fff' })
      .greyscale()
      .raw()
      .toBuffer({ resolveWithObject: true });
    const pixelM = ((widthMm / info.width) * ratio) / 1000;
    const inked = data.reduce((sum, v) => sum + (255 - v) / 255, 0) * pixelM ** 2;
    expect(Math.abs(inked / planNet(job()) - 1)).toBeLessThan(0.002);
  });
});

test('GeoJSON: areas on the ellipsoid by GeographicLib, and read back by our own reader, are those of the takeoff', async () => {
  const bytes = await exported(garden(), 'geojson');
  const { features } = JSON.parse(new TextDecoder().decode(bytes)) as {
    features: Array<{ geometry: { type: string; coordinates: never }; properties: { net_area_m2: number } }>;
  };
  expect(features.map((f) => f.geometry.type).sort()).toEqual(['MultiPolygon', 'Polygon']);
  for (const { geometry, properties } of features) {
    const polygons = (geometry.type === 'Polygon' ? [geometry.coordinates] : geometry.coordinates) as Array<
      Array<Array<[number, number]>>
    >;
    let area = 0;
    for (const rings of polygons) {
      rings.forEach((ring, i) => {
        const p = geographiclib.Geodesic.WGS84.Polygon(false);
        for (const [lon, lat] of ring.slice(0, -1)) p.AddPoint(lat!, lon!);
        const own = p.Compute(false, true).area!;
        // RFC 7946: outer rings run counter-clockwise, holes clockwise.
        expect(Math.sign(own)).toBe(i === 0 ? 1 : -1);
        expect(ring[0]).toEqual(ring[ring.length - 1]);
        area += own;
      });
    }
    // It sums areas down to the equator, 1e11 m²: beyond a tenth of a square millimetre there are no digits left.
    expect(Math.abs(area - properties.net_area_m2)).toBeLessThan(1e-4);
  }
  expect(Math.abs((await readBack(bytes, 'x.geojson', {})) / planNet(garden()) - 1)).toBeLessThan(1e-6);
});

test('a job that does not know where it is has no map, and says so', async () => {
  await expect(exported(demo('yard'), 'geojson')).rejects.toThrow('knows where on earth');
});

describe.skipIf(!installed('/usr/bin/python3', '-c', 'import ezdxf'))(
  'ezdxf, which shares nothing with us',
  () => {
    const script = `
import sys, json, math, ezdxf
doc = ezdxf.readfile(sys.argv[1])
audit = doc.audit()
areas, lengths, texts, kinds = {}, {}, [], {}
for e in doc.modelspace():
    layer = e.dxf.layer
    kinds.setdefault(layer, []).append(e.dxftype())
    if e.dxftype() == 'CIRCLE':
        area = math.pi * e.dxf.radius ** 2
    elif e.dxftype() == 'LWPOLYLINE' and e.closed:
        p = [(x, y, b) for x, y, b in e.get_points('xyb')]
        area = 0.0
        for (x0, y0, b), (x1, y1, _) in zip(p, p[1:] + p[:1]):
            area += (x0 * y1 - x1 * y0) / 2
            if b:
                c2 = (x1 - x0) ** 2 + (y1 - y0) ** 2
                t = 4 * math.atan(b)
                r2 = c2 * (1 + b * b) ** 2 / (16 * b * b)
                area += r2 * (t - math.sin(t)) / 2
    elif e.dxftype() == 'TEXT':
        texts.append(e.dxf.text); continue
    else:
        continue
    areas.setdefault(layer, []).append(area)
print(json.dumps(dict(errors=[str(x) for x in audit.errors], units=doc.header['$INSUNITS'], areas=areas, texts=texts, kinds=kinds, layers=[l.dxf.name for l in doc.layers])))
`;
    const read = (bytes: Uint8Array) =>
      JSON.parse(
        execFileSync('/usr/bin/python3', ['-c', script, save('x.dxf', bytes)], { encoding: 'utf8' }),
      ) as {
        errors: string[];
        units: number;
        areas: Record<string, number[]>;
        texts: string[];
        kinds: Record<string, string[]>;
        layers: string[];
      };

    test.each(JOBS)(
      '%s: no faults, metres, a layer for each kind, the areas of the takeoff',
      async (_, job) => {
        const found = read(await exported(job(), 'dxf'));
        expect(found.errors).toEqual([]);
        expect(found.units).toBe(6);
        expect(found.layers).toEqual(
          expect.arrayContaining(['SLABS', 'ZONES', 'VOIDS', 'CUTS', 'NAMES', 'DIMENSIONS']),
        );
        const { takeoff } = results(job());
        // Holes run the other way round; circles are taken out as the rings that they are.
        const zones = found.areas.ZONES!.reduce((sum, a) => sum + a, 0);
        const circles = takeoff.zones
          .flatMap((z) => z.netOutlines)
          .filter((r) => r.length === 2 && ringArea(r) < 0);
        const turned = circles.reduce((sum, r) => sum - 2 * ringArea(r), 0);
        expect(zones - turned).toBeCloseTo(planNet(job()), 6);
        const slabs = found.areas.SLABS!.reduce((sum, a) => sum + Math.abs(a), 0);
        const slopes = new Map(Object.values(job().slabs).map((s) => [s.id, Math.hypot(1, s.slope)]));
        const outlines = takeoff.slabs.reduce((sum, s) => sum + s.outlineAreaM2 / slopes.get(s.id)!, 0);
        expect(slabs).toBeCloseTo(outlines, 6);
      },
    );

    test('names survive, whatever is in them, but for what a line of text cannot hold', async () => {
      for (const name of NAMES) {
        const { errors, texts } = read(await exported(garden(name), 'dxf'));
        expect(errors).toEqual([]);
        expect(texts).toContain(
          name
            .replace(/[\n\t]/g, ' ')
            .replace(/%(?=%)/g, '% ')
            .replace(/\^/g, '^ '),
        );
      }
    });
  },
);

describe.skipIf(!installed('ogr2ogr'))('GDAL', () => {
  test('reads the map, and has its areas in an equal-area projection of its own', async () => {
    const path = save('map.geojson', await exported(garden(), 'geojson'));
    const plane = path.replace('map', 'plane');
    execFileSync('ogr2ogr', [
      '-f',
      'GeoJSON',
      '-t_srs',
      '+proj=laea +lat_0=-37.6 +lon_0=144.6 +datum=WGS84',
      '-lco',
      'COORDINATE_PRECISION=9',
      plane,
      path,
    ]);
    const csv = execFileSync(
      'ogr2ogr',
      [
        '-f',
        'CSV',
        '/vsistdout/',
        plane,
        '-dialect',
        'OGRSQL',
        '-sql',
        'SELECT net_area_m2, OGR_GEOM_AREA FROM "Garden"',
      ],
      { encoding: 'utf8' },
    );
    const rows = csv
      .trim()
      .split('\n')
      .slice(1)
      .map((r) => r.split(',').map((v) => Number(v.replace(/"/g, ''))));
    expect(rows.length).toBe(results(garden()).takeoff.zones.length);
    for (const [ours, theirs] of rows) expect(Math.abs(theirs! / ours! - 1)).toBeLessThan(1e-6);
  });
});

describe.skipIf(!installed('xmllint'))('xmllint', () => {
  test('finds every drawing well formed, whatever its names are', async () => {
    for (const name of ['Garden', ...NAMES]) {
      const bytes = await exported(garden(name), 'svg');
      execFileSync('xmllint', ['--noout', '--nonet', save('x.svg', bytes)], { stdio: 'pipe' });
    }
  });
});

test('names survive in SVG and GeoJSON as another reader has them', async () => {
  const parser = new XMLParser({ ignoreAttributes: false, trimValues: false });
  for (const name of NAMES) {
    const svg = parser.parse(new TextDecoder().decode(await exported(garden(name), 'svg')));
    const groups = [svg.svg.g].flat().find((g: Record<string, string>) => g['@_id'] === 'slabs');
    expect(groups.path[0].title).toBe(name);
    const map = JSON.parse(new TextDecoder().decode(await exported(garden(name), 'geojson')));
    expect(map.features.map((f: { properties: { slab: string } }) => f.properties.slab)).toContain(name);
  }
});

test('points in place of arcs enclose the area of the arcs exactly', () => {
  const shapes: Ring[] = [
    circleRing({ x: 3, y: 4 }, 0.05),
    circleRing({ x: 1000, y: 4 }, 12),
    [
      { x: 0, y: 0, via: { x: 1, y: 0.001 } },
      { x: 2, y: 0 },
      { x: 2, y: 3, via: { x: 1, y: 2.2 } },
      { x: 0, y: 3 },
    ],
  ];
  for (const ring of shapes) {
    for (const sagitta of [0.5, 0.01, 0.0005]) {
      const points = equalAreaPoints(ring, sagitta);
      expect(Math.abs(ringArea(points) / ringArea(ring) - 1)).toBeLessThan(1e-10);
      for (const corner of ring)
        expect(points).toContainEqual(expect.objectContaining({ x: corner.x, y: corner.y }));
    }
  }
  expect(insidePoints(equalAreaPoints(shapes[0]!, 0.001), { x: 3, y: 4 })).toBe(true);
});

test('scales are those of a scale ruler, as large as the paper lets them be', () => {
  // ISO 5455 and inches to the foot, common practice of scale rulers; the arithmetic is by hand.
  expect(ratioFor({ width: 18, height: 13 }, { width: 259, height: 138 }, 'metric')).toBe(100);
  expect(ratioFor({ width: 5, height: 5 }, { width: 259, height: 138 }, 'metric')).toBe(50);
  expect(ratioFor({ width: 18, height: 13 }, { width: 241, height: 144 }, 'us')).toBe(96);
  expect(ratioFor({ width: 1e6, height: 10 }, { width: 250, height: 140 }, 'metric')).toBe(4_000_000);
  expect(ratioText(48, 'us')).toBe(`1/4" = 1'-0" (1 : 48)`);
  expect(ratioText(96, 'us')).toBe(`1/8" = 1'-0" (1 : 96)`);
  expect(ratioText(64, 'us')).toBe(`3/16" = 1'-0" (1 : 64)`);
  expect(ratioText(120, 'us')).toBe(`1" = 10' (1 : 120)`);
  expect(ratioText(50, 'metric')).toBe('1 : 50');
  expect(barOf(100, 80, 'metric').partM).toBe(2);
  expect(PAPERS.LETTER.longMm / 25.4).toBeCloseTo(11, 9);
});
