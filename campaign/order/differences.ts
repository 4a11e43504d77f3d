/** What differs between the numbers that several orders give, in words. */
import type { Numbers } from './numbers.ts';

/** Smaller differences of a length are none, m: half of what a tape is read to. *Common practice, no source.* */
const SAME_M = 0.0005;

/** So many differences are said; the rest is counted. */
const SAID = 6;

type Value = number | string | null;

/** "depth of run R3 4.12 or 4.38 m", the first few; empty where the orders give the same. */
export function differences(orders: readonly Numbers[]): string[] {
  const names = new Set(orders.flatMap((numbers) => [...numbers.keys()]));
  const found: string[] = [];
  for (const name of names) {
    const values: Value[] = [];
    for (const numbers of orders) {
      const value = numbers.get(name) ?? null;
      if (!values.some((other) => isSame(other, value))) values.push(value);
    }
    if (values.length > 1) found.push(`${name} ${said(values)}`);
  }
  const more = found.length - SAID;
  return more > 1 ? [...found.slice(0, SAID), `${more} more numbers`] : found;
}

const isSame = (a: Value, b: Value): boolean =>
  typeof a === 'number' && typeof b === 'number' ? Math.abs(a - b) < SAME_M : a === b;

/** To the centimetre, or to the millimetre where that shows no difference. */
function said(values: readonly Value[]): string {
  const numbers = values.filter((value) => typeof value === 'number');
  const text = (decimals: number): string[] => numbers.map((value) => value.toFixed(decimals));
  const decimals = new Set(text(2)).size === numbers.length ? 2 : 3;
  const words = values.map((value) =>
    value === null
      ? 'not known'
      : typeof value === 'number'
        ? plain(value.toFixed(decimals))
        : value.replaceAll('_', ' '),
  );
  return `${words.join(' or ')}${numbers.length > 0 ? ' m' : ''}`;
}

const plain = (text: string): string => text.replace(/^-(?=0\.?0*$)/, '').replace('-', '−');
