import { describe, expect, test } from 'vitest';
import {
  circleRing,
  type Partition,
  type Point,
  type Ring,
  Site,
  type SitePart,
} from '../../geometry/index.ts';
import { randomNumbers } from '../random/numbers.ts';
import { box, line, made } from './made.ts';

const done = (site: Site) => {
  const result = site.update();
  if (!result.ok) throw new Error(result.problem.code);
  return result.value;
};

const told = ({ zones }: Partition) =>
  zones.map((z) => [
    z.netArea,
    z.voids,
    z.stretches.map(({ cause, length, runs, parts }) => [cause, length, runs, parts]),
  ]);

// Expected values are by hand.
describe('a site that changes', () => {
  const nets = (site: Site): Record<string, number> =>
    Object.fromEntries(
      site
        .parts()
        .flatMap((part) =>
          part.partition.slabs.map((s, i) => [part.slabs[i]!, Math.round(s.netArea * 1e6) / 1e6]),
        ),
    );

  test('parts are slabs that touch, with the cuts and voids on them, by their names', () => {
    const site = new Site();
    site.setSlab('b', box(4, 0, 8, 3), [line([6, -1], [6, 4])]);
    site.setSlab('a', box(0, 0, 4, 3), [line([1, -1], [1, 4]), line([2, -1], [2, 4])]);
    site.setSlab('far', box(20, 0, 24, 3), []);
    site.setVoid('z', box(3, 1, 5, 2));
    site.setVoid('y', box(0.2, 1, 0.4, 2));
    site.setVoid('nowhere', box(50, 50, 51, 51));
    const { remade, gone } = done(site);
    expect(gone).toEqual([]);
    expect(remade.map(({ slabs, cuts, voids }) => ({ slabs, cuts, voids }))).toEqual([
      {
        slabs: ['a', 'b'],
        cuts: [
          { slab: 'a', index: 0 },
          { slab: 'a', index: 1 },
          { slab: 'b', index: 0 },
        ],
        voids: ['y', 'z'],
      },
      { slabs: ['far'], cuts: [], voids: [] },
    ]);
    expect(remade[0]!.partition.zones).toHaveLength(5);
    expect(nets(site)).toEqual({ a: 12 - 1 - 0.2, b: 11, far: 12 });
    expect(done(site)).toEqual({ remade: [], gone: [] });
  });

  test('a change works out again what it touches, and only that', () => {
    const site = new Site();
    site.setSlab('a', box(0, 0, 4, 3), []);
    site.setSlab('b', box(10, 0, 14, 3), []);
    site.setSlab('c', box(20, 0, 24, 3), []);
    done(site);
    const [a, b, c] = site.parts();
    site.setVoid('pit', box(1, 1, 2, 2));
    let update = done(site);
    expect(update.gone).toEqual([a]);
    expect(update.remade.map((p) => p.slabs)).toEqual([['a']]);
    expect(site.parts().slice(0, 2)).toEqual([b, c]);
    expect(nets(site)).toEqual({ a: 11, b: 12, c: 12 });
    // Moved to another slab, both are told.
    site.setVoid('pit', box(11, 1, 12, 3));
    update = done(site);
    expect(update.remade.flatMap((p) => p.slabs).sort()).toEqual(['a', 'b']);
    expect(nets(site)).toEqual({ a: 12, b: 10, c: 12 });
    site.removeVoid('pit');
    site.removeVoid('pit');
    site.removeVoid('never');
    expect(done(site).remade.map((p) => p.slabs)).toEqual([['b']]);
    expect(nets(site)).toEqual({ a: 12, b: 12, c: 12 });
    // A slab that grows to its neighbour makes one part of them; taken away again it leaves the other.
    site.setSlab('b', box(4, 0, 14, 3), []);
    expect(done(site).remade.map((p) => p.slabs)).toEqual([['a', 'b']]);
    site.removeSlab('b');
    site.removeSlab('b');
    update = done(site);
    expect(update.remade.map((p) => p.slabs)).toEqual([['a']]);
    expect(update.gone).toHaveLength(1);
    expect(nets(site)).toEqual({ a: 12, c: 12 });
    // Taken away before it was ever looked at.
    site.setSlab('d', box(30, 0, 31, 1), []);
    site.setVoid('v', box(20, 0, 21, 1));
    site.removeSlab('d');
    site.removeVoid('v');
    expect(done(site)).toEqual({ remade: [], gone: [] });
    // A slab lifted off its place: the last part goes.
    site.removeSlab('c');
    update = done(site);
    expect(update.remade).toEqual([]);
    expect(update.gone).toEqual([c]);
  });

  test('slabs a hair apart are one part; with a weld as far as that, and touch', () => {
    const parts = (gap: number, weld: number): number => {
      const site = new Site(weld);
      site.setSlab('a', box(0, 0, 4, 3), []);
      site.setSlab('b', box(4 + gap, 0, 8, 3), []);
      done(site);
      return site.parts().length;
    };
    expect(parts(0.0015, 0)).toBe(1);
    expect(parts(0.0025, 0)).toBe(2);
    expect(parts(0.011, 0.005)).toBe(1);
    expect(parts(0.013, 0.005)).toBe(2);
    const welded = new Site(0.01);
    welded.setSlab('a', box(0, 0, 4, 3), []);
    welded.setSlab('b', box(4.004, 0, 8, 3), []);
    done(welded);
    expect(nets(welded)).toEqual({ a: 12, b: 12 });
  });

  test.each([
    ['straight throughout', false, false],
    ['with a round void', false, true],
    ['with a bowed side', true, false],
    ['with both', true, true],
  ])('an outline %s is measured as it is without a site, to the last bit', (_, bowed, round) => {
    const slab: Ring = box(0, 0, 8, 5).map((v, k) =>
      bowed && k === 1 ? { ...v, via: { x: 9, y: 2.4 } } : v,
    );
    const path = line([3, -1], [3.3, 2], [3.1, 6]);
    const voids: Ring[] = [box(1, 1, 2, 3), round ? circleRing({ x: 5, y: 2 }, 0.7) : box(4, 2, 6, 3)];
    const site = new Site();
    site.setSlab('a', slab, [path]);
    voids.forEach((ring, i) => {
      site.setVoid(`${i}`, ring);
    });
    const [part] = done(site).remade;
    const alone = made({ slabs: [slab], cuts: [{ slab: 0, path }], voids });
    expect(told(part!.partition)).toEqual(told(alone));
    // Changed and changed back, as another outline before it in the same column.
    site.setSlab('a', box(0, 0, 7, 5), []);
    done(site);
    site.setSlab('a', slab, [path]);
    expect(told(done(site).remade[0]!.partition)).toEqual(told(alone));
  });

  test('a slab that changes within its box is worked out again, with whom it meets', () => {
    const site = new Site();
    site.setSlab('a', line([0, 0], [4, 0], [4, 3], [2, 3], [0, 3]), []);
    site.setSlab('b', box(4, 0, 8, 3), []);
    site.setSlab('c', box(20, 0, 24, 3), []);
    done(site);
    const [together, apart] = site.parts();
    const dented = line([0, 0], [4, 0], [4, 3], [2, 2], [0, 3]);
    site.setSlab('a', dented, [line([3, -1], [3, 4])]);
    const update = done(site);
    expect(update.gone).toEqual([together]);
    expect(update.remade.map(({ slabs, cuts }) => ({ slabs, cuts }))).toEqual([
      { slabs: ['a', 'b'], cuts: [{ slab: 'a', index: 0 }] },
    ]);
    expect(site.parts()).toEqual([update.remade[0], apart]);
    expect(update.remade[0]!.partition.zones.map((z) => z.netArea)).toEqual(
      [7.25, 2.75, 12].map((a) => expect.closeTo(a, 9)),
    );
    // Changed twice before anybody looks, and then taken away.
    site.setSlab('a', dented, []);
    site.setSlab('a', line([0, 0], [4, 0], [4, 3], [2, 1], [0, 3]), []);
    expect(done(site).remade).toHaveLength(1);
    expect(nets(site)).toEqual({ a: 8, b: 12, c: 12 });
    site.setSlab('a', dented, []);
    site.removeSlab('a');
    expect(done(site)).toMatchObject({ remade: [{ slabs: ['b'] }], gone: [{ slabs: ['a', 'b'] }] });
    expect(nets(site)).toEqual({ b: 12, c: 12 });
    // A neighbour comes to one that has just changed.
    site.setSlab('b', line([4, 0], [8, 0], [8, 3], [6, 2], [4, 3]), []);
    site.setSlab('d', box(8, 0, 9, 3), []);
    expect(done(site).remade.map((part) => part.slabs)).toEqual([['b', 'd']]);
    expect(nets(site)).toEqual({ b: 10, c: 12, d: 3 });
  });

  test.each([
    ['left', box(-1, 0, 4, 3), box(-3, 0, -1.0015, 3)],
    ['right', box(0, 0, 5, 3), box(5.0015, 0, 7, 3)],
    ['down', box(0, -1, 4, 3), box(0, -3, 4, -1.0015)],
    ['up', box(0, 0, 4, 4), box(0, 4.0015, 4, 6)],
  ])(
    'a slab that grows to the %s is gathered with whom it comes within a hair of',
    (_, larger, neighbour) => {
      const site = new Site();
      site.setSlab('a', box(0, 0, 4, 3), []);
      site.setSlab('n', neighbour, []);
      done(site);
      expect(site.parts()).toHaveLength(2);
      site.setSlab('a', larger, []);
      expect(done(site).remade.map((part) => part.slabs)).toEqual([['a', 'n']]);
      site.setSlab('a', box(0, 0, 4, 3), []);
      expect(
        done(site)
          .remade.map((part) => part.slabs)
          .sort(),
      ).toEqual([['a'], ['n']]);
    },
  );

  test('a change within the box that cannot be measured is said, and mended', () => {
    const site = new Site();
    const corners = (x: number) => [...box(0, 0, 4, 3), { x, y: 1 }];
    site.setSlab('a', corners(1), []);
    done(site);
    const [was] = site.parts();
    site.setSlab('a', corners(Number.NaN), []);
    expect(site.update()).toMatchObject({ ok: false, problem: { kind: 'slab', index: 0 } });
    expect(site.parts()).toEqual([]);
    site.setSlab('a', corners(2), []);
    expect(done(site).gone).toEqual([was]);
    expect(nets(site)).toEqual({ a: 9 });
  });

  test('what cannot be measured is said, and mended', () => {
    const site = new Site();
    site.setSlab('a', box(0, 0, 4, 3), []);
    site.setSlab('b', [...line([10, 0], [14, 0]), { x: Number.NaN, y: 3 }], []);
    expect(site.update()).toMatchObject({ ok: false, problem: { code: 'plan/not-finite', kind: 'slab' } });
    site.setSlab('b', box(10, 0, 14, 3), []);
    done(site);
    expect(nets(site)).toEqual({ a: 12, b: 12 });
  });

  test('what comes while everything is to be worked out again anyway is not passed over', () => {
    const changed = (change: (site: Site) => void) => {
      const site = new Site();
      site.setSlab('a', box(0, 0, 4, 3), []);
      site.setVoid('far', box(50, 0, 51, 1));
      done(site);
      site.setSlab('a', box(0, 0, 4, 3), [line([2, -1], [2, 4])]);
      change(site);
      const { remade, gone } = done(site);
      return [gone.length, remade.map((part) => part.slabs), nets(site)];
    };
    const pit = box(1, 1, 2, 2);
    expect(changed((site) => site.setVoid('pit', pit))).toEqual([1, [['a']], { a: 11 }]);
    expect(changed((site) => site.setVoid('far', pit))).toEqual([1, [['a']], { a: 11 }]);
    expect(changed((site) => site.setSlab('b', box(4, 0, 8, 3), []))).toEqual([
      1,
      [['a', 'b']],
      { a: 12, b: 12 },
    ]);
  });

  test('parts made before an update failed are told of by the next, or never if they hold no longer', () => {
    const site = new Site();
    site.setSlab('a', box(0, 0, 4, 3), []);
    site.setSlab('b', box(10, 0, 14, 3), []);
    site.setSlab('bad', [...box(20, 0, 24, 3), { x: Number.NaN, y: 1 }], []);
    expect(site.update().ok).toBe(false);
    site.setSlab('b', box(10, 0, 13, 3), []);
    site.setSlab('bad', box(20, 0, 24, 3), []);
    const { remade, gone } = done(site);
    expect(remade.map((part) => part.slabs).sort()).toEqual([['a'], ['b'], ['bad']]);
    expect(gone).toEqual([]);
    expect(nets(site)).toEqual({ a: 12, b: 9, bad: 12 });
  });

  test.each([0, 0.02])(
    'with a weld of %d, edited in any way it is as one built anew, to the last bit',
    (weld) => {
      for (let seed = 1; seed <= 6; seed++) {
        const random = randomNumbers(seed);
        const slabs = new Map<string, { ring: Ring; cuts: Point[][] }>();
        const voids = new Map<string, Ring>();
        const site = new Site(weld);
        const held = new Set<SitePart>();
        const somewhere = (): Point => ({ x: 12 * random(), y: 6 * random() });
        const outline = (reach: number, corners: number): Ring => {
          const { x, y } = somewhere();
          const ring = Array.from({ length: corners }, (_, i) => {
            const r = reach * (0.5 + 0.5 * random());
            const angle = (2 * Math.PI * i) / corners;
            return { x: x + r * Math.cos(angle), y: y + r * Math.sin(angle) };
          });
          return random() < 0.2 ? ring.map((p) => ({ x: Math.round(p.x), y: Math.round(p.y) })) : ring;
        };
        const setSlab = (id: string, ring: Ring, cuts: Point[][]) => {
          slabs.set(id, { ring, cuts });
          site.setSlab(id, ring, cuts);
        };
        const setVoid = (id: string, ring: Ring) => {
          voids.set(id, ring);
          site.setVoid(id, ring);
        };
        const pick = <T>(from: readonly T[]): T => from[Math.floor(random() * from.length)]!;
        /** A little, or onto another corner, or as good as. */
        const nudged = (ring: Ring): Ring => {
          const at = Math.floor(random() * ring.length);
          const onto = pick(random() < 0.3 ? ring : [ring[at]!]);
          const by = pick([0, 1e-9, 1e-4, 0.05, 0.4]);
          const p = { x: onto.x + by * (random() - 0.5), y: onto.y + by * (random() - 0.5) };
          return ring.map((q, k) => (k === at ? p : q));
        };
        // One, two or three slabs: all of them are soon changed at once, or seldom.
        const ids = ['a', 'b', 'c'].slice(0, 1 + (seed % 3));
        for (const id of ids) setSlab(id, outline(4, 9), [[somewhere(), somewhere(), somewhere()]]);
        for (const id of ['p', 'q', 'r', 's']) setVoid(id, outline(1, 6));
        for (let round = 0; round < 20; round++) {
          for (let k = 0; k < pick([1, 1, 2, 4]); k++) {
            const slab = pick(ids);
            const { ring, cuts } = slabs.get(slab)!;
            const hole = pick(['p', 'q', 'r', 's']);
            const dice = random();
            if (dice < 0.5) setSlab(slab, nudged(ring), cuts);
            else if (dice < 0.7) setVoid(hole, nudged(voids.get(hole)!));
            else if (dice < 0.8) setSlab(slab, ring, [...cuts.slice(1), [somewhere(), somewhere()]]);
            else if (dice < 0.85) setSlab(slab, outline(4, 9), cuts);
            else if (dice < 0.9) setVoid(hole, outline(1, 6));
            else if (dice < 0.95) setSlab(slab, ring, [...cuts, [somewhere(), somewhere()]]);
            else {
              site.removeSlab(slab);
              setSlab(slab, nudged(ring), cuts);
            }
          }
          if (random() < 0.1) {
            const { ring, cuts } = slabs.get(ids[0]!)!;
            site.setSlab(ids[0]!, [...ring, { x: Number.NaN, y: 0 }], cuts);
            expect(site.update().ok).toBe(false);
            site.setSlab(ids[0]!, ring, cuts);
          }
          const { remade, gone } = done(site);
          expect(gone.map((part) => held.delete(part))).not.toContain(false);
          for (const part of remade) held.add(part);
          expect(site.parts().map((part) => held.has(part))).toEqual(Array(held.size).fill(true));
          const anew = new Site(weld);
          for (const [id, { ring, cuts }] of slabs) anew.setSlab(id, ring, cuts);
          for (const [id, ring] of voids) anew.setVoid(id, ring);
          done(anew);
          const inOrder = (s: Site) =>
            s
              .parts()
              .map((part) => ({ ...part, partition: told(part.partition) }))
              .sort((p, q) => (p.slabs[0]! < q.slabs[0]! ? -1 : 1));
          expect(inOrder(site)).toEqual(inOrder(anew));
        }
      }
    },
  );
});
