/** Which constituents a record is long enough to separate. */
import type { Constituent } from './constituent.ts';
import { expectedConstituents } from './expected.ts';

/** Rayleigh's criterion: two constituents part by so many whole cycles over the record. */
const NEEDED_CYCLES = 1;
/** A common year of 365 days is a year of 365.2422. */
const NEAR = 1e-3;

export interface Unresolved {
  constituent: string;
  /** The larger one it cannot be separated from; `mean`, from the mean level. */
  from: string;
  /** From how many days on it could. */
  needs_days: number;
}

export interface Separation {
  resolved: Constituent[];
  unresolved: Unresolved[];
  /** Turn faster than two readings in a period can see: no record of this step gives them. */
  too_fast: string[];
}

/** What n readings cover: each speaks for one step. The speeds that such a series separates are one cycle over it apart. */
export const spanOf = (first_ms: number, last_ms: number, step_ms: number): number =>
  last_ms - first_ms + step_ms;

/**
 * Constituents in the order given (by default the largest expected first), each resolved if it parts from the mean and
 * from all before it. `span_h` is what the record covers, n·Δt; it may miss the cycle by one step, or by 0.1 %.
 */
export function resolvableConstituents(
  span_h: number,
  step_h: number,
  wanted: readonly Constituent[] = LARGEST_FIRST,
): Separation {
  const resolved: Constituent[] = [];
  const unresolved: Unresolved[] = [];
  const too_fast: string[] = [];
  for (const constituent of wanted) {
    if (constituent.speed_deg_h * step_h >= 180) {
      too_fast.push(constituent.name);
      continue;
    }
    const others = [{ name: 'mean', speed_deg_h: 0 }, ...resolved];
    const nearest = others.reduce((a, b) =>
      Math.abs(b.speed_deg_h - constituent.speed_deg_h) < Math.abs(a.speed_deg_h - constituent.speed_deg_h)
        ? b
        : a,
    );
    const cycle_h = (360 * NEEDED_CYCLES) / Math.abs(constituent.speed_deg_h - nearest.speed_deg_h);
    if (span_h + Math.max(step_h, NEAR * cycle_h) >= cycle_h) resolved.push(constituent);
    else unresolved.push({ constituent: constituent.name, from: nearest.name, needs_days: cycle_h / 24 });
  }
  return { resolved, unresolved, too_fast };
}

const LARGEST_FIRST: readonly Constituent[] = expectedConstituents()
  .filter(({ isUnlisted }) => !isUnlisted)
  .map(({ constituent }) => constituent);
