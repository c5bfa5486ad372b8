import {
  bandArea,
  coveredArea,
  type Frame,
  once,
  type Partition,
  ringArea,
  type Stretch,
  toFrame,
  type Zone,
} from '../../geometry/index.ts';
import type { Cut, Id, Job, Sheet, Slab, Surface, Tag, Void } from '../job/types.ts';
import { tr } from '../words/tr.ts';
import type { kept } from '../working/kept.ts';
import { derive, found, leaf, type Quantity, total } from '../working/quantity.ts';
import { entered } from '../working/source.ts';
import { cutRule, EDGE_RULES_SOURCE, SIDE_RULES, VOID_RULES } from './edge-rules.ts';
import type { SolvedFit } from './fits/solved-fit.ts';
import { tapeFigures } from './fits/tape-figure.ts';
import { coatedArea, faceUp, netArea, rollerArea, slopeFactor, within95 } from './formulas.ts';
import { voidOnGround } from './ground.ts';
import { measureValue } from './measure-values.ts';
import { isDeducted, type RuledVoid, ruleOf } from './measuring-rules.ts';
import { areaUncertaintyOf, type GroupErrors, groupErrors, lengthUncertaintyOf } from './uncertainty.ts';
import { insideRings, type StretchTakeoff, type ZoneTakeoff } from './zone.ts';

/** Slabs that may touch, with all that lies on them: what is worked out in one go. */
interface Group {
  readonly frame: Frame;
  readonly slabs: readonly Slab[];
  readonly cuts: readonly Cut[];
  readonly voids: readonly Void[];
  readonly tags: readonly Tag[];
  readonly sheet: Sheet;
  readonly fit: SolvedFit;
}

/** A group's partition, with what is added to each of its zones. */
export interface MeasuredPart {
  readonly partition: Partition;
  readonly opinions: ReadonlyArray<ZoneTakeoff['secondOpinion']>;
  readonly labels: ReadonlyArray<ZoneTakeoff['label']>;
  /** Brushed bands worked out so far, by what was brushed and how widely. */
  readonly bands: Map<string, number>;
  /** Its zones as they were described last. */
  readonly zones: ReturnType<typeof kept<readonly ZoneTakeoff[]>>;
}

export interface MeasuredGroup extends Group, MeasuredPart {}

/** How much more ground a sloping slab covers than its plan. */
export const slopeOf = (slab: Slab): Quantity =>
  derive(tr`slope factor`, slopeFactor, { g: leaf(tr`rise over run`, 'g', slab.slope, '1', entered) });

/** Puts names, surfaces, rules and workings to the zones of a group; the same zones while nothing of it has changed. */
export function describeZones(job: Job, group: MeasuredGroup): readonly ZoneTakeoff[] {
  const { slabs, cuts, voids, tags, sheet, fit } = group;
  const metric = sheet.fit?.kind === 'metric';
  const from = [sheet, fit, job.values, job.settings, metric && tapeFigures(job)];
  return group.zones([...from, ...slabs, ...cuts, ...voids, ...tags], () =>
    describeAfresh(job, group, groupErrors(job, fit, slabs, metric)),
  );
}

function describeAfresh(job: Job, group: MeasuredGroup, errors: GroupErrors): readonly ZoneTakeoff[] {
  const { partition: parts } = group;
  const tagsOf = parts.zones.map((zone) => tagsIn(group, zone));
  const identities = parts.zones.map((zone, z) => identify(group, parts.zones, zone, z, tagsOf[z]!));
  return parts.zones.map((zone, z) => {
    const { id, name, tag } = identities[z]!;
    const slab = group.slabs[zone.slab]!;
    const surface = { ...slab.surface, ...tag?.surface };
    const surfaceOf = (other: number) => ({ ...slab.surface, ...identities[other]!.tag?.surface });
    const stretches = zone.stretches.map((s) =>
      stretchOf(s, { group, slab, identities, surface, surfaceOf }),
    );
    const k = slopeOf(slab);
    const net = areaQuantity(group, zone, k);
    const areaUncertainty = areaUncertaintyOf(parts.plan, zone, errors, k);
    const boundary = lengthQuantity(tr`boundary`, 'B', stretches, () => true);
    const facesUp = facesUpOf(stretches);
    // Worked out when it is looked at: a board redrawn with every move of a finger has no use for it.
    const brushed = once(() => brushAreaOf(job, group, z, stretches, k));
    return {
      id,
      slabId: slab.id,
      sheetId: slab.sheetId,
      tagId: tag?.id ?? null,
      tagIds: tagsOf[z]!.map((t) => t.id),
      name,
      surface,
      netArea: net,
      areaUncertainty,
      area95: derive(tr`95 % of the time within`, within95, { u: areaUncertainty }),
      facesUp,
      coatedArea: facesUp.value > 0 ? derive(tr`coated area`, coatedArea, { N: net, U: facesUp }) : net,
      paymentArea: paymentAreaOf(job, group, zone, net, k),
      get brushArea() {
        return brushed();
      },
      get rollerArea() {
        return derive(tr`rolled area`, rollerArea, { A: net, b: brushed() });
      },
      faceAreaM2: zone.faceArea * k.value,
      voidAreaM2: zone.voidArea * k.value,
      voids: zone.voids.map(({ void: v, area }) => {
        const { id: voidId, name: voidName } = group.voids[v]!;
        return { id: voidId, name: voidName, areaM2: area * k.value };
      }),
      stretches,
      boundary,
      boundaryUncertainty: lengthUncertaintyOf(parts.plan, zone, zone.stretches, errors, boundary),
      cutIn: lengthQuantity(tr`cut-in length`, 'c', stretches, (s) => s.brushed),
      masked: lengthQuantity(tr`masked length`, 'm', stretches, (s) => s.masked),
      label: group.labels[z]!,
      netRings: zone.netRings,
      faceRings: zone.faceRings,
      get netOutlines() {
        return zone.netOutlines;
      },
      secondOpinion: group.opinions[z]!,
    };
  });
}

