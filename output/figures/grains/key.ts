/** Grain-size analyses of a hole with the numbers their curves and points have, from the top down. */
import type { GrainSizeResult, Results } from '@stillstand/campaign/results';
import { printed } from '@stillstand/output/words';

export interface NumberedGrains {
  number: number;
  size: GrainSizeResult;
  /** φ and per cent coarser at each limit, from coarse to fine. */
  curve: readonly (readonly [phi: number, percent: number])[];
}

/** Those that are whole; `left` were not put together to one, and are listed in the table alone. */
export function numberedGrains(
  { grain_sizes }: Results,
  hole: string,
): { of: NumberedGrains[]; left: number } {
  const all = grain_sizes.filter((each) => each.hole === hole);
  const whole = all.filter((each) => each.open_fine_percent !== null);
  const depth = (each: GrainSizeResult): number => each.depth_m?.value ?? Infinity;
  return {
    of: whole
      .toSorted((a, b) => (depth(a) < depth(b) ? -1 : depth(a) > depth(b) ? 1 : 0))
      .map((size, i) => ({ number: i + 1, size, curve: curveOf(size) })),
    left: all.length - whole.length,
  };
}

/** Limits there are: of a class without an end only the other one. */
function curveOf({ classes }: GrainSizeResult): [number, number][] {
  const sum = classes.reduce((total, { percent }) => total + percent, 0);
  const curve = new Map<number, number>();
  let passed = 0;
  for (const { coarser_phi, finer_phi, percent } of classes) {
    if (coarser_phi !== null) curve.set(coarser_phi, passed);
    passed = Math.min(100, passed + (100 * percent) / sum);
    if (finer_phi !== null) curve.set(finer_phi, passed);
  }
  return [...curve].sort((a, b) => a[0] - b[0]);
}

/** "1.20 m" and "4.1 φ, 1.2, sandy mud": graphic mean and sorting, or the median. */
export function grainsWords({ size }: NumberedGrains): { where: string; what: string } {
  const { depth_m, sample, name, folk_ward, median_phi } = size;
  return {
    where: depth_m === null ? (sample ?? 'no depth') : `${printed(depth_m.value, 2)} m`,
    what: [
      folk_ward !== null
        ? `${printed(folk_ward.mean_phi, 1)} φ, ${printed(folk_ward.sorting_phi, 1)}`
        : median_phi !== null
          ? `median ${printed(median_phi, 1)} φ`
          : '',
      name ?? 'no name',
    ]
      .filter((word) => word !== '')
      .join(', '),
  };
}
