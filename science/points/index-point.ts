/**
 * A sample whose height in the tide is known fixes the sea: RSL = elevation − reference water level
 * (Shennan 1982; van de Plassche 1986). Check: standards C.4 and the Southeast Asian dataset in checks/points.
 */
import { curveError, type HeightError, protocolError } from './error.ts';
import { type NotUsable, unusableNumbers } from './not-usable.ts';
import {
  boundText,
  findBound,
  rangeErrors,
  type SiteTideLevel,
  type TideBound,
  type TideThen,
} from './tide-bound.ts';

export interface IndexPointInput {
  /** Middle of the sample, metres, on the datum of `tide_levels`. */
  elevation_m: number;
  lower: TideBound;
  upper: TideBound;
  tide_levels: readonly SiteTideLevel[];
  /** Tide levels of one site err together: name of that group, usually the site. Null: the point's own. */
  tide_group: string | null;
  /** Null or left out: the range of the tide was today’s. */
  tide_then?: TideThen | null;
  /** Every other part of the height error. */
  errors: readonly HeightError[];
}

export interface IndexPoint {
  ok: true;
  kind: 'index';
  /** Relative sea level, metres above the datum. */
  rsl_m: number;
  reference_water_level_m: number;
  /** Full width of the meaning, metres, ≥ 0. */
  indicative_range_m: number;
  /** Of the tide in the reference water level, above the mean level today: what a factor of the range scales, m. */
  lever_m: number;
  /** All parts: indicative range, tide levels, tidal range where it was another, then those given. */
  components: HeightError[];
  /** Declared shapes, 1 sigma. */
  sigma_m: number;
  /** Community protocol, 2 sigma. */
  protocol_2sigma_m: number;
  remarks: string[];
}

export function indexPoint(input: IndexPointInput): IndexPoint | NotUsable {
  const unusable = unusableNumbers(input.elevation_m, input.errors);
  if (unusable !== null) return unusable;
  const lower = findBound(input.lower, input.tide_levels, input.tide_then ?? null);
  if (!lower.ok) return lower;
  const upper = findBound(input.upper, input.tide_levels, input.tide_then ?? null);
  if (!upper.ok) return upper;

  const remarks: string[] = [];
  if (lower.elevation_m > upper.elevation_m) {
    remarks.push(
      `lower limit ${boundText(input.lower)} lies above upper limit ${boundText(input.upper)}: taken the other way round`,
    );
  }
  const reference_water_level_m = (lower.elevation_m + upper.elevation_m) / 2;
  const indicative_range_m = Math.abs(upper.elevation_m - lower.elevation_m);
  const lever_m = (lower.lever_m + upper.lever_m) / 2;
  const components: HeightError[] = [
    {
      component: 'indicative_range',
      sigma_m: indicative_range_m / 2 / Math.sqrt(3),
      shape: 'uniform',
      shared_group: null,
      source: `meaning ${boundText(input.lower)} to ${boundText(input.upper)}`,
    },
    {
      component: 'tide_levels',
      // Levels at one site come from one gauge record or model and err together: the mid-point's error is the mean.
      sigma_m: (lower.sigma_m + upper.sigma_m) / 2,
      shape: 'normal',
      shared_group: input.tide_group === null ? null : `tide:${input.tide_group}`,
      source: tideSource(lower.assumed || upper.assumed),
    },
    ...rangeErrors(lever_m, input.tide_then ?? null),
    ...input.errors,
  ];
  return {
    ok: true,
    kind: 'index',
    rsl_m: input.elevation_m - reference_water_level_m,
    reference_water_level_m,
    indicative_range_m,
    lever_m,
    components,
    sigma_m: curveError(components),
    protocol_2sigma_m: protocolError(components),
    remarks,
  };
}

export const tideSource = (assumed: boolean): string =>
  assumed ? 'assumed: 0.1 m at 2 sigma where a tide level states no error' : 'stated with the tide levels';
