import { readdirSync, readFileSync, statSync } from 'node:fs';
import { deflateSync, gzipSync } from 'node:zlib';
import { randomNumbers } from '../random/numbers.ts';
import { beside } from '../shared-material.ts';

/** A file from a stranger. */
export interface HostileFile {
  /** What is tried with it, for the count. */
  readonly kind: string;
  readonly name: string;
  readonly bytes: Buffer;
}

const text = (kind: string, name: string, content: string): HostileFile => ({
  kind,
  name,
  bytes: Buffer.from(content),
});

function chunk(type: string, data: Buffer): Buffer {
  const body = Buffer.concat([Buffer.from(type, 'latin1'), data]);
  const length = Buffer.alloc(4);
  length.writeUInt32BE(data.length);
  return Buffer.concat([length, body, crc(body)]);
}

function crc(body: Buffer): Buffer {
  let c = 0xffffffff;
  for (const b of body) {
    c ^= b;
    for (let k = 0; k < 8; k++) c = c & 1 ? (c >>> 1) ^ 0xedb88320 : c >>> 1;
  }
  const out = Buffer.alloc(4);
  out.writeUInt32BE((c ^ 0xffffffff) >>> 0);
  return out;
}

/** A PNG that says it is as large as asked, with hardly anything in it. */
function png(width: number, height: number, rows = 8): Buffer {
  const head = Buffer.alloc(13);
  head.writeUInt32BE(width, 0);
  head.writeUInt32BE(height, 4);
  head.set([8, 2, 0, 0, 0], 8);
  const data = deflateSync(Buffer.alloc(Math.min(rows * (1 + width * 3), 40_000_000)));
  return Buffer.concat([
    Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]),
    chunk('IHDR', head),
    chunk('IDAT', data),
    chunk('IEND', Buffer.alloc(0)),
  ]);
}

/** A JPEG that says its size and ends. */
function jpeg(width: number, height: number): Buffer {
  const frame = Buffer.from([
    0xff,
    0xc0,
    0,
    11,
    8,
    height >> 8,
    height & 255,
    width >> 8,
    width & 255,
    1,
    1,
    0x11,
    0,
  ]);
  return Buffer.concat([
    Buffer.from([0xff, 0xd8]),
    frame,
    Buffer.from([0xff, 0xda, 0, 8, 1, 1, 0, 0, 63, 0, 1, 2, 3, 0xff, 0xd9]),
  ]);
}

const SVG = 'xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink"';
const svg = (inside: string, before = ''): string =>
  `${before}<svg ${SVG} width="100mm" height="100mm" viewBox="0 0 100 100"><path d="M1 1H90V90H1Z"/>${inside}</svg>`;
const HACK = "(self.hacked=(self.hacked||0)+1,fetch('http://127.0.0.1:9/hacked'))";