/** What a stretch's cause is looked up in. */
interface Surroundings {
  readonly group: Group;
  readonly slab: Slab;
  readonly identities: ReadonlyArray<{ readonly id: Id; readonly name: string }>;
  readonly surface: Surface;
  readonly surfaceOf: (zone: number) => Surface;
}

function stretchOf(stretch: Stretch, around: Surroundings): StretchTakeoff {
  const { group, slab, identities, surface, surfaceOf } = around;
  const { cause, length, runs } = stretch;
  const cutId = cause.kind === 'cut' ? group.cuts[cause.cut]!.id : null;
  const side = cause.kind === 'side' || cause.kind === 'slab' ? cause.side : null;
  const faceUpM = side === null ? 0 : (slab.corners[side]!.faceUpM ?? 0);
  const common = { side, cutId, lengthM: length, faceUpM, runs };
  switch (cause.kind) {
    case 'side': {
      const { cornerId, beyond } = slab.corners[cause.side]!;
      const refName = tr`side ${cause.side + 1}`;
      return {
        kind: 'side',
        ref: cornerId,
        refName,
        beyond,
        ...SIDE_RULES[beyond ?? 'unknown'],
        ...common,
      };
    }
    case 'slab': {
      const other = group.slabs[cause.slab]!;
      // What the user says stands there, such as a wall between the two, goes before the slab that lies beyond.
      const beyond = slab.corners[cause.side]!.beyond ?? 'slab';
      return {
        kind: 'slab',
        ref: other.id,
        refName: other.name,
        beyond,
        ...SIDE_RULES[beyond],
        ...common,
      };
    }
    case 'cut': {
      const other = surfaceOf(cause.zone);
      const same = other.systemId === surface.systemId && other.colour === surface.colour;
      const { id: ref, name: refName } = identities[cause.zone]!;
      return { kind: 'cut', ref, refName, beyond: null, ...cutRule(same), ...common };
    }
    case 'void': {
      const v = group.voids[cause.void]!;
      return { kind: 'void', ref: v.id, refName: v.name, beyond: null, ...VOID_RULES[v.kind], ...common };
    }
  }
}

/** Tags of the zone's slab whose anchor lies in its face, in the order of their ids. */
function tagsIn(group: Group, zone: Zone): Tag[] {
  const slab = group.slabs[zone.slab]!;
  return group.tags.filter(
    (tag) => tag.slabId === slab.id && insideRings(zone.faceRings, toFrame(group.frame, tag.anchor)),
  );
}

/** A tagged zone goes by its tag; others are counted from the top left of their slab. */
function identify(group: Group, zones: readonly Zone[], zone: Zone, z: number, tags: readonly Tag[]) {
  const slab = group.slabs[zone.slab]!;
  const siblings = zones.map((other, i) => ({ other, i })).filter(({ other }) => other.slab === zone.slab);
  siblings.sort((a, b) => topLeftFirst(a.other, b.other) || a.i - b.i);
  const number = siblings.findIndex(({ i }) => i === z) + 1;
  const tag = tags[0] ?? null;
  const plainName = siblings.length === 1 ? slab.name : `${slab.name} ${letterOf(number)}`;
  return { id: tag?.id ?? `${slab.id}/${number}`, name: tag?.name || plainName, tag };
}

/** 1 → A … 26 → Z, then numbers: a slab is seldom in more parts. */
const letterOf = (n: number): string => (n <= 26 ? String.fromCharCode(64 + n) : String(n));

function topLeftFirst(a: Zone, b: Zone): number {
  const corner = (zone: Zone) => {
    const points = zone.faceRings.flat();
    return { x: Math.min(...points.map((p) => p.x)), y: Math.max(...points.map((p) => p.y)) };
  };
  const p = corner(a);
  const q = corner(b);
  return Math.abs(p.x - q.x) > 1e-6 ? p.x - q.x : q.y - p.y;
}

