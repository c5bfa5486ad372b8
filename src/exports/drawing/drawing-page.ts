import { type Box, type Point, pointOnSide } from '../../../geometry/index.ts';
import { TEXTURE_NAMES, TRAFFIC_NAMES } from '../../coating/values.ts';
import type { DrawnBay } from '../../days/rollout/drawing.ts';
import { INK, PAPER, QUIET, TRAFFIC_TINTS, tintOnPaper, VOID_FILL } from '../../drafting/inks.ts';
import { TEXTURES, TRAFFICS } from '../../job/types.ts';
import { areaText, lengthNumber, type UnitSystem } from '../../units/format.ts';
import { tr } from '../../words/tr.ts';
import { barOf, type Paper, ratioFor, ratioText } from './paper.ts';
import type { DrawnDimension, DrawnVoid, DrawnZone, PlanDrawing } from './plan-drawing.ts';
import {
  cropped,
  hatchDef,
  lineData,
  n,
  ringsData,
  type ToPaper,
  textMark,
  widthOf,
  xml,
} from './svg-marks.ts';

/** What a page says besides what is drawn. */
export interface PageWords {
  readonly title: string;
  readonly subtitle: string;
  readonly units: UnitSystem;
}

/** The order that a slab is rolled in, and the lines that the painter steps off over. */
export interface RollingOrder {
  readonly bays: readonly DrawnBay[];
  readonly ways: ReadonlyArray<readonly Point[]>;
}

/** A page with a drawing true to scale, as SVG in millimetres. */
export interface DrawingPage {
  readonly svg: string;
  readonly widthMm: number;
  readonly heightMm: number;
  /** N of 1 : N. */
  readonly ratio: number;
}

/** Millimetres: the edge of the paper, room about the drawing for dimensions, and the strip below it. */
const MARGIN = 10;
const AIR = 9;
const STRIP = 34;
/** ISO 3098's usual lettering; dimensions at its least. */
const NAME_MM = 3;
const AREA_MM = 2.5;
const DIMENSION_MM = 2.5;
const SMALL_MM = 2.2;

/**
 * Draws sheets on one page at the largest usual scale, upright or across, whichever is larger.
 * @param order numbered bays and the ways off, in place of textures and dimensions
 */
