/**
 * What comes out of a campaign: plain data, one shape for figures, tables, report and screens. Units stand in the
 * names. `sigma` is always 1 sigma; `lower95`/`upper95` bound the central 95 %. A number that could not be computed
 * is null and a problem says why. The JSON file is this shape with each `Numbers` replaced by a reference into the
 * binary file of draws (see docs/methods/results.md).
 */
import type { Problem } from '@stillstand/campaign/problems';
import type { CurveResult } from '@stillstand/science/curve';
import type { TraceId } from './trace-id.ts';

/** A run of numbers that goes to the binary file when results are written. */
export type Numbers = Float64Array;

/** A quantity with its uncertainty, in the unit of the property's name. */
export interface Estimate {
  value: number;
  /** 1 sigma. */
  sigma: number;
  lower95: number;
  upper95: number;
}

/** An interval of a highest-density set. */
export interface AgeInterval {
  older_cal_bp: number;
  younger_cal_bp: number;
  probability: number;
}

/** One part of a height error. */
export interface ErrorComponent {
  component: string;
  /** 1 sigma, metres, of the declared shape (a uniform of half width h has h/√3). */
  sigma_m: number;
  shape: 'normal' | 'uniform' | 'one_sided';
  /** Points that name the same group share this error; null where it is the point's own. */
  shared_group: string | null;
  /** Where it comes from: "measured", "assumed: 1 % of depth", "declared" … */
  source: string;
}

/** State of a hole after one reading. Lengths in metres; null where it is not known yet. */
export interface HoleState {
  seq: number;
  table: string;
  row_id: string;
  time: string | null;
  collar_to_shoe_m: number | null;
  stick_up_m: number | null;
  penetration_m: number | null;
  plug_m: number | null;
  removed_m: number;
  entered_m: number | null;
  recovery: number | null;
}

export interface DriveResult {
  row_id: string;
  seq: number;
  from_m: number;
  to_m: number;
  /** What entered during this drive, where soundings before and after tell. */
  entered_m: number | null;
  recovery: number | null;
  rate_m_per_min: number | null;
  /** Rate usual in the hole before it (docs/methods/rig.md); null where too few drives tell. */
  usual_m_per_min: number | null;
  /** Against the usual: below half of it *slowing*, below a tenth *refusal*. */
  pace: 'steady' | 'slowing' | 'refusal' | null;
  /** Of the vibrator. */
  speed_hz: number | null;
  ended_by: string | null;
}

export interface RunResult {
  row_id: string;
  run: string;
  method: 'run' | 'push';
  removed_m: number;
  removed_sigma_m: number;
  removed_from: 'soundings' | 'advance' | 'recovered' | 'nothing' | 'push';
  recovered_m: number;
  fall_in_m: number;
  sampler_recovery: number | null;
  /** Where what was removed but did not come up is missing; null for a push. */
  loss_at: 'top' | 'base' | 'spread' | 'unknown' | null;
  /** Along everything that entered. */
  entered_top_m: number;
  entered_bottom_m: number;
  /** In-situ depth below the ground at the start of the hole. */
  depth_top_m: Estimate;
  depth_bottom_m: Estimate;
}

export interface UnitResult {
  row_id: string;
  unit: string;
  sediment: string;
  second: string | null;
  colour: string | null;
  contact_below: string | null;
  structures: string[];
  fossils: string[];
  environment: string | null;
  description: string | null;
  core_top_m: number | null;
  core_bottom_m: number | null;
  depth_top_m: Estimate;
  depth_bottom_m: Estimate;
  elevation_top_m: Estimate | null;
  elevation_bottom_m: Estimate | null;
}

/** How the rate of driving changes with depth. */
export interface PaceTrendResult {
  /** Drives it is made from. */
  drives: number;
  /** Of the logarithm of the rate, per metre: negative slows. 95 % interval; null with fewer than four drives. */
  slope_per_m: number;
  lower95: number | null;
  upper95: number | null;
  /** Metres in which the rate halves; null where it does not fall. */
  halving_m: number | null;
  verdict: 'slowing' | 'quickening' | 'even';
  /** The trend for drawing. */
  line: { depth_m: number; rate_m_per_min: number }[];
}

