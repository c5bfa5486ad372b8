/** An offset from a baseline: how far along, and how far off. One unit for both. */
export interface Offset {
  readonly along: number;
  readonly off: number;
}

/**
 * Area between a baseline and a line through the ends of offsets from it, straight from one to the next: the
 * trapezoidal rule, for any spacing. Square of the unit of the offsets; 0 for fewer than two.
 */
export function trapezoidArea(offsets: readonly Offset[]): number {
  let area = 0;
  for (let i = 1; i < offsets.length; i++) {
    const [a, b] = [offsets[i - 1]!, offsets[i]!];
    area += ((a.off + b.off) / 2) * (b.along - a.along);
  }
  return area;
}

/**
 * The same by Simpson's one-third rule, a parabola through each three: for an even number of equal strips. Null for any
 * other spacing.
 */
export function simpsonArea(offsets: readonly Offset[]): number | null {
  const strips = offsets.length - 1;
  if (strips < 2 || strips % 2 !== 0) return null;
  const width = (offsets[strips]!.along - offsets[0]!.along) / strips;
  const even = offsets.every(
    (o, i) => Math.abs(o.along - offsets[0]!.along - i * width) <= 1e-6 * Math.abs(width),
  );
  if (!even) return null;
  let sum = 0;
  offsets.forEach((o, i) => {
    sum += o.off * (i === 0 || i === strips ? 1 : i % 2 === 1 ? 4 : 2);
  });
  return (sum * width) / 3;
}
