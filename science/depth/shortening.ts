import { exp } from '@stillstand/science/base';

/**
 * Entered length at penetration P (m, ≥ 0) where local recovery at depth z is 1 − (1 − ρ₀)·e^(−z/ℓ):
 * E(P) = P − (1 − ρ₀)·ℓ·(1 − e^(−P/ℓ)). ρ₀ in (0, 1], ℓ > 0 m.
 */
export function enteredLength(penetration_m: number, recovery_at_ground: number, length_m: number): number {
  return penetration_m - (1 - recovery_at_ground) * length_m * (1 - exp(-penetration_m / length_m));
}
