import { bulgeOf, distance, type Point, pointOnSide, type Ring, sidesOf } from '../../geometry/index.ts';
import { areaText, lengthNumber } from '../units/format.ts';
import type { Metres } from '../units/types.ts';
import { tr } from '../words/tr.ts';
import { ratioFor } from './drawing/paper.ts';
import { type DrawnDimension, planDrawings, sideBySide } from './drawing/plan-drawing.ts';
import { plainText } from './drawing/svg-marks.ts';
import type { Export } from './export.ts';

/** A layer a kind, with its AutoCAD colour index: dark, green, red, grey, dark, grey. */
const LAYERS = {
  slab: ['SLABS', 7],
  zone: ['ZONES', 3],
  void: ['VOIDS', 1],
  cut: ['CUTS', 8],
  name: ['NAMES', 7],
  dimension: ['DIMENSIONS', 8],
} as const;

/** Lettering on paper, at the scale that the drawing has on a page: so large sites stay legible. */
const LETTER_MM = 2.5;
const ROOM_MM = { width: 259, height: 138 };

/** Outlines with true arcs as bulges, in metres, y up, a layer for each kind; several sheets side by side. */
export const dxfExport: Export = {
  ending: 'dxf',
  label: tr`Drawing (DXF)`,
  type: 'image/vnd.dxf',
  write: async (results) => {
    const { DxfWriter, LWPolylineFlags, point3d, TextHorizontalAlignment, TextVerticalAlignment, Units } =
      await import('@tarikjabiri/dxf');
    const { units } = results.job.settings;
    const dxf = new DxfWriter();
    dxf.setUnits(Units.Meters);
    dxf.setVariable('$MEASUREMENT', { 70: 1 });
    for (const [name, colour] of Object.values(LAYERS)) dxf.addLayer(name, colour, 'Continuous');
    const on = (kind: keyof typeof LAYERS) => ({ layerName: LAYERS[kind][0] });
    const outline = (ring: Ring, kind: keyof typeof LAYERS) => {
      const circle = circleOf(ring);
      if (circle) {
        dxf.addCircle(point3d(circle.centre.x, circle.centre.y, 0), circle.radius, on(kind));
        return;
      }
      const vertices = sidesOf(ring).map(({ a, arc }) => ({
        point: { x: a.x, y: a.y },
        ...(arc ? { bulge: bulgeOf(arc) } : {}),
      }));
      dxf.addLWPolyline(vertices, { flags: LWPolylineFlags.Closed, ...on(kind) });
    };
    const text = (words: string, p: Point, height: number, rotation: number, kind: keyof typeof LAYERS) => {
      const place = point3d(p.x, p.y, 0);
      dxf.addText(place, height, oneLine(words), {
        ...on(kind),
        rotation,
        horizontalAlignment: TextHorizontalAlignment.Center,
        verticalAlignment: TextVerticalAlignment.Middle,
        secondAlignmentPoint: place,
      });
    };
    for (const d of sideBySide(planDrawings(results))) {
      const ground = { width: d.box.maxX - d.box.minX, height: d.box.maxY - d.box.minY };
      const letterM = (LETTER_MM * ratioFor(ground, ROOM_MM, units)) / 1000;
      for (const slab of d.slabs) outline(slab.outline, 'slab');
      for (const zone of d.zones) for (const ring of zone.outlines) outline(ring, 'zone');
      for (const v of d.voids) outline(v.outline, 'void');
      for (const cut of d.cuts)
        dxf.addLWPolyline(
          cut.map(({ x, y }) => ({ point: { x, y } })),
          on('cut'),
        );
      for (const zone of d.zones) {
        if (!zone.label) continue;
        const { x, y } = zone.label.point;
        text(zone.name, { x, y: y + letterM * 0.8 }, letterM, 0, 'name');
        text(areaText(zone.areaM2, units), { x, y: y - letterM * 0.8 }, letterM, 0, 'name');
      }
      for (const dimension of d.dimensions) {
        const { at, turnDeg } = lettered(dimension, letterM);
        text(lengthNumber(dimension.lengthM, units), at, letterM, turnDeg, 'dimension');
      }
    }
    return new TextEncoder().encode(dxf.stringify());
  },
};

/** Where a side's length is written and how it is turned: outside, readable from below or from the right. */
function lettered(
  { side, out }: DrawnDimension,
  away: Metres,
): { readonly at: Point; readonly turnDeg: number } {
  const [p, a, b] = [pointOnSide(side, 0.5), pointOnSide(side, 0.49), pointOnSide(side, 0.51)];
  let turnDeg = (Math.atan2(b.y - a.y, b.x - a.x) * 180) / Math.PI;
  if (turnDeg > 90 + 1e-6) turnDeg -= 180;
  if (turnDeg <= -90 + 1e-6) turnDeg += 180;
  return { at: { x: p.x + out.x * away, y: p.y + out.y * away }, turnDeg };
}

/** The circle that two arcs make; null of any other outline. */
function circleOf(ring: Ring): { readonly centre: Point; readonly radius: number } | null {
  const [p, q] = sidesOf(ring).map((s) => s.arc);
  if (ring.length !== 2 || !p || !q) return null;
  const one = distance(p.centre, q.centre) < 1e-9 && Math.abs(p.radius - q.radius) < 1e-9;
  const whole = Math.abs(Math.abs(p.sweep + q.sweep) - 2 * Math.PI) < 1e-9;
  return one && whole ? { centre: p.centre, radius: p.radius } : null;
}

/** A text is one line; a percent sign does not begin a symbol, and a caret no control character. */
const oneLine = (words: string): string =>
  plainText(words)
    .replace(/[\n\t\r\u007f]/g, ' ')
    .replace(/%(?=%)/g, '% ')
    .replace(/\^/g, '^ ')
    .trim() || '-';
