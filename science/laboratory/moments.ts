/** Mean, spread, skewness and kurtosis by the method of moments, in φ (Krumbein & Pettijohn 1938, from memory). */
import { power } from '@stillstand/science/base';
import type { SizeRange } from './size-range.ts';

export interface Moments {
  mean_phi: number;
  sd_phi: number;
  /** Third moment over sd³; positive: a fine tail. */
  skewness: number;
  /** Fourth moment over sd⁴; 3 for a normal. */
  kurtosis: number;
  /** Whether a class without an end was given one, as wide as its neighbour. */
  is_closed: boolean;
}

/** So much in a class without an end, per cent, and the moments depend on where it is made to end (common practice, no source). */
const MOST_OPEN = 5;

/**
 * Classes of a whole analysis from coarse to fine, in per cent; each at the middle of its limits, without a correction
 * for their width. Null where an open class holds more than 5 %, stands alone, or nothing spreads.
 */
export function moments(classes: readonly (SizeRange & { percent: number })[]): Moments | null {
  let is_closed = false;
  const middles: number[] = [];
  for (const [i, { coarser_phi, finer_phi, percent }] of classes.entries()) {
    if (coarser_phi !== null && finer_phi !== null) {
      middles.push((coarser_phi + finer_phi) / 2);
      continue;
    }
    if (percent === 0) {
      middles.push(0);
      continue;
    }
    const next = coarser_phi === null ? classes[i + 1] : classes[i - 1];
    const wide = next === undefined || next.coarser_phi === null || next.finer_phi === null ? null : next;
    if (percent > MOST_OPEN || wide === null) return null;
    const half = (wide.finer_phi! - wide.coarser_phi!) / 2;
    middles.push(coarser_phi === null ? finer_phi! - half : coarser_phi + half);
    is_closed = true;
  }
  const about = (centre: number, order: number): number =>
    classes.reduce(
      (total, { percent }, i) => total + (percent / 100) * power(middles[i]! - centre, order),
      0,
    );
  const mean_phi = about(0, 1);
  const sd_phi = Math.sqrt(about(mean_phi, 2));
  if (!(sd_phi > 0)) return null;
  return {
    mean_phi,
    sd_phi,
    skewness: about(mean_phi, 3) / power(sd_phi, 3),
    kurtosis: about(mean_phi, 4) / power(sd_phi, 4),
    is_closed,
  };
}
