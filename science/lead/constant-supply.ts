/**
 * Constant rate of supply: each year brings the same lead-210, whatever else is laid down with it (Appleby & Oldfield
 * 1978, Catena 5:1–8; from memory). t = ln(A(0)/A(x))/λ with A(x) the unsupported inventory below x.
 */
import { log } from '@stillstand/science/base';
import type { Reading } from './reading.ts';

export interface SupplyAges {
  /** Years before collection, at the middle and the base of each cell; Infinity where nothing is left below. */
  middle: Float64Array;
  base: Float64Array;
  /** Mass accumulation in each cell, g/cm²/yr: λA/C with A at its middle; NaN where C is not above 0. */
  rate_g_cm2_yr: Float64Array;
  /** Unsupported inventory, Bq/m², and supply, Bq/m²/yr. */
  inventory_bq_m2: number;
  supply_bq_m2_yr: number;
}

/** `mass_kg_m2` of each cell; `below_bq_m2`: inventory below the last of them. */
export function constantSupply(
  { lambda, excess }: Reading,
  mass_kg_m2: Float64Array,
  below_bq_m2: number,
): SupplyAges {
  const n = excess.length;
  const left = new Float64Array(n + 1);
  left[n] = below_bq_m2;
  for (let i = n - 1; i >= 0; i--) left[i] = left[i + 1]! + excess[i]! * mass_kg_m2[i]!;
  const inventory_bq_m2 = left[0]!;
  const age = (inventory: number): number =>
    inventory > 0 ? log(inventory_bq_m2 / inventory) / lambda : Infinity;
  const middle = new Float64Array(n);
  const base = new Float64Array(n);
  const rate_g_cm2_yr = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    const at = (left[i]! + left[i + 1]!) / 2;
    middle[i] = age(at);
    base[i] = age(left[i + 1]!);
    // 1 kg/m² is 0.1 g/cm².
    rate_g_cm2_yr[i] = excess[i]! > 0 && at > 0 ? (0.1 * lambda * at) / excess[i]! : NaN;
  }
  return { middle, base, rate_g_cm2_yr, inventory_bq_m2, supply_bq_m2_yr: lambda * inventory_bq_m2 };
}