function areaQuantity(group: Group, zone: Zone, s: Quantity): Quantity {
  const { sheet } = group;
  const how = sheet.fit?.kind === 'metric' ? tr`entered in metres` : tr`traced on “${sheet.name}”`;
  const measured = { kind: 'measured', how } as const;
  const F = found(
    tr`face area`,
    'F',
    zone.faceArea,
    'm²',
    tr`outline and cuts by coordinates, with the true segment of each arc`,
    measured,
  );
  const inside = zone.voids.map(({ void: v, area }) => {
    const { name } = group.voids[v]!;
    return leaf(name, `v${v + 1}`, area, 'm²', measured);
  });
  const V = found(
    tr`area taken out`,
    'V',
    zone.voidArea,
    'm²',
    inside.length === 0
      ? tr`nothing lies in this zone`
      : tr`union of what lies in the zone; overlaps count once`,
    measured,
    Object.fromEntries(inside.map((q) => [q.symbol, q])),
  );
  return derive(tr`net area`, netArea, { F, V, s });
}

/** Faces that stand up along the sides, each its length by its height. */
function facesUpOf(stretches: readonly StretchTakeoff[]): Quantity {
  const faces = stretches
    .filter((s) => s.faceUpM > 0)
    .map((s) =>
      derive(tr`face up, ${stretchName(s)}`, faceUp, {
        l: leaf(stretchName(s), 'l', s.lengthM, 'm', { kind: 'measured', how: tr`along the outline` }),
        h: leaf(tr`height of the face`, 'h', s.faceUpM, 'm', entered),
      }),
    );
  return total(tr`faces up`, 'U', 'm²', faces, {
    kind: 'derived',
    from: tr`risers, kerb faces and slab edges`,
  });
}

function brushAreaOf(
  job: Job,
  group: MeasuredGroup,
  z: number,
  stretches: readonly StretchTakeoff[],
  k: Quantity,
): Quantity {
  const width = measureValue(job, 'measure.brush-width');
  const brushed = stretches.filter((s) => s.brushed);
  const key = `${z} ${width.value} ${stretches.map((s) => (s.brushed ? 1 : 0)).join('')}`;
  let area = group.bands.get(key);
  if (area === undefined) {
    const runs = brushed.flatMap((s) => s.runs);
    area = bandArea(group.partition.zones[z]!.netRings, runs, width.value / 1000);
    group.bands.set(key, area);
  }
  return found(
    tr`brushed area`,
    'b',
    Math.min(area, group.partition.zones[z]!.netArea) * k.value,
    'm²',
    tr`ground within the width of a cut-in edge, where two edges are near counted once`,
    { kind: 'derived', from: tr`offset of the cut-in edges` },
    { w: width },
  );
}

/** What is paid for: the face less the voids that the rule deducts. */
function paymentAreaOf(job: Job, group: Group, zone: Zone, net: Quantity, k: Quantity): Quantity {
  const rule = ruleOf(job);
  const lying = zone.voids.map(({ void: v }) => ({ v: group.voids[v]!, ruled: ruledVoid(group, v) }));
  const deducted = lying.filter(({ ruled }) => isDeducted(rule, ruled));
  const explained = (left: number) =>
    left === 0
      ? tr`${rule.name}: nothing is left in, so the net area is paid for`
      : tr`${rule.name}: ${left} of ${lying.length} taken out stay in what is paid for (up to ${rule.voidsUpToM2} m² each${
          rule.linesUpToM === null ? '' : tr`, lines up to ${rule.linesUpToM} m wide`
        })`;
  const left = lying.length - deducted.length;
  const out = deducted.map(({ ruled }) => ruled.ring);
  const areaM2 = left === 0 ? net.value : (zone.faceArea - coveredArea(zone.faceRings, out)) * k.value;
  return found(tr`area for payment`, 'Q', areaM2, 'm²', explained(left), rule.source, { A: net });
}

function ruledVoid(group: Group, v: number): RuledVoid {
  const { shape } = group.voids[v]!;
  const ring = voidOnGround(group.voids[v]!, group.frame);
  return { ring, wholeM2: Math.abs(ringArea(ring)), lineWidthM: shape.type === 'line' ? shape.widthM : null };
}

function lengthQuantity(
  name: string,
  symbol: string,
  stretches: readonly StretchTakeoff[],
  wanted: (s: StretchTakeoff) => boolean,
): Quantity {
  const parts = stretches.filter(wanted).map((s, i) =>
    leaf(stretchName(s), `${symbol}${i + 1}`, s.lengthM, 'm', {
      kind: 'measured',
      how: tr`along the outline`,
    }),
  );
  return total(name, symbol, 'm', parts, EDGE_RULES_SOURCE);
}

/** A stretch in words: "side 2 (wall)", "cut to Forecourt 2", "post P1". */
export function stretchName(s: StretchTakeoff): string {
  switch (s.kind) {
    case 'side':
      return s.beyond ? `${s.refName} (${s.beyond})` : s.refName;
    case 'slab':
      return tr`along ${s.refName}`;
    case 'cut':
      return tr`cut to ${s.refName}`;
    case 'void':
      return tr`around ${s.refName}`;
  }
}
