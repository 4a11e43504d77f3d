/**
 * What the smooth-rate model takes; `result.ts` says what it gives. Ages are cal BP (yr before 1950 CE), heights metres above the campaign
 * datum, rates mm/yr positive towards a rising sea.
 */

import type { AgeConstraint, HoleOfClocks } from '@stillstand/science/clocks';

/**
 * The age of a depth in a hole whose clocks are read together; the dates of the hole enter there, and nowhere else. Points of
 * one hole need the same `clocks`.
 */
export interface AgeOfHole {
  kind: 'of_hole';
  clocks: HoleOfClocks;
  /** Joint draws of the sample's depth, m below the ground: draw k is the same state of the hole as of its dates. */
  depth_m: Float64Array;
  /** The depth that `height_m` was made for: in another state the height is as much lower as the sample is deeper. */
  height_at_m: number;
  /** Name of the date of the sample itself among those of the hole; null for none. */
  date: string | null;
  /** By the hole alone, the heights not seen: to say by how much they move it. */
  alone_cal_bp: { mean: number; sd_yr: number };
}

export interface CurvePoint {
  id: string;
  /** Terrestrial: the sea was below `height_m`. Marine: it was above. */
  kind: 'index' | 'terrestrial' | 'marine';
  height_m: number;
  /** 1 sigma of the independent normal part; > 0. */
  sigma_m: number;
  /** Half width of an independent uniform part; 0 for none. Index points only. */
  half_range_m: number;
  /** Scale (half-normal) of an unknown lowering of the sample by compaction; 0 for none. Index points only. */
  lowering_m: number;
  /**
   * Errors shared with other points: each group is one standard-normal constant, here with its 1 sigma in metres; below 0
   * where what raises the other heights of the group lowers this one.
   */
  shared: { group: string; sigma_m: number }[];
  age: AgeConstraint | AgeOfHole;
  /** A mean of a gauge, and no sample: samples may scatter beyond their errors, it does not. */
  of_gauge?: true;
  /**
   * Sediment below the sample that its load may have shortened, m, and the hole it is in: the sample now lies lower than it
   * formed by a share of it that all points of the hole have.
   */
  burial?: { hole: string; compressible_m: number } | null;
  /** Ids of points whose samples surely lie below it in one section: they are older. See `surelyBelow`. */
  older_below?: readonly string[];
}
