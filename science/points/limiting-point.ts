/**
 * A sample that only bounds the sea. Terrestrial: it formed above a tide level, so the sea was below
 * elevation − that level. Marine: it formed below one, so the sea was above elevation − that level. There is no
 * reference water level and no indicative range (Engelhart & Horton 2012; Khan et al. 2019).
 */
import { curveError, type HeightError, protocolError } from './error.ts';
import { tideSource } from './index-point.ts';
import { type NotUsable, unusableNumbers } from './not-usable.ts';
import { findBound, rangeErrors, type SiteTideLevel, type TideBound, type TideThen } from './tide-bound.ts';

export interface LimitingPointInput {
  kind: 'terrestrial' | 'marine';
  /** Middle of the sample, metres, on the datum of `tide_levels`. */
  elevation_m: number;
  /** Terrestrial: lower limit of where it forms. Marine: upper limit. */
  bound: TideBound;
  tide_levels: readonly SiteTideLevel[];
  tide_group: string | null;
  /** Null or left out: the range of the tide was today’s. */
  tide_then?: TideThen | null;
  errors: readonly HeightError[];
}

export interface LimitingPoint {
  ok: true;
  kind: 'terrestrial' | 'marine';
  /** The sea was below (terrestrial) or above (marine) this height, metres above the datum. */
  rsl_m: number;
  /** Height of the tide level the bound uses. */
  reference_water_level_m: number;
  indicative_range_m: null;
  /** Of that tide level, above the mean level today: what a factor of the range scales, m. */
  lever_m: number;
  components: HeightError[];
  /** Of the bound, declared shapes, 1 sigma. */
  sigma_m: number;
  protocol_2sigma_m: number;
  remarks: string[];
}

export function limitingPoint(input: LimitingPointInput): LimitingPoint | NotUsable {
  const unusable = unusableNumbers(input.elevation_m, input.errors);
  if (unusable !== null) return unusable;
  const bound = findBound(input.bound, input.tide_levels, input.tide_then ?? null);
  if (!bound.ok) return bound;
  const components: HeightError[] = [
    {
      component: 'tide_levels',
      sigma_m: bound.sigma_m,
      shape: 'normal',
      shared_group: input.tide_group === null ? null : `tide:${input.tide_group}`,
      source: tideSource(bound.assumed),
    },
    ...rangeErrors(bound.lever_m, input.tide_then ?? null),
    ...input.errors,
  ];
  return {
    ok: true,
    kind: input.kind,
    rsl_m: input.elevation_m - bound.elevation_m,
    reference_water_level_m: bound.elevation_m,
    indicative_range_m: null,
    lever_m: bound.lever_m,
    components,
    sigma_m: curveError(components),
    protocol_2sigma_m: protocolError(components),
    remarks: [],
  };
}
