import type { Quantity } from '../working/quantity.ts';
import { sourceText } from '../working/source.ts';

/** A quantity and its whole trail in exported JSON. */
export interface QuantityJson {
  readonly name: string;
  readonly symbol: string;
  readonly value: number;
  readonly unit: string;
  readonly formula?: string;
  readonly explanation?: string;
  readonly source: string;
  readonly note?: string;
  readonly inputs?: Readonly<Record<string, QuantityJson>>;
}

/** Sources in words, everything else as it is. */
export function quantityJson(q: Quantity): QuantityJson {
  const { source, inputs, ...rest } = q;
  return {
    ...rest,
    source: sourceText(source),
    ...(inputs
      ? { inputs: Object.fromEntries(Object.entries(inputs).map(([k, v]) => [k, quantityJson(v)])) }
      : {}),
  };
}
