/** How deep the holes are meant to go, and whether the pipe at hand reaches that. */
import type { Campaign } from '@stillstand/campaign/document';
import { type Problem, problem } from '@stillstand/campaign/problems';
import { atLeast, atMost } from '@stillstand/science/base';
import { pipeAtHand } from './pipe-at-hand.ts';
import { pipeInventory } from './pipe-inventory.ts';

/** Left over the ground for clamp and drive head, m, and the overlap of two joints, 1 1/4 in (common practice, no source). */
const USUAL_STICK_UP_M = 0.8;
const USUAL_MAKEUP_LOSS_M = 0.03175;

export interface TargetDepth {
  hole: string;
  row_id: string;
  target_m: number;
  /** How much the pipe at hand falls short, m; 0: it reaches. */
  short_m: number;
}

interface Lengths {
  /** Of joints that have no loss of their own. */
  makeup_loss_m: number;
  stick_up_m: number;
}

/** Holes that are planned by a pipe string and have a depth to reach, the deepest first; none where no joint is recorded. */
export function targetDepths(
  campaign: Pick<Campaign, 'rows' | 'skipped_rows' | 'lines'>,
  { makeup_loss_m, stick_up_m }: Lengths,
): { reach_m: number; joints: number; holes: TargetDepth[] } {
  const { reach_m, joints } = pipeAtHand(pipeInventory(campaign), makeup_loss_m, stick_up_m);
  const holes = campaign.rows.holes.flatMap((row): TargetDepth[] =>
    row.method === 'string' && row.state === 'planned' && row.target_depth_m !== null
      ? [
          {
            hole: row.hole,
            row_id: row.row_id,
            target_m: row.target_depth_m,
            short_m: Math.max(0, row.target_depth_m - reach_m),
          },
        ]
      : [],
  );
  return { reach_m, joints, holes: holes.sort((a, b) => b.target_m - a.target_m) };
}

export function targetProblems(campaign: Pick<Campaign, 'rows' | 'skipped_rows' | 'lines'>): Problem[] {
  const lengths = { makeup_loss_m: USUAL_MAKEUP_LOSS_M, stick_up_m: USUAL_STICK_UP_M };
  const { reach_m, joints, holes } = targetDepths(campaign, lengths);
  // Without any joint recorded nobody keeps the stock here.
  if (joints === 0) return [];
  return holes
    .filter(({ short_m }) => short_m > 0)
    .map(({ hole, row_id, target_m, short_m }) =>
      problem({
        severity: 'warning',
        code: 'target-below-pipe',
        table: 'holes',
        row_id,
        line: campaign.lines.get(row_id) ?? null,
        label: hole,
        column: 'target_depth',
        found: `${target_m.toFixed(2)} m`,
        expected: `a depth that the ${joints} joints at hand reach: ${atMost(reach_m, 2).toFixed(2)} m with ${USUAL_STICK_UP_M.toFixed(2)} m left over the ground`,
        fix: `Carry pipe for ${atLeast(short_m, 2).toFixed(2)} m more, or lessen the depth.`,
      }),
    );
}
