/** A sample as the points need it: plain data, in a hole or of the surface. */
import type { SampleResult } from '@stillstand/campaign/results';
import type { Row } from '@stillstand/campaign/tables';
import type { Elevation } from '../heights/elevation.ts';
import { elevationEstimate } from './hole-result.ts';
import type { Loading } from './shared-depth-errors.ts';

export interface PlacedSample {
  sample: string;
  /** Null for a sample of the surface, not of a hole. */
  hole: string | null;
  site: string | null;
  /** Middle, on the campaign datum. */
  elevation_m: number | null;
  /** The reference it is measured from, or the sample's own height where it was levelled itself. */
  height: Elevation | null;
  depth_m: number | null;
  thickness_m: number | null;
  /** Joint draws of its middle: draw k of all samples of a hole is one state of it. Null without a depth. */
  depth_draws: Float64Array | null;
  /** 1 sigma of the depth model, parted into the sample's own and what the hole shares. */
  depth_sigma_m: Loading | null;
  /** What depends on other rows, its dates and its point, is added where results are put together. */
  result: Omit<SampleResult, 'dated' | 'components'>;
}

/** What a result repeats of its row. */
export const namedOf = ({ row_id, sample, hole, material }: Row<'samples'>) => ({
  row_id,
  sample,
  hole,
  material,
});

/** A sample without a depth; with an elevation where it was levelled itself. */
export function nowhere(
  row: Row<'samples'>,
  site: string | null,
  height: Elevation | null,
  thickness_m: number | null,
): PlacedSample {
  return {
    sample: row.sample,
    hole: row.hole,
    site,
    elevation_m: height?.value_m ?? null,
    height,
    depth_m: null,
    thickness_m,
    depth_draws: null,
    depth_sigma_m: null,
    result: {
      ...namedOf(row),
      site,
      depth_m: null,
      thickness_m,
      elevation_m: height === null ? null : elevationEstimate(height),
    },
  };
}
