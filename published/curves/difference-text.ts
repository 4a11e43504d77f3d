/**
 * Whole numbers as text: each as the difference from the one before (the first from 0), in base-64 digits of 5 bits,
 * lowest first, the sixth bit saying that more follow; the lowest bit of all is the sign. Neighbouring rows of a curve
 * differ little, so nearly every number takes one letter. White space carries nothing and breaks long lines.
 */

const DIGITS = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/';
const MORE = 32;

export function encodeDifferences(numbers: ArrayLike<number>): string {
  let text = '';
  let last = 0;
  for (let i = 0; i < numbers.length; i++) {
    const difference = numbers[i]! - last;
    last = numbers[i]!;
    let rest = difference < 0 ? -2 * difference + 1 : 2 * difference;
    do {
      const digit = rest & (MORE - 1);
      rest >>>= 5;
      text += DIGITS[rest > 0 ? digit + MORE : digit]!;
    } while (rest > 0);
  }
  return text;
}

/** @throws RangeError on a letter that is no digit, or where the count differs from the stated one. */
export function decodeDifferences(text: string, count: number): Float64Array {
  const numbers = new Float64Array(count);
  let n = 0;
  let last = 0;
  let value = 0;
  let shift = 0;
  for (const letter of text) {
    if (letter === '\n' || letter === ' ') continue;
    const digit = DIGITS.indexOf(letter);
    if (digit < 0) throw new RangeError(`curve text has the letter “${letter}”; expected a base-64 digit`);
    value |= (digit & (MORE - 1)) << shift;
    shift += 5;
    if (digit < MORE) {
      last += value & 1 ? -(value >>> 1) : value >>> 1;
      numbers[n++] = last;
      value = 0;
      shift = 0;
    }
  }
  if (n !== count) throw new RangeError(`curve text holds ${n} numbers; expected ${count}`);
  return numbers;
}