export function drawingPage(
  drawings: readonly PlanDrawing[],
  paper: Paper,
  words: PageWords,
  order: RollingOrder | null = null,
): DrawingPage {
  const bays = order?.bays ?? null;
  const box = unionOf(drawings.map((d) => d.box));
  const ground = { width: box.maxX - box.minX, height: box.maxY - box.minY };
  const layouts = [true, false].map((across) => {
    const widthMm = across ? paper.longMm : paper.shortMm;
    const heightMm = across ? paper.shortMm : paper.longMm;
    const room = {
      width: widthMm - 2 * (MARGIN + AIR),
      height: heightMm - 2 * MARGIN - STRIP - 2 * AIR,
    };
    return { widthMm, heightMm, room, ratio: ratioFor(ground, room, words.units) };
  });
  const best = layouts[1]!.ratio < layouts[0]!.ratio ? layouts[1]! : layouts[0]!;
  const { widthMm, heightMm, room, ratio } = best;
  const mmPerM = 1000 / ratio;
  const left = MARGIN + AIR + (room.width - ground.width * mmPerM) / 2;
  const top = MARGIN + AIR + (room.height - ground.height * mmPerM) / 2;
  const to: ToPaper = {
    mmPerM,
    at: (p) => ({ x: left + (p.x - box.minX) * mmPerM, y: top + (box.maxY - p.y) * mmPerM }),
  };
  const zones = drawings.flatMap((d) => d.zones);
  const voids = drawings.flatMap((d) => d.voids);
  const textures = TEXTURES.filter((t) => zones.some((z) => z.surface.texture === t));
  const group = (id: string, marks: readonly string[]) =>
    marks.length === 0 ? '' : `<g id="${id}">${marks.join('')}</g>`;
  const svg = [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${n(widthMm, 3)}mm" height="${n(heightMm, 3)}mm" viewBox="0 0 ${n(widthMm, 3)} ${n(heightMm, 3)}" font-family="DejaVu Sans Condensed, Arial, sans-serif">`,
    `<title>${xml(`${words.title}, ${words.subtitle}, 1 : ${ratio}`)}</title>`,
    `<desc>${xml(tr`Drawn at 1 : ${ratio} on ${paper.name}; units are millimetres on paper.`)}</desc>`,
    bays ? '' : `<defs>${textures.map(hatchDef).join('')}</defs>`,
    group(
      'zones',
      zones.map((z) => zoneMark(z, to, bays === null)),
    ),
    bays ? group('bays', baysMarks(bays, zones, to)) : '',
    group(
      'voids',
      voids.map((v) => voidMark(v, to)),
    ),
    group('grates', voids.map((v) => grateMark(v, to)).filter(Boolean)),
    group(
      'cuts',
      drawings.flatMap((d) => d.cuts).map((c) => cutMark(c, to)),
    ),
    group(
      'slabs',
      drawings.flatMap((d) => d.slabs).map((s) => slabMark(s, to)),
    ),
    order
      ? group(
          'ways',
          order.ways.map((way) => wayMark(way, to)),
        )
      : '',
    bays
      ? ''
      : group(
          'dimensions',
          drawings
            .flatMap((d) => d.dimensions)
            .map((d) => dimensionMark(d, to, words.units))
            .filter(Boolean),
        ),
    group(
      'names',
      bays
        ? bays.map((b) => bayNumber(b, to))
        : zones.map((z, i) => zoneLabel(z, i + 1, to, words.units)).filter(Boolean),
    ),
    drawings.length > 0 && drawings.every((d) => d.northUp) ? northArrow(widthMm) : '',
    strip({ zones, voids }, { widthMm, heightMm, ratio }, words, bays === null),
    '</svg>',
  ];
  return { svg: svg.join(''), widthMm, heightMm, ratio };
}

const unionOf = (boxes: readonly Box[]): Box => ({
  minX: Math.min(...boxes.map((b) => b.minX)),
  minY: Math.min(...boxes.map((b) => b.minY)),
  maxX: Math.max(...boxes.map((b) => b.maxX)),
  maxY: Math.max(...boxes.map((b) => b.maxY)),
});

function zoneMark({ id, name, surface, outlines }: DrawnZone, to: ToPaper, hatched: boolean): string {
  const d = ringsData(outlines, to);
  const fill = hatched ? tintOnPaper(TRAFFIC_TINTS[surface.traffic]) : PAPER;
  const base = `<path id="zone-${xml(id)}" d="${d}" fill="${fill}" fill-rule="evenodd"><title>${xml(name)}</title></path>`;
  return hatched && surface.texture !== 'trowelled'
    ? `${base}<path d="${d}" fill="url(#hatch-${surface.texture})" fill-rule="evenodd"/>`
    : base;
}

const slabMark = (slab: PlanDrawing['slabs'][number], to: ToPaper): string =>
  `<path id="slab-${xml(slab.id)}" d="${ringsData([slab.outline], to)}" fill="none" stroke="${INK}" stroke-width="0.5"><title>${xml(slab.name)}</title></path>`;

const voidMark = (v: DrawnVoid, to: ToPaper): string =>
  `<path id="void-${xml(v.id)}" d="${ringsData([v.outline], to)}" fill="${v.kind === 'post' ? INK : VOID_FILL}" stroke="${INK}" stroke-width="0.3"><title>${xml(v.name)}</title></path>`;

const cutMark = (points: readonly Point[], to: ToPaper): string =>
  `<path d="${lineData(points, to)}" fill="none" stroke="${INK}" stroke-width="0.3" stroke-dasharray="2.5 1.2"/>`;

