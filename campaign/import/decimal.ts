/**
 * Decimal numbers as text, computed with exactly: a value goes from centimetres to metres without the noise of binary
 * fractions, and keeps the digits it was stated to.
 */

export interface Decimal {
  digits: bigint;
  /** Digits behind the point. */
  scale: number;
}

/** Longer ones are no measurements. */
const MOST_DIGITS = 40;

/** "−12.50", ".5", "1.2e3"; null for anything else. */
export function readDecimal(text: string): Decimal | null {
  const typed = /^([-+−–]?)(\d*)(?:\.(\d*))?(?:e([-+]?\d{1,2}))?$/iu.exec(text.trim());
  if (typed === null) return null;
  const [, sign, whole = '', decimals = '', exponent = '0'] = typed;
  if (whole + decimals === '' || whole.length + decimals.length > MOST_DIGITS) return null;
  const digits = BigInt(whole + decimals) * (sign === '' || sign === '+' ? 1n : -1n);
  const scale = decimals.length - Number(exponent);
  return scale < 0 ? { digits: digits * tens(-scale), scale: 0 } : { digits, scale };
}

export function writeDecimal({ digits, scale }: Decimal): string {
  const negative = digits < 0n;
  const plain = String(negative ? -digits : digits).padStart(scale + 1, '0');
  const text = scale === 0 ? plain : `${plain.slice(0, -scale)}.${plain.slice(-scale)}`;
  return negative ? `-${text}` : text;
}

/** Times n / 10^shift. */
export const times = ({ digits, scale }: Decimal, n: number, shift: number): Decimal => ({
  digits: digits * BigInt(n),
  scale: scale + shift,
});

export function sum(a: Decimal, b: Decimal): Decimal {
  const scale = Math.max(a.scale, b.scale);
  return { digits: a.digits * tens(scale - a.scale) + b.digits * tens(scale - b.scale), scale };
}

export const half = (a: Decimal): Decimal =>
  a.digits % 2n === 0n ? { digits: a.digits / 2n, scale: a.scale } : times(a, 5, 1);

export const middle = (a: Decimal, b: Decimal): Decimal => half(sum(a, b));

export const negated = (a: Decimal): Decimal => ({ digits: -a.digits, scale: a.scale });

/** Below 0 where a is less than b, 0 where they are equal. */
export function compare(a: Decimal, b: Decimal): number {
  const { digits } = sum(a, negated(b));
  return digits < 0n ? -1 : digits > 0n ? 1 : 0;
}

// biome-ignore lint/plugin: whole numbers are exact in every engine
const tens = (n: number): bigint => 10n ** BigInt(n);
