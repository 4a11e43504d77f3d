/** Where the parts of the drawing to scale stand: lanes across, depth down. Depths are to scale, widths are not. */
import type { Scale } from '@stillstand/output/drawing';
import type { HoleView } from './view.ts';

/** Lanes across, points. */
export const X = { staff: 20, groundLeft: 27, pipe: 65.5, groundRight: 99, joints: 104 } as const;
export const TOP = 10;
/** Room above the collar for the cable and its tape. */
export const CABLE = 22;

export interface Place {
  view: HoleView;
  depth: Scale;
  /** Depth of the collar below the ground: negative above it. */
  collar: number | null;
  id: string;
  danger: string;
}
