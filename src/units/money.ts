/** Integer cents as people write money, without a currency's sign: "1234.50". */
export function moneyText(cents: number): string {
  const sign = cents < 0 ? '−' : '';
  const whole = Math.abs(cents);
  return `${sign}${Math.floor(whole / 100)}.${String(whole % 100).padStart(2, '0')}`;
}

/** Cents from money as typed ("12", "12.5", "12,50"), or null where it is none or has more than two decimals. */
export function parseMoney(text: string): number | null {
  const found = /^\s*(\d{1,7})(?:[.,](\d{1,2}))?\s*$/.exec(text);
  return found ? Number(found[1]) * 100 + Number((found[2] ?? '').padEnd(2, '0')) : null;
}
