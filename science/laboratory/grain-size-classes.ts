/** Udden–Wentworth classes: Wentworth 1922, J. Geology 30:377–392; φ = −log2(mm), Krumbein 1934. */
import { power } from '@stillstand/science/base';

/** φ falls towards coarser. Diameters: mm_min ≤ d < mm_max; null where open. */
export interface GrainSizeClass {
  name: string;
  phi_finer_limit: number | null;
  phi_coarser_limit: number | null;
  mm_min: number | null;
  mm_max: number | null;
}

const between = (
  name: string,
  phi_coarser_limit: number | null,
  phi_finer_limit: number | null,
): GrainSizeClass => ({
  name,
  phi_finer_limit,
  phi_coarser_limit,
  // Powers of two: exact.
  mm_min: phi_finer_limit === null ? null : power(2, -phi_finer_limit),
  mm_max: phi_coarser_limit === null ? null : power(2, -phi_coarser_limit),
});

/** From coarse to fine. Boulder to clay seen in a copy; the parts of silt from memory. */
export const grainSizeClasses: readonly GrainSizeClass[] = [
  between('boulder', null, -8),
  between('cobble', -8, -6),
  between('pebble', -6, -2),
  between('granule', -2, -1),
  between('very coarse sand', -1, 0),
  between('coarse sand', 0, 1),
  between('medium sand', 1, 2),
  between('fine sand', 2, 3),
  between('very fine sand', 3, 4),
  between('coarse silt', 4, 5),
  between('medium silt', 5, 6),
  between('fine silt', 6, 7),
  between('very fine silt', 7, 8),
  between('clay', 8, null),
];
