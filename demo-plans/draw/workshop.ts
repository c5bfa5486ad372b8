import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import sharp from 'sharp';
import { readWeather } from '../../src/imports/weather/index.ts';
import type { Edit } from '../../src/job/edits/index.ts';
import type { Beyond, Surface } from '../../src/job/types.ts';
import { sentence } from '../../src/problem.ts';
import {
  answers,
  build,
  INVENTED,
  INVENTED_PLACE,
  INVENTED_PRICES,
  inventedWeather,
  pictureFile,
  SOUND_BARE,
  save,
} from './scenario.ts';

/** Drawn at 80 pixels a metre, 24 m by 18 m, y up on the ground and down in the picture. */
const PX = 80;
const WIDTH = 24;
const HEIGHT = 18;
const at = (x: number, y: number) => ({ x: x * PX, y: (HEIGHT - y) * PX });

/** Corners in metres, by name; slabs that meet share them. */
const CORNERS: Readonly<Record<string, readonly [number, number]>> = {
  bayNW: [2, 15.5],
  bayNE: [8, 15.5],
  doorW: [2, 9],
  doorE: [8, 9],
  foreSW: [2, 2],
  foreSE: [14, 2],
  rampS: [14, 4],
  rampN: [14, 5.5],
  foreNE: [14, 9],
  footS: [20, 4],
  footN: [20, 5.5],
  yardSE: [18, 9],
  yardE: [18, 12],
  yardN: [14, 15.5],
};
const ARC_VIA = [17.2, 14.6] as const;

type Side = readonly [corner: string, beyond: Beyond | null];

const SLABS: ReadonlyArray<{
  readonly id: string;
  readonly name: string;
  readonly sides: readonly Side[];
  readonly surface: Partial<Surface>;
  readonly slope?: number;
}> = [
  {
    id: 'bay',
    name: 'Vehicle bay',
    sides: [
      ['doorW', 'threshold'],
      ['doorE', 'wall'],
      ['bayNE', 'wall'],
      ['bayNW', 'wall'],
    ],
    surface: { texture: 'trowelled', traffic: 'cars', colour: 'stone grey' },
  },
  {
    id: 'forecourt',
    name: 'Forecourt',
    sides: [
      ['foreSW', 'kerb'],
      ['foreSE', 'open'],
      ['rampS', null],
      ['rampN', 'planting'],
      ['foreNE', null],
      ['doorE', 'threshold'],
      ['doorW', 'fence'],
    ],
    surface: { texture: 'light-broom', traffic: 'cars', colour: 'stone grey' },
  },
  {
    id: 'ramp',
    name: 'Ramp',
    sides: [
      ['rampS', 'kerb'],
      ['footS', 'open'],
      ['footN', 'kerb'],
      ['rampN', null],
    ],
    surface: { texture: 'heavy-broom', traffic: 'foot', colour: 'charcoal', grip: true },
    slope: 1 / 12,
  },
  {
    id: 'courtyard',
    name: 'Courtyard',
    sides: [
      ['doorE', null],
      ['foreNE', 'open'],
      ['yardSE', 'fence'],
      ['yardE', 'planting'],
      ['yardN', 'wall'],
      ['bayNE', 'wall'],
    ],
    surface: {
      texture: 'exposed-aggregate',
      traffic: 'foot',
      colour: 'sand',
      systemId: 'solvent-borne-paving',
    },
  },
];

const POSTS = [
  [10, 11],
  [13, 11],
  [10, 13.5],
  [13, 13.5],
] as const;

const surface = (s: Partial<Surface>): Surface => ({
  texture: 'light-broom',
  traffic: 'foot',
  condition: 'bare',
  systemId: 'water-borne-paving',
  colour: '',
  grip: false,
  ...s,
});

