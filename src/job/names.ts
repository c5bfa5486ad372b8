import { tr } from '../words/tr.ts';
import type { Void, VoidKind } from './types.ts';

/** What the kinds of what is taken out are called. */
export const VOID_NAMES: Readonly<Record<VoidKind, string>> = {
  drain: tr`drain`,
  post: tr`post`,
  pit: tr`pit`,
  planter: tr`planter`,
  plinth: tr`plinth`,
  other: tr`void`,
};

/** What is taken out, as sentences name it: The drain “Drain 1”. */
export const voidCalled = (v: Void): string => tr`The ${VOID_NAMES[v.kind]} “${v.name}”`;

/** "New job", or "New job 2" when that is taken. */
export function unusedName(word: string, taken: readonly string[]): string {
  const names = new Set(taken);
  if (!names.has(word)) return word;
  let n = 2;
  while (names.has(`${word} ${n}`)) n++;
  return `${word} ${n}`;
}

/** "Slab 3" when Slab 1 and Slab 2 are taken. */
export function freeName(word: string, taken: ReadonlyArray<{ readonly name: string }>): string {
  const names = new Set(taken.map((t) => t.name));
  let n = 1;
  while (names.has(`${word} ${n}`)) n++;
  return `${word} ${n}`;
}
