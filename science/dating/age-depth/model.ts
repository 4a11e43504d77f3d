/** What age against depth takes and gives. Depths m below the ground, ages cal BP (yr before 1950 CE). */
import type { History } from './result.ts';

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

/** A bed laid down at once, such as by a storm or a flood: its top and base are of one age. Pieces of one bed share its id. */
export interface Bed {
  id: string;
  top_m: Float64Array;
  bottom_m: Float64Array;
}

/** A layer whose sediment is known, and how fast such sediment usually gathers. */
export interface Layer {
  top_m: Float64Array;
  bottom_m: Float64Array;
  usual_mm_yr: number;
}

/**
 * A clock that reads the ages of several depths at once: `logLikelihood` of the ages (cal BP) of `ends_m`, from the top
 * down, up to a constant. Its depths are taken as exact, and no break or bed may lie among them.
 */
export interface Profile {
  id: string;
  ends_m: Float64Array;
  logLikelihood: (age_cal_bp: Float64Array) => number;
}

export interface AgeDepthInput {
  horizons: readonly DatedHorizon[];
  /** Age of the ground; null where its top may be missing: any age in the settings' range. */
  surface: { age_cal_bp: number; sd_yr: number } | null;
  breaks: readonly Break[];
  profiles?: readonly Profile[];
  beds?: readonly Bed[];
  layers?: readonly Layer[];
  /** The ages reach from the ground down to here, or to the deepest draw. */
  bottom_m: number;
}

export type AgeDepth = History & {
  readonly kind: 'age_depth';
  /**
   * Ages, one per kept draw, of one depth or of joint draws of it (as many as the horizons have); draw i of every answer
   * is one history of the hole, so ages keep what they share. Above the ground its age; NaN below the bottom.
   * @throws RangeError for draws of another number.
   */
  agesAt(depth_m: number | Float64Array): Float64Array;
  /** The depths that go with them, one per kept draw, of joint draws of a depth. Same errors. */
  depthsAt(depth_m: Float64Array): Float64Array;
};

export interface NotEnough {
  kind: 'not_enough';
  reason: string;
}
