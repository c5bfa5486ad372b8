import { XMLParser, XMLValidator } from 'fast-xml-parser';
import { fail, ok, type Result } from '../../../geometry/result.ts';
import type { Problem } from '../../problem.ts';
import { type Drawing, type DrawnLine, type DrawnOutline, MOST_PIECES } from '../drawing.ts';
import { subPaths } from './paths.ts';

/** An element as the parser leaves it: its name holds its children, ':@' its attributes. */
type Element = Readonly<Record<string, unknown>>;

const nameOf = (e: Element): string => Object.keys(e).find((k) => k !== ':@') ?? '';
const childrenOf = (e: Element): readonly Element[] => {
  const inside = e[nameOf(e)];
  return Array.isArray(inside) ? (inside as Element[]) : [];
};
const attribute = (e: Element, name: string): string | null => {
  const all = e[':@'] as Readonly<Record<string, string>> | undefined;
  return all && Object.hasOwn(all, name) ? String(all[name]) : null;
};
/** Pixels in one of the units that lengths of shapes may have. Source: CSS values, 96 pixels an inch, from memory. */
const PIXELS: Readonly<Record<string, number>> = {
  '': 1,
  px: 1,
  mm: 96 / 25.4,
  cm: 96 / 2.54,
  in: 96,
  pt: 96 / 72,
  pc: 16,
};

/** A length of a shape in user units; shares of the page are not read. */
const numberOf = (e: Element, name: string, usual = 0): number => {
  const text = (attribute(e, name) ?? '').trim();
  const value = Number.parseFloat(text) * (PIXELS[/[a-z%]*$/.exec(text)![0]] ?? Number.NaN);
  return Number.isFinite(value) ? value : usual;
};

/** Where shapes are kept to be used elsewhere, not drawn. */
const NOT_DRAWN = new Set([
  'defs',
  'symbol',
  'clipPath',
  'mask',
  'pattern',
  'marker',
  'linearGradient',
  'radialGradient',
  'metadata',
  'style',
  'script',
  'foreignObject',
  'text',
  'title',
  'desc',
  'image',
]);

/** Whether a text file is an SVG by its beginning. */
export const looksLikeSvg = (start: string): boolean => /<(?:\w+:)?svg[\s>]/.test(start);

/**
 * Reads the shapes of an SVG: paths, rectangles, circles, ellipses, lines and polygons under their transforms, drawn
 * copies of them included. Only shapes: no script, style, picture or outside file of it is ever looked at.
 * Source: SVG 1.1 (W3C, second edition) 5, 7, 8, 9, from memory.
 */
export function readSvg(text: string, file: string): Result<Drawing, Problem> {
  if (XMLValidator.validate(text) !== true) return fail({ code: 'drawing/broken', file });
  const parser = new XMLParser({
    preserveOrder: true,
    ignoreAttributes: false,
    attributeNamePrefix: '',
    processEntities: false,
    removeNSPrefix: false,
    parseTagValue: false,
    parseAttributeValue: false,
    maxNestedTags: 200,
  });
  let tree: Element[];
  try {
    tree = parser.parse(text) as Element[];
  } catch {
    return fail({ code: 'drawing/broken', file });
  }
  const root = tree.find((e) => /^(\w+:)?svg$/.test(nameOf(e)));
  if (!root) return fail({ code: 'drawing/broken', file });
  const page = pageOf(root);
  const reader = new Reader(root, page.height);
  reader.children(root, page.transform, '', 0);
  if (reader.tooMany) return fail({ code: 'drawing/too-large', file });
  const layers = [...new Set([...reader.outlines, ...reader.lines].map((p) => p.layer))].sort();
  return ok({
    outlines: reader.outlines,
    lines: reader.lines,
    layers: layers.map((name) => ({ name, hidden: false })),
    metresPerUnit: page.metresPerUnit,
    paper: true,
    notes: [],
  });
}