function svgs(): HostileFile[] {
  const list: Array<readonly [string, string]> = [
    ['script', svg(`<script>${HACK}</script>`)],
    ['script-cdata', svg(`<script type="text/ecmascript"><![CDATA[${HACK}]]></script>`)],
    ['script-outside', svg('<script xlink:href="http://127.0.0.1:9/x.js"/>')],
    ['onload', svg('').replace('<svg ', `<svg onload="${HACK}" `)],
    ['onbegin', svg(`<animate onbegin="${HACK}" attributeName="x" dur="1s"/>`)],
    [
      'foreign',
      svg(
        `<foreignObject width="9" height="9"><body xmlns="http://www.w3.org/1999/xhtml"><img src="x" onerror="${HACK}"/></body></foreignObject>`,
      ),
    ],
    [
      'iframe',
      svg(
        '<foreignObject><iframe xmlns="http://www.w3.org/1999/xhtml" src="http://127.0.0.1:9/"/></foreignObject>',
      ),
    ],
    ['image-outside', svg('<image href="http://127.0.0.1:9/a.png" width="9" height="9"/>')],
    ['image-file', svg('<image href="file:///etc/passwd" width="9" height="9"/>')],
    ['use-outside', svg('<use href="http://127.0.0.1:9/a.svg#a"/>')],
    ['use-self', svg('<g id="a"><use href="#a"/></g>')],
    ['use-cycle', svg('<g id="a"><use href="#b"/></g><g id="b"><use href="#a"/></g>')],
    [
      'use-many',
      svg(
        `<g id="a0"><path d="M0 0h1v1z"/></g>${Array.from({ length: 30 }, (_, i) => `<g id="a${i + 1}"><use href="#a${i}"/><use href="#a${i}"/></g>`).join('')}<use href="#a30"/>`,
      ),
    ],
    [
      'css-outside',
      svg('<style>@import url(http://127.0.0.1:9/a.css); path{fill:url(http://127.0.0.1:9/b)}</style>'),
    ],
    ['link', svg(`<a href="javascript:${HACK}"><path d="M0 0h9v9z"/></a>`)],
    [
      'entities',
      svg(
        '&h;',
        `<!DOCTYPE svg [<!ENTITY a "aaaaaaaaaa">${'bcdefgh'
          .split('')
          .map((c, i) => `<!ENTITY ${c} "${`&${'abcdefg'[i]};`.repeat(10)}">`)
          .join('')}]>`,
      ),
    ],
    ['entity-file', svg('<text>&x;</text>', '<!DOCTYPE svg [<!ENTITY x SYSTEM "file:///etc/passwd">]>')],
    ['entity-net', svg('<text>&x;</text>', '<!DOCTYPE svg [<!ENTITY x SYSTEM "http://127.0.0.1:9/x">]>')],
    ['parameter-entity', svg('', '<!DOCTYPE svg [<!ENTITY % x SYSTEM "http://127.0.0.1:9/x.dtd"> %x;]>')],
    ['deep', svg(`${'<g>'.repeat(60_000)}${'</g>'.repeat(60_000)}`)],
    ['many-paths', svg('<path d="M0 0h1v1z"/>'.repeat(120_000))],
    ['long-path', svg(`<path d="M0 0${'l1 1 -1 0'.repeat(400_000)}z"/>`)],
    ['nan-path', svg('<path d="M NaN Infinity L 1e999 -1e999 Z"/>')],
    ['huge', svg('<path d="M-1e300 -1e300H1e300V1e300H-1e300Z"/>')],
    ['tiny', svg('<path d="M0 0H1e-300V1e-300H0Z"/>')],
    [
      'transforms',
      svg(`${'<g transform="scale(1e9)">'.repeat(80)}<path d="M0 0h1v1z"/>${'</g>'.repeat(80)}`),
    ],
    ['no-size', `<svg ${SVG}><path d="M0 0h9v9z"/></svg>`],
    ['zero-box', `<svg ${SVG} viewBox="0 0 0 0"><path d="M0 0h9v9z"/></svg>`],
    ['nan-box', `<svg ${SVG} viewBox="a b c d" width="NaNmm"><path d="M0 0h9v9z"/></svg>`],
    ['unclosed', `<svg ${SVG}><path d="M0 0h9v9z">`],
    ['not-xml', '<svg <<<>>> & "'],
    ['processing', svg('', '<?xml-stylesheet href="http://127.0.0.1:9/x.xsl" type="text/xsl"?>')],
    ['markup-ids', svg(`<g id="&quot;&gt;&lt;img src=x onerror=${HACK}&gt;"><path d="M0 0h9v9z"/></g>`)],
    [
      'pattern',
      svg(
        '<defs><pattern id="p" width="0" height="0"><path d="M0 0h9v9z" fill="url(#p)"/></pattern></defs><path d="M0 0h9v9z" fill="url(#p)"/>',
      ),
    ],
  ];
  return list.map(([name, content]) => text('SVG', `${name}.svg`, content));
}

const dxfFile = (...pairs: ReadonlyArray<readonly [number, string | number]>): string =>
  `${pairs.map(([code, value]) => `${code}\n${value}`).join('\n')}\n`;
const entities = (...pairs: ReadonlyArray<readonly [number, string | number]>) =>
  dxfFile([0, 'SECTION'], [2, 'ENTITIES'], ...pairs, [0, 'ENDSEC'], [0, 'EOF']);
const block = (name: string, ...inside: ReadonlyArray<readonly [number, string | number]>) =>
  [[0, 'BLOCK'], [2, name], [10, 0], [20, 0], ...inside, [0, 'ENDBLK']] as Array<
    readonly [number, string | number]
  >;
