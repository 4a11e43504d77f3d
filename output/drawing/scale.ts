/** A straight scale from data to points on paper, and round steps for it. */
import { power } from '@stillstand/science/base';

export interface Scale {
  (value: number): number;
  from: number;
  to: number;
  /** Points per unit, signed. */
  k: number;
}

/** `from` lands on `at`, `to` on `end`. An empty range is widened so that the scale never divides by zero. */
export function scale(from: number, to: number, at: number, end: number): Scale {
  const span = to === from ? 1 : to - from;
  const k = (end - at) / span;
  return Object.assign((value: number) => at + (value - from) * k, { from, to, k });
}

const MANTISSAS = [1, 2, 5] as const;

/** The smallest of 1, 2, 5 × 10ⁿ (n from −2) that is at least `least`. */
export function roundStep(least: number): number {
  for (let tens = -2; tens <= 7; tens++) {
    for (const m of MANTISSAS) {
      const step = tens < 0 ? m / power(10, -tens) : m * power(10, tens);
      if (step >= least * 0.999999) return step;
    }
  }
  return power(10, 8);
}

/** The largest of 1, 2, 5 × 10ⁿ (n from −6) that is at most `most`: of a scale bar, or of lines on a map. */
export function roundLength(most: number): number {
  let length = power(10, -6);
  for (let tens = -6; tens <= 8; tens++) {
    for (const m of MANTISSAS) {
      const next = tens < 0 ? m / power(10, -tens) : m * power(10, tens);
      if (next <= most * 1.000001) length = next;
    }
  }
  return length;
}

/** Multiples of `step` from low to high, both included where they are multiples. */
export function multiples(low: number, high: number, step: number): number[] {
  const out: number[] = [];
  const first = Math.ceil(low / step - 1e-9);
  const last = Math.floor(high / step + 1e-9);
  for (let i = first; i <= last; i++) out.push(step < 1 ? i / Math.round(1 / step) : i * step);
  return out;
}