/** A simpler correction in common use, drawn beside ours, and what the soundings say of it. */
export interface RivalResult {
  model: 'uniform' | 'all_at_top';
  /** In-situ depth at entered length; straight between these. */
  line: { entered_m: number; depth_m: number }[];
  /** Residuals of the soundings against their full covariance, and degrees of freedom; 0 degrees: none to tell it by. */
  chi_square: number;
  degrees: number;
  /** The same as so many sd of a normal: above 2 the soundings reject it. */
  rejected_sd: number;
  /** Largest difference from a sounding, m of entered length. */
  worst_m: number;
  /** Where it would put each unit, best values; `row_id` is the unit's. */
  units: { row_id: string; depth_top_m: number; depth_bottom_m: number }[];
}

export interface HoleResult {
  row_id: string;
  hole: string;
  site: string | null;
  /** What people call the site. */
  site_name: string | null;
  method: string;
  state: string | null;
  end_reason: string | null;
  left_in_ground: string | null;
  replaces: string | null;
  latitude_deg: number | null;
  longitude_deg: number | null;
  /** Along the section line through all holes; 0 at the first. */
  section_m: number | null;
  reference_elevation_m: Estimate | null;
  ground_elevation_m: Estimate | null;
  joints_in: number;
  collar_to_shoe_m: number | null;
  penetration_m: number | null;
  entered_m: number | null;
  recovery: number | null;
  states: HoleState[];
  drives: DriveResult[];
  /** Null with fewer than three timed drives. */
  pace_trend: PaceTrendResult | null;
  runs: RunResult[];
  units: UnitResult[];
  /** Entered length at penetration as sounded, 1 sigma. */
  soundings: { row_id: string; penetration_m: number; entered_m: number; sigma_m: number }[];
  /** In-situ depth against entered length: the depth model, for drawing. */
  depth: { entered_m: Numbers; median_m: Numbers; lower95_m: Numbers; upper95_m: Numbers } | null;
  /** Parameters of decaying shortening, posterior. */
  shortening: { recovery_at_ground: Estimate; length_m: Estimate } | null;
  not_represented: { top_m: number; bottom_m: number }[];
  /** Empty where there is no string or no sounding. */
  rivals: RivalResult[];
  /** Every item in and out: what was added, taken out, left or lost. */
  account: { item: string; joint: string | null; fate: string }[];
}

export interface SampleResult {
  row_id: string;
  sample: string;
  hole: string | null;
  site: string | null;
  material: string | null;
  dated: boolean;
  depth_m: Estimate | null;
  thickness_m: number | null;
  /** Middle of the sample, on the campaign datum. */
  elevation_m: Estimate | null;
  components: ErrorComponent[];
}

/** Age against depth in one hole, from all its dates together. Depths m below ground, 1 sd within. */
export interface AgeDepthResult {
  hole: string;
  depth_m: Float64Array;
  age_cal_bp: AgeDepthBand;
  accumulation_mm_yr: AgeDepthBand;
  dates: {
    lab_code: string;
    /** Of its layer, given the whole hole. */
    age_cal_bp: Range;
    /** (mean of the layer − mean of the date) ÷ sd of the date. */
    age_shift_sd: number;
    /** Probability that what was dated is not of the age of its layer. */
    out_of_place: number;
  }[];
  /** Samples of the hole, dated or not, from the top down. */
  samples: { sample: string; age_cal_bp: Range }[];
  /** Years missing at each erosional contact, named by the unit above it. */
  gaps: { unit: string; gap_yr: Range }[];
  converged: boolean;
  rhat_max: number;
  ess_min: number;
  /** What did not converge, in words. */
  remarks: string[];
}

export interface AgeDepthBand {
  median: Float64Array;
  lower68: Float64Array;
  upper68: Float64Array;
  lower95: Float64Array;
  upper95: Float64Array;
}

