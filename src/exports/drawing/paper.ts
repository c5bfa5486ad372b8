import type { Job } from '../../job/types.ts';
import type { UnitSystem } from '../../units/format.ts';
import type { Metres } from '../../units/types.ts';
import { tr } from '../../words/tr.ts';

/** Millimetres on paper. */
type Millimetres = number;

/** A sheet of paper, the shorter side first. ISO 216 and ANSI/ASME Y14.1. */
export interface Paper {
  readonly id: 'A4' | 'LETTER';
  readonly name: string;
  readonly shortMm: Millimetres;
  readonly longMm: Millimetres;
}

export const PAPERS: Readonly<Record<Paper['id'], Paper>> = {
  A4: { id: 'A4', name: 'A4', shortMm: 210, longMm: 297 },
  LETTER: { id: 'LETTER', name: tr`US letter`, shortMm: 215.9, longMm: 279.4 },
};

/** The paper that a job is printed on: as its letterhead says, or as is usual where its units are. */
export const paperOf = ({ business, settings }: Pick<Job, 'business' | 'settings'>): Paper =>
  PAPERS[business?.paper ?? (settings.units === 'us' ? 'LETTER' : 'A4')];

/** Scales that a scale ruler has: ISO 5455 and its multiples; inches to the foot and engineers' scales. */
const RATIOS: Readonly<Record<UnitSystem, readonly number[]>> = {
  metric: [5, 10, 20, 25, 50, 100, 125, 200, 250, 500, 1000, 1250, 2000, 2500, 5000, 10_000],
  us: [8, 12, 16, 24, 32, 48, 64, 96, 120, 192, 240, 360, 480, 600, 720, 1200, 2400, 6000, 12_000],
};

/** The largest usual scale, 1 : N, at which ground of a size fits into room on paper. */
export function ratioFor(
  ground: { readonly width: Metres; readonly height: Metres },
  room: { readonly width: Millimetres; readonly height: Millimetres },
  units: UnitSystem,
): number {
  const least = Math.max((ground.width * 1000) / room.width, (ground.height * 1000) / room.height);
  const usual = RATIOS[units].find((n) => n >= least - 1e-9);
  if (usual !== undefined) return usual;
  // A site of miles: round up to two figures.
  const power = 10 ** Math.max(0, Math.floor(Math.log10(least)) - 1);
  return Math.ceil(least / power) * power;
}

/** A scale as it is written: 1 : 50, or 1/4" = 1'-0" (1 : 48). */
export function ratioText(n: number, units: UnitSystem): string {
  const plain = `1 : ${n}`;
  if (units === 'metric') return plain;
  const eighths = (12 / n) * 32;
  if (n % 120 === 0 && n >= 120) return `1" = ${n / 12}' (${plain})`;
  if (!Number.isInteger(eighths)) return plain;
  let [top, bottom] = [eighths, 32];
  while (top % 2 === 0 && bottom > 1) [top, bottom] = [top / 2, bottom / 2];
  const [whole, rest] = [Math.floor(top / bottom), top % bottom];
  const inches = [whole > 0 ? whole : '', rest > 0 ? `${rest}/${bottom}` : ''].filter(Boolean).join(' ');
  return `${inches}" = 1'-0" (${plain})`;
}

/** The length on the ground that a scale bar shows, and how many parts it has. */
export function barOf(
  n: number,
  most: Millimetres,
  units: UnitSystem,
): { readonly partM: Metres; readonly parts: number; readonly label: (i: number) => string } {
  const unitM = units === 'us' ? 0.3048 : 1;
  const steps = [0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000];
  const fits = steps.filter((s) => (4 * s * unitM * 1000) / n <= most);
  const step = fits[fits.length - 1] ?? 0.1;
  return {
    partM: step * unitM,
    parts: 4,
    label: (i) => `${Number((i * step).toFixed(1))}${i === 4 ? (units === 'us' ? ' ft' : ' m') : ''}`,
  };
}
