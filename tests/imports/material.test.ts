import { readdirSync, readFileSync } from 'node:fs';
import { basename } from 'node:path';
import { describe, expect, test } from 'vitest';
import { ringArea, ringLength } from '../../geometry/index.ts';
import { chainLines } from '../../src/imports/chains.ts';
import { readDxf } from '../../src/imports/dxf/dxf.ts';
import { type Imported, type ImportOptions, importFile } from '../../src/imports/index.ts';
import { readSvg } from '../../src/imports/svg/svg.ts';
import { applyEdit } from '../../src/job/edits/index.ts';
import { emptyJob, type Job } from '../../src/job/types.ts';
import { sentence } from '../../src/problem.ts';
import { takeoff } from '../../src/takeoff/takeoff.ts';
import { beside } from '../shared-material.ts';

/**
 * Real files that nobody here made, against what independent programs (ezdxf, GDAL, GeographicLib, poppler, Pillow) say of
 * them; the figures are those of index.json beside the project, read there.
 */
const material = beside('material/index.json')?.replace('index.json', '');
const described = material ? describe : describe.skip;

let count = 0;
const newId = (prefix: string): string => `${prefix}${++count}`;

async function read(path: string, options: ImportOptions = {}): Promise<Imported> {
  const result = await importFile(readFileSync(material + path), basename(path), options, newId);
  if (!result.ok) throw new Error(sentence(result.problem));
  return result.value;
}

async function refusal(path: string, options: ImportOptions = {}): Promise<string> {
  const result = await importFile(readFileSync(material + path), basename(path), options, newId);
  return result.ok ? 'was read' : sentence(result.problem);
}

function jobOf({ edits }: Imported): Job {
  return edits.reduce(
    (job, edit) => {
      const next = applyEdit(job, edit);
      if (!next.ok) throw new Error(sentence(next.problem));
      return next.value;
    },
    emptyJob('j', 'Job'),
  );
}

const measured = (imported: Imported) => takeoff(jobOf(imported));
const sum = (values: readonly number[]): number => values.reduce((s, v) => s + v, 0);

const dxf = (name: string) => {
  const drawing = readDxf(readFileSync(`${material}dxf/${name}`), name);
  if (!drawing.ok) throw new Error(sentence(drawing.problem));
  const polylines = drawing.value.outlines.filter((o) => o.ring.length > 2 && o.ring.length < 700);
  const circles = drawing.value.outlines.filter((o) => o.ring.length === 2);
  const area = (outlines: readonly (typeof polylines)[number][]) =>
    sum(outlines.map((o) => Math.abs(ringArea(o.ring))));
  return { drawing: drawing.value, polylines, circles, area };
};

