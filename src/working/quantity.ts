import { plainNumber, unitText } from '../units/format.ts';
import type { Formula } from './formula.ts';
import { type Source, sourceText } from './source.ts';

/** A number with its unit and where it comes from, down to what was measured or entered. Plain JSON. */
export interface Quantity {
  readonly name: string;
  readonly symbol: string;
  readonly value: number;
  readonly unit: string;
  /** The text that was evaluated to get the value; absent on leaves and on results of an algorithm. */
  readonly formula?: string;
  /** How an algorithm came to the value, in words. */
  readonly explanation?: string;
  readonly inputs?: Readonly<Record<string, Quantity>>;
  readonly source: Source;
  /** What is disputed about it, in one line. */
  readonly note?: string;
  /** The name of the value that a person may replace, where it is one. */
  readonly key?: string;
}

/** A number that is not worked out further. */
export const leaf = (
  name: string,
  symbol: string,
  value: number,
  unit: string,
  source: Source,
  note?: string,
): Quantity => ({ name, symbol, value, unit, source, ...(note ? { note } : {}) });

/** A number that an algorithm, not a formula, found. */
export const found = (
  name: string,
  symbol: string,
  value: number,
  unit: string,
  explanation: string,
  source: Source,
  inputs?: Readonly<Record<string, Quantity>>,
): Quantity => ({ name, symbol, value, unit, explanation, source, ...(inputs ? { inputs } : {}) });

/**
 * Evaluates a formula on quantities.
 * @throws when an input is missing, in another unit than the formula declares, or the result is not finite: those are bugs.
 */
export function derive(
  name: string,
  formula: Formula,
  inputs: Readonly<Record<string, Quantity>>,
  note?: string,
): Quantity {
  const values: Record<string, number> = {};
  for (const [symbol, unit] of Object.entries(formula.units)) {
    const input = inputs[symbol];
    if (!input) throw new Error(`${name}: no value for ${symbol}`);
    if (input.unit !== unit)
      throw new Error(`${name}: ${symbol} is in ${input.unit}, the formula wants ${unit}`);
    values[symbol] = input.value;
  }
  const value = formula.evaluate(values);
  if (!Number.isFinite(value)) throw new Error(`${name}: ${formula.text} is not finite`);
  return {
    name,
    symbol: formula.symbol,
    value,
    unit: formula.unit,
    formula: formula.text,
    inputs,
    source: formula.source,
    ...(note ? { note } : {}),
  };
}

/** Adds quantities of one unit; the formula names each by its number. */
export function total(
  name: string,
  symbol: string,
  unit: string,
  parts: readonly Quantity[],
  source: Source,
): Quantity {
  const inputs: Record<string, Quantity> = {};
  parts.forEach((part, i) => {
    if (part.unit !== unit) throw new Error(`${name}: ${part.name} is in ${part.unit}, not ${unit}`);
    inputs[`${symbol}${i + 1}`] = part;
  });
  const value = parts.reduce((sum, part) => sum + part.value, 0);
  const formula = parts.length === 0 ? '0' : Object.keys(inputs).join(' + ');
  return { name, symbol, value, unit, formula, inputs, source };
}

/** One line of a working: symbols, then the numbers put in, then the result. */
export interface WorkingLine {
  readonly name: string;
  readonly symbols: string;
  readonly numbers: string;
  readonly result: string;
  readonly source: string;
  readonly note: string;
}

const withUnit = (value: number, unit: string): string =>
  unit === '1' ? plainNumber(value) : `${plainNumber(value)} ${unitText(unit)}`;

/** The quantity's own line. */
export function workingLine(q: Quantity): WorkingLine {
  const result = withUnit(q.value, q.unit);
  const source = sourceText(q.source);
  const note = q.note ?? '';
  if (!q.formula) {
    return { name: q.name, symbols: q.symbol, numbers: q.explanation ?? '', result, source, note };
  }
  const numbers = q.formula.replace(/[A-Za-z_]\w*/g, (word) => {
    const input = q.inputs?.[word];
    return input ? plainNumber(input.value) : word;
  });
  return { name: q.name, symbols: `${q.symbol} = ${q.formula}`, numbers, result, source, note };
}

/** The quantity and everything under it, outermost first, each with its depth. */
function trail(q: Quantity, depth = 0): Array<{ readonly depth: number; readonly quantity: Quantity }> {
  return [
    { depth, quantity: q },
    ...Object.values(q.inputs ?? {}).flatMap((input) => trail(input, depth + 1)),
  ];
}

/** The whole trail as indented text; what the command line and the papers print. */
export const workingText = (q: Quantity): string =>
  trail(q)
    .map(({ depth, quantity }) => {
      const line = workingLine(quantity);
      const steps = [line.symbols, line.numbers].filter((s) => s !== '').join(' = ');
      const note = line.note ? ` — ${line.note}` : '';
      return `${'  '.repeat(depth)}${line.name}: ${steps} = ${line.result} [${line.source}]${note}`;
    })
    .join('\n');
