/** "Slab 3" when Slab 1 and Slab 2 are taken. */
export function freeName(word: string, taken: ReadonlyArray<{ readonly name: string }>): string {
  const names = new Set(taken.map((t) => t.name));
  let n = 1;
  while (names.has(`${word} ${n}`)) n++;
  return `${word} ${n}`;
}