/** Metres in one of SVG's absolute units; pixels say nothing of size. */
const LENGTHS: Readonly<Record<string, number>> = {
  mm: 0.001,
  cm: 0.01,
  in: 0.0254,
  pt: 0.0254 / 72,
  pc: 0.0254 / 6,
};

/** Four numbers of a view box; null when there is none. */
function viewBox(e: Element): readonly [number, number, number, number] | null {
  const box = (attribute(e, 'viewBox') ?? '')
    .trim()
    .split(/[\s,]+/)
    .map(Number);
  const good = box.length === 4 && box.every(Number.isFinite) && box[2]! > 0 && box[3]! > 0;
  return good ? [box[0]!, box[1]!, box[2]!, box[3]!] : null;
}

/** An absolute length in metres; null for pixels, shares, and none. */
function metresOf(text: string | null): number | null {
  const unit = LENGTHS[/[a-z]+\s*$/.exec(text ?? '')?.[0].trim() ?? ''];
  const size = Number.parseFloat(text ?? '');
  return unit !== undefined && size > 0 ? unit * size : null;
}

/** The page in its own units, shifted to begin at nought, and how large one unit is on paper. */
function pageOf(root: Element) {
  const box = viewBox(root);
  const [width, height] = [metresOf(attribute(root, 'width')), metresOf(attribute(root, 'height'))];
  const units = box ?? [0, 0, numberOf(root, 'width'), numberOf(root, 'height')];
  const scales = [width && width / units[2], height && height / units[3]].filter(
    (k): k is number => k !== null && Number.isFinite(k) && k > 0,
  );
  const fit = attribute(root, 'preserveAspectRatio') ?? '';
  const uneven = scales.length === 2 && Math.abs(scales[0]! / scales[1]! - 1) > 1e-3;
  // Drawn to fit (or to fill) its page; stretched it has two scales, and none is told.
  const scale = fit.includes('slice') ? Math.max(...scales) : Math.min(...scales);
  return {
    transform: box ? `translate(${-box[0]},${-box[1]})` : '',
    height: units[3],
    metresPerUnit: scales.length === 0 || (uneven && fit.startsWith('none')) ? null : scale,
  };
}

/** What brings a picture within the picture to its place. */
function innerTransform(e: Element, width: number, height: number): string {
  const box = viewBox(e);
  const move = `translate(${numberOf(e, 'x')},${numberOf(e, 'y')})`;
  if (!box || !(width > 0 && height > 0)) return move;
  const scale = Math.min(width / box[2], height / box[3]);
  return `${move} scale(${scale}) translate(${-box[0]},${-box[1]})`;
}

const DEEPEST = 24;

/** Copies of shapes that a plan may draw; copies of copies grow without end. */
const MOST_COPIES = 20_000;

/** Gathers shapes, y turned up. */
class Reader {
  readonly outlines: DrawnOutline[] = [];
  readonly lines: DrawnLine[] = [];
  tooMany = false;
  private readonly byId = new Map<string, Element>();
  private readonly height: number;
  private seen = 0;
  private copies = 0;

  constructor(root: Element, height: number) {
    this.height = height;
    const index = (e: Element): void => {
      const id = attribute(e, 'id');
      if (id && !this.byId.has(id)) this.byId.set(id, e);
      for (const child of childrenOf(e)) index(child);
    };
    index(root);
  }

  children(e: Element, transform: string, layer: string, depth: number): void {
    for (const child of childrenOf(e)) this.element(child, transform, layer, depth);
  }

  private element(e: Element, outer: string, layer: string, depth: number): void {
    if (this.tooMany || depth > DEEPEST) return;
    this.seen += 1;
    if (this.seen > MOST_PIECES) {
      this.tooMany = true;
      return;
    }
    const name = nameOf(e).replace(/^\w+:/, '');
    if (NOT_DRAWN.has(name) || isHidden(e)) return;
    const own = name === 'svg' ? innerTransform(e, numberOf(e, 'width'), numberOf(e, 'height')) : '';
    const transform = `${outer} ${attribute(e, 'transform') ?? ''} ${own}`.trim();
    if (name === 'g' || name === 'a' || name === 'switch' || name === 'svg') {
      const label = attribute(e, 'inkscape:label') ?? attribute(e, 'id');
      this.children(e, transform, layer || label || '', depth + 1);
    } else if (name === 'use') this.use(e, transform, layer, depth);
    else {
      const data = dataOf(name, e);
      if (data) this.shape(data, transform, layer || attribute(e, 'id') || '');
    }
  }

