/** Of two dates one above the other: whether the lower is the older, as a succession has it. */
import type { Calibration } from './calibration.ts';

type Density = Pick<Calibration, 'from_cal_bp' | 'density'>;

/** P(a is older than b), 0–1, each with its own error alone; two of one year count half. */
export function probabilityOlder(a: Density, b: Density): number {
  let younger = 0; // P(b younger than the year of a)
  let met = 0; // entries of b in it
  let sum = 0;
  for (let i = 0; i < a.density.length; i++) {
    const at = a.from_cal_bp + i - b.from_cal_bp;
    for (; met < Math.min(at, b.density.length); met++) younger += b.density[met]!;
    sum += a.density[i]! * (younger + 0.5 * (b.density[at] ?? 0));
  }
  return Math.min(1, Math.max(0, sum));
}