const insert = (name: string, more: ReadonlyArray<readonly [number, string | number]> = []) =>
  [[0, 'INSERT'], [2, name], [10, 0], [20, 0], ...more] as Array<readonly [number, string | number]>;
const square = [
  [0, 'LWPOLYLINE'],
  [90, 4],
  [70, 1],
  [10, 0],
  [20, 0],
  [10, 5],
  [20, 0],
  [10, 5],
  [20, 5],
  [10, 0],
  [20, 5],
] as Array<readonly [number, string | number]>;
const withBlocks = (
  blocks: Array<readonly [number, string | number]>,
  used: Array<readonly [number, string | number]>,
) =>
  dxfFile(
    [0, 'SECTION'],
    [2, 'BLOCKS'],
    ...blocks,
    [0, 'ENDSEC'],
    [0, 'SECTION'],
    [2, 'ENTITIES'],
    ...used,
    [0, 'ENDSEC'],
    [0, 'EOF'],
  );

function dxfs(): HostileFile[] {
  const doubled = Array.from({ length: 40 }, (_, i) =>
    block(`B${i + 1}`, ...insert(`B${i}`), ...insert(`B${i}`)),
  ).flat();
  const list: Array<readonly [string, string]> = [
    ['self-block', withBlocks(block('A', ...insert('A')), insert('A'))],
    ['cycle', withBlocks([...block('A', ...insert('B')), ...block('B', ...insert('A'))], insert('A'))],
    ['doubling', withBlocks([...block('B0', ...square), ...doubled], insert('B40'))],
    [
      'billion',
      withBlocks(
        block('A', ...square),
        insert('A', [
          [70, 100_000],
          [71, 100_000],
          [44, 1],
          [45, 1],
        ]),
      ),
    ],
    [
      'negative-count',
      withBlocks(
        block('A', ...square),
        insert('A', [
          [70, -5],
          [71, -5],
        ]),
      ),
    ],
    [
      'nan',
      entities(
        [0, 'LWPOLYLINE'],
        [90, 3],
        [70, 1],
        [10, 'NaN'],
        [20, 'Infinity'],
        [10, '1e999'],
        [20, 1],
        [10, 3],
        [20, 3],
      ),
    ],
    ['claims-many', entities([0, 'LWPOLYLINE'], [90, 2_000_000_000], [70, 1], [10, 0], [20, 0])],
    ['circle-zero', entities([0, 'CIRCLE'], [10, 0], [20, 0], [40, 0])],
    ['circle-nan', entities([0, 'CIRCLE'], [10, 0], [20, 0], [40, 'x'])],
    [
      'spline',
      entities([0, 'SPLINE'], [71, 50_000], [72, 1_000_000], [73, 1_000_000], [40, 0], [10, 0], [20, 0]),
    ],
    ['ellipse', entities([0, 'ELLIPSE'], [10, 0], [20, 0], [11, 0], [21, 0], [40, 0], [41, 0], [42, 1e9])],
    ['many', entities(...square).replace(dxfFile(...square), dxfFile(...square).repeat(60_000))],
    ['no-end', dxfFile([0, 'SECTION'], [2, 'ENTITIES'], ...square)],
    ['odd-lines', '0\nSECTION\n2\nENTITIES\n0\n'],
    ['not-numbers', 'a\nb\nc\nd\n'],
    ['long-line', `0\nSECTION\n2\nENTITIES\n0\nTEXT\n1\n${'x'.repeat(3_000_000)}\n0\nENDSEC\n0\nEOF\n`],
    [
      'bulge',
      entities(
        [0, 'LWPOLYLINE'],
        [90, 2],
        [70, 1],
        [10, 0],
        [20, 0],
        [42, 1e300],
        [10, 5],
        [20, 0],
        [42, -1e300],
      ),
    ],
    [
      'layer-markup',
      entities(
        [0, 'LWPOLYLINE'],
        [8, `<img src=x onerror=${HACK}>`],
        [90, 3],
        [70, 1],
        [10, 0],
        [20, 0],
        [10, 5],
        [20, 0],
        [10, 5],
        [20, 5],
      ),
    ],
    [
      'proto-block',
      withBlocks(
        [...block('__proto__', ...square), ...block('constructor', ...square)],
        [...insert('__proto__'), ...insert('constructor'), ...insert('toString')],
      ),
    ],
  ];
  const binary = Buffer.concat([
    Buffer.from('AutoCAD Binary DXF\r\n\x1a\0', 'latin1'),
    Buffer.alloc(5000, 0xff),
  ]);
  return [
    ...list.map(([name, content]) => text('DXF', `${name}.dxf`, content)),
    { kind: 'DXF', name: 'binary-noise.dxf', bytes: binary },
  ];
}

