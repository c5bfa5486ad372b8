import RBush from 'rbush';
import type { Contacts } from './contacts.ts';
import { partitionKnown } from './partition.ts';
import type { Partition, Plan, PlanProblem } from './plan.ts';
import type { Box, Point } from './point.ts';
import { fail, ok, type Result } from './result.ts';
import { type Ring, ringBox } from './ring.ts';
import { sortShort } from './sort-short.ts';
import { type Straight, Straightener } from './straight.ts';

/** Slabs whose boxes touch, directly or by way of each other, with what lies on them; lists are in the order of ids. */
export interface SitePart {
  /** Indices in `partition` refer to these lists. */
  readonly slabs: readonly string[];
  readonly cuts: ReadonlyArray<{ readonly slab: string; readonly index: number }>;
  readonly voids: readonly string[];
  readonly partition: Partition;
}

/** What the last changes came to. */
export interface SiteUpdate {
  readonly remade: readonly SitePart[];
  readonly gone: readonly SitePart[];
}

interface VoidEntry extends Box {
  readonly id: string;
  ring: Ring;
  straight: Straight | null;
}

interface SlabEntry extends VoidEntry {
  cuts: ReadonlyArray<readonly Point[]>;
  straightCuts: ReadonlyArray<Straight | null>;
  /** What was found when it was last worked out, as it stood then: most of it still holds. */
  contacts: Contacts | null;
}

/** Slabs whose boxes touch and what lies on them, in the order of ids, for as long as none comes, goes or moves its box. */
interface Group {
  readonly slabs: readonly SlabEntry[];
  readonly voids: readonly VoidEntry[];
  /** What was made of it; null when that no longer holds. */
  part: SitePart | null;
}

/** Boxes that come within this of each other may touch. */
const MARGIN = 1e-3;

/**
 * A plan that changes: after each change only the slabs whose boxes touch what changed are worked out again, so that an
 * edit costs the same however large the site is. The parts are the same as those of a site built anew.
 */
export class Site {
  private readonly slabTree = new RBush<SlabEntry>();
  private readonly voidTree = new RBush<VoidEntry>();
  private readonly slabs = new Map<string, SlabEntry>();
  private readonly voids = new Map<string, VoidEntry>();
  /** Set since the last update: they go into the trees together, which is several times quicker than one by one. */
  private readonly newSlabs = new Set<SlabEntry>();
  private readonly newVoids = new Set<VoidEntry>();
  private readonly groupOf = new Map<string, Group>();
  private readonly dirty = new Set<string>();
  /** Parts that nobody has been told of, and parts told of that no longer hold. */
  private readonly fresh = new Set<SitePart>();
  private readonly gone = new Set<SitePart>();
  private readonly straightener = new Straightener();

  /**
   * An empty site.
   * @param weld slabs traced this close to each other touch (see `weldRings`)
   */
  constructor(private readonly weld = 0) {}

  /** Adds or replaces a slab; `cuts` are open paths that split it. Coordinates must be finite. */
  setSlab(id: string, ring: Ring, cuts: ReadonlyArray<readonly Point[]>): void {
    const box = grown(ringBox(ring), MARGIN + this.weld);
    const straight = this.straightener.take(ring);
    const straightCuts = cuts.map((path) => this.straightener.take(path));
    const old = this.slabs.get(id);
    if (old && isSameBox(old, box)) {
      // Whoever met it meets it still, and nobody else does.
      old.ring = ring;
      old.straight = straight;
      old.cuts = cuts;
      old.straightCuts = straightCuts;
      const group = this.groupOf.get(id);
      if (group) this.outdate(group);
      return;
    }
    this.removeSlab(id);
    const entry: SlabEntry = {
      id,
      ring,
      straight,
      cuts,
      straightCuts,
      contacts: old?.contacts ?? null,
      ...box,
    };
    this.slabs.set(id, entry);
    this.newSlabs.add(entry);
  }

  /** Adds or replaces something to be left out. */
  setVoid(id: string, ring: Ring): void {
    this.removeVoid(id);
    const { minX, minY, maxX, maxY } = grown(ringBox(ring), MARGIN);
    const straight = this.straightener.take(ring);
    const entry: VoidEntry = { id, ring, straight, minX, minY, maxX, maxY };
    this.voids.set(id, entry);
    this.newVoids.add(entry);
  }

  /** Takes a slab away; nothing happens when there is none of that name. */
  removeSlab(id: string): void {
    const old = this.slabs.get(id);
    if (!old) return;
    this.slabs.delete(id);
    this.dirty.delete(id);
    if (this.newSlabs.delete(old)) return;
    this.slabTree.remove(old);
    // Whoever meets it was worked out together with it.
    this.dissolve(id);
  }

