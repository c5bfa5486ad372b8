import { fail, ok, type Result } from '../../../geometry/result.ts';
import type { Problem } from '../../problem.ts';
import type { Metres, SheetPoint } from '../../units/types.ts';
import { tr } from '../../words/tr.ts';
import { cutProblem, slabProblem } from '../integrity.ts';
import type { Beyond, Cut, CutPoint, Id, Job, Slab, SlabCorner, Surface } from '../types.ts';
import { type EditKind, need, put, without, withoutLooseCorners } from './edit.ts';

/** A corner of a new outline: an existing one by id (then its own place counts), or a new one at x, y. */
export interface NewCorner extends SheetPoint {
  readonly id: Id;
  readonly via: SheetPoint | null;
}

export interface NewSlab {
  readonly id: Id;
  readonly name: string;
  readonly sheetId: Id;
  readonly corners: readonly NewCorner[];
  readonly surface: Surface;
}

export const addSlab: EditKind<NewSlab> = {
  label: ({ name }) => tr`Trace ${name}`,
  apply: (job, { id, name, sheetId, corners, surface }) => {
    const sheet = need(job, 'sheets', sheetId);
    if (!sheet.ok) return sheet;
    const withCorners = addCorners(job, sheetId, corners);
    const sides = corners.map((c, k): SlabCorner => {
      const next = corners[(k + 1) % corners.length]!;
      return { cornerId: c.id, via: c.via ?? sharedArc(job, c.id, next.id), beyond: null };
    });
    const slab: Slab = { id, name, sheetId, corners: sides, slope: 0, surface };
    const problem = slabProblem(withCorners, slab);
    return problem ? fail(problem) : ok(put(withCorners, 'slabs', slab));
  },
};

function addCorners(job: Job, sheetId: Id, corners: readonly NewCorner[]): Job {
  const added = corners
    .filter((c) => !Object.hasOwn(job.corners, c.id))
    .map(({ id, x, y }) => [id, { id, sheetId, x, y }] as const);
  return { ...job, corners: { ...job.corners, ...Object.fromEntries(added) } };
}

/** The third point of an arc that another slab already has between two corners, so that neighbours share the curve. */
function sharedArc(job: Job, a: Id, b: Id): SheetPoint | null {
  for (const { corners } of Object.values(job.slabs)) {
    for (let k = 0; k < corners.length; k++) {
      const p = corners[k]!;
      const q = corners[(k + 1) % corners.length]!;
      const same = (p.cornerId === a && q.cornerId === b) || (p.cornerId === b && q.cornerId === a);
      if (same && p.via) return p.via;
    }
  }
  return null;
}

export const updateSlab: EditKind<{
  readonly slabId: Id;
  readonly name?: string;
  readonly slope?: number;
  readonly surface?: Partial<Surface>;
}> = {
  label: () => tr`Change the slab`,
  apply: (job, { slabId, surface, ...change }) => {
    const slab = need(job, 'slabs', slabId);
    if (!slab.ok) return slab;
    const slope = change.slope ?? slab.value.slope;
    if (!(slope >= 0 && slope <= 2)) {
      return fail({ code: 'value/out-of-range', what: tr`The slope (rise over run)`, low: 0, high: 2 });
    }
    return ok(
      put(job, 'slabs', { ...slab.value, ...change, surface: { ...slab.value.surface, ...surface } }),
    );
  },
};

/** Says what stands beyond a side, how high a face along it is coated, or bends it: `via` null makes it straight. */
export const updateSide: EditKind<{
  readonly slabId: Id;
  readonly cornerId: Id;
  readonly beyond?: Beyond | null;
  readonly faceUpM?: Metres;
  readonly exit?: boolean;
  readonly via?: SheetPoint | null;
}> = {
  label: ({ via, faceUpM, exit }) =>
    via !== undefined
      ? tr`Bend a side`
      : exit !== undefined
        ? tr`Mark a way out`
        : faceUpM !== undefined
          ? tr`Give a side its face`
          : tr`Say what stands beyond a side`,
  apply: (job, { slabId, cornerId, ...change }) => {
    if (change.faceUpM !== undefined && !(change.faceUpM >= 0 && change.faceUpM <= 100)) {
      return fail({ code: 'value/out-of-range', what: tr`The height of the face (m)`, low: 0, high: 100 });
    }
    const found = need(job, 'slabs', slabId);
    if (!found.ok) return found;
    const k = found.value.corners.findIndex((c) => c.cornerId === cornerId);
    if (k < 0) return fail({ code: 'entity/missing', what: tr`side`, id: cornerId });
    const corners = found.value.corners.map((c, i) => (i === k ? { ...c, ...change } : c));
    const next = put(job, 'slabs', { ...found.value, corners });
    const problem = slabProblem(next, next.slabs[slabId]!);
    return problem ? fail(problem) : ok(next);
  },
};

