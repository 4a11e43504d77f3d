/**
 * Numbers as people read them: decimals follow the uncertainty, true minus, comma at thousands. No locale: the same on
 * every device.
 */

/** Decimals that show two digits of an uncertainty of any size, at most `most`; without one, `least`. */
export function decimalsFor(uncertainty: number | null, least = 0, most = 3): number {
  if (uncertainty === null || !Number.isFinite(uncertainty)) return least;
  if (uncertainty === 0) return most;
  // The exponent after rounding to two digits, so that 0.0996 counts as 0.10.
  const exponent = Number(Math.abs(uncertainty).toExponential(1).split('e')[1]);
  return Math.min(most, Math.max(least, 1 - exponent));
}

export function printed(value: number | null, decimals: number): string {
  if (value === null || !Number.isFinite(value)) return '–';
  const text = value.toFixed(decimals);
  const [whole = '', fraction] = text.replace('-', '').split('.');
  const grouped = whole.replace(/\B(?=(\d{3})+$)/g, ',');
  const isNegative = text.startsWith('-') && /[1-9]/.test(text);
  return `${isNegative ? '−' : ''}${grouped}${fraction === undefined ? '' : `.${fraction}`}`;
}

/** The sign always shown except on zero: elevations, sea level, rates. */
export function signed(value: number | null, decimals: number): string {
  const text = printed(value, decimals);
  return value !== null && value > 0 && /[1-9]/.test(text) ? `+${text}` : text;
}

/** "1 hole", "1,200 dates". */
export const counted = (count: number, one: string, many = `${one}s`): string =>
  `${printed(count, 0)} ${count === 1 ? one : many}`;
