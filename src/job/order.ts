const collator = new Intl.Collator('en', { numeric: true, sensitivity: 'base' });

/** By name as people sort (2 before 10), then by id, so that the order never depends on how the job was made. */
export function byName(
  a: { readonly name: string; readonly id: string },
  b: { readonly name: string; readonly id: string },
): number {
  return collator.compare(a.name, b.name) || (a.id < b.id ? -1 : a.id > b.id ? 1 : 0);
}

/** By id alone: an order for arithmetic, so that sums come out the same to the last bit. */
export const byId = (a: { readonly id: string }, b: { readonly id: string }): number =>
  a.id < b.id ? -1 : a.id > b.id ? 1 : 0;

/** Sorts lists by name, one after another: while names and ids stay, in the order that was found before. */
export function nameSorter(): <T extends Parameters<typeof byName>[0]>(items: readonly T[]) => T[] {
  let names = '';
  let order: readonly number[] = [];
  return (items) => {
    const now = JSON.stringify(items.map(({ name, id }) => [name, id]));
    if (names !== now) {
      names = now;
      order = [...items.keys()].sort((a, b) => byName(items[a]!, items[b]!));
    }
    return order.map((i) => items[i]!);
  };
}
