/** What is doubtful of one ΔR from several shells. */
import { FEW_SHELLS, type PooledOffset } from '@stillstand/science/dating';

export interface ReservoirDoubt {
  code: string;
  found: string;
  expected: string;
  fix: string;
}

export function reservoirDoubts({ n, p, chi_square, degrees }: PooledOffset): ReservoirDoubt[] {
  return [
    ...(p < 0.05
      ? [
          {
            code: 'reservoir-disagrees',
            found: `chi-square ${chi_square.toFixed(1)} with ${degrees} degrees of freedom, p ${p.toFixed(3)}`,
            expected: 'shells that differ by no more than their errors (p of at least 0.05)',
            fix: 'A mean of two waters is the mean of neither: compare species, feeding, depth and season, and divide the group.',
          },
        ]
      : []),
    ...(n < FEW_SHELLS
      ? [
          {
            code: 'reservoir-few',
            found: `${n} ${n === 1 ? 'shell' : 'shells'}`,
            expected: `at least ${FEW_SHELLS}`,
            fix: 'So few show little of the spread: the error offered may be too small. Date more, or widen it.',
          },
        ]
      : []),
  ];
}
