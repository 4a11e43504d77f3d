/** How deep the holes are meant to go, and whether the pipe at hand reaches that. */
import type { Campaign } from '@stillstand/campaign/document';
import { type Problem, problem } from '@stillstand/campaign/problems';
import type { Row } from '@stillstand/campaign/tables';
import { atLeast, atMost } from '@stillstand/science/base';
import { ofPipe, pipeAtHand } from './pipe-at-hand.ts';
import { type PipeItem, pipeInventory } from './pipe-inventory.ts';

/** Left over the ground for clamp and drive head, m, and the overlap of two joints, 1 1/4 in (common practice, no source). */
export const USUAL_STICK_UP_M = 0.8;
export const USUAL_MAKEUP_LOSS_M = 0.03175;

/** A hole that is planned by a pipe string, and the depth it is to reach. */
export interface PlannedDepth {
  hole: string;
  row_id: string;
  target_m: number;
  /** Kind of pipe it is drilled with; null where it is not stated. */
  pipe: string | null;
}

interface TargetDepth extends PlannedDepth {
  /** Joints at hand that go into its string, and what they reach, m below ground. */
  joints: number;
  reach_m: number;
  /** How much that falls short, m; 0: it reaches. */
  short_m: number;
}

/** Of joints that state none of their own: that of the kind of pipe, else the usual one, m. */
export const lossOf = (pipes: readonly Row<'pipes'>[], pipe: string | null): number =>
  (pipe === null ? pipes[0] : pipes.find((kind) => kind.pipe === pipe))?.makeup_loss_m ?? USUAL_MAKEUP_LOSS_M;

/** The deepest first. */
export const plannedDepths = (holes: readonly Row<'holes'>[]): PlannedDepth[] =>
  holes
    .flatMap(({ hole, row_id, method, state, pipe, target_depth_m: target_m }) =>
      method === 'string' && state === 'planned' && target_m !== null
        ? [{ hole, row_id, target_m, pipe }]
        : [],
    )
    .sort((a, b) => b.target_m - a.target_m);

/** The same, held against the pipe at hand of the kind each is drilled with. */
export function targetDepths(
  campaign: Pick<Campaign, 'rows' | 'skipped_rows'>,
  items: readonly PipeItem[] = pipeInventory(campaign),
): TargetDepth[] {
  return plannedDepths(campaign.rows.holes).map((planned) => {
    const loss_m = lossOf(campaign.rows.pipes, planned.pipe);
    const { reach_m, joints } = pipeAtHand(ofPipe(items, planned.pipe), loss_m, USUAL_STICK_UP_M);
    return { ...planned, joints, reach_m, short_m: Math.max(0, planned.target_m - reach_m) };
  });
}

export function targetProblems(campaign: Pick<Campaign, 'rows' | 'skipped_rows' | 'lines'>): Problem[] {
  // Without any joint recorded nobody keeps the stock here.
  const items = pipeInventory(campaign);
  if (!items.some(({ item }) => item === 'joint')) return [];
  return targetDepths(campaign, items)
    .filter(({ short_m }) => short_m > 0)
    .map(({ hole, row_id, target_m, pipe, joints, reach_m, short_m }) =>
      problem({
        severity: 'warning',
        code: 'target-below-pipe',
        table: 'holes',
        row_id,
        line: campaign.lines.get(row_id) ?? null,
        label: hole,
        column: 'target_depth',
        found: `${target_m.toFixed(2)} m`,
        expected: `a depth that the ${joints} joints${pipe === null ? '' : ` of ${pipe}`} at hand reach: ${atMost(reach_m, 2).toFixed(2)} m with ${USUAL_STICK_UP_M.toFixed(2)} m left over the ground`,
        fix: `Carry pipe for ${atLeast(short_m, 2).toFixed(2)} m more, or lessen the depth.`,
      }),
    );
}
