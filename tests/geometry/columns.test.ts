import { expect, test } from 'vitest';
import { Columns, scratch } from '../../geometry/columns.ts';
import { PairTable } from '../../geometry/pair-table.ts';
import { sortShort } from '../../geometry/sort-short.ts';
import { randomNumbers } from '../random/numbers.ts';

test('columns lie apart, whatever their lengths, and begin as zeros', () => {
  const columns = new Columns(1000);
  const taken = [3, 5, 1, 0, 7].flatMap((n) => [columns.int32(n), columns.float64(n)]);
  for (const column of taken) expect([...column]).toEqual(new Array(column.length).fill(0));
  taken.forEach((column, i) => {
    column.fill(i + 1);
  });
  taken.forEach((column, i) => {
    expect([...column]).toEqual(new Array(column.length).fill(i + 1));
  });
});

test('where the room ends, further columns lie elsewhere and the first keep what they hold', () => {
  const columns = new Columns(40);
  const first = columns.float64(5).fill(1.5);
  const second = columns.float64(6).fill(2.5);
  const third = columns.int32(3).fill(7);
  expect(second.buffer).not.toBe(first.buffer);
  expect(third.buffer).toBe(second.buffer);
  expect([...first, ...second, ...third]).toEqual([
    ...new Array(5).fill(1.5),
    ...new Array(6).fill(2.5),
    ...new Array(3).fill(7),
  ]);
});

test('what is given back is used again', () => {
  const columns = new Columns(1000);
  columns.int32(3);
  const mark = columns.mark();
  const { byteOffset } = columns.float64(9);
  columns.int32(1);
  columns.release(mark);
  expect(columns.int32(2).byteOffset).toBe(byteOffset);
});

test('pairs are numbered as they come: the same as a Map of the language says', () => {
  const random = randomNumbers(5);
  const mark = scratch.mark();
  const table = new PairTable(4);
  const known = new Map<string, number>();
  for (let i = 0; i < 5000; i++) {
    const a = Math.floor(random() * 61) - 30;
    const b = (Math.floor(random() * 61) - 30) * 2 ** (i % 20);
    const key = `${a} ${b}`;
    if (!known.has(key)) known.set(key, known.size);
    expect(table.at(a, b)).toBe(known.get(key));
  }
  expect(table.a.length).toBe(known.size);
  expect(table.a.map((a, i) => `${a} ${table.b[i]}`)).toEqual([...known.keys()]);
  scratch.release(mark);
});

// ECMA-262, Array.prototype.sort: stable.
test('short lists and long ones are sorted as the language does, what is equal in its order', () => {
  const random = randomNumbers(8);
  for (let length = 0; length < 60; length++) {
    const list = Array.from({ length }, (_, at) => ({ of: Math.floor(random() * 12), at }));
    const wanted = [...list].sort((a, b) => a.of - b.of);
    expect(sortShort(list, (a, b) => a.of - b.of)).toBe(list);
    expect(list).toEqual(wanted);
  }
});
