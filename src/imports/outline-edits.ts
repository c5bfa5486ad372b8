import { type Point, partition, type Ring, ringArea, ringBox } from '../../geometry/index.ts';
import type { Edit } from '../job/edits/index.ts';
import { slabProblem, voidProblem } from '../job/integrity.ts';
import { DEFAULT_SURFACE, emptyJob, type Id, type Job, type Slab, type Void } from '../job/types.ts';
import { type Problem, sentence } from '../problem.ts';
import { tr } from '../words/tr.ts';
import type { NewId } from './imported.ts';
import { slitOpen } from './slit.ts';

/** An outline in a sheet's coordinates, what it is called, and how deep it lies in others: odd ones are taken out. */
export interface NestedOutline {
  readonly name: string;
  readonly ring: Ring;
  readonly depth: number;
}

/** More slabs than this nobody coats in one job, and no phone shows. */
const MOST_OUTLINES = 5000;

/** Corners of one outline, and of all: more is a contour map, not a slab. */
const MOST_CORNERS = 20_000;
const MOST_CORNERS_IN_ALL = 200_000;

/** Whether outlines are more, or have more corners, than any site. */
export const tooMuch = (rings: ReadonlyArray<{ readonly length: number }>): boolean =>
  rings.length > MOST_OUTLINES ||
  rings.some((r) => r.length > MOST_CORNERS) ||
  rings.reduce((sum, r) => sum + r.length, 0) > MOST_CORNERS_IN_ALL;

/** Slabs and voids from outlines. Those that cross themselves are left out and named. */
export function outlineEdits(
  outlines: readonly NestedOutline[],
  sheetId: Id,
  newId: NewId,
): { readonly edits: Edit[]; readonly notes: string[]; readonly slabs: number; readonly voids: number } {
  const counts = new Map<string, number>();
  const called = (name: string, other: string): string => {
    const base = name.trim() || other;
    const n = (counts.get(base) ?? 0) + 1;
    counts.set(base, n);
    return `${base} ${n}`.slice(0, 400);
  };
  const edits: Edit[] = [];
  const wrong: Problem[] = [];
  let slabs = 0;
  let mended = 0;
  const addSlab = (name: string, ring: Ring): Problem | null => {
    const corners = ring.map((v) => ({ id: newId('c'), x: v.x, y: v.y, via: v.via ?? null }));
    const problem = slabProblemOf(name, sheetId, corners);
    if (problem) return problem;
    slabs += 1;
    edits.push({
      type: 'add-slab',
      args: { id: newId('slab'), name, sheetId, corners, surface: DEFAULT_SURFACE },
    });
    return null;
  };
  for (const { name: item, ring, depth } of outlines) {
    const ground = depth % 2 === 0;
    const name = called(item, ground ? tr`Slab` : tr`Void`);
    if (!ground) {
      const shape = {
        type: 'outline',
        corners: ring.map((c) => ({ x: c.x, y: c.y, via: c.via ?? null })),
      } as const;
      const v: Void = { id: newId('v'), name, kind: 'other', sheetId, shape };
      const problem = voidProblem(v);
      if (problem) wrong.push(problem);
      else edits.push({ type: 'add-void', args: v });
      continue;
    }
    const problem = addSlab(name, ring);
    if (!problem) continue;
    const pieces = problem.code === 'outline/self-crossing' ? simplePieces(ring) : [];
    if (pieces.length === 0) wrong.push(problem);
    else mended += 1;
    pieces.forEach((piece, i) => {
      const own = addSlab(i === 0 ? name : tr`${name}, part ${i + 1}`, piece);
      if (own) wrong.push(own);
    });
  }
  const notes = wrong.slice(0, 3).map((p) => tr`Left out: ${sentence(p)}`);
  if (mended > 0) {
    const which = mended === 1 ? tr`One outline touches or crosses` : tr`${mended} outlines touch or cross`;
    notes.push(tr`${which} itself, and was taken as the parts it encloses: look at them.`);
  }
  if (wrong.length > 3)
    notes.push(tr`Left out: ${wrong.length - 3} more that cross themselves or enclose nothing.`);
  return { edits, notes, slabs, voids: edits.length - slabs };
}

/** The parts that an outline encloses which touches or crosses itself; arcs as points. Empty when there are none. */
function simplePieces(ring: Ring): Ring[] {
  const box = ringBox(ring);
  const span = Math.max(box.maxX - box.minX, box.maxY - box.minY);
  const parts = partition({ slabs: [ring], cuts: [], voids: [] });
  if (!parts.ok || !(span > 0)) return [];
  return parts.value.zones
    .filter((z) => z.faceArea > span * span * 1e-9)
    .map((z) => z.faceRings.slice(1).reduce<Ring>((outer, hole) => slitOpen(outer, hole), z.faceRings[0]!))
    .sort((a, b) => Math.abs(ringArea(b)) - Math.abs(ringArea(a)));
}

function slabProblemOf(
  name: string,
  sheetId: Id,
  corners: ReadonlyArray<{ readonly id: Id; readonly via: Point | null } & Point>,
): Problem | null {
  const slab: Slab = {
    id: 's',
    name,
    sheetId,
    corners: corners.map((c) => ({ cornerId: c.id, via: c.via, beyond: null })),
    slope: 0,
    surface: DEFAULT_SURFACE,
  };
  const job: Job = {
    ...emptyJob('j', ''),
    corners: Object.fromEntries(corners.map((c) => [c.id, { id: c.id, sheetId, x: c.x, y: c.y }])),
  };
  return slabProblem(job, slab);
}
