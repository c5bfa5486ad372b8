import { type HalfEdges, twin } from './half-edges.ts';
import { directionOf, type NodedLinework, slotOf } from './linework.ts';

/** For each face, the sources that wind around it, in order, each followed by how often it does. */
export type Windings = ReadonlyArray<readonly number[]>;

/** How often a source winds around a face, of one entry of `Windings`. */
export function timesRound(winding: readonly number[], source: number): number {
  for (let i = 0; i < winding.length; i += 2) if (winding[i] === source) return winding[i + 1]!;
  return 0;
}

const NONE: readonly number[] = [];

/** Winding numbers spread from the outside, where all are zero, across the edges. */
export function windings(work: NodedLinework, { count, faceOf, borders, firstBorder }: HalfEdges): Windings {
  const { sources } = work.lines;
  const winding: Array<readonly number[] | undefined> = new Array(count);
  winding[0] = NONE;
  const queue = [0];
  for (let q = 0; q < queue.length; q++) {
    const face = queue[q]!;
    for (let b = firstBorder[face]!; b < firstBorder[face + 1]!; b++) {
      const h = borders[b]!;
      const other = faceOf[twin(h)]!;
      if (winding[other]) continue;
      let across = winding[face]!;
      for (let u = work.firstUse[h >> 1]!; u >= 0; u = work.nextUse[u]!) {
        const use = work.uses[u]!;
        const source = work.lines.source[slotOf(use)]!;
        if (sources.isCut(source)) continue;
        // The left of a source's direction of travel is wound once more than the right; we go from left of h to its right.
        across = wound(across, source, (h & 1) === 0 ? -directionOf(use) : directionOf(use));
      }
      winding[other] = across;
      queue.push(other);
    }
  }
  // Every face was come to: from each an edge leads on.
  return winding as Windings;
}

/** The same winding with one source going round so many times more. */
function wound(winding: readonly number[], source: number, more: number): readonly number[] {
  let i = 0;
  while (i < winding.length && winding[i]! < source) i += 2;
  const known = winding[i] === source;
  const times = (known ? winding[i + 1]! : 0) + more;
  if (times === 0 && winding.length === 2) return NONE;
  if (winding.length === 0) return [source, times];
  if (winding.length === 2 && !known) {
    // The usual: a void on a slab.
    const [other, round] = winding;
    return source < other! ? [source, times, other!, round!] : [other!, round!, source, times];
  }
  const less = winding.slice(0, i);
  const rest = winding.slice(known ? i + 2 : i);
  return times === 0 ? less.concat(rest) : less.concat(source, times, rest);
}