function places(): HostileFile[] {
  const polygon = (ring: string) => `{"type":"Polygon","coordinates":[${ring}]}`;
  const ring = '[[0,0],[0.001,0],[0.001,0.001],[0,0]]';
  const deep = `${'{"type":"GeometryCollection","geometries":['.repeat(20_000)}${']}'.repeat(20_000)}`;
  const list: Array<readonly [string, string]> = [
    ['nan.geojson', polygon('[[NaN,0],[1,0],[1,1],[NaN,0]]')],
    ['null.geojson', polygon('[[null,0],[1,0],[1,1],[null,0]]')],
    ['infinite.geojson', polygon('[[1e999,0],[1,0],[1,1],[1e999,0]]')],
    ['strings.geojson', polygon('[["0","0"],["1","0"],["1","1"],["0","0"]]')],
    ['beyond.geojson', polygon('[[500,500],[501,500],[501,501],[500,500]]')],
    ['round-the-world.geojson', polygon('[[-180,-80],[180,-80],[180,80],[-180,80],[-180,-80]]')],
    ['empty.geojson', polygon('')],
    ['empty-ring.geojson', polygon('[]')],
    ['one-point.geojson', polygon('[[0,0]]')],
    ['deep.geojson', deep],
    ['deep-array.geojson', `{"type":"Polygon","coordinates":${'['.repeat(100_000)}${']'.repeat(100_000)}}`],
    [
      'many.geojson',
      `{"type":"FeatureCollection","features":[${Array(20_000)
        .fill(`{"type":"Feature","properties":{},"geometry":${polygon(ring)}}`)
        .join(',')}]}`,
    ],
    [
      'long-ring.geojson',
      polygon(
        `[${Array.from({ length: 150_000 }, (_, i) => `[${Math.cos(i / 20_000) / 1000},${Math.sin(i / 20_000) / 1000}]`).join(',')}]`,
      ),
    ],
    [
      'proto.geojson',
      `{"type":"Feature","__proto__":{"hacked":1},"constructor":{"prototype":{"hacked":1}},"properties":{"name":"<script>${HACK}</script>","__proto__":{"hacked":1}},"geometry":${polygon(ring)}}`,
    ],
    ['root-string.geojson', '"type"'],
    ['features-number.geojson', '{"type":"FeatureCollection","features":7}'],
    [
      'truncated.geojson',
      '{"type":"FeatureCollection","features":[{"type":"Feature","geometry":{"type":"Poly',
    ],
    ['bom-and-noise.geojson', `\uFEFF\u0000{"type":"Feature"}`],
    [
      'entities.kml',
      `<?xml version="1.0"?><!DOCTYPE kml [<!ENTITY a "${'x'.repeat(1000)}">${'bcdefg'
        .split('')
        .map((c, i) => `<!ENTITY ${c} "${`&${'abcdef'[i]};`.repeat(50)}">`)
        .join('')}]><kml><Placemark><name>&g;</name></Placemark></kml>`,
    ],
    [
      'entity-file.kml',
      '<?xml version="1.0"?><!DOCTYPE kml [<!ENTITY x SYSTEM "file:///etc/passwd">]><kml><Placemark><name>&x;</name></Placemark></kml>',
    ],
    [
      'network-link.kml',
      '<kml xmlns="http://www.opengis.net/kml/2.2"><NetworkLink><Link><href>http://127.0.0.1:9/x.kml</href></Link></NetworkLink></kml>',
    ],
    ['deep.kml', `<kml>${'<Folder>'.repeat(50_000)}${'</Folder>'.repeat(50_000)}</kml>`],
    [
      'markup.kml',
      `<kml><Placemark><name><![CDATA[<img src=x onerror=${HACK}>]]></name><Polygon><outerBoundaryIs><LinearRing><coordinates>0,0 0.001,0 0.001,0.001 0,0</coordinates></LinearRing></outerBoundaryIs></Polygon></Placemark></kml>`,
    ],
    [
      'words.kml',
      '<kml><Placemark><Polygon><outerBoundaryIs><LinearRing><coordinates>a,b c,d e,f a,b</coordinates></LinearRing></outerBoundaryIs></Polygon></Placemark></kml>',
    ],
    [
      'nan.gpx',
      '<gpx><trk><trkseg><trkpt lat="NaN" lon="0"/><trkpt lat="1" lon="x"/><trkpt lat="1" lon="1"/></trkseg></trk></gpx>',
    ],
    [
      'many.gpx',
      `<gpx><trk><trkseg>${Array.from({ length: 100_000 }, (_, i) => `<trkpt lat="${i / 1e7}" lon="${(i % 7) / 1e6}"/>`).join('')}</trkseg></trk></gpx>`,
    ],
    ['empty.gpx', '<gpx/>'],
  ];
  return list.map(([name, content]) =>
    text(name.endsWith('json') ? 'GeoJSON' : 'KML and GPX', name, content),
  );
}

