/** What age against depth takes and gives. Depths m below the ground, ages cal BP (yr before 1950 CE). */
import type { Band, QuantitySummary as Summary } from '@stillstand/science/base';

export interface DatedHorizon {
  id: string;
  /** Joint draws of the hole's depth model: draw k of every horizon and break is one state of the hole. */
  depth_m: Float64Array;
  /** What the date says of its age: `density[i]` for the year `from_cal_bp + i`, need not be normalised. */
  age: { from_cal_bp: number; density: Float64Array };
}

/** An erosional contact: below it the ground is older by a gap of unknown length. */
export interface Break {
  id: string;
  depth_m: Float64Array;
}

export interface AgeDepthInput {
  horizons: readonly DatedHorizon[];
  /** Age of the ground; null where its top may be missing: any age in the settings' range. */
  surface: { age_cal_bp: number; sd_yr: number } | null;
  breaks: readonly Break[];
  /** The ages reach from the ground down to here, or to the deepest draw. */
  bottom_m: number;
}

export interface HorizonAge {
  id: string;
  /** Of the layer, given the whole hole. */
  age_cal_bp: Summary;
  /** Of the date alone. */
  dated_cal_bp: { mean: number; sd: number };
  /** (mean of the layer − mean of the date) ÷ sd of the date. */
  age_shift_sd: number;
  /** Probability that what was dated is not of the age of its layer. */
  out_of_place: number;
}

export interface AgeDepth {
  kind: 'age_depth';
  /** Boundaries of the sections, from 0 to the bottom. */
  depth_m: Float64Array;
  age_cal_bp: Band;
  /** Over the sections that meet there; gaps do not count. */
  accumulation_mm_yr: Band;
  horizons: HorizonAge[];
  breaks: { id: string; gap_yr: Summary }[];
  /** Median accumulation of the hole, 1 sd of its logarithm, and the depth over which it persists. */
  hole: { accumulation_mm_yr: Summary; variation: Summary; persistence_m: Summary };
  /**
   * Ages, one per kept draw, of one depth or of joint draws of it (as many as the horizons have); draw i of every answer
   * is one history of the hole, so ages keep what they share. Above the ground its age; NaN below the bottom.
   * @throws RangeError for draws of another number.
   */
  agesAt(depth_m: number | Float64Array): Float64Array;
  diagnostics: {
    converged: boolean;
    rhat_max: number;
    ess_bulk_min: number;
    ess_tail_min: number;
    chains: number;
    /** Kept of each chain. */
    draws: number;
    /** Of each chain, warm-up included. */
    sweeps: number;
    /** What did not converge, in words. */
    remarks: string[];
  };
}

export interface NotEnough {
  kind: 'not_enough';
  reason: string;
}
