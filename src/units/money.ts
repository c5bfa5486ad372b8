/** Whole cents. Never a fraction: what is not whole is rounded where the rule that asks for it says how. */
export type Cents = number & { readonly __unit?: 'cent' };

/** What becomes of a fraction of a cent; half a cent and more, more than half a cent, none of it. */
export type Rounding = 'half-up' | 'half-down' | 'down';

/** Cents as people write money, without a currency's sign: "1234.50". */
export function moneyText(cents: Cents): string {
  const sign = cents < 0 ? '−' : '';
  const whole = Math.abs(cents);
  return `${sign}${Math.floor(whole / 100)}.${String(whole % 100).padStart(2, '0')}`;
}

/** Cents from money as typed ("12", "12.5", "12,50"), or null where it is none or has more than two decimals. */
export function parseMoney(text: string): Cents | null {
  const found = /^\s*(\d{1,7})(?:[.,](\d{1,2}))?\s*$/.exec(text);
  return found ? Number(found[1]) * 100 + Number((found[2] ?? '').padEnd(2, '0')) : null;
}

/**
 * Cents times a fraction of whole numbers, rounded once.
 * @throws when the amount is not whole cents or the denominator is not above zero: bugs
 */
export function share(cents: Cents, numerator: bigint, denominator: bigint, rounding: Rounding): Cents {
  if (!Number.isSafeInteger(cents) || denominator <= 0n) throw new Error('not whole cents, or no fraction');
  const product = BigInt(cents) * numerator;
  const negative = product < 0n;
  const size = negative ? -product : product;
  const whole = size / denominator;
  const twice = 2n * (size % denominator);
  const up =
    rounding !== 'down' && (twice > denominator || (twice === denominator && rounding === 'half-up'));
  const result = Number(up ? whole + 1n : whole);
  return negative && result !== 0 ? -result : result;
}

/** Cents times a decimal number exactly as it is written, rounded once. */
export function times(cents: Cents, factor: number, rounding: Rounding = 'half-up'): Cents {
  const { numerator, denominator } = fractionOf(factor);
  return share(cents, numerator, denominator, rounding);
}

/** So many per cent of an amount, the rate exactly as it is written, rounded once. */
export function percentOf(cents: Cents, ratePct: number, rounding: Rounding): Cents {
  const { numerator, denominator } = fractionOf(ratePct);
  return share(cents, numerator, denominator * 100n, rounding);
}

/** The part of an amount that holds tax already which is the tax: rate / (100 + rate) of it. */
export function taxWithin(cents: Cents, ratePct: number, rounding: Rounding): Cents {
  const { numerator, denominator } = fractionOf(ratePct);
  return share(cents, numerator, denominator * 100n + numerator, rounding);
}

/** A decimal number, as its shortest text says it, as a fraction. */
function fractionOf(value: number): { readonly numerator: bigint; readonly denominator: bigint } {
  const [digits, exponent = '0'] = String(value).split('e');
  const [whole, part = ''] = digits!.split('.');
  const shift = Number(exponent) - part.length;
  const numerator = BigInt(`${whole}${part}`);
  return shift >= 0
    ? { numerator: numerator * 10n ** BigInt(shift), denominator: 1n }
    : { numerator, denominator: 10n ** BigInt(-shift) };
}