described('DXF, against ezdxf', () => {
  test.each([
    ['ezdxf__forms.dxf', 33, 344585.8731, 5, 19795.1753],
    ['dkit__hatch-patterns.dxf', 49, 4900, 0, 0],
    ['netdxf__sample_binary.dxf', 1, 3050, 4, 16964.6003],
    ['sdxf__lwpolylines.dxf', 1, 1900, 0, 0],
    ['sdxf__squareandcircle.dxf', 1, 100, 1, 78.53981634],
    ['ezdxf__insert_bricscad_level_1.dxf', 6, 144.3733353, 0, 0],
    ['ezdxf__multi_insert_with_attribs.dxf', 0, 0, 25, 12.56637061],
    ['sdxf__blocks2.dxf', 1, 16800, 0, 0],
    ['sdxf__Ceco.NET-Architecture-Tm-53.dxf', 0, 0, 18, 1.899876838],
  ])('%s: closed polylines and circles, blocks unfolded', (name, polylines, area, circles, circleArea) => {
    const read_ = dxf(name);
    expect(read_.circles).toHaveLength(circles);
    expect(read_.area(read_.circles)).toBeCloseTo(circleArea, 3);
    if (name !== 'netdxf__sample_binary.dxf') expect(read_.polylines).toHaveLength(polylines);
    const areas = read_.polylines.map((o) => Math.abs(ringArea(o.ring)));
    if (name === 'netdxf__sample_binary.dxf') expect(areas.some((a) => Math.abs(a - area) < 1e-3)).toBe(true);
    else expect(sum(areas)).toBeCloseTo(area, 3);
  });

  test('a binary file and its twin in text are the same drawing', () => {
    const [text, binary] = [dxf('acs__sample_AC1009_ascii.dxf'), dxf('acs__sample_AC1009_binary.dxf')];
    expect(text.circles).toHaveLength(15);
    expect(text.area(text.circles)).toBeCloseTo(2830.1877, 3);
    expect(binary.drawing.outlines.length).toBe(text.drawing.outlines.length);
    expect(binary.area(binary.drawing.outlines)).toBeCloseTo(text.area(text.drawing.outlines), 2);
    // The largest by ezdxf: 456724.16.
    expect(Math.max(...text.polylines.map((o) => Math.abs(ringArea(o.ring))))).toBeCloseTo(456724.16245, 3);
  });

  test('outlines closed by coming back to their start; a header that cannot be right is said', async () => {
    const { drawing } = dxf('dkit__citymap_lwpolylines.dxf');
    const on = (layer: string) => drawing.outlines.filter((o) => o.layer === layer);
    expect(on('buildings')).toHaveLength(447);
    expect(sum(on('buildings').map((o) => Math.abs(ringArea(o.ring))))).toBeCloseTo(120062.394, 2);
    expect(sum(on('water').map((o) => Math.abs(ringArea(o.ring))))).toBeCloseTo(29325.812, 2);
    const imported = await read('dxf/dkit__citymap_lwpolylines.dxf', { units: 'm', layers: ['buildings'] });
    expect(imported.notes.join(' ')).toContain('from 447 outlines');
    const asSaid = await read('dxf/dkit__citymap_lwpolylines.dxf');
    expect(asSaid.notes.join(' ')).toContain('501 mm across: if that cannot be, say its units');
  });

  test('loose lines and arcs that enclose ground together', () => {
    const faces = (name: string) =>
      chainLines(dxf(name).drawing.lines)
        .map((o) => ({ area: Math.abs(ringArea(o.ring)), length: ringLength(o.ring) }))
        .sort((a, b) => b.area - a.area);
    const loop = faces('ezdxf__6_closed_loop_with_arcs.dxf');
    // The chain crosses itself: the face without arcs is the one the independent program found.
    const straight = loop.find((f) => Math.abs(f.area - 4030.589) < 0.01);
    expect(straight?.length).toBeCloseTo(313.416, 2);
    const many = faces('ezdxf__1_polylines.dxf');
    for (const [area, length] of [
      [968.262, 187.836],
      [804.423, 260.505],
      [519.728, 152.145],
      [335.895, 96.218],
      [306.567, 76.717],
      [178.579, 61.447],
    ]) {
      const own = many.find((f) => Math.abs(f.area - area!) < 0.01);
      expect(own, `a face of ${area} m²`).toBeDefined();
      expect(own!.length).toBeCloseTo(length!, 1);
    }
  });

  test('splines: their areas by ezdxf, flattened to 1 µm', () => {
    const areas = dxf('sdxf__issue27b.dxf').drawing.outlines.map((o) => Math.abs(ringArea(o.ring)));
    expect(sum(areas)).toBeCloseTo(2897.165 + 1886.8207, 0);
  });

  test('odd and broken ones are read as far as they are whole, or refused in a sentence', async () => {
    expect(await refusal('dxf/ezdxf__circle_radius_le_0.dxf')).toContain('no outline to measure');
    expect(await refusal('dxf/ezdxf__dxf_unicode.dxf')).toContain('no outline to measure');
    expect(dxf('ezdxf__recover01.dxf').drawing.lines).toHaveLength(1441);
    expect(dxf('ezdxf__empty_handles.dxf').drawing.lines).toHaveLength(8);
    expect(dxf('ezdxf__bin_dxf_r12.dxf').drawing.lines).toHaveLength(3);
    const curves = dxf('ezdxf__POLI-ALL210_12.DXF').drawing;
    expect([...curves.outlines.map((o) => ringArea(o.ring))].every(Number.isFinite)).toBe(true);
  });
});