function jobs(): HostileFile[] {
  const job = (inside: string) =>
    `{"format":"slabwright job","images":{},"job":{"schema":1,"id":"j","name":"x","note":"","settings":{"units":"metric","thinningOf":"paint"},"sheets":{},"corners":{},"slabs":{},"cuts":{},"voids":{},"tags":{},"values":{}${inside}}}`;
  const list: Array<readonly [string, string]> = [
    ['deep-array.json', `{"job":${'['.repeat(400_000)}${']'.repeat(400_000)}}`],
    ['deep-object.json', `{"job":${'{"a":'.repeat(200_000)}1${'}'.repeat(200_000)}}`],
    ['proto-top.json', '{"__proto__":{"hacked":1},"job":{"schema":1}}'],
    ['proto-values.json', job('').replace('"values":{}', '"values":{"__proto__":{"hacked":1}}')],
    [
      'proto-slabs.json',
      job('').replace('"slabs":{}', '"slabs":{"__proto__":{"id":"__proto__","name":"x","hacked":1}}'),
    ],
    [
      'constructor.json',
      job('').replace('"sheets":{}', '"sheets":{"constructor":{"prototype":{"hacked":1}}}'),
    ],
    ['newer.json', job('').replace('"schema":1', '"schema":99')],
    ['fraction.json', job('').replace('"schema":1', '"schema":1.5')],
    ['text-version.json', job('').replace('"schema":1', '"schema":"1"')],
    ['huge-number.json', job('').replace('"values":{}', '"values":{"loss.smooth":1e308}')],
    [
      'markup-name.json',
      job('').replace('"name":"x"', `"name":"<img src=x onerror=${HACK.replace(/"/g, '')}>"`),
    ],
    ['bad-image.json', job('').replace('"images":{}', '"images":{"i":{"type":"image/png","base64":"%%%"}}')],
    [
      'svg-image.json',
      job('').replace(
        '"images":{}',
        `"images":{"i":{"type":"text/html","base64":"${Buffer.from(`<script>${HACK}</script>`).toString('base64')}"}}`,
      ),
    ],
    [
      'dangling.json',
      job('').replace(
        '"tags":{}',
        '"tags":{"t":{"id":"t","slabId":"none","anchor":{"x":0,"y":0},"name":"","surface":{}}}',
      ),
    ],
    [
      'wrong-key.json',
      job('').replace('"sheets":{}', '"sheets":{"a":{"id":"b","name":"x","picture":null,"fit":null}}'),
    ],
    ['far.json', job('').replace('"corners":{}', '"corners":{"c":{"id":"c","sheetId":"s","x":1e300,"y":0}}')],
    ['empty.json', ''],
    ['null.json', 'null'],
    ['number.json', '7'],
    ['array.json', '[]'],
    ['words.json', 'not JSON at all'],
    ['cut.json', job('').slice(0, 200)],
    [
      'many-values.json',
      job('').replace(
        '"values":{}',
        `"values":{${Array.from({ length: 200_000 }, (_, i) => `"v${i}":${i}`).join(',')}}`,
      ),
    ],
  ];
  return list.map(([name, content]) => text('Job files', name, content));
}

