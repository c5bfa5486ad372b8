import type { Point } from './point.ts';
import type { Vertex } from './ring.ts';

/** Coordinates beyond this are taken for mistakes. */
const LARGEST = 1e9;

/** Whether every coordinate is a number of a size that can be. */
export function inRange(ring: readonly Vertex[]): boolean {
  for (const v of ring) if (!isInRange(v) || (v.via && !isInRange(v.via))) return false;
  return true;
}

/** False for what is not a number, too. */
const isInRange = ({ x, y }: Point): boolean => Math.abs(x) <= LARGEST && Math.abs(y) <= LARGEST;

/**
 * The points of an outline or path without arcs and in range: x and y of each in turn. Every change near by reads them
 * again, and neither has to check them nor to gather them from all over the memory.
 */
export type Straight = Float64Array;

/** Bytes of outlines that share a buffer; it stays for as long as one of them does. */
const SHARED = 2 ** 13;

/** Keeps outlines as columns. */
export class Straightener {
  private buffer = new ArrayBuffer(0);
  private used = 0;

  /** The points of an outline or path; null when it has an arc or is not in range. */
  take(ring: readonly Vertex[]): Straight | null {
    const bytes = 16 * ring.length;
    if (this.used + bytes > this.buffer.byteLength) {
      this.buffer = new ArrayBuffer(Math.max(SHARED, bytes));
      this.used = 0;
    }
    const xy = new Float64Array(this.buffer, this.used, 2 * ring.length);
    for (let k = 0; k < ring.length; k++) {
      const v = ring[k]!;
      if (v.via || !isInRange(v)) return null;
      xy[2 * k] = v.x;
      xy[2 * k + 1] = v.y;
    }
    this.used += bytes;
    return xy;
  }
}
