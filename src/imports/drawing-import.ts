import { boxOf, type Point, type Ring } from '../../geometry/index.ts';
import { fail, ok, type Result } from '../../geometry/result.ts';
import type { Fit, Sheet } from '../job/types.ts';
import type { Problem } from '../problem.ts';
import { tr } from '../words/tr.ts';
import { chainLines, MOST_CHAINED } from './chains.ts';
import { DRAWING_UNITS, type Drawing, drawnPoints } from './drawing.ts';
import type { Imported, NewId } from './imported.ts';
import { nest, withIslands } from './nesting.ts';
import type { ImportOptions } from './options.ts';
import { outlineEdits, tooMuch } from './outline-edits.ts';

/** Sheets are kept below this size in their own units. */
const LARGEST_SPAN = 900_000;

/** A sheet from a drawing: its outlines as slabs and voids, all its lines as the picture beneath. */
export function importDrawing(
  drawing: Drawing,
  file: string,
  options: ImportOptions,
  newId: NewId,
): Result<Imported, Problem> {
  const chosen = chosenLayers(drawing, options);
  const own = drawing.outlines.filter((o) => chosen.has(o.layer));
  const lines = drawing.lines.filter((l) => chosen.has(l.layer));
  const points = [...drawnPoints(own), ...drawnPoints(lines)];
  if (points.length === 0)
    return fail({ code: 'drawing/empty', file, detail: tr`nothing is drawn in it that has a shape` });
  const box = boxOf(points);
  const span = Math.max(box.maxX - box.minX, box.maxY - box.minY);
  if (!(span > 0)) return fail({ code: 'drawing/empty', file, detail: tr`all of it lies on one spot` });
  const shrink = span > LARGEST_SPAN ? LARGEST_SPAN / span : 1;
  // A margin about what is drawn, so that nothing lies on the edge of the sheet.
  const margin = span * 0.02;
  const place = (p: Point): Point => ({
    x: (p.x - box.minX + margin) * shrink,
    y: (box.maxY - p.y + margin) * shrink,
  });
  const placed = (ring: Ring): Ring => ring.map((v) => ({ ...place(v), via: v.via ? place(v.via) : null }));
  // Where outlines are drawn as such, open lines are paths, texts and dimensions, not sides of slabs.
  const chains = own.some((o) => o.ring.length > 2) ? [] : chainLines(lines);
  const outlines = [...own, ...chains];
  if (tooMuch(outlines.map((o) => o.ring))) return fail({ code: 'drawing/too-large', file });
  const sheetId = newId('sheet');
  const imageId = newId('i');
  const unit = unitOf(drawing, span, options);
  // A quarter of a millimetre on the ground, or a hair of a drawing whose size is not known.
  const hairline = unit.metres === null ? span * shrink * 1e-5 : (0.00025 / unit.metres) * shrink;
  const nested = nest(outlines.map((o) => ({ item: o.layer === '0' ? '' : o.layer, ring: placed(o.ring) })));
  const made = outlineEdits(
    withIslands(nested, hairline).map(({ item, ring, depth }) => ({ name: item, ring, depth })),
    sheetId,
    newId,
  );
  const size = {
    width: (box.maxX - box.minX + 2 * margin) * shrink,
    height: (box.maxY - box.minY + 2 * margin) * shrink,
  };
  const sheet: Sheet = {
    id: sheetId,
    name: file.replace(/\.\w+$/, '') || tr`Drawing`,
    picture: { imageId, widthPx: size.width, heightPx: size.height, drawn: true },
    fit:
      unit.metres === null ? null : ({ kind: 'drawing', metresPerUnit: unit.metres / shrink } satisfies Fit),
  };
  const rings = [
    ...own.map((o) => ({ path: placed(o.ring), closed: true })),
    ...lines.map((l) => ({ path: placed(l.path), closed: false })),
  ];
  const notes = [
    tr`${made.slabs} ${made.slabs === 1 ? tr`slab` : tr`slabs`} and ${made.voids} ${made.voids === 1 ? tr`void` : tr`voids`} from ${outlines.length} outlines.`,
    ...unit.notes,
    ...(nested.length < outlines.length
      ? [tr`${outlines.length - nested.length} drawn twice or without area count once.`]
      : []),
    ...drawing.notes.map((n) => `${n}.`),
    ...(own.length > 0 && chains.length === 0 && lines.length > 0
      ? [
          tr`${lines.length} open lines are shown beneath; choose their layers alone to chain them into outlines.`,
        ]
      : []),
    ...(lines.length > MOST_CHAINED
      ? [tr`Its ${lines.length} open lines are too many to be chained into outlines: trace over them.`]
      : []),
    ...made.notes,
  ];
  return ok({
    sheet,
    edits: [{ type: 'add-sheet', args: sheet }, ...made.edits],
    image: { id: imageId, type: 'image/svg+xml', bytes: new TextEncoder().encode(lineSvg(rings, size)) },
    notes,
    layers: drawing.layers,
    pages: 1,
  });
}