function pictures(): HostileFile[] {
  const list: Array<readonly [string, Buffer]> = [
    ['60000.png', png(60_000, 60_000)],
    ['wide.png', png(2_000_000_000, 1)],
    ['zero.png', png(0, 0)],
    ['lies.png', png(9_000, 9_000, 3)],
    ['65500.jpg', jpeg(65_500, 65_500)],
    ['one.jpg', jpeg(1, 1)],
    ['no-scan.jpg', jpeg(800, 600).subarray(0, 16)],
    ['only-start.jpg', Buffer.from([0xff, 0xd8, 0xff])],
    ['only-start.png', png(10, 10).subarray(0, 8)],
    [
      'webp-huge.webp',
      Buffer.concat([
        Buffer.from('RIFF\xff\xff\xff\xffWEBPVP8X\x0a\0\0\0\0\0\0\0', 'latin1'),
        Buffer.from([0xff, 0xff, 0xff, 0xff, 0xff, 0xff]),
      ]),
    ],
    ['gif.png', Buffer.from('GIF89a\xff\xff\xff\xff', 'latin1')],
    ['html.png', Buffer.from(`<html><script>${HACK}</script></html>`)],
    [
      'heic-noise.heic',
      Buffer.concat([Buffer.from('\0\0\0\x18ftypheic\0\0\0\0mif1heic', 'latin1'), Buffer.alloc(3000, 0x5a)]),
    ],
    [
      'avif-noise.avif',
      Buffer.concat([Buffer.from('\0\0\0\x18ftypavif\0\0\0\0mif1avif', 'latin1'), Buffer.alloc(3000, 0xa5)]),
    ],
    [
      'exif-loop.jpg',
      Buffer.concat([
        Buffer.from([0xff, 0xd8, 0xff, 0xe1, 0xff, 0xff]),
        Buffer.from('Exif\0\0MM\0*\0\0\0\x08\xff\xff', 'latin1'),
        Buffer.alloc(60_000, 1),
      ]),
    ],
    ['noise.bin', Buffer.alloc(100_000, 7)],
    ['nothing.png', Buffer.alloc(0)],
  ];
  return list.map(([name, bytes]) => ({ kind: 'Pictures', name, bytes }));
}

function packed(): HostileFile[] {
  const bomb = gzipSync(Buffer.alloc(400_000_000, 0x20), { level: 9 });
  return [
    { kind: 'Packed', name: 'bomb.svgz', bytes: bomb },
    { kind: 'Packed', name: 'bomb-in-bomb.svgz', bytes: gzipSync(bomb) },
    { kind: 'Packed', name: 'cut.svgz', bytes: gzipSync(Buffer.from(svg(''))).subarray(0, 40) },
    { kind: 'Packed', name: 'not-svg.svgz', bytes: gzipSync(Buffer.from('hello')) },
    { kind: 'Packed', name: 'zip.svgz', bytes: Buffer.from('PK\x03\x04\x14\0\0\0', 'latin1') },
    {
      kind: 'Packed',
      name: 'zip.kmz',
      bytes: Buffer.concat([Buffer.from('PK\x03\x04', 'latin1'), Buffer.alloc(500)]),
    },
  ];
}

/** A PDF of one page with some objects of ours. */
function pdf(catalog: string, page = '', content = ''): Buffer {
  return Buffer.from(
    `%PDF-1.7\n1 0 obj<</Type/Catalog/Pages 2 0 R${catalog}>>endobj\n2 0 obj<</Type/Pages/Kids[3 0 R]/Count 1>>endobj\n3 0 obj<</Type/Page/Parent 2 0 R/MediaBox[0 0 600 800]/Contents 4 0 R${page}>>endobj\n4 0 obj<</Length ${content.length}>>stream\n${content}\nendstream endobj\ntrailer<</Root 1 0 R>>\n%%EOF`,
    'latin1',
  );
}

