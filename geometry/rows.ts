/** Rows of whole numbers one after another: row r stands in `items` from `first[r]` up to `first[r + 1]`. */
export interface Rows {
  readonly first: Int32Array;
  readonly items: Int32Array;
}

/** How many numbers row r has. */
export const rowLength = ({ first }: Rows, r: number): number => first[r + 1]! - first[r]!;

/** What a function makes of each row. */
export function mapRows<T>({ first, items }: Rows, make: (row: Int32Array) => T): T[] {
  const made: T[] = [];
  for (let r = 0; r + 1 < first.length; r++) made.push(make(items.subarray(first[r]!, first[r + 1]!)));
  return made;
}