function edits(): Edit[] {
  const corner = (name: string, next: string) => ({
    id: `c-${name}`,
    ...at(...CORNERS[name]!),
    via: name === 'yardE' && next === 'yardN' ? at(...ARC_VIA) : null,
  });
  const list: Edit[] = [
    {
      type: 'add-sheet',
      args: {
        id: 'plan',
        name: 'Site plan',
        picture: { imageId: 'plan-picture', widthPx: WIDTH * PX, heightPx: HEIGHT * PX },
        fit: null,
      },
    },
    {
      type: 'set-fit',
      args: {
        sheetId: 'plan',
        fit: {
          kind: 'scale',
          lengths: [{ a: at(17, 1), b: at(22, 1), lengthM: 5 }],
          reach: null,
          flat: true,
        },
      },
    },
  ];
  for (const slab of SLABS) {
    const names = slab.sides.map(([name]) => name);
    list.push({
      type: 'add-slab',
      args: {
        id: slab.id,
        name: slab.name,
        sheetId: 'plan',
        corners: names.map((name, k) => corner(name, names[(k + 1) % names.length]!)),
        surface: surface(slab.surface),
      },
    });
    for (const [name, beyond] of slab.sides) {
      if (beyond)
        list.push({ type: 'update-side', args: { slabId: slab.id, cornerId: `c-${name}`, beyond } });
    }
    if (slab.slope) list.push({ type: 'update-slab', args: { slabId: slab.id, slope: slab.slope } });
  }
  list.push(
    {
      type: 'add-void',
      args: {
        id: 'drain',
        name: 'Line drain',
        kind: 'drain',
        sheetId: 'plan',
        shape: { type: 'line', a: at(2.4, 8.5), b: at(7.6, 8.5), widthM: 0.2 },
      },
    },
    ...POSTS.map(
      ([x, y], i): Edit => ({
        type: 'add-void',
        args: {
          id: `post-${i + 1}`,
          name: `Post ${i + 1}`,
          kind: 'post',
          sheetId: 'plan',
          shape: { type: 'circle', centre: at(x, y), radiusM: 0.1 },
        },
      }),
    ),
    {
      type: 'add-void',
      args: {
        id: 'tree',
        name: 'Tree pit',
        kind: 'pit',
        sheetId: 'plan',
        shape: { type: 'rectangle', centre: at(15.5, 11.5), lengthM: 1.2, widthM: 1.2, angleRad: 0 },
      },
    },
    {
      type: 'add-cut',
      args: {
        id: 'turning',
        slabId: 'forecourt',
        points: [
          { at: 'side', cornerId: 'c-foreSW', t: 8 / 12 },
          { at: 'side', cornerId: 'c-foreNE', t: 4 / 6 },
        ],
      },
    },
    {
      type: 'set-tag',
      args: {
        id: 'drive',
        slabId: 'forecourt',
        anchor: at(5, 5),
        name: 'Forecourt drive',
        surface: {},
      },
    },
    {
      type: 'set-tag',
      args: {
        id: 'walk',
        slabId: 'forecourt',
        anchor: at(12, 7),
        name: 'Forecourt walk',
        surface: { texture: 'stipple', traffic: 'foot', grip: true },
      },
    },
    ...answers('bay', { ...SOUND_BARE, oil: 'stains' }),
    ...['forecourt', 'ramp', 'courtyard'].flatMap((id) => answers(id, SOUND_BARE)),
    ...INVENTED_PRICES,
    { type: 'set-weather', args: { weather: weather() } },
    ...[
      ['bay', 'c-doorW'],
      ['forecourt', 'c-foreSE'],
      ['ramp', 'c-footS'],
      ['courtyard', 'c-foreNE'],
    ].map(
      ([slabId, cornerId]): Edit => ({
        type: 'update-side',
        args: { slabId: slabId!, cornerId: cornerId!, exit: true },
      }),
    ),
  );
  return list;
}

function weather() {
  const read = readWeather(inventedWeather(), 'weather.csv (invented)', INVENTED_PLACE);
  if (!read.ok) throw new Error(sentence(read.problem));
  return read.value;
}

