/** One hole without gaps or overlaps: what nobody described is a layer without a name. */
import type { SectionColumn } from './shape.ts';

export interface Layer {
  /** Null: nobody described it. */
  id: string | null;
  top_m: number;
  bottom_m: number;
  sediment: string;
  isErosional: boolean;
  isBaseSeen: boolean;
}

export interface Stack {
  hole: string;
  along_m: number;
  ground_m: number;
  layers: readonly Layer[];
}

/** Nearer than this two units touch, and the first the ground: what depths of cores are out by; m. */
const TOUCH_M = 0.02;

/** Where two units overlap, the upper one is kept; what lies above the ground is left out. */
export function stackOf({ hole, along_m, ground_m, units }: SectionColumn): Stack {
  const layers: Layer[] = [];
  let at_m = ground_m;
  for (const { id, top_m, bottom_m, sediment, base, isBaseSeen } of units) {
    if (!Number.isFinite(top_m) || !Number.isFinite(bottom_m)) continue;
    if (top_m < at_m - TOUCH_M) {
      layers.push({
        id: null,
        top_m: at_m,
        bottom_m: top_m,
        sediment: '',
        isErosional: false,
        isBaseSeen: false,
      });
      at_m = top_m;
    }
    const bottom = Math.min(at_m, bottom_m);
    layers.push({
      id,
      top_m: at_m,
      bottom_m: bottom,
      sediment,
      isErosional: base === 'erosional',
      isBaseSeen,
    });
    at_m = bottom;
  }
  return { hole, along_m, ground_m, layers };
}

export const thickness = ({ top_m, bottom_m }: Layer): number => top_m - bottom_m;
