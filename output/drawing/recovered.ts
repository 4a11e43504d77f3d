/** A run as a bar: black came up, crossed did not, each where it was lost. */
import type { RunResult } from '@stillstand/campaign/results';
import { box, crossed, polygon } from './path.ts';

/** Less than this, points of paper, is not drawn as lost. */
const NOTHING = 0.4;

type Run = Pick<
  RunResult,
  'loss_position' | 'recovered_m' | 'fall_in_m' | 'removed_m' | 'entered_top_m' | 'entered_bottom_m'
>;

/** How much of what was removed came up in its order, fall-in left out; between 0 and 1. */
function share(run: Run): number {
  const removed = run.removed_m > 0 ? run.removed_m : run.entered_bottom_m - run.entered_top_m;
  return removed > 0 ? Math.min(1, Math.max(0, (run.recovered_m - run.fall_in_m) / removed)) : 1;
}

/** Whether the bar is slanted: something is missing and nobody knows at which end. */
export const lossUnknown = (run: Run): boolean =>
  run.loss_position === 'unknown' && share(run) > 0 && share(run) < 0.99;

/**
 * Paths of what came up (to be filled) and of what did not (to be stroked), in a bar from (x1, top) to (x2, bottom).
 * Loss spread along the run leaves a narrower bar; loss at an unknown place a slanted one, of which every upright line
 * is one possible place: all lost on top at the left edge, all at the base at the right.
 */
export function recoveredBar(
  run: Run,
  x1: number,
  x2: number,
  top: number,
  bottom: number,
): { solid: string; lost: string } {
  const missing = (bottom - top) * (1 - share(run));
  if (missing <= NOTHING) return { solid: box(x1, top, x2, bottom), lost: '' };
  if (bottom - top - missing <= NOTHING) return { solid: '', lost: crossed(x1, top, x2, bottom) };
  switch (run.loss_position) {
    case 'top':
      return { solid: box(x1, top + missing, x2, bottom), lost: crossed(x1, top, x2, top + missing) };
    case 'spread': {
      const edge = x1 + (x2 - x1) * share(run);
      return { solid: box(x1, top, edge, bottom), lost: crossed(edge, top, x2, bottom) };
    }
    case 'unknown':
      return {
        solid: polygon([
          [x1, top + missing],
          [x2, top],
          [x2, bottom - missing],
          [x1, bottom],
        ]),
        lost: box(x1, top, x2, bottom),
      };
    default:
      return { solid: box(x1, top, x2, bottom - missing), lost: crossed(x1, bottom - missing, x2, bottom) };
  }
}
