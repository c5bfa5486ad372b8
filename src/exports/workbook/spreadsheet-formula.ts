import { create, type FactoryFunctionMap, type MathNode, parseDependencies } from 'mathjs/number';

const { parse } = create({ parseDependencies } as FactoryFunctionMap);

/** Functions of our formulas as spreadsheets call them; a whole number is rounded up past what binary digits add. */
const CALLS: Readonly<Record<string, (args: readonly string[]) => string>> = {
  exp: ([x]) => `EXP(${x})`,
  log: ([x]) => `LN(${x})`,
  sqrt: ([x]) => `SQRT(${x})`,
  max: (args) => `MAX(${args.join(',')})`,
  ceil: ([x]) => `ROUNDUP(ROUND(${x},9),0)`,
};

/**
 * One of our formulas in the language of spreadsheets (ISO/IEC 29500, OpenFormula), its symbols put as cells.
 * @throws for what no formula of ours has: a bug
 */
export function spreadsheetFormula(text: string, cellOf: (symbol: string) => string): string {
  const written = (node: MathNode): string => {
    const n = node as MathNode & Record<string, unknown>;
    const args = (n.args as MathNode[] | undefined) ?? [];
    switch (n.type) {
      case 'ConstantNode':
        return String(n.value);
      case 'SymbolNode':
        return cellOf(String(n.name));
      case 'ParenthesisNode':
        return written(n.content as MathNode);
      case 'FunctionNode': {
        const call = CALLS[(n.fn as { name: string }).name];
        if (call) return call(args.map(written));
        break;
      }
      case 'OperatorNode': {
        const [a, b] = args.map(written);
        if (args.length === 1 && n.op === '-') return `(0-${a})`;
        if (n.op === '^') return `POWER(${a},${b})`;
        // A long sum stays flat: spreadsheets bear only so many brackets.
        if (n.op === '+' && args.length === 2) return `(${opened(a!)}+${b})`;
        if (args.length === 2 && /^[-*/]$/.test(String(n.op))) return `(${a}${n.op}${b})`;
        break;
      }
    }
    throw new Error(`no spreadsheet has “${node.toString()}”`);
  };
  return opened(written(parse(text)));
}

/** A formula without the brackets about all of it. */
const opened = (formula: string): string =>
  formula.startsWith('(') && closes(formula) ? formula.slice(1, -1) : formula;

/** Whether the first bracket is closed by the last character. */
function closes(formula: string): boolean {
  let depth = 0;
  for (let i = 0; i < formula.length; i++) {
    if (formula[i] === '(') depth++;
    else if (formula[i] === ')') depth--;
    if (depth === 0) return i === formula.length - 1;
  }
  return false;
}

/** A text as a formula takes it. */
export const quoted = (text: string): string => `"${text.replace(/"/g, '""')}"`;
