/** Whether a coral kept its uranium: its initial δ234U should be that of the sea. */
import type { Finding } from '@stillstand/science/dating';
import type { UraniumAge } from './age.ts';

/**
 * δ234U of the sea and how far a coral may be from it, ‰ (usual screening of compilations; 147 ± 7 from memory). The sea
 * itself was up to some 10 ‰ lower in the last ice age (from memory).
 */
export const SEA_DELTA234U = { permil: 147, within: 7 } as const;

/** Null where the coral passes. Only for corals and other carbonate that took its uranium from the open sea. */
export function openSystem({
  initial_delta234u_permil: found,
  initial_delta234u_sd_permil: sd,
}: UraniumAge): Finding | null {
  const { permil, within } = SEA_DELTA234U;
  if (Math.abs(found - permil) <= within) return null;
  return {
    of: 'u234_u238',
    found: `initial δ234U ${found.toFixed(1)} ± ${sd.toFixed(1)} ‰ (1σ)`,
    expected: `${permil} ± ${within} ‰, as in sea water, for a coral that stayed closed`,
    fix: 'Uranium or thorium was probably gained or lost: the age may be wrong by far more than its error.',
  };
}