  private use(e: Element, transform: string, layer: string, depth: number): void {
    const href = attribute(e, 'href') ?? attribute(e, 'xlink:href') ?? '';
    const target = href.startsWith('#') ? this.byId.get(href.slice(1)) : undefined;
    if (!target) return;
    this.copies += 1;
    if (this.copies > MOST_COPIES) {
      this.tooMany = true;
      return;
    }
    const moved = `${transform} translate(${numberOf(e, 'x')},${numberOf(e, 'y')})`.trim();
    if (nameOf(target).replace(/^\w+:/, '') === 'symbol') {
      const inner = innerTransform(target, numberOf(e, 'width'), numberOf(e, 'height'));
      this.children(target, `${moved} ${inner}`, layer, depth + 1);
    } else this.element(target, moved, layer, depth + 1);
  }

  private shape(data: string, transform: string, layer: string): void {
    for (const { vertices, closed } of subPaths(data, transform)) {
      const up = vertices.map((v) => ({
        x: v.x,
        y: this.height - v.y,
        via: v.via ? { x: v.via.x, y: this.height - v.via.y } : null,
      }));
      if (!up.every((v) => Number.isFinite(v.x) && Number.isFinite(v.y))) continue;
      if (closed && (up.length > 2 || up.some((v) => v.via))) this.outlines.push({ layer, ring: up });
      else if (up.length > 1) this.lines.push({ layer, path: up });
    }
  }
}

function isHidden(e: Element): boolean {
  const style = attribute(e, 'style') ?? '';
  return (
    attribute(e, 'display') === 'none' ||
    attribute(e, 'visibility') === 'hidden' ||
    /display\s*:\s*none|visibility\s*:\s*hidden/.test(style)
  );
}

/** A basic shape as path data. */
function dataOf(name: string, e: Element): string | null {
  const n = (key: string) => numberOf(e, key);
  switch (name) {
    case 'path':
      return attribute(e, 'd');
    case 'rect':
      return rectangle(n('x'), n('y'), n('width'), n('height'), Math.max(n('rx'), n('ry')));
    case 'circle':
      return oval(n('cx'), n('cy'), n('r'), n('r'));
    case 'ellipse':
      return oval(n('cx'), n('cy'), n('rx'), n('ry'));
    case 'line':
      return `M${n('x1')} ${n('y1')}L${n('x2')} ${n('y2')}`;
    case 'polyline':
    case 'polygon': {
      const points = (attribute(e, 'points') ?? '').trim();
      return points ? `M${points}${name === 'polygon' ? 'Z' : ''}` : null;
    }
    default:
      return null;
  }
}

function rectangle(x: number, y: number, w: number, h: number, round: number): string | null {
  if (!(w > 0 && h > 0)) return null;
  const r = Math.min(round, w / 2, h / 2);
  if (!(r > 0)) return `M${x} ${y}h${w}v${h}h${-w}Z`;
  const bend = (dx: number, dy: number) => `a${r} ${r} 0 0 1 ${dx} ${dy}`;
  return `M${x + r} ${y}h${w - 2 * r}${bend(r, r)}v${h - 2 * r}${bend(-r, r)}h${2 * r - w}${bend(-r, -r)}v${2 * r - h}${bend(r, -r)}Z`;
}

const oval = (x: number, y: number, rx: number, ry: number): string | null =>
  rx > 0 && ry > 0 ? `M${x - rx} ${y}a${rx} ${ry} 0 1 0 ${2 * rx} 0a${rx} ${ry} 0 1 0 ${-2 * rx} 0Z` : null;
