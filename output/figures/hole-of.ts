/** The hole a figure is asked for, and what it must say of it. */
import { isGivenUp } from '@stillstand/campaign/holes';
import type { HoleResult, Results } from '@stillstand/campaign/results';
import type { Warning } from './figure.tsx';

export function holeOf(results: Results, label: string, figure: string): HoleResult {
  const hole = results.holes.find((h) => h.hole === label);
  if (hole === undefined) {
    throw new RangeError(
      `${figure}: expected one of ${results.holes.map((h) => h.hole).join(', ')}, found ${label}`,
    );
  }
  return hole;
}

/** That a hole was lost or abandoned, why, and what it left in the ground. */
export const lostWarning = (hole: HoleResult): Warning[] =>
  isGivenUp(hole.state)
    ? [
        {
          kind: 'caution',
          text: `Hole ${hole.state}${hole.end_reason === null ? '' : `: ${hole.end_reason}`}${hole.left_in_ground === null ? '' : `; left in the ground: ${hole.left_in_ground}`}`,
        },
      ]
    : [];
