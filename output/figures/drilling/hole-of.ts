/** The hole a figure of drilling is asked for, and what it must say of it. */
import type { HoleResult, Results } from '@stillstand/campaign/results';
import type { Warning } from '../figure.tsx';

export function holeOf(results: Results, label: string, figure: string): HoleResult {
  const hole = results.holes.find((h) => h.hole === label);
  if (hole === undefined) {
    throw new RangeError(
      `${figure}: expected one of ${results.holes.map((h) => h.hole).join(', ')}, found ${label}`,
    );
  }
  return hole;
}

export const lostWarning = (hole: HoleResult): Warning[] =>
  hole.state === 'lost'
    ? [
        {
          kind: 'caution',
          text: `Hole lost${hole.end_reason === null ? '' : `: ${hole.end_reason}`}${hole.left_in_ground === null ? '' : `; left in the ground: ${hole.left_in_ground}`}`,
        },
      ]
    : [];
