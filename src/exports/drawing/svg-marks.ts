import { pointOnSide, type Ring, type Side, sidesOf } from '../../../geometry/index.ts';
import { HATCH_MM, HATCH_OPACITY, HATCHES } from '../../drafting/hatches.ts';
import { INK } from '../../drafting/inks.ts';
import type { Texture } from '../../job/types.ts';

/** What keeps its place on paper: millimetres, y down. */
export interface PaperPoint {
  readonly x: number;
  readonly y: number;
}

/** Takes the ground to paper. */
export interface ToPaper {
  /** Millimetres on paper for a metre on the ground. */
  readonly mmPerM: number;
  readonly at: (p: { readonly x: number; readonly y: number }) => PaperPoint;
}

/** Whether XML can hold a character; a half of a pair of surrogates is none. */
function isXml(character: string): boolean {
  const code = character.codePointAt(0)!;
  if (code < 0x20) return code === 0x9 || code === 0xa || code === 0xd;
  return !(code >= 0xd800 && code <= 0xdfff) && code !== 0xfffe && code !== 0xffff;
}

/** Text without what no file of XML can hold. */
export const plainText = (text: string): string => [...text].filter(isXml).join('');

/** Text as XML holds it. */
export const xml = (text: string): string =>
  plainText(text).replace(/&/g, '&amp;').replace(/</g, '&lt;').replace(/>/g, '&gt;').replace(/"/g, '&quot;');

/** A number of millimetres; a nanometre is enough for areas to 1e-6. */
export const n = (mm: number, digits = 6): string => String(Number(mm.toFixed(digits)));

/** Arcs that turn further are written in two, so that no flag of theirs can be misread. */
const MOST_TURN = 2;

/** One side as path data from where the pen is. */
function sideData(side: Side, to: ToPaper): string {
  const end = to.at(side.b);
  const { arc } = side;
  if (!arc) return `L${n(end.x)} ${n(end.y)}`;
  const r = n(arc.radius * to.mmPerM);
  // Counter-clockwise with y up is counter-clockwise to look at, which SVG calls 0.
  const turn = arc.sweep > 0 ? 0 : 1;
  const stops = Math.abs(arc.sweep) > MOST_TURN ? [to.at(pointOnSide(side, 0.5)), end] : [end];
  return stops.map((p) => `A${r} ${r} 0 0 ${turn} ${n(p.x)} ${n(p.y)}`).join('');
}

/** Closed outlines as path data, arcs as arcs. */
export const ringsData = (rings: readonly Ring[], to: ToPaper): string =>
  rings
    .filter((ring) => ring.length > 1)
    .map((ring) => {
      const start = to.at(ring[0]!);
      return `M${n(start.x)} ${n(start.y)}${sidesOf(ring)
        .map((side) => sideData(side, to))
        .join('')}Z`;
    })
    .join('');

/** An open path as path data. */
export const lineData = (
  points: ReadonlyArray<{ readonly x: number; readonly y: number }>,
  to: ToPaper,
): string =>
  points
    .map((p, i) => {
      const q = to.at(p);
      return `${i === 0 ? 'M' : 'L'}${n(q.x)} ${n(q.y)}`;
    })
    .join('');

/** The pattern of a texture, the same size at every scale; empty where it is plain. */
export function hatchDef(texture: Texture): string {
  const hatch = HATCHES[texture];
  if (!hatch) return '';
  const k = HATCH_MM;
  const size = n(hatch.size * k, 3);
  const s = hatch.size * k;
  const marks: string[] = [];
  if (hatch.diagonal) {
    const lines = [-s, 0, s].map(
      (d) => `M${n(-0.4, 3)} ${n(s + 0.4 + d, 3)}L${n(s + 0.4, 3)} ${n(-0.4 + d, 3)}`,
    );
    marks.push(
      `<path d="${lines.join('')}" fill="none" stroke="${INK}" stroke-width="${n(hatch.diagonal * k, 3)}"/>`,
    );
  }
  for (const [x, y] of hatch.dots?.at ?? [])
    marks.push(
      `<circle cx="${n(x * k, 3)}" cy="${n(y * k, 3)}" r="${n(hatch.dots!.radius * k, 3)}" fill="${INK}"/>`,
    );
  for (const st of hatch.stones?.at ?? [])
    marks.push(
      `<ellipse cx="${n(st.x * k, 3)}" cy="${n(st.y * k, 3)}" rx="${n(st.rx * k, 3)}" ry="${n(st.ry * k, 3)}" transform="rotate(${n((st.turnRad * 180) / Math.PI, 2)} ${n(st.x * k, 3)} ${n(st.y * k, 3)})" fill="none" stroke="${INK}" stroke-width="${n(hatch.stones!.line * k, 3)}"/>`,
    );
  return `<pattern id="hatch-${texture}" width="${size}" height="${size}" patternUnits="userSpaceOnUse"><g opacity="${HATCH_OPACITY}">${marks.join('')}</g></pattern>`;
}

/** How wide a text is at a height of one millimetre, on average of letters. */
const EM = 0.56;

/** About how wide a text will be. */
export const widthOf = (text: string, heightMm: number): number => [...text].length * heightMm * EM;

/** A text cut short where it is longer than its room. */
export function cropped(text: string, height: number, room: number): string {
  const most = Math.floor(room / (height * EM));
  const letters = [...text];
  return letters.length <= most ? text : `${letters.slice(0, most - 1).join('')}…`;
}

interface TextLook {
  readonly height: number;
  readonly bold?: boolean;
  readonly anchor?: 'start' | 'middle' | 'end';
  readonly turnDeg?: number;
  readonly ink?: string;
  /** White behind it, so that it reads over a hatch. */
  readonly plate?: boolean;
}

/** A line of text with its middle at a height. */
export function textMark(text: string, p: PaperPoint, look: TextLook): string {
  const { height, bold = false, anchor = 'middle', turnDeg = 0, ink = INK, plate = false } = look;
  const turn = turnDeg === 0 ? '' : ` transform="rotate(${n(turnDeg, 2)} ${n(p.x, 3)} ${n(p.y, 3)})"`;
  const w = widthOf(text, height) + 1;
  const back = plate
    ? `<rect x="${n(p.x - w / 2, 3)}" y="${n(p.y - height * 0.65, 3)}" width="${n(w, 3)}" height="${n(height * 1.3, 3)}" fill="#fff" fill-opacity="0.85"${turn}/>`
    : '';
  const weight = bold ? ' font-weight="bold"' : '';
  return `${back}<text x="${n(p.x, 3)}" y="${n(p.y + height * 0.36, 3)}" font-size="${n(height, 3)}" text-anchor="${anchor}" fill="${ink}"${weight}${turn}>${xml(text)}</text>`;
}
