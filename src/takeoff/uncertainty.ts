import {
  areaDeviation,
  lengthDeviation,
  type Plan,
  type PointDeviation,
  type Stretch,
  type Zone,
} from '../../geometry/index.ts';
import type { Job, KnownLength, Sheet } from '../job/types.ts';
import { derive, found, type Quantity } from '../working/quantity.ts';
import { areaUncertainty, lengthUncertainty } from './formulas.ts';
import { measureValue } from './measure-values.ts';

/** How well a sheet's points and scale are known. */
export interface SheetUncertainty {
  /** Standard deviation of each coordinate of a point on the ground. */
  readonly point: Quantity;
  /** Relative standard uncertainty of all lengths together; 0 where metres were entered. */
  readonly scale: Quantity;
}

const law = {
  kind: 'published',
  title: 'JCGM 100 (guide to the expression of uncertainty in measurement)',
  edition: '2008',
  clause: '5.1.2',
} as const;

/**
 * Points and scale of a sheet. On a picture a point is off by the tap, and the scale by the tape and by the taps at both
 * ends of each known length; in entered metres a point is off by the tape over a side of usual length.
 * @param metresPerUnit of the sheet's coordinates
 */
export function sheetUncertainty(job: Job, sheet: Sheet, metresPerUnit: number): SheetUncertainty {
  const reading = measureValue(job, 'measure.reading');
  const fixed = measureValue(job, 'measure.tape-fixed');
  const perMetre = measureValue(job, 'measure.tape-per-metre');
  const tape = (lengthM: number): number => {
    const limit = (fixed.value + perMetre.value * lengthM) / 1000;
    return Math.sqrt(limit ** 2 / 3 + (reading.value / 1000) ** 2);
  };
  if (sheet.fit?.kind !== 'scale') {
    const typical = 5;
    const point = found(
      'deviation of a corner',
      'u',
      tape(typical) / Math.SQRT2,
      'm',
      'a side of 5 m by tape, the limit taken as ±√3 deviations, shared between its two ends',
      law,
      { a: fixed, b: perMetre, r: reading },
    );
    return { point, scale: found('scale', 's', 0, '1', 'lengths are entered as they were taped', law) };
  }
  const tap = measureValue(job, 'measure.tap');
  const point = found(
    'deviation of a corner',
    'u',
    tap.value * metresPerUnit,
    'm',
    'the tap, in pixels, by the length of a pixel on the ground',
    law,
    { p: tap },
  );
  const scale = found(
    'relative uncertainty of the scale',
    's',
    scaleUncertainty(sheet.fit.lengths, metresPerUnit, tape, tap.value),
    '1',
    'known lengths by tape between two taps each, weighted as in the fit',
    law,
    { p: tap, a: fixed, b: perMetre, r: reading },
  );
  return { point, scale };
}

/** Of s = Σ dL / Σ d², each L off by the tape and each d by a tap at both ends. */
function scaleUncertainty(
  lengths: readonly KnownLength[],
  metresPerUnit: number,
  tape: (lengthM: number) => number,
  tapPx: number,
): number {
  let squares = 0;
  let variance = 0;
  for (const { a, b, lengthM } of lengths) {
    const d = Math.hypot(b.x - a.x, b.y - a.y);
    squares += d * d;
    variance += d * d * (tape(lengthM) ** 2 + 2 * (tapPx * metresPerUnit) ** 2);
  }
  return squares === 0 ? 0 : Math.sqrt(variance) / squares / metresPerUnit;
}

const everywhere = (deviation: number): PointDeviation => ({
  slab: deviation,
  cut: deviation,
  void: deviation,
});

/** Standard uncertainty of a zone's net area: points, scale, and what the grid may have bent; m². */
export function areaUncertaintyOf(
  plan: Plan,
  zone: Zone,
  sheet: SheetUncertainty,
  netArea: Quantity,
  slope: Quantity,
): Quantity {
  const points = areaDeviation(plan, [zone], everywhere(sheet.point.value)) * slope.value;
  return derive('standard uncertainty of the net area', areaUncertainty, {
    P: found(
      'from the corners',
      'P',
      points,
      'm²',
      'each corner off by itself; what moves with it added up',
      law,
      {
        u: sheet.point,
      },
    ),
    A: netArea,
    s: sheet.scale,
    g: found(
      'from the grid',
      'g',
      zone.bentArea * slope.value,
      'm²',
      'most that lines bent on the grid of 0.061 mm can come to',
      {
        kind: 'derived',
        from: 'two cells along each edge where lines were brought together',
      },
    ),
  });
}

/** Standard uncertainty of the length of some of a zone's stretches, m. */
export function lengthUncertaintyOf(
  plan: Plan,
  zone: Zone,
  stretches: readonly Stretch[],
  sheet: SheetUncertainty,
  length: Quantity,
): Quantity {
  const points = lengthDeviation(plan, zone, stretches, everywhere(sheet.point.value));
  return derive(`standard uncertainty of the ${length.name}`, lengthUncertainty, {
    P: found(
      'from the corners',
      'P',
      points,
      'm',
      'each corner off by itself; what moves with it added up',
      law,
      {
        u: sheet.point,
      },
    ),
    B: length,
    s: sheet.scale,
  });
}