/** Bars across a channel every two millimetres, so that it is told from a plinth without colour. */
function grateMark({ channel }: DrawnVoid, to: ToPaper): string {
  if (!channel) return '';
  const [a, b] = [to.at(channel.a), to.at(channel.b)];
  const length = Math.hypot(b.x - a.x, b.y - a.y);
  const half = (channel.widthM * to.mmPerM) / 2;
  if (length < 4 || half < 0.3) return '';
  const [ux, uy] = [(b.x - a.x) / length, (b.y - a.y) / length];
  let d = '';
  for (let s = 2; s < length; s += 2) {
    const [x, y] = [a.x + ux * s, a.y + uy * s];
    d += `M${n(x - uy * half, 3)} ${n(y + ux * half, 3)}L${n(x + uy * half, 3)} ${n(y - ux * half, 3)}`;
  }
  return `<path d="${d}" fill="none" stroke="${INK}" stroke-width="0.2"/>`;
}

/** A length outside its side, readable from below or from the right; left out where the side is shorter than the text. */
function dimensionMark({ side, lengthM, out }: DrawnDimension, to: ToPaper, units: UnitSystem): string {
  const text = lengthNumber(lengthM, units);
  if (lengthM * to.mmPerM < widthOf(text, DIMENSION_MM) + 1) return '';
  const [p, a, b] = [0.5, 0.49, 0.51].map((t) => to.at(pointOnSide(side, t))) as [Point, Point, Point];
  let turnDeg = (Math.atan2(b.y - a.y, b.x - a.x) * 180) / Math.PI;
  if (turnDeg > 90 - 1e-6) turnDeg -= 180;
  if (turnDeg < -90 - 1e-6) turnDeg += 180;
  const away = DIMENSION_MM * 0.9;
  return textMark(
    text,
    { x: p.x + out.x * away, y: p.y - out.y * away },
    { height: DIMENSION_MM, turnDeg, plate: true },
  );
}

/** Name and area where the zone is widest; its number in the table of zones where there is no room. */
function zoneLabel(zone: DrawnZone, number: number, to: ToPaper, units: UnitSystem): string {
  if (!zone.label) return '';
  const p = to.at(zone.label.point);
  const room = 2 * zone.label.clearance * to.mmPerM;
  const area = areaText(zone.areaM2, units);
  const heading = `${number} ${zone.name}`;
  const lines: Array<readonly [string, number, boolean]> = [];
  if (widthOf(heading, NAME_MM) <= room * 1.3) lines.push([heading, NAME_MM, true]);
  else if (widthOf(heading, SMALL_MM) <= room * 1.5) lines.push([heading, SMALL_MM, true]);
  else lines.push([String(number), SMALL_MM, true]);
  if (widthOf(area, AREA_MM) <= room * 1.2) lines.push([area, AREA_MM, false]);
  return lines
    .map(([text, height, bold], i) =>
      textMark(text, { x: p.x, y: p.y + (i - (lines.length - 1) / 2) * 3.6 }, { height, bold, plate: true }),
    )
    .join('');
}

function baysMarks(bays: readonly DrawnBay[], zones: readonly DrawnZone[], to: ToPaper): string[] {
  const clip = ringsData(
    zones.flatMap((z) => z.outlines),
    to,
  );
  const lines = bays
    .flatMap((b) => b.edges)
    .map(([p, q]) => lineData([p, q], to))
    .join('');
  return [
    `<clipPath id="coated"><path d="${clip}" clip-rule="evenodd"/></clipPath>`,
    `<path d="${lines}" clip-path="url(#coated)" fill="none" stroke="${INK}" stroke-width="0.25"/>`,
  ];
}

/** Where the painter steps off: a thick line with a gap on either side of it. */
const wayMark = (points: readonly Point[], to: ToPaper): string =>
  `<path d="${lineData(points, to)}" fill="none" stroke="${PAPER}" stroke-width="2.6"/><path d="${lineData(points, to)}" fill="none" stroke="${INK}" stroke-width="1.6"/>`;

function bayNumber({ label, number }: DrawnBay, to: ToPaper): string {
  const p = to.at(label);
  return `<circle cx="${n(p.x, 3)}" cy="${n(p.y, 3)}" r="2.8" fill="${PAPER}" stroke="${INK}" stroke-width="0.3"/>${textMark(String(number), p, { height: 3, bold: true })}`;
}

