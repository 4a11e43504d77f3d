/**
 * The axis on which a hole is computed: metres of ground without the beds that took no time, each counted for as long as
 * its sediment usually takes. With o_j the prior mean of ln(yr/m) of section j less that of the hole, u_j = μ + o_j + s·w_j
 * is the same as a metre counted e^(o_j) times and u_j − o_j for u: no density and no move of the chain knows of it. The
 * persistence of accumulation is that of the ground's own metres.
 */
import { exp, log } from '@stillstand/science/base';
import { type Beds, withoutBeds } from './beds.ts';
import type { Layer } from './model.ts';
import { sectionAt } from './section.ts';

export interface Axis {
  beds: Beds;
  /** Boundaries of the sections, without beds: metres of ground, and as they count. */
  ground_m: Float64Array;
  counted_m: Float64Array;
  /** By section: counted metres in one of ground. */
  weight: Float64Array;
  /** Mean over the hole of their logarithms. */
  logWeight: number;
}

/** `usual_mm_yr`: accumulation of what no layer is known of. */
export function axisOf(
  beds: Beds,
  ground_m: Float64Array,
  layers: readonly Layer[],
  states: number,
  usual_mm_yr: number,
): Axis {
  const n = ground_m.length - 1;
  if (layers.length === 0)
    return { beds, ground_m, counted_m: ground_m, weight: new Float64Array(n).fill(1), logWeight: 0 };
  const metres = new Float64Array(n);
  const offset = new Float64Array(n);
  for (let k = 0; k < states; k++) {
    for (const { top_m, bottom_m, usual_mm_yr: own } of layers) {
      const top = withoutBeds(beds, Math.max(0, top_m[k]!), k);
      const bottom = Math.min(ground_m[n]!, withoutBeds(beds, bottom_m[k]!, k));
      const longer = log(usual_mm_yr / own);
      for (let j = sectionAt(ground_m, top); j < n && ground_m[j]! < bottom; j++) {
        const shared = Math.min(bottom, ground_m[j + 1]!) - Math.max(top, ground_m[j]!);
        if (!(shared > 0)) continue;
        metres[j] = metres[j]! + shared;
        offset[j] = offset[j]! + shared * longer;
      }
    }
  }
  const counted_m = Float64Array.of(0, ...ground_m.subarray(1));
  const weight = new Float64Array(n);
  let logs = 0;
  for (let j = 0; j < n; j++) {
    const thickness = ground_m[j + 1]! - ground_m[j]!;
    // Layers that overlap share what they overlap in.
    const mean = offset[j]! / Math.max(metres[j]!, states * thickness);
    weight[j] = exp(mean);
    logs += thickness * mean;
    counted_m[j + 1] = counted_m[j]! + thickness * weight[j]!;
  }
  return { beds, ground_m, counted_m, weight, logWeight: logs / ground_m[n]! };
}

/** Where a depth below the ground lies in a state of the hole, as metres count. */
export function counted({ beds, ground_m, counted_m, weight }: Axis, depth_m: number, state: number): number {
  const depth = withoutBeds(beds, depth_m, state);
  if (counted_m === ground_m) return depth;
  const j = sectionAt(ground_m, depth);
  return counted_m[j]! + (depth - ground_m[j]!) * weight[j]!;
}