function documents(): HostileFile[] {
  const list: Array<readonly [string, Buffer]> = [
    ['script', pdf(`/OpenAction<</S/JavaScript/JS(${HACK})>>`)],
    ['script-names', pdf(`/Names<</JavaScript<</Names[(a)<</S/JavaScript/JS(app.alert\\(1\\))>>]>>>>`)],
    ['launch', pdf('/OpenAction<</S/Launch/F(calc.exe)>>')],
    ['uri', pdf('/OpenAction<</S/URI/URI(http://127.0.0.1:9/)>>')],
    ['xfa', pdf('/AcroForm<</XFA(x)>>')],
    [
      'pages-loop',
      Buffer.from(
        '%PDF-1.4\n1 0 obj<</Type/Catalog/Pages 2 0 R>>endobj\n2 0 obj<</Type/Pages/Kids[2 0 R]/Count 1000000>>endobj\ntrailer<</Root 1 0 R>>',
      ),
    ],
    [
      'huge-page',
      pdf('', '').subarray(0, 0).length === 0
        ? Buffer.from(pdf('').toString('latin1').replace('600 800', '1e9 1e9'), 'latin1')
        : Buffer.alloc(0),
    ],
    ['zero-page', Buffer.from(pdf('').toString('latin1').replace('600 800', '0 0'), 'latin1')],
    ['nan-page', Buffer.from(pdf('').toString('latin1').replace('600 800', 'x y'), 'latin1')],
    ['deep-stack', pdf('', '', `${'q '.repeat(200_000)}`)],
    ['many-lines', pdf('', '', '0 0 m 100 100 l S\n'.repeat(60_000))],
    ['only-head', Buffer.from('%PDF-1.7')],
    ['noise', Buffer.concat([Buffer.from('%PDF-1.7\n'), Buffer.alloc(20_000, 0x28)])],
    ['deep-dictionary', Buffer.from(`%PDF-1.4\n1 0 obj${'<</A '.repeat(50_000)}`)],
  ];
  return list.map(([name, bytes]) => ({ kind: 'PDF', name: `${name}.pdf`, bytes }));
}

/** Names of files that are markup, paths, or nothing. */
function names(): HostileFile[] {
  const good = Buffer.from(svg(''));
  return [
    '<img src=x onerror=alert(1)>.svg',
    '../../etc/passwd.svg',
    'C:\\con.svg',
    '.svg',
    ' .svg',
    `${'x'.repeat(900)}.svg`,
    'שלום\u202Egvs.exe.svg',
    '__proto__.svg',
    '"quoted".svg',
  ].map((name) => ({ kind: 'Names', name, bytes: good }));
}

/** Real files, damaged: a few bytes changed, cut short, or a piece of them twice. */
function damaged(count: number): HostileFile[] {
  const root = beside('material');
  if (!root) return [];
  const random = randomNumbers(12);
  const all = ['dxf', 'geo', 'pdf', 'photo', 'svg']
    .flatMap((f) => readdirSync(`${root}/${f}`).map((n) => `${root}/${f}/${n}`))
    .filter((path) => statSync(path).size < 400_000 && !path.endsWith('.txt'));
  return Array.from({ length: count }, (_, i) => {
    const path = all[i % all.length]!;
    const bytes = Buffer.from(readFileSync(path));
    const at = () => Math.floor(random() * bytes.length);
    const how = i % 3;
    if (how === 0) for (let k = 0; k < 12; k++) bytes[at()] = Math.floor(random() * 256);
    const out =
      how === 1
        ? bytes.subarray(0, at())
        : how === 2
          ? Buffer.concat([bytes.subarray(0, at()), bytes.subarray(at())])
          : bytes;
    return { kind: 'Real files, damaged', name: path.replace(/.*\//, ''), bytes: out };
  });
}

/** Everything there is to try. */
export const hostileFiles = (): HostileFile[] => [
  ...svgs(),
  ...dxfs(),
  ...places(),
  ...jobs(),
  ...pictures(),
  ...packed(),
  ...documents(),
  ...names(),
  ...damaged(180),
];