/** Median and the central 95 % of draws. */
export interface Range {
  median: number;
  lower95: number;
  upper95: number;
}

/** A claim on the sea whose sample nobody has dated: m on the campaign datum, 1 sigma. */
export interface UndatedResult {
  row_id: string;
  point: string;
  sample: string;
  hole: string | null;
  rsl_m: number;
  rsl_sigma_m: number;
}

export interface DateResult {
  row_id: string;
  lab_code: string;
  sample: string;
  hole: string | null;
  method: string;
  /** Radiocarbon: conventional age, 14C yr BP; otherwise calendar age before 1950 CE. 1 sigma. */
  value: number;
  error: number;
  /** As reported, or of an age after 1950; null for all else. 1 sigma. */
  f14c: number | null;
  f14c_sigma: number | null;
  material: string | null;
  curve: string | null;
  reservoir_offset: number;
  reservoir_sd: number;
  offset_group: string | null;
  status: 'accepted' | 'rejected';
  reason: string | null;
  median_cal_bp: number;
  mean_cal_bp: number;
  sd_yr: number;
  sets_68: AgeInterval[];
  sets_95: AgeInterval[];
  /** Share of the distribution that lies beyond the curve's ends; 0 where none is cut off. */
  truncated: number;
  /** Density on a yearly grid: `density[i]` at `from_cal_bp + i`, per year. */
  from_cal_bp: number;
  density: Numbers;
}

export interface PointResult {
  row_id: string;
  point: string;
  sample: string;
  hole: string | null;
  /** Of its hole, or its own. */
  site: string | null;
  lab_code: string | null;
  kind: 'index' | 'terrestrial' | 'marine';
  position: string | null;
  indicator: string | null;
  status: 'accepted' | 'rejected';
  reason: string | null;
  elevation_m: number;
  /** Index: middle of the meaning. Limiting: the tide level the bound uses. */
  reference_water_level_m: number;
  /** Null for limiting points. */
  indicative_range_m: number | null;
  /** Index: the sea's height. Terrestrial: the sea was below this. Marine: above. */
  rsl_m: number;
  /** Everything together, 1 sigma. */
  rsl_sigma_m: number;
  components: ErrorComponent[];
  age: { median_cal_bp: number; older95_cal_bp: number; younger95_cal_bp: number };
}

/** How one number came about: a node of the trace, made on demand from the graph. */
export interface TraceNode {
  id: TraceId;
  label: string;
  /** How it was computed from its parts, in words. */
  how: string;
  value: number | string | null;
  /** 1 sigma in the same unit; null where it has none. */
  sigma: number | null;
  unit: string;
  /** Whether its sign is always shown, as of elevations, sea level, rates and shifts. */
  signed: boolean;
  /** For a table row: where it stands. */
  row: { table: string; row_id: string } | null;
  parts: TraceId[];
}

export interface Results {
  format: 'stillstand-results';
  version: 2;
  /** Version of the computation, changes when a number can change. */
  computation: string;
  name: string;
  seed: number;
  /** Hash of everything the results depend on. */
  inputs: string;
  /** `kind` as the table datums says; null where there is no datum. */
  datum: { label: string; kind: string | null; epoch: string | null };
  problems: Problem[];
  holes: HoleResult[];
  samples: SampleResult[];
  dates: DateResult[];
  /** Of each hole with dates enough. */
  age_depth: AgeDepthResult[];
  points: PointResult[];
  /** Index points as they would be with a date; they wait for one. */
  undated: UndatedResult[];
  /** Sites whose points the curve is of, null for points without one; empty where there is no curve. */
  curve_sites: readonly (string | null)[];
  curve: CurveResult | null;
  settings: { name: string; value: string; assumed: boolean }[];
}

export { readResults } from './read.ts';
export { type Interval, intervalOf, type TraceId, traceId } from './trace-id.ts';
export { writeResults } from './write.ts';