function northArrow(widthMm: number): string {
  const [x, y] = [widthMm - MARGIN - 6, MARGIN + 4];
  return `<g id="north"><path d="M${x} ${y}L${x + 3} ${y + 9}L${x} ${y + 7}L${x - 3} ${y + 9}Z" fill="${INK}"/>${textMark('N', { x, y: y + 12 }, { height: 3, bold: true })}</g>`;
}

interface PageSize {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly ratio: number;
}

/** Title, scale, scale bar and legend under the drawing. */
function strip(
  { zones, voids }: { readonly zones: readonly DrawnZone[]; readonly voids: readonly DrawnVoid[] },
  { widthMm, heightMm, ratio }: PageSize,
  words: PageWords,
  withLegend: boolean,
): string {
  const y = heightMm - MARGIN - STRIP + 4;
  const line = `<path d="M${MARGIN} ${y - 3}H${n(widthMm - MARGIN, 3)}" fill="none" stroke="${QUIET}" stroke-width="0.25"/>`;
  const left = (text: string, dy: number, height: number, bold = false, ink = INK) =>
    textMark(text, { x: MARGIN, y: y + dy }, { height, bold, anchor: 'start', ink });
  const ratioSaid = ratioText(ratio, words.units);
  const scale =
    words.units === 'us'
      ? tr`Scale ${ratioSaid}. Lengths in feet.`
      : tr`Scale ${ratioSaid}. Lengths in metres.`;
  const column = widthMm / 2 - MARGIN;
  return `<g id="title">${line}${left(cropped(words.title, 4, column), 1.5, 4, true)}${left(cropped(words.subtitle, SMALL_MM + 0.4, column), 7, SMALL_MM + 0.4, false, QUIET)}${left(scale, 11.5, SMALL_MM + 0.4)}${scaleBar(ratio, column, { x: MARGIN, y: y + 16 }, words.units)}</g>${withLegend ? legend(zones, voids.length > 0, widthMm / 2 + 4, y) : ''}`;
}

function scaleBar(ratio: number, room: number, { x, y }: Point, units: UnitSystem): string {
  const { partM, parts, label } = barOf(ratio, Math.min(80, room - 20), units);
  const part = (partM * 1000) / ratio;
  const marks: string[] = [];
  for (let i = 0; i < parts; i++) {
    marks.push(
      `<rect x="${n(x + i * part)}" y="${n(y, 3)}" width="${n(part)}" height="1.8" fill="${i % 2 === 0 ? INK : PAPER}" stroke="${INK}" stroke-width="0.2"/>`,
    );
  }
  for (let i = 0; i <= parts; i += 2)
    marks.push(
      textMark(
        label(i),
        { x: x + i * part, y: y + 4 },
        { height: SMALL_MM, anchor: i === 0 ? 'start' : 'middle' },
      ),
    );
  return `<g id="scale-bar">${marks.join('')}</g>`;
}

/** What hatches and tints mean: those that are drawn, and no others. */
function legend(zones: readonly DrawnZone[], withVoids: boolean, x: number, y: number): string {
  const swatch = (fill: string, i: number, column: number, text: string) => {
    const [sx, sy] = [x + column * 48, y + i * 5.4];
    const rect = `<rect x="${n(sx, 3)}" y="${n(sy - 2, 3)}" width="9" height="4.2" fill="${fill}" stroke="${QUIET}" stroke-width="0.2"/>`;
    return `${rect}${textMark(text, { x: sx + 11, y: sy + 0.1 }, { height: 2.5, anchor: 'start' })}`;
  };
  const textures = TEXTURES.filter((t) => zones.some((z) => z.surface.texture === t));
  const traffics = TRAFFICS.filter((t) => zones.some((z) => z.surface.traffic === t));
  return `<g id="legend">${textures
    .map((t, i) => swatch(t === 'trowelled' ? PAPER : `url(#hatch-${t})`, i, 0, TEXTURE_NAMES[t]))
    .join('')}${traffics
    .map((t, i) => swatch(tintOnPaper(TRAFFIC_TINTS[t]), i, 1, TRAFFIC_NAMES[t]))
    .join('')}${withVoids ? swatch(VOID_FILL, traffics.length, 1, tr`taken out`) : ''}</g>`;
}
