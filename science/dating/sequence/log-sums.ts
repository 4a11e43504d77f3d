/** Sums of densities that are kept as logarithms: many members make numbers too small for anything else. */
import { exp, log, normalCdf } from '@stillstand/science/base';

/** Logs of the weights of −k … k years; an odd number of them. */
export type Kernel = Float64Array;

/** Of a normal error in whole years; a single 0 where there is none. */
export function gapKernel(sd_yr: number): Kernel {
  const reach = Math.ceil(5 * sd_yr);
  if (!(sd_yr > 0)) return new Float64Array(1);
  return Float64Array.from({ length: 2 * reach + 1 }, (_, i) => {
    const far = Math.abs(i - reach);
    const weight = normalCdf((0.5 - far) / sd_yr) - normalCdf((-0.5 - far) / sd_yr);
    return weight > 0 ? log(weight) : -Infinity;
  });
}

/** log Σₖ kernel(k)·e^{f(t + k)}; kernels are symmetric. */
export function convolved(f: Float64Array, kernel: Kernel): Float64Array {
  if (kernel.length === 1) return f;
  const reach = (kernel.length - 1) / 2;
  return f.map((_, t) => {
    const [start, end] = [Math.max(0, t - reach), Math.min(f.length, t + reach + 1)];
    let most = -Infinity;
    for (let u = start; u < end; u++) most = Math.max(most, f[u]! + kernel[u - t + reach]!);
    if (most === -Infinity) return -Infinity;
    let sum = 0;
    for (let u = start; u < end; u++) sum += exp(f[u]! + kernel[u - t + reach]! - most);
    return most + log(sum);
  });
}

/** log Σ e^{f} of several, year by year. */
export function logSum(of: readonly Float64Array[]): Float64Array {
  if (of.length === 1) return of[0]!;
  return of[0]!.map((_, t) => {
    let most = -Infinity;
    for (const f of of) most = Math.max(most, f[t]!);
    if (most === -Infinity) return -Infinity;
    let sum = 0;
    for (const f of of) sum += exp(f[t]! - most);
    return most + log(sum);
  });
}

/** Σ f of several, year by year. */
export function sumOf(of: readonly Float64Array[], years: number): Float64Array {
  const sum = new Float64Array(years);
  for (const f of of) for (let t = 0; t < years; t++) sum[t] = sum[t]! + f[t]!;
  return sum;
}
