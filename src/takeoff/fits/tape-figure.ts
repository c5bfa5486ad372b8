import {
  adjustFigure,
  type FigureFit,
  type NextMeasure,
  nextMeasure,
  type Observation,
  type PlanPoint,
  type Point,
  type PointErrors,
} from '../../../geometry/index.ts';
import { tapeCorners } from '../../job/integrity.ts';
import { byId } from '../../job/order.ts';
import { cornerLetter, cornerPair } from '../../job/outline.ts';
import type { Corner, Id, Job, Slab, Tape } from '../../job/types.ts';
import type { Metres } from '../../units/types.ts';
import { tr } from '../../words/tr.ts';
import type { FitCheck } from './solved-fit.ts';
import { squareDeviation, tapeDeviation } from './tape.ts';

/** Corners that tapes tie together, and what the tapes make of them. */
export interface TapeFigure {
  readonly sheetId: Id;
  readonly cornerIds: readonly Id[];
  readonly tapes: readonly Tape[];
  readonly fit: FigureFit;
  /** How far the farthest corner lies from where the tapes put it, the figure laid over as well as it goes; m. */
  readonly offM: Metres;
  /** Rigid, and the corners lie where the tapes put them: then the tapes say how well they are known. */
  readonly holds: boolean;
  /** Where the tapes put the corners, laid over where they are. */
  readonly places: Readonly<Record<Id, Point>>;
  readonly checks: readonly FitCheck[];
  /** The distance that would do most good next, between two corners; null when all are measured. */
  readonly next: { readonly a: Id; readonly b: Id; readonly areaDeviationM2: number | null } | null;
  /** Standard deviation of the area of the slab that has these corners, by the tapes alone; null while loose. */
  readonly areaDeviationM2: number | null;
}

/** Farther than this from where the tapes put it, a corner is not measured by them. */
const LAID_M = 0.0005;

interface Memory {
  readonly corners: Job['corners'];
  readonly slabs: Job['slabs'];
  readonly sheets: Job['sheets'];
  readonly values: Job['values'];
  readonly figures: readonly TapeFigure[];
}

const remembered = new WeakMap<NonNullable<Job['tapes']>, Memory>();

const NONE: readonly TapeFigure[] = [];

/** The figures that a job's tapes make, each by itself. */
export function tapeFigures(job: Job): readonly TapeFigure[] {
  const { tapes, corners, slabs, sheets, values } = job;
  if (!tapes) return NONE;
  const known = remembered.get(tapes);
  if (
    known &&
    known.corners === corners &&
    known.slabs === slabs &&
    known.sheets === sheets &&
    known.values === values
  )
    return known.figures;
  // Tape is in metres: on a sheet that is none it says nothing.
  const good = Object.values(tapes).filter((t) => {
    const ids = tapeCorners(t);
    const sheets = new Set(ids.map((id) => corners[id]?.sheetId));
    const [sheetId] = sheets;
    const metric = sheetId !== undefined && job.sheets[sheetId]?.fit?.kind === 'metric';
    return sheets.size === 1 && metric && new Set(ids).size === ids.length;
  });
  const figures = components(good.sort(byId)).map((own) => solveFigure(job, own));
  remembered.set(tapes, { corners, slabs, sheets, values, figures });
  return figures;
}

/** Tapes that hang together by their corners. */
function components(tapes: readonly Tape[]): Tape[][] {
  const groups: Array<{ readonly ids: Set<Id>; readonly tapes: Tape[] }> = [];
  for (const tape of tapes) {
    const ids = tapeCorners(tape);
    const touched = groups.filter((g) => ids.some((id) => g.ids.has(id)));
    const merged = {
      ids: new Set([...touched.flatMap((g) => [...g.ids]), ...ids]),
      tapes: [...touched.flatMap((g) => g.tapes), tape],
    };
    for (const g of touched) groups.splice(groups.indexOf(g), 1);
    groups.push(merged);
  }
  return groups.map((g) => g.tapes);
}