  /** Takes a void away; nothing happens when there is none of that name. */
  removeVoid(id: string): void {
    const old = this.voids.get(id);
    if (!old) return;
    this.voids.delete(id);
    if (this.newVoids.delete(old)) return;
    this.voidTree.remove(old);
    this.disturb(old);
  }

  /**
   * Works out what the changes since the last call touched.
   * @returns the parts made anew and those they replace; a problem when a coordinate is not finite or beyond 1e9
   */
  update(): Result<SiteUpdate, PlanProblem> {
    this.takeIn();
    for (const id of [...this.dirty]) {
      if (!this.dirty.has(id)) continue;
      const made = this.workOut(this.groupOf.get(id) ?? this.gather(this.slabs.get(id)!));
      if (!made.ok) return made;
      this.fresh.add(made.value);
    }
    const update = { remade: [...this.fresh], gone: [...this.gone] };
    this.fresh.clear();
    this.gone.clear();
    return ok(update);
  }

  /** All parts, as of the last update. */
  parts(): SitePart[] {
    const parts = new Set<SitePart>();
    for (const { part } of this.groupOf.values()) if (part) parts.add(part);
    return [...parts];
  }

  /** Puts what was set since the last update where it is found, and sees whom it concerns. */
  private takeIn(): void {
    const slabs = [...this.newSlabs];
    const voids = [...this.newVoids];
    this.newSlabs.clear();
    this.newVoids.clear();
    this.slabTree.load(slabs);
    this.voidTree.load(voids);
    for (const { id } of slabs) this.dirty.add(id);
    for (const entries of [slabs, voids]) {
      for (const entry of entries) {
        // There is nobody to be told on a site that is new.
        if (this.groupOf.size === 0) return;
        this.disturb(entry);
      }
    }
  }

  /** Slabs whose boxes meet the box, and all that were worked out together with them, are to be worked out again. */
  private disturb(box: Box): void {
    for (const { id } of this.slabTree.search(box)) {
      this.dirty.add(id);
      this.dissolve(id);
    }
  }

  /** The group of a slab, if it is in one, is to be gathered again. */
  private dissolve(slab: string): void {
    const group = this.groupOf.get(slab);
    if (!group) return;
    for (const { id } of group.slabs) this.groupOf.delete(id);
    this.outdate(group);
  }

  /** The slabs of a group are to be worked out again. */
  private outdate(group: Group): void {
    for (const { id } of group.slabs) if (this.slabs.has(id)) this.dirty.add(id);
    if (group.part && !this.fresh.delete(group.part)) this.gone.add(group.part);
    group.part = null;
  }

  private gather(start: SlabEntry): Group {
    const members = new Set([start]);
    const onTop = new Set<VoidEntry>();
    for (const slab of members) {
      for (const other of this.slabTree.search(slab)) members.add(other);
      for (const v of this.voidTree.search(slab)) onTop.add(v);
    }
    const slabs = sortShort([...members], byId);
    const group: Group = { slabs, voids: sortShort([...onTop], byId), part: null };
    for (const { id } of slabs) this.groupOf.set(id, group);
    return group;
  }

  private workOut(group: Group): Result<SitePart, PlanProblem> {
    const { slabs, voids } = group;
    const cuts: Array<{ slab: string; index: number }> = [];
    const paths: Array<Plan['cuts'][number]> = [];
    slabs.forEach(({ id, cuts: own }, slab) => {
      own.forEach((path, index) => {
        cuts.push({ slab: id, index });
        paths.push({ slab, path });
      });
    });
    const plan: Plan = { slabs: slabs.map(ringOf), cuts: paths, voids: voids.map(ringOf), weld: this.weld };
    const straight = slabs.map(straightOf);
    for (const { straightCuts } of slabs) straight.push(...straightCuts);
    for (const v of voids) straight.push(v.straight);
    const made = partitionKnown(plan, straight, slabs[0]!.contacts);
    if (!made.ok) return fail(made.problem);
    const { partition, contacts } = made.value;
    const part: SitePart = { slabs: slabs.map(idOf), cuts, voids: voids.map(idOf), partition };
    for (const slab of slabs) {
      slab.contacts = contacts;
      this.dirty.delete(slab.id);
    }
    group.part = part;
    return ok(part);
  }
}

const idOf = (entry: { readonly id: string }): string => entry.id;

const ringOf = (entry: { readonly ring: Ring }): Ring => entry.ring;

const straightOf = (entry: VoidEntry): Straight | null => entry.straight;

const byId = (a: { readonly id: string }, b: { readonly id: string }): number =>
  a.id < b.id ? -1 : a.id > b.id ? 1 : 0;

const isSameBox = (a: Box, b: Box): boolean =>
  a.minX === b.minX && a.minY === b.minY && a.maxX === b.maxX && a.maxY === b.maxY;

const grown = (box: Box, by: number): Box => ({
  minX: box.minX - by,
  minY: box.minY - by,
  maxX: box.maxX + by,
  maxY: box.maxY + by,
});
