/** A residual more than this many deviations out is one in a thousand: W. Baarda's test (1968). Source: from memory. */
export const SUSPECT_LIMIT = 3.29;

/** The same for the two coordinates of a point together: √χ² of two degrees of freedom. Source: tables of χ², from memory. */
export const POINT_SUSPECT_LIMIT = 3.72;

/** Of standardised residuals the largest beyond the limit, with those that equal it: nothing tells them apart. Their numbers. */
export function suspectsAmong(standardised: readonly number[], limit: number): number[] {
  const worst = Math.max(0, ...standardised.map(Math.abs));
  if (worst <= limit) return [];
  return standardised.flatMap((s, i) => (Math.abs(s) > worst * 0.999 ? [i] : []));
}

/** By how much a covariance is to be widened where measures contradict each other: the result is as uncertain as they are. */
export const widening = (suspects: readonly number[], squares: number, redundancy: number): number =>
  suspects.length > 0 ? Math.max(1, squares / redundancy) : 1;