function chosenLayers({ layers }: Drawing, { layers: wanted }: ImportOptions): ReadonlySet<string> {
  if (wanted) return new Set(wanted);
  const shown = layers.filter((l) => !l.hidden);
  return new Set((shown.length > 0 ? shown : layers).map((l) => l.name));
}

/** Sites are about this large: for drawings that do not say their unit, and to tell a header that cannot be right. */
const SITE_M = { least: 1, most: 2000 };

function unitOf(
  { metresPerUnit, paper }: Drawing,
  span: number,
  { units, ratio }: ImportOptions,
): { readonly metres: number | null; readonly notes: string[] } {
  const times = paper ? (ratio ?? 1) : 1;
  const said = units === undefined ? null : DRAWING_UNITS[units]!;
  if (said !== null) return { metres: said * times, notes: [] };
  if (paper && metresPerUnit === null) {
    return {
      metres: null,
      notes: [tr`It does not say how large it is: set the scale from a length you know.`],
    };
  }
  if (paper && ratio === undefined) {
    return {
      metres: metresPerUnit,
      notes: [
        tr`It is taken at the size of its paper, ${sizeText(span * metresPerUnit!)} across: say its scale, 1 : N, if it shows something larger.`,
      ],
    };
  }
  if (metresPerUnit !== null) {
    const across = span * metresPerUnit * times;
    const odd = across < SITE_M.least || across > SITE_M.most;
    const note = tr`By its own units the drawing is ${sizeText(across)} across: if that cannot be, say its units.`;
    return { metres: metresPerUnit * times, notes: odd ? [note] : [] };
  }
  const [name, metres] = guess(span);
  return {
    metres,
    notes: [
      tr`It does not say its units; taken for ${name}, which makes it ${sizeText(span * metres)} across. Say its units if that is wrong.`,
    ],
  };
}

/** The first unit that makes a site of it. */
function guess(span: number): readonly [string, number] {
  for (const name of ['m', 'mm', 'cm', 'ft', 'in']) {
    const across = span * DRAWING_UNITS[name]!;
    if (across >= 3 && across <= 300) return [name, DRAWING_UNITS[name]!];
  }
  return ['m', 1];
}

const sizeText = (m: number): string =>
  m < 1
    ? `${(m * 1000).toPrecision(3)} mm`
    : m < 10_000
      ? `${m.toPrecision(4)} m`
      : `${(m / 1000).toPrecision(4)} km`;

/** Picture pixels that the longer side of a drawing is shown at where a program asks. */
const SHOWN_PX = 1600;

/** The lines of a drawing as a picture of nothing but lines. */
function lineSvg(
  rings: ReadonlyArray<{ readonly path: Ring; readonly closed: boolean }>,
  { width, height }: { readonly width: number; readonly height: number },
): string {
  const digits = Math.max(0, 6 - Math.ceil(Math.log10(Math.max(width, height))));
  const n = (v: number) => String(Number(v.toFixed(digits)));
  const at = (p: Point) => `${n(p.x)} ${n(p.y)}`;
  const data = rings.map(({ path, closed }) => {
    const next = (i: number) => path[(i + 1) % path.length]!;
    const sides = closed ? path.length : path.length - 1;
    let d = `M${at(path[0]!)}`;
    for (let i = 0; i < sides; i++) {
      const { via } = path[i]!;
      d += via ? arc(path[i]!, via, next(i)) : `L${at(next(i))}`;
    }
    return closed ? `${d}Z` : d;
  });
  const k = SHOWN_PX / Math.max(width, height);
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${n(width * k)}" height="${n(height * k)}" viewBox="0 0 ${n(width)} ${n(height)}"><rect width="100%" height="100%" fill="#fff"/><path d="${data.join('')}" fill="none" stroke="#3a4650" stroke-width="1" vector-effect="non-scaling-stroke"/></svg>`;

  function arc(a: Point, via: Point, b: Point): string {
    const [ax, ay, bx, by] = [via.x - a.x, via.y - a.y, b.x - a.x, b.y - a.y];
    const twice = 2 * (ax * by - ay * bx);
    if (Math.abs(twice) < 1e-12 * (ax * ax + ay * ay + bx * bx + by * by)) return `L${at(b)}`;
    const [u, v] = [ax * ax + ay * ay, bx * bx + by * by];
    const centre = { x: a.x + (by * u - ay * v) / twice, y: a.y + (ax * v - bx * u) / twice };
    const r = Math.hypot(centre.x - a.x, centre.y - a.y);
    // Two arcs through the third point: no flag can go wrong.
    const turn = twice > 0 ? 1 : 0;
    return `A${n(r)} ${n(r)} 0 0 ${turn} ${at(via)}A${n(r)} ${n(r)} 0 0 ${turn} ${at(b)}`;
  }
}