/** Gives a slab corners of its own where it shares them with others; `corners` says what each is called from now on. */
export const loosenSlab: EditKind<{ readonly slabId: Id; readonly corners: Readonly<Record<Id, Id>> }> = {
  label: () => tr`Loosen the slab from its neighbours`,
  apply: (job, { slabId, corners }) => {
    const slab = need(job, 'slabs', slabId);
    if (!slab.ok) return slab;
    const taken = Object.values(corners).find((id) => Object.hasOwn(job.corners, id));
    if (taken !== undefined) return fail({ code: 'entity/missing', what: tr`free corner`, id: taken });
    const named = (id: Id): Id => (Object.hasOwn(corners, id) ? corners[id]! : id);
    const copies = Object.entries(corners).flatMap(([id, newId]) =>
      Object.hasOwn(job.corners, id) ? [[newId, { ...job.corners[id]!, id: newId }] as const] : [],
    );
    const own = slab.value.corners.map((c) => ({ ...c, cornerId: named(c.cornerId) }));
    const cuts = Object.values(job.cuts).map((cut) =>
      cut.slabId === slabId
        ? { ...cut, points: cut.points.map((p) => ({ ...p, cornerId: named(p.cornerId) })) }
        : cut,
    );
    const next: Job = {
      ...job,
      corners: { ...job.corners, ...Object.fromEntries(copies) },
      slabs: { ...job.slabs, [slabId]: { ...slab.value, corners: own } },
      cuts: Object.fromEntries(cuts.map((cut) => [cut.id, cut])),
    };
    const lost = [...own, ...cuts.flatMap((cut) => cut.points)].find(
      (c) => !Object.hasOwn(next.corners, c.cornerId),
    );
    if (lost) return fail({ code: 'entity/missing', what: tr`corner`, id: lost.cornerId });
    const problem = slabProblem(next, next.slabs[slabId]!);
    return problem ? fail(problem) : ok(withoutLooseCorners(next));
  },
};

/** Deletes a slab with its cuts and tags, and the corners that nothing else uses. */
export const removeSlab: EditKind<{ readonly slabId: Id }> = {
  label: () => tr`Delete the slab`,
  apply: (job, { slabId }) => {
    const slab = need(job, 'slabs', slabId);
    if (!slab.ok) return slab;
    const mine = (map: Readonly<Record<Id, { readonly id: Id; readonly slabId: Id }>>) =>
      Object.values(map)
        .filter((e) => e.slabId === slabId)
        .map((e) => e.id);
    let next = without(job, 'slabs', [slabId]);
    next = without(next, 'cuts', mine(job.cuts));
    next = without(next, 'tags', mine(job.tags));
    return ok(withoutLooseCorners(next));
  },
};

/** A point of a new cut: on a corner (existing, or new at x, y), or on a side of the slab. */
export type NewCutPoint = CutPoint | ({ readonly at: 'place'; readonly id: Id } & SheetPoint);

export const addCut: EditKind<{
  readonly id: Id;
  readonly slabId: Id;
  readonly points: readonly NewCutPoint[];
}> = {
  label: () => tr`Cut the slab`,
  apply: (job, { id, slabId, points }): Result<Job, Problem> => {
    const slab = need(job, 'slabs', slabId);
    if (!slab.ok) return slab;
    const places = points.flatMap((p) => (p.at === 'place' ? [{ id: p.id, x: p.x, y: p.y, via: null }] : []));
    const next = addCorners(job, slab.value.sheetId, places);
    const cut: Cut = {
      id,
      slabId,
      points: points.map((p) => (p.at === 'place' ? { at: 'corner', cornerId: p.id } : p)),
    };
    const problem = cut.points.length < 2 ? null : cutProblem(next, cut);
    if (problem || cut.points.length < 2) {
      return fail({ code: 'cut/too-short', what: tr`The cut across “${slab.value.name}”` });
    }
    return ok(put(next, 'cuts', cut));
  },
};

export const removeCut: EditKind<{ readonly cutId: Id }> = {
  label: () => tr`Delete the cut`,
  apply: (job, { cutId }) => {
    const cut = need(job, 'cuts', cutId);
    return cut.ok ? ok(withoutLooseCorners(without(job, 'cuts', [cutId]))) : cut;
  },
};
