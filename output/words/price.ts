import { printed } from './number.ts';

/** A price, with decimals where it has some. */
export const price = (value: number): string => printed(value, Number.isInteger(value) ? 0 : 2);
