/** How deep the holes are meant to go, and whether the pipe at hand reaches that. */
import type { Campaign } from '@stillstand/campaign/document';
import { type Problem, problem } from '@stillstand/campaign/problems';
import type { Row } from '@stillstand/campaign/tables';
import { atLeast, atMost } from '@stillstand/science/base';
import { pipeAtHand } from './pipe-at-hand.ts';
import { pipeInventory } from './pipe-inventory.ts';

/** Left over the ground for clamp and drive head, m, and the overlap of two joints, 1 1/4 in (common practice, no source). */
export const USUAL_STICK_UP_M = 0.8;
export const USUAL_MAKEUP_LOSS_M = 0.03175;

/** A hole that is planned by a pipe string, and the depth it is to reach. */
export interface PlannedDepth {
  hole: string;
  row_id: string;
  target_m: number;
}

interface TargetDepth extends PlannedDepth {
  /** How much the pipe at hand falls short, m; 0: it reaches. */
  short_m: number;
}

interface Lengths {
  /** Of joints that have no loss of their own. */
  makeup_loss_m: number;
  stick_up_m: number;
}

/** The deepest first. */
export const plannedDepths = (holes: readonly Row<'holes'>[]): PlannedDepth[] =>
  holes
    .flatMap(({ hole, row_id, method, state, target_depth_m: target_m }) =>
      method === 'string' && state === 'planned' && target_m !== null ? [{ hole, row_id, target_m }] : [],
    )
    .sort((a, b) => b.target_m - a.target_m);

/** The same, held against the pipe at hand. */
export function targetDepths(
  campaign: Pick<Campaign, 'rows' | 'skipped_rows' | 'lines'>,
  { makeup_loss_m, stick_up_m }: Lengths,
): { reach_m: number; joints: number; holes: TargetDepth[] } {
  const { reach_m, joints } = pipeAtHand(pipeInventory(campaign), makeup_loss_m, stick_up_m);
  const holes = plannedDepths(campaign.rows.holes).map((planned) => ({
    ...planned,
    short_m: Math.max(0, planned.target_m - reach_m),
  }));
  return { reach_m, joints, holes };
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