function solveFigure(job: Job, tapes: readonly Tape[]): TapeFigure {
  const cornerIds = [...new Set(tapes.flatMap(tapeCorners))].sort();
  const start = cornerIds.map((id) => job.corners[id]!);
  const index = new Map(cornerIds.map((id, i) => [id, i]));
  const deviation = tapeDeviation(job);
  const observations = tapes.map((t) => observationOf(t, index, deviation, squareDeviation(job)));
  // Once more from where it lies over the drawing: then what is said of its points is said in the sheet's directions.
  const fit = adjustFigure(laidOver(adjustFigure(start, observations).points, start), observations);
  const laid = fit.points;
  const slopes = areaSlopes(job, cornerIds, laid);
  const next = nextMeasure(fit, observations, deviation, slopes);
  const offM = Math.max(...laid.map((p, i) => Math.hypot(p.x - start[i]!.x, p.y - start[i]!.y)));
  return {
    sheetId: start[0]!.sheetId,
    cornerIds,
    tapes,
    fit,
    offM,
    holds: fit.loose === 0 && offM <= LAID_M,
    places: Object.fromEntries(cornerIds.map((id, i) => [id, laid[i]!])),
    checks: tapes.map((t, i) => checkOf(job, t, fit, i)),
    next: next && nextOf(next, cornerIds, fit.loose),
    areaDeviationM2: fit.loose > 0 ? null : deviationOf(fit.covariance, slopes),
  };
}

const nextOf = ({ a, b, worth }: NextMeasure, ids: readonly Id[], loose: number) => ({
  a: ids[a]!,
  b: ids[b]!,
  areaDeviationM2: loose > 0 ? null : worth,
});

function observationOf(
  t: Tape,
  index: ReadonlyMap<Id, number>,
  deviation: (lengthM: Metres) => Metres,
  square: number,
): Observation {
  const at = (id: Id) => index.get(id)!;
  switch (t.kind) {
    case 'distance':
      return { kind: 'distance', a: at(t.a), b: at(t.b), length: t.lengthM, deviation: deviation(t.lengthM) };
    case 'square':
      return { kind: 'square', at: at(t.at), a: at(t.a), b: at(t.b), deviation: square };
    case 'offset':
      return {
        kind: 'offset',
        a: at(t.a),
        b: at(t.b),
        point: at(t.corner),
        along: t.alongM,
        off: t.offM,
        deviation: deviation(Math.hypot(t.alongM, t.offM)),
      };
  }
}

/** Points shifted and turned, not stretched, to lie over others as well as they can (least squares). */
function laidOver(points: readonly Point[], over: readonly Point[]): Point[] {
  const middle = (ps: readonly Point[]) => ({
    x: ps.reduce((s, p) => s + p.x, 0) / ps.length,
    y: ps.reduce((s, p) => s + p.y, 0) / ps.length,
  });
  const [m, o] = [middle(points), middle(over)];
  let sine = 0;
  let cosine = 0;
  points.forEach((p, i) => {
    const [ax, ay] = [p.x - m.x, p.y - m.y];
    const [bx, by] = [over[i]!.x - o.x, over[i]!.y - o.y];
    cosine += ax * bx + ay * by;
    sine += ax * by - ay * bx;
  });
  const size = Math.hypot(sine, cosine) || 1;
  const [s, c] = [sine / size, cosine / size];
  return points.map((p) => ({
    x: o.x + (p.x - m.x) * c - (p.y - m.y) * s,
    y: o.y + (p.x - m.x) * s + (p.y - m.y) * c,
  }));
}

/** How the summed area of the slabs changes with each coordinate of the figure's corners. */
function areaSlopes(job: Job, cornerIds: readonly Id[], laid: readonly Point[]): number[] {
  const slopes = new Array<number>(2 * cornerIds.length).fill(0);
  const at = (id: Id): Point => {
    const i = cornerIds.indexOf(id);
    return i < 0 ? job.corners[id]! : laid[i]!;
  };
  for (const slab of Object.values(job.slabs)) {
    const n = slab.corners.length;
    const ring = slab.corners.map((c) => at(c.cornerId));
    const twice = ring.reduce((s, p, k) => s + p.x * ring[(k + 1) % n]!.y - p.y * ring[(k + 1) % n]!.x, 0);
    slab.corners.forEach(({ cornerId }, k) => {
      const i = cornerIds.indexOf(cornerId);
      if (i < 0) return;
      const [before, behind] = [ring[(k + n - 1) % n]!, ring[(k + 1) % n]!];
      slopes[2 * i]! += (Math.sign(twice) * (behind.y - before.y)) / 2;
      slopes[2 * i + 1]! += (Math.sign(twice) * (before.x - behind.x)) / 2;
    });
  }
  return slopes;
}

