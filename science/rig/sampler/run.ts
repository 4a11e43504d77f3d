/** One trip of the sampler: what it took out, and where a piece of it lay along everything that entered. */
import type { RunReading } from '../reading.ts';
import { enteredAt, type Inflow } from '../sediment/sediment.ts';

export interface ReducedRun {
  row_id: string;
  seq: number;
  run: string;
  removed_m: number;
  removed_sigma_m: number;
  /** `nothing`: neither soundings nor marks nor a recovered length; removed is 0 and means unknown. */
  removed_from: 'soundings' | 'advance' | 'recovered' | 'nothing';
  /** end mark − start mark. */
  advance_m: number | null;
  recovered_m: number | null;
  fall_in_m: number;
  /** (recovered − fall-in) ÷ removed. */
  sampler_recovery: number | null;
  loss_position: NonNullable<RunReading['loss_position']>;
  outcome: string | null;
  strokes_per_m: number | null;
  /** On the column ruler (inflow included). */
  column_top_m: number;
  column_bottom_m: number;
  /** On the entered ruler. */
  entered_top_m: number;
  entered_bottom_m: number;
  /** Part of what was removed that is inflow. */
  inflow_m: number;
  clearance_m: number | null;
  clearance_sigma_m: number | null;
  /** Collar to shoe and reach of the sampler then, for the drawing. */
  tip_m: number | null;
  /** Lowest tip below the ground at the start: penetration − clearance. */
  tip_depth_m: number | null;
}

/**
 * A place along everything that entered, of which only bounds are known: even between `low_m` and `high_m`. Places
 * with the same `shared` lie at the same fraction between their bounds (one loss, unknown where, in one run).
 */
export interface EnteredPlace {
  low_m: number;
  high_m: number;
  /** Row of the run or push it belongs to. */
  shared: string;
  /**
   * How much of the error of the run's removed length the place carries at each bound: 0 where it hangs from the top of
   * what was removed, 1 where it stands on its base.
   */
  error_low: number;
  error_high: number;
}

export interface PlacedPiece {
  top: EnteredPlace;
  bottom: EnteredPlace;
  /** Parts of the piece that are not ground in its place: fall-in on top; inflow within. */
  fall_in_m: number;
  inflow_m: number;
  /** The piece reaches this far past what is said to have come up. */
  beyond_m: number;
}

/** Bounds of a place along what a run removed, metres from its top. */
interface RemovedPlace {
  low: number;
  high: number;
  /** What the error of the removed length moves either of them by, as a share of it. */
  error_low: number;
  error_high: number;
}

/**
 * Where a length of core lay along what its run removed. `x_m` runs from the top of what came up, fall-in included. What
 * was removed but did not come up is missing at the top, at the base, evenly (`spread`: what came up is stretched), or,
 * where nobody knows, an unknown part of it at the top and the rest at the base; more recovered than removed is squeezed
 * evenly. The one rule of core loss: the depths of samples and units and the drawing of a core both ask here.
 */
export function alongRemoved(
  run: Pick<ReducedRun, 'removed_m' | 'fall_in_m'> & {
    recovered_m: number | null;
    loss_position: string | null;
  },
  x_m: number,
): RemovedPlace {
  const recovered = run.recovered_m === null ? run.removed_m : run.recovered_m - run.fall_in_m;
  const loss = run.removed_m - recovered;
  const c = Math.max(0, Math.min(recovered, x_m - run.fall_in_m));
  if (loss <= 0 || run.loss_position === 'spread') {
    const share = recovered > 0 ? c / recovered : 0;
    const stretched = share * run.removed_m;
    return { low: stretched, high: stretched, error_low: share, error_high: share };
  }
  if (run.loss_position === 'base') return { low: c, high: c, error_low: 0, error_high: 0 };
  if (run.loss_position === 'top') return { low: c + loss, high: c + loss, error_low: 1, error_high: 1 };
  return { low: c, high: c + loss, error_low: 0, error_high: 1 };
}

/**
 * Where a piece of a run lay along everything that entered. `top_m` and `bottom_m` run from the top of what came up,
 * fall-in included. Null where the whole piece is fall-in, or nothing is known of what the run removed.
 */
export function placePiece(
  run: ReducedRun,
  inflows: readonly Inflow[],
  top_m: number,
  bottom_m: number,
): PlacedPiece | null {
  if (run.removed_from === 'nothing' || !(bottom_m > run.fall_in_m)) return null;
  const recovered = run.recovered_m === null ? run.removed_m : run.recovered_m - run.fall_in_m;
  if (!(recovered > 0)) return null;
  const place = ({ low, high, error_low, error_high }: RemovedPlace): EnteredPlace => ({
    low_m: enteredAt(inflows, run.column_top_m + low),
    high_m: enteredAt(inflows, run.column_top_m + high),
    shared: run.row_id,
    error_low,
    error_high,
  });
  const top = alongRemoved(run, top_m);
  const bottom = alongRemoved(run, bottom_m);
  const middle = (p: { low: number; high: number }) => run.column_top_m + (p.low + p.high) / 2;
  const column = middle(bottom) - middle(top);
  return {
    top: place(top),
    bottom: place(bottom),
    fall_in_m: Math.max(0, Math.min(bottom_m, run.fall_in_m) - Math.max(0, top_m)),
    inflow_m: column - (enteredAt(inflows, middle(bottom)) - enteredAt(inflows, middle(top))),
    beyond_m: Math.max(0, bottom_m - run.fall_in_m - recovered),
  };
}
