import type { Point, Ring } from '../../geometry/index.ts';

/** A closed outline of a drawing, y up, in the drawing's unit. */
export interface DrawnOutline {
  readonly layer: string;
  readonly ring: Ring;
}

/** A line that is open, with its arcs: the last vertex is its end. */
export interface DrawnLine {
  readonly layer: string;
  readonly path: Ring;
}

/** A layer to choose from; hidden ones are switched off or frozen in the drawing. */
export interface Layer {
  readonly name: string;
  readonly hidden: boolean;
}

/** A drawing as it was read: what could be slabs, and the lines about it. */
export interface Drawing {
  readonly outlines: readonly DrawnOutline[];
  readonly lines: readonly DrawnLine[];
  readonly layers: readonly Layer[];
  /** Metres for one unit as the file says; null where it does not say. */
  readonly metresPerUnit: number | null;
  /** Whether that is paper rather than ground: a scale belongs to it. */
  readonly paper: boolean;
  /** What a person should know about how it was read. */
  readonly notes: readonly string[];
}

/** Units that a person may say a drawing is in, in metres. */
export const DRAWING_UNITS: Readonly<Record<string, number>> = {
  mm: 0.001,
  cm: 0.01,
  dm: 0.1,
  m: 1,
  km: 1000,
  in: 0.0254,
  ft: 0.3048,
  yd: 0.9144,
};

/** More than this is no plan of a yard, and would hold up the browser. */
export const MOST_PIECES = 200_000;

/** The points of outlines and lines, arcs by their third points. */
export function* drawnPoints(
  pieces: Iterable<{ readonly ring: Ring } | { readonly path: Ring }>,
): Generator<Point> {
  for (const piece of pieces) {
    for (const v of 'ring' in piece ? piece.ring : piece.path) {
      yield v;
      if (v.via) yield v.via;
    }
  }
}
