import { carryAlong } from '../../../geometry/index.ts';
import { fail, ok } from '../../../geometry/result.ts';
import type { SheetPoint } from '../../units/types.ts';
import { tr } from '../../words/tr.ts';
import { tapeCorners } from '../integrity.ts';
import type { Id, Slab, SlabCorner, Tape } from '../types.ts';
import { type EditKind, need, withSoundOutlines } from './edit.ts';

const WORDS = { distance: tr`A taped distance`, square: tr`A right angle`, offset: tr`An offset` } as const;

/** Notes what was taped between corners, or replaces it. */
export const setTape: EditKind<Tape> = {
  label: (tape) => tr`Note ${WORDS[tape.kind].toLowerCase()}`,
  apply: (job, tape) => {
    const ids = tapeCorners(tape);
    if (new Set(ids).size < ids.length) return fail({ code: 'tape/corners', what: WORDS[tape.kind] });
    const sheets = new Set<Id>();
    for (const id of ids) {
      const corner = need(job, 'corners', id);
      if (!corner.ok) return corner;
      sheets.add(corner.value.sheetId);
    }
    const sheet = job.sheets[[...sheets][0]!]!;
    if (sheets.size > 1 || sheet.fit?.kind !== 'metric')
      return fail({ code: 'tape/sheet', sheet: sheet.name });
    if (tape.kind === 'distance' && !(tape.lengthM > 0)) return fail({ code: 'scale/zero', what: 'length' });
    return ok({ ...job, tapes: { ...job.tapes, [tape.id]: tape } });
  },
};

export const removeTape: EditKind<{ readonly tapeId: Id }> = {
  label: () => tr`Take back a tape`,
  apply: (job, { tapeId }) => {
    if (!job.tapes || !Object.hasOwn(job.tapes, tapeId)) {
      return fail({ code: 'entity/missing', what: tr`tape`, id: tapeId });
    }
    const { [tapeId]: _gone, ...tapes } = job.tapes;
    return ok({ ...job, tapes });
  },
};

/**
 * Puts corners where they belong, all in one go, with the arcs between them carried along; an arc of `vias`, by slab and
 * the corner its side leaves, goes through the point given instead.
 */
export const placeCorners: EditKind<{
  readonly places: Readonly<Record<Id, SheetPoint>>;
  readonly vias?: Readonly<Record<Id, Readonly<Record<Id, SheetPoint>>>>;
}> = {
  label: () => tr`Move corners`,
  apply: (job, { places, vias }) => {
    const corners = { ...job.corners };
    for (const [id, { x, y }] of Object.entries(places)) {
      const corner = need(job, 'corners', id);
      if (!corner.ok) return corner;
      corners[id] = { ...corner.value, x, y };
    }
    const slabs: Record<Id, Slab> = {};
    for (const slab of Object.values(job.slabs)) {
      const moved = slab.corners.some((c) => Object.hasOwn(places, c.cornerId));
      slabs[slab.id] = moved ? { ...slab, corners: slab.corners.map((c, k) => carried(slab, c, k)) } : slab;
    }
    return withSoundOutlines({ ...job, corners, slabs }, Object.keys(places));

    function carried(slab: Slab, c: SlabCorner, k: number): SlabCorner {
      if (!c.via) return c;
      const given = vias?.[slab.id]?.[c.cornerId];
      if (given) return { ...c, via: given };
      const next = slab.corners[(k + 1) % slab.corners.length]!.cornerId;
      const [a, b] = [job.corners[c.cornerId]!, job.corners[next]!];
      return { ...c, via: carryAlong(a, b, c.via, corners[c.cornerId]!, corners[next]!) };
    }
  },
};
