/** Where the parts of the drawing to scale stand: lanes across, depth down. Depths are to scale, widths are not. */
import { type Scale, scale } from '@stillstand/output/drawing';
import type { HoleView } from './view.ts';

/** Lanes across, points. */
export const X = { staff: 20, groundLeft: 27, pipe: 65.5, groundRight: 99, joints: 104 } as const;
export const TOP = 10;
/** Room above the collar for the cable and its tape. */
const CABLE = 22;

export interface Place {
  view: HoleView;
  depth: Scale;
  /** Depth of the collar below the ground: negative above it. */
  collar: number | null;
  id: string;
  danger: string;
}

/** A hole not begun is drawn this deep. */
const LEAST_DEPTH_M = 3;

/** Of what is expected, as much is shown as this part of the hole so far, or so much, m. */
const AHEAD_SHARE = 0.3;
const AHEAD_M = 1.5;
/** Below the last layer, for the word that says what it is. */
const AHEAD_WORD_M = 0.4;

/** Depth below the ground, down the drawing: all of the string, what stayed in the ground, and some of what is expected. */
export function depthScale(view: HoleView, height: number): Scale {
  const shown = collarDepth(view);
  const deepest = Math.max(
    LEAST_DEPTH_M,
    (view.shoe_depth_m ?? 0) + 0.25,
    shown === null || view.collar_to_shoe_m === null ? 0 : shown + view.collar_to_shoe_m + 0.25,
    ...view.left.map((l) => l.bottom_m + 0.25),
  );
  const limit = deepest + Math.max(AHEAD_M, AHEAD_SHARE * deepest);
  const ahead = view.ahead.filter(({ from_m }) => from_m < limit).map(({ to_m }) => to_m + AHEAD_WORD_M);
  const lowest = Math.max(deepest, Math.min(limit, ahead.at(-1) ?? 0));
  const above = Math.max(0.6, shown === null ? 0 : -shown, -(view.water_outside_m ?? 0) + 0.2);
  return scale(-above, lowest, TOP + CABLE, height - 4);
}

/** Where the collar stands, below the ground; a string being pulled, whose height nobody reads, is drawn a metre up. */
export function collarDepth(view: HoleView): number | null {
  if (view.items.length === 0) return null;
  return view.collar_above_ground_m === null ? -1 : -view.collar_above_ground_m;
}