described('places, against GeographicLib', () => {
  test.each([
    ['geo/green__extracted_features.geojson', 20808.346],
    ['geo/green__parcels.geojson', 607923.21],
    ['geo/green__surfaces.geojson', 156142.01],
    ['geo/gji__problematic_3d_coordinates.geojson', 2526.1025],
    ['geo/gji__problematic_excessive_vertices.geojson', 1830.5884],
    ['geo/gji__problematic_holes.geojson', 11115.1073],
    ['geo/gji__invalid_unclosed.geojson', 8277.2517],
    ['geo/gjh__different-first-last.geojson', 12308778361.469],
    ['geo/gji__problematic_crosses_antimeridian.geojson', 57680773687.715],
    ['geo/gja__illinois.json', 145810701447.898],
  ])(
    '%s',
    async (path, truth) => {
      const found = sum(measured(await read(path)).slabs.map((s) => s.netAreaM2));
      // 2e-5 of it, as the file's own attributes are known to; states and seas to 1e-3: their sides are geodesics.
      const slack = truth > 1e9 ? 1e-3 : 2e-5;
      expect(Math.abs(found / truth - 1)).toBeLessThan(slack);
    },
    60_000,
  );

  test('each surface of a digitised plan to 0.05 m² or 0.002 % of its own stated area', async () => {
    const path = 'geo/green__extracted_features.geojson';
    const file = JSON.parse(readFileSync(material + path, 'utf8')) as {
      features: Array<{ properties: { area_m2?: number } }>;
    };
    const slabs = measured(await read(path)).slabs.map((s) => s.netAreaM2);
    for (const { properties } of file.features) {
      const stated = properties.area_m2;
      if (stated === undefined) continue;
      const near = Math.min(...slabs.map((a) => Math.abs(a - stated)));
      expect(near).toBeLessThanOrEqual(Math.max(0.05, stated * 2e-5));
    }
  }, 60_000);

  test.each([
    ['geo/gjh__bad-json.geojson', 'not JSON'],
    ['geo/gjh__bad-polygonloop.geojson', 'not a longitude and a latitude'],
    ['geo/gjh__badcoordtype.geojson', 'not a longitude and a latitude'],
    ['geo/gjh__multiple_problems.geojson', 'feature 1'],
    ['geo/gjh__rootstring.geojson', 'not a GeoJSON object'],
    ['geo/gjh__issue82.geojson', 'not a longitude and a latitude'],
    ['geo/gjh__bad-duplicate-properties.geojson', 'no geometry'],
    ['geo/gji__invalid_less_three_unique_nodes.geojson', 'fewer than three different points'],
    ['geo/gji__problematic_outside_lat_lon_boundaries.geojson', '-190.6'],
    ['geo/gja__all.json', 'no site'],
    ['geo/tog__bad.kml', 'cannot be measured'],
    ['geo/tog__run.gpx', '3100.6 m'],
    ['geo/tog__empty_trk.gpx', 'no area to measure'],
    ['geo/tog__networklink.kml', 'no area to measure'],
  ])('%s is refused: %s', async (path, words) => {
    expect(await refusal(path)).toContain(words);
  });
});

test('shapes of an SVG under transforms, curves and units come to their areas by hand', () => {
  const text =
    '<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="100mm" viewBox="0 0 200 200"><g transform="translate(10,10) rotate(30)">' +
    '<circle cx="5" cy="5" r="3" transform="scale(2)"/><rect width="10" height="4" rx="1"/><rect width="1in" height="25.4mm"/>' +
    '<path d="M0 0 A5 5 0 0 1 10 0 Z"/><path d="M0 0 A5 5 0 1 1 5 5 Z"/><ellipse rx="4" ry="2"/><rect width="50%" height="3"/></g></svg>';
  const drawing = readSvg(text, 'shapes.svg');
  if (!drawing.ok) throw new Error(sentence(drawing.problem));
  const areas = drawing.value.outlines.map((o) => Math.abs(ringArea(o.ring)));
  const byHand = [
    Math.PI * 36,
    40 - (4 - Math.PI),
    96 * 96,
    Math.PI * 12.5,
    0.75 * Math.PI * 25 + 12.5,
    Math.PI * 8,
  ];
  expect(areas).toHaveLength(byHand.length);
  for (const [i, area] of areas.entries()) expect(area / byHand[i]! - 1).toBeCloseTo(0, 3);
  expect(drawing.value.metresPerUnit).toBeCloseTo(0.0005, 12);
});