const deviationOf = (covariance: readonly (readonly number[])[], slopes: readonly number[]): number =>
  Math.sqrt(
    Math.max(
      0,
      slopes.reduce((s, g, i) => s + slopes.reduce((t, h, j) => t + g * covariance[i]![j]! * h, 0), 0),
    ),
  );

function checkOf(job: Job, t: Tape, fit: FigureFit, i: number): FitCheck {
  const { residual, standardised } = fit.observations[i]!;
  const name = (id: Id) => cornerLetter(job, id);
  const words =
    t.kind === 'distance'
      ? cornerPair(job, t.a, t.b)
      : t.kind === 'square'
        ? tr`the right angle at ${name(t.at)}`
        : tr`the offset of ${name(t.corner)} from ${cornerPair(job, t.a, t.b)}`;
  const known = t.kind === 'distance' ? t.lengthM : null;
  // A right angle is off by as much as its shorter arm's end would move.
  const arm =
    t.kind === 'square'
      ? Math.min(
          between(job.corners[t.at]!, job.corners[t.a]!),
          between(job.corners[t.at]!, job.corners[t.b]!),
        )
      : 1;
  return {
    name: words,
    knownM: known,
    readM: known === null ? null : known + residual,
    offM: Math.abs(residual) * arm,
    standardised,
    suspect: fit.suspects.includes(i),
  };
}

const between = (a: Corner, b: Corner): number => Math.hypot(b.x - a.x, b.y - a.y);

/**
 * Errors of the points of slabs on a metric sheet where tapes hold their corners: those move together as the adjusted
 * figure says; all others by themselves. Null when no rigid figure holds any of them.
 */
export function figureErrors(
  job: Job,
  slabs: readonly Slab[],
  others: PointErrors['own'],
): PointErrors | null {
  const figures = tapeFigures(job).filter((f) => f.holds);
  const mine = figures.filter((f) =>
    slabs.some((s) => s.corners.some((c) => f.cornerIds.includes(c.cornerId))),
  );
  if (mine.length === 0) return null;
  const place = new Map<Id, number>();
  let size = 0;
  for (const f of mine) {
    f.cornerIds.forEach((id, i) => {
      place.set(id, size + 2 * i);
    });
    size += 2 * f.cornerIds.length;
  }
  const covariance = Array.from({ length: size }, () => new Array<number>(size).fill(0));
  let at = 0;
  for (const f of mine) {
    f.fit.covariance.forEach((row, r) => {
      row.forEach((v, c) => {
        covariance[at + r]![at + c] = v;
      });
    });
    at += 2 * f.cornerIds.length;
  }
  const cornersAt = (p: PlanPoint): Id[] => {
    if (p.kind !== 'slab') return [];
    const { corners } = slabs[p.index]!;
    const a = corners[p.vertex]!.cornerId;
    return p.via ? [a, corners[(p.vertex + 1) % corners.length]!.cornerId] : [a];
  };
  const held = (p: PlanPoint) => cornersAt(p).flatMap((id) => place.get(id) ?? []);
  return {
    own: (p) => (held(p).length > 0 && !p.via ? [0, 0, 0] : others(p)),
    shared: {
      covariance,
      slopes: (p) => {
        const x = new Array<number>(size).fill(0);
        const y = new Array<number>(size).fill(0);
        const ends = held(p);
        for (const k of ends) {
          x[k] = 1 / ends.length;
          y[k + 1] = 1 / ends.length;
        }
        return [x, y];
      },
    },
  };
}
