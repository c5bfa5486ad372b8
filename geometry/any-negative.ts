/**
 * Whether one of four whole numbers below 2^31 is less than nought: boxes are apart when one of four distances is. All
 * four at once, as a branch for each could not be foretold and would take longer than the sums.
 */
export const anyNegative = (a: number, b: number, c: number, d: number): boolean => (a | b | c | d) < 0;
