/** Up to this many, putting each in its place is quicker than a sort made for any number. */
const SHORT = 24;

/** Sorts a list that is short as a rule, in place; what is equal keeps its order. */
export function sortShort<T>(list: T[], compare: (a: T, b: T) => number): T[] {
  if (list.length > SHORT) return list.sort(compare);
  for (let i = 1; i < list.length; i++) {
    const item = list[i]!;
    let k = i;
    for (; k > 0 && compare(list[k - 1]!, item) > 0; k--) list[k] = list[k - 1]!;
    list[k] = item;
  }
  return list;
}
