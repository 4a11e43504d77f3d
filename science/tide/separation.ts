/** Which constituents a record is long enough to tell apart. */
import { CONSTITUENTS, type Constituent } from './constituent.ts';

/** Rayleigh's measure: two constituents part by at least so many whole turns over the record. */
const NEEDED_RAYLEIGH = 1;

export interface Separation {
  chosen: Constituent[];
  /** What the record cannot tell from one that is chosen (`mean`: from the mean level), and from how many days on it could. */
  left_out: { constituent: string; from: string; needs_days: number }[];
}

/**
 * Takes constituents in the order given (by default the agencies', weightiest first), each if the record parts it from
 * the mean and from all taken before it, and if it is read often enough: two readings or more in each period.
 */
export function resolvableConstituents(
  duration_h: number,
  step_h: number,
  wanted: readonly Constituent[] = CONSTITUENTS,
  rayleigh = NEEDED_RAYLEIGH,
): Separation {
  const chosen: Constituent[] = [];
  const left_out: Separation['left_out'] = [];
  for (const constituent of wanted) {
    const others = [{ name: 'mean', speed_deg_h: 0 }, ...chosen];
    const nearest = others.reduce((a, b) =>
      Math.abs(b.speed_deg_h - constituent.speed_deg_h) < Math.abs(a.speed_deg_h - constituent.speed_deg_h)
        ? b
        : a,
    );
    const apart = Math.abs(constituent.speed_deg_h - nearest.speed_deg_h);
    if (apart * duration_h >= 360 * rayleigh && constituent.speed_deg_h * step_h < 180)
      chosen.push(constituent);
    else {
      left_out.push({
        constituent: constituent.name,
        from: nearest.name,
        needs_days: (360 * rayleigh) / apart / 24,
      });
    }
  }
  return { chosen, left_out };
}