described('SVG', () => {
  const svg = (name: string) => {
    const drawing = readSvg(readFileSync(`${material}svg/${name}`, 'utf8'), name);
    if (!drawing.ok) throw new Error(sentence(drawing.problem));
    return drawing.value;
  };

  test('a page of 420 × 297 mm in millimetres: its border is the page', () => {
    const { outlines, metresPerUnit } = svg('ifc__A3.svg');
    expect(metresPerUnit).toBeCloseTo(0.001, 12);
    expect(Math.max(...outlines.map((o) => Math.abs(ringArea(o.ring))))).toBeCloseTo(420 * 297, 0);
  });

  test('packed and plain ones open; a page at 1 : 100 is a hundred times its paper', async () => {
    expect((await read('svg/vips__logo.svgz')).edits.length).toBeGreaterThan(5);
    expect((await read('svg/ha__home.svg')).sheet.fit).toBeNull();
    const { sheet } = await read('svg/ifc__A3.svg', { ratio: 100 });
    expect(sheet.fit).toMatchObject({ kind: 'drawing' });
    expect((sheet.fit as { metresPerUnit: number }).metresPerUnit).toBeCloseTo(0.1, 9);
  });

  test.each([
    ['svg/svgsan__useDosTest.svg', 'more than 200,000 pieces'],
    ['svg/svgsan__xlinkLaughsTest.svg', 'more than 200,000 pieces'],
    ['svg/svgsan__entityTest.svg', 'no outline'],
    ['svg/svgsan__maliciousJsAndPhpTest.svg', 'no outline'],
  ])('%s is refused: %s', async (path, words) => {
    expect(await refusal(path)).toContain(words);
  });

  test('what is kept of an SVG is lines alone: no script, no address', async () => {
    const { image } = await read('svg/svgsan__externalTest.svg');
    expect(new TextDecoder().decode(image!.bytes)).not.toMatch(/script|url\(|href|example/);
  });
});

described('PDF, against poppler', () => {
  test.each([
    ['pdf/plumb__nics-background-checks-2015-11.pdf', 1008, 612],
    ['pdf/plumb__nics-background-checks-2015-11-rotated.pdf', 612, 1008],
    ['pdf/qpdf__inherited-rotate.pdf', 792, 612],
    ['pdf/qpdf__minimal-rotated.pdf', 612, 792],
    ['pdf/qpdf__bad-xref.pdf', 612, 792],
    ['pdf/vips__page-box.pdf', 708.661, 955.277],
    ['pdf/pypdf__pdflatex-4-pages.pdf', 595.276, 841.89],
  ])('%s is shown as %d × %d points', async (path, width, height) => {
    const { sheet } = await read(path);
    expect(sheet.picture!.widthPx).toBeCloseTo(width, 2);
    expect(sheet.picture!.heightPx).toBeCloseTo(height, 2);
  });

  test('a page is chosen; one that is not there is refused', async () => {
    const third = await read('pdf/pypdf__pdflatex-4-pages.pdf', { page: 3, ratio: 50 });
    expect(third.pages).toBe(4);
    expect(third.sheet).toMatchObject({ picture: { page: 3 }, fit: { kind: 'page', ratio: 50 } });
    expect(await refusal('pdf/pypdf__pdflatex-4-pages.pdf', { page: 5 })).toContain('4 pages and no page 5');
  });

  test.each([
    ['pdf/pypdf__libreoffice-writer-password.pdf', 'openpassword'],
    ['pdf/qpdf__enc-R3_V2_U-view_O-view.pdf', 'view'],
    ['pdf/qpdf__enc-XI-R6_V5_U-view_O-master.pdf', 'view'],
  ])('%s needs its password', async (path, password) => {
    expect(await refusal(path)).toContain('is locked');
    expect(await refusal(path, { password: 'wrong' })).toContain('does not open');
    expect((await read(path, { password })).sheet.picture!.widthPx).toBeGreaterThan(500);
  });

  test.each(['pdf/plumb__empty.pdf', 'pdf/qpdf__bad1.pdf'])('%s is refused', async (path) => {
    expect(await refusal(path)).toContain('is damaged');
  });
});

described('pictures, against Pillow', () => {
  test.each([
    ['photo/exif__Landscape_3.jpg', 1800, 1200],
    ['photo/exif__Landscape_6.jpg', 1800, 1200],
    ['photo/exif__Portrait_5.jpg', 1200, 1800],
    ['photo/sharp__16-bit-grey-alpha.png', 109, 96],
    ['photo/sharp__2569067123_aca715a2ee_o.jpg', 2725, 2225],
    ['photo/sharp__Channel_digital_image_CMYK_color.jpg', 500, 333],
    ['photo/mex__left01.jpg', 640, 480],
    ['photo/heif__example.heic', 1280, 854],
  ])('%s stands upright at %d × %d', async (path, width, height) => {
    const { sheet } = await read(path);
    expect(sheet.picture).toMatchObject({ widthPx: width, heightPx: height });
  });

  test.each([
    ['photo/pil__broken.png', 'damaged'],
    ['photo/pil__broken_data_stream.png', 'damaged'],
    ['photo/sharp__corrupt-header.jpg', 'damaged'],
    ['photo/skim__truncated.jpg', 'damaged'],
    ['photo/heif__github_15.heic', 'not a PNG'],
    ['photo/sharp__65536-uint32-limit.png', '65536 × 65536'],
    ['photo/vips__17000x17000.avif', '17000 × 17000'],
    ['photo/april__33369213973_9d9bb4cc96_c.txt', 'nothing I can measure'],
  ])('%s is refused: %s', async (path, words) => {
    expect(await refusal(path)).toContain(words);
  });
});

described('every file beside the project', () => {
  test('is read or refused in a sentence, never half', async () => {
    for (const kind of ['dxf', 'geo', 'pdf', 'photo', 'svg']) {
      for (const name of readdirSync(`${material}${kind}`)) {
        const bytes = readFileSync(`${material}${kind}/${name}`);
        const result = await importFile(bytes, name, {}, newId);
        if (result.ok) jobOf(result.value);
        else expect(sentence(result.problem)).toMatch(/: .+\.$/);
      }
    }
  }, 180_000);
});
