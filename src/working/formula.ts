import {
  addDependencies,
  ceilDependencies,
  compileDependencies,
  create,
  divideDependencies,
  expDependencies,
  type FactoryFunctionMap,
  logDependencies,
  maxDependencies,
  multiplyDependencies,
  powDependencies,
  sqrtDependencies,
  subtractDependencies,
  unaryMinusDependencies,
} from 'mathjs/number';
import type { Source } from './source.ts';

/** A formula whose text is what is evaluated and what is printed. */
export interface Formula {
  readonly symbol: string;
  readonly unit: string;
  readonly text: string;
  /** The unit each symbol must come in. */
  readonly units: Readonly<Record<string, string>>;
  readonly source: Source;
  readonly evaluate: (values: Readonly<Record<string, number>>) => number;
}

/** Plain numbers and the few operations that formulas need; no units, no matrices. */
const NEEDED = {
  addDependencies,
  ceilDependencies,
  compileDependencies,
  divideDependencies,
  expDependencies,
  logDependencies,
  maxDependencies,
  multiplyDependencies,
  powDependencies,
  sqrtDependencies,
  subtractDependencies,
  unaryMinusDependencies,
} as FactoryFunctionMap;

const { compile } = create(NEEDED);

const declared: Formula[] = [];

/**
 * Declares a formula. Its text is parsed here, once.
 * @param symbol what it gives, and `unit` what that is in
 * @param units the unit of each symbol in the text; '1' for a plain number
 */
export function formula(
  symbol: string,
  unit: string,
  text: string,
  units: Readonly<Record<string, string>>,
  source: Source,
): Formula {
  const code = compile(text);
  const made: Formula = {
    symbol,
    unit,
    text,
    units,
    source,
    evaluate: (values) => code.evaluate({ ...values }) as number,
  };
  declared.push(made);
  return made;
}

/** Every formula declared so far; the test of dimensions walks them. */
export const allFormulas = (): readonly Formula[] => declared;