/** The plan as a draughtsman might have left it: outlines, names, a few dimensions, a scale bar, a north arrow. */
function drawing(): string {
  const d = (names: readonly string[]) =>
    names
      .map((name, k) => {
        const p = at(...CORNERS[name]!);
        if (k === 0) return `M${p.x} ${p.y}`;
        if (names[k - 1] === 'yardE' && name === 'yardN') return arcTo(p);
        return `L${p.x} ${p.y}`;
      })
      .join(' ');
  const outlines = SLABS.map((s) => `<path class="slab" d="${d(s.sides.map(([n]) => n))} Z"/>`).join('');
  const text = (x: number, y: number, words: string, size = 26, turn = 0) => {
    const p = at(x, y);
    return `<text x="${p.x}" y="${p.y}" font-size="${size}" text-anchor="middle" transform="rotate(${turn} ${p.x} ${p.y})">${words}</text>`;
  };
  const posts = POSTS.map(([x, y]) => {
    const p = at(x, y);
    return `<circle class="thin" cx="${p.x}" cy="${p.y}" r="${0.1 * PX}"/>`;
  }).join('');
  const box = (x0: number, y0: number, x1: number, y1: number, name = 'thin') => {
    const p = at(x0, y1);
    return `<rect class="${name}" x="${p.x}" y="${p.y}" width="${(x1 - x0) * PX}" height="${(y1 - y0) * PX}"/>`;
  };
  const bar = [0, 1, 2, 3, 4]
    .map((i) => box(17 + i, 0.92, 18 + i, 1.08, i % 2 === 0 ? 'ink' : 'thin'))
    .join('');
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${WIDTH * PX}" height="${HEIGHT * PX}">
<style>
 .slab { fill: #fbfaf6; stroke: #333; stroke-width: 5 }
 .thin { fill: #fff; stroke: #333; stroke-width: 2 }
 .ink { fill: #333; stroke: #333; stroke-width: 2 }
 text { font-family: "DejaVu Sans", sans-serif; fill: #333 }
</style>
<rect width="100%" height="100%" fill="#f3f1ea"/>
${outlines}
${box(2.4, 8.4, 7.6, 8.6)}
${posts}
${box(14.9, 10.9, 16.1, 12.1)}
${text(5, 12.6, 'VEHICLE BAY')}
${text(5, 12, '6.00 × 6.50', 22)}
${text(6, 5.4, 'FORECOURT')}
${text(6, 4.8, '12.00 × 7.00', 22)}
${text(17, 4.65, 'RAMP 1:12', 22)}
${text(11.5, 12.3, 'COURTYARD')}
${text(15.5, 10.5, 'tree pit', 20)}
${text(5, 8.02, 'drain 200', 20)}
${text(8, 1.5, '12.00', 22)}
${text(1.6, 5.5, '7.00', 22, -90)}
${text(17, 3.55, '6.00', 22)}
${text(5, 15.8, '6.00', 22)}
${bar}
${text(17, 0.5, '0', 20)}${text(22, 0.5, '5 m', 20)}
${text(12, 17.2, 'FERNHOLLOW WORKSHOP — SITE PLAN (invented)', 30)}
<path d="M${at(22, 15.6).x} ${at(22, 15.6).y} l14 40 l-14 -10 l-14 10 Z" fill="#333"/>
${text(22, 15.8, 'N', 24)}
</svg>`;
}

/** The same circle through three points that the job has. */
function arcTo(p: { x: number; y: number }): string {
  const [ax, ay] = CORNERS.yardE!;
  const [bx, by] = CORNERS.yardN!;
  const [vx, vy] = ARC_VIA;
  const turn = 2 * ((bx - ax) * (vy - ay) - (by - ay) * (vx - ax));
  const b2 = (bx - ax) ** 2 + (by - ay) ** 2;
  const v2 = (vx - ax) ** 2 + (vy - ay) ** 2;
  const ux = ((vy - ay) * b2 - (by - ay) * v2) / turn;
  const uy = ((bx - ax) * v2 - (vx - ax) * b2) / turn;
  const r = Math.hypot(ux, uy) * PX;
  return `A${r} ${r} 0 0 0 ${p.x} ${p.y}`;
}

/** A site plan with four slabs. */
export async function drawWorkshop(): Promise<void> {
  const file = pictureFile('workshop', 'plan.png');
  mkdirSync(dirname(file), { recursive: true });
  await sharp(Buffer.from(drawing())).png({ palette: true }).toFile(file);
  writeFileSync(pictureFile('workshop', 'weather.csv'), inventedWeather());
  const job = build('demo-workshop', 'Fernhollow Workshop: four slabs', INVENTED, edits());
  save('workshop', job, { 'plan-picture': { type: 'image/png', file: 'plan.png' } });
}
