import { all, create, type Unit } from 'mathjs';
import { describe, expect, test } from 'vitest';
import '../../src/coating/formulas.ts';
import '../../src/days/formulas.ts';
import '../../src/order/formulas.ts';
import '../../src/days/work-formulas.ts';
import '../../src/takeoff/formulas.ts';
import * as coating from '../../src/coating/formulas.ts';
import { allFormulas } from '../../src/working/formula.ts';
import { derive, leaf, total, workingLine, workingText } from '../../src/working/quantity.ts';
import { commonPractice, entered } from '../../src/working/source.ts';

const math = create(all!, {});

/** Our unit names as the unit library knows them; per cent and plain numbers have no dimension. */
const DIMENSION: Readonly<Record<string, string>> = {
  '1': '',
  '%': '',
  m: 'm',
  mm: 'm',
  'm²': 'm^2',
  L: 'm^3',
  µm: 'm',
  kg: 'kg',
  g: 'kg',
  'm²/L': 'm^-1',
  'm²/kg': 'm^2/kg',
  'L/kg': 'm^3/kg',
  'g/L': 'kg/m^3',
  'mL/m²': 'm',
  'L/m²': 'm',
  'kg/kg': '',
  'L²': 'm^6',
  '°C': '',
  d: 's',
  h: 's',
  min: 's',
  hPa: '',
  'mm/h': 'm/s',
  'W/m²': '',
  'W/m²/K': '',
  rad: '',
  a: '',
  '°F': '',
  mph: '',
  'km/h': '',
  'kg/m²/h': '',
  'lb/ft²/h': '',
  'g/m²': 'kg/m^2',
  'mol/m²': 'kg/m^2',
  'g/m²/d': '',
  'lb/1000 ft²/d': '',
  mL: 'm^3',
  'm/h': 'm/s',
  'm²/h': 'm^2/s',
};

const quantity = (unit: string, value: number): number | Unit => {
  const dimension = DIMENSION[unit];
  if (dimension === undefined) throw new Error(`no dimension for ${unit}`);
  return dimension === '' ? value : math.unit(value, dimension);
};

describe('every formula', () => {
  test('there are some', () => expect(allFormulas().length).toBeGreaterThanOrEqual(40));

  test.each(allFormulas().map((f) => [`${f.symbol} [${f.unit}] = ${f.text}`, f] as const))(
    '%s has the dimension it declares',
    (_name, f) => {
      // Independent: the same text evaluated by a unit library, which refuses to add metres to litres.
      const scope = Object.fromEntries(
        Object.entries(f.units).map(([symbol, unit], i) => [symbol, quantity(unit, 0.31 + i / 7)]),
      );
      const result = math.evaluate(f.text, scope) as number | Unit;
      const expected = quantity(f.unit, 1);
      if (typeof expected === 'number') expect(typeof result).toBe('number');
      else expect((result as Unit).equalBase(expected)).toBe(true);
    },
  );

  test.each(allFormulas().map((f) => [f.text, f] as const))(
    '%s: its text uses what it declares, and nothing else',
    (_t, f) => {
      const used = new Set<string>();
      math.parse(f.text).traverse((node, path) => {
        if (node.type === 'SymbolNode' && path !== 'fn') used.add((node as unknown as { name: string }).name);
      });
      expect([...used].sort()).toEqual(Object.keys(f.units).sort());
    },
  );

  test('a wrong dimension is caught', () => {
    expect(() => math.evaluate('A + P', { A: math.unit(1, 'm^2'), P: math.unit(1, 'm^3') })).toThrow();
  });
});

describe('quantities', () => {
  const A = leaf('area', 'A', 100, 'm²', entered);
  const e = leaf('coverage', 'e', 40, 'm²/kg', commonPractice, 'disputed');

  test('the line shows symbols, numbers and result', () => {
    const line = workingLine(derive('acid', coating.etchKilograms, { A, e }));
    expect(line.symbols).toBe('K = A / e');
    expect(line.numbers).toBe('100 / 40');
    expect(line.result).toBe('2.5 kg');
  });

  test('the trail goes down to the leaves with their sources', () => {
    const text = workingText(derive('acid', coating.etchKilograms, { A, e }));
    expect(text).toContain('entered by you');
    expect(text).toContain('common practice, no source] — disputed');
  });

  test('an input in another unit is a bug, not a number', () => {
    expect(() => derive('acid', coating.etchKilograms, { A: e, e })).toThrow(/A is in m²\/kg/);
  });

  test('a result that is not finite is a bug, not a zero', () => {
    const none = leaf('coverage', 'e', 0, 'm²/kg', entered);
    expect(() => derive('acid', coating.etchKilograms, { A, e: none })).toThrow(/not finite/);
  });

  test('a sum of nothing is 0, and says so', () => {
    expect(total('cut-in', 'c', 'm', [], entered)).toMatchObject({ value: 0, formula: '0' });
  });
});
