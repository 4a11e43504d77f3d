/** Grain size of a hole as a lane: what of each sample is clay, silt, sand and gravel. */
import type { GrainSizeResult, Results } from '@stillstand/campaign/results';

/** From the left; mud is silt and clay that were not parted. */
const PARTS = ['clay', 'mud', 'silt', 'sand', 'gravel'] as const;
export type GrainPart = (typeof PARTS)[number];

interface GrainSample {
  row_id: string;
  depth_m: number;
  thickness_m: number;
  /** Per cent, in the order of the lane's parts. */
  percents: readonly number[];
  /** Whether no contact lies between it and the sample above: what lies between may be drawn. */
  isJoined: boolean;
}

export interface GrainLane {
  kind: 'grains';
  property: string;
  unit: string;
  low: number;
  high: number;
  parts: readonly GrainPart[];
  /** From the top down. */
  samples: readonly GrainSample[];
}

/** Null where no analysis of the hole is whole and has a depth. Of two at one place the first is drawn. */
export function grainLaneOf({ grain_sizes, holes }: Results, hole: string): GrainLane | null {
  const placed = grain_sizes
    .filter((each) => each.hole === hole && each.depth_m !== null && percentsOf(each) !== null)
    .sort((a, b) => a.depth_m!.value - b.depth_m!.value)
    .filter((each, i, all) => i === 0 || each.depth_m!.value > all[i - 1]!.depth_m!.value);
  if (placed.length === 0) return null;
  const parts = PARTS.filter((_, i) => placed.some((each) => percentsOf(each)![i]! > 0));
  const contacts = holes
    .filter((each) => each.hole === hole)
    .flatMap(({ units }) => units.map(({ depth_bottom_m }) => depth_bottom_m.value));
  return {
    kind: 'grains',
    property: 'grain size',
    unit: '% of mass',
    low: 0,
    high: 100,
    parts,
    samples: placed.map((each, i) => {
      const depth_m = each.depth_m!.value;
      const above = i === 0 ? undefined : placed[i - 1]!.depth_m!.value;
      return {
        row_id: each.row_id,
        depth_m,
        thickness_m: each.thickness_m ?? 0,
        percents: percentsOf(each)!.filter((_, k) => parts.includes(PARTS[k]!)),
        isJoined: above !== undefined && !contacts.some((contact) => contact > above && contact < depth_m),
      };
    }),
  };
}

/** In the order of the parts; null where gravel or sand is not known. */
function percentsOf(size: GrainSizeResult): number[] | null {
  const { gravel_percent, sand_percent, silt_percent, clay_percent, mud_percent } = size;
  if (gravel_percent === null || sand_percent === null || mud_percent === null) return null;
  return silt_percent === null || clay_percent === null
    ? [0, mud_percent, 0, sand_percent, gravel_percent]
    : [clay_percent, 0, silt_percent, sand_percent, gravel_percent];
}
