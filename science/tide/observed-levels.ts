/**
 * Mean levels of the waters that a gauge saw, with what a record of that length may be off by: means of its own time,
 * not reduced to a tidal epoch by a reference station (`compareSimultaneously` does that).
 */
import { inQuadrature } from '@stillstand/science/base';
import { meanLevels } from './levels.ts';
import { observedWaters, partsOf } from './observed-waters.ts';
import type { TideRecord } from './record.ts';

/** Two spring–neap cycles: means of less are of the springs or the neaps that they hold. Common practice, no source. */
const LEAST_DAYS = 29;

/** Of the level of the sea, 1 sigma, m: of a month about the year (SA 0.07, SSA 0.04), of a year about many; of weather. */
const SEASON_M = inQuadrature(0.07, 0.04);
const YEARS_M = 0.05;
const WEATHER_M = 0.15;
/** Days after which weather is another; all four: common practice, no source. */
const WEATHER_DAYS = 5;

/**
 * 1 sigma of the node’s turn on a semidiurnal range, on diurnal tides: f of M2 swings by 0.037, those of K1 and O1 by 0.11
 * and 0.19 (Schureman 1958, from memory), over √2.
 */
const NODE_SEMIDIURNAL = 0.026;
const NODE_DIURNAL = 0.11;
const NODE_YR = 18.61;

type ObservedLevel = 'MHHW' | 'MHW' | 'MTL' | 'DTL' | 'MSL' | 'MLW' | 'MLLW';

export type ObservedLevels =
  | {
      ok: true;
      /** Above the zero of the record, m, 1 sigma. */
      levels: Readonly<Record<ObservedLevel, { height_m: number; sigma_m: number }>>;
      days: number;
      highs: number;
      lows: number;
    }
  | { ok: false; readings: number; days: number; needs_days: number };

/**
 * `record`: stretches of 25 h or more with readings 2 h apart or closer count (`days`). Sigma holds scatter of the waters, season,
 * weather, years and the node’s turn, by the days covered; not the zero of the gauge, nor what the sea has risen since.
 */
export function observedLevels(record: TideRecord): ObservedLevels {
  const parts = partsOf(record);
  const days = parts.reduce((sum, { time_ms }) => sum + (time_ms.at(-1)! - time_ms[0]!), 0) / 86_400_000;
  const waters = parts.flatMap(observedWaters);
  const means = days < LEAST_DAYS ? null : meanLevels(waters);
  if (means === null) return { ok: false, readings: record.time_ms.length, days, needs_days: LEAST_DAYS };
  const { MHW_m, MLW_m, MHHW_m, MLLW_m, MTL_m, DTL_m, MN_m, DHQ_m, DLQ_m, highs, lows } = means;
  const years = days / 365.25;
  /** The mean of a wave of that period over the record: at most so much of it is left. */
  const left = (period_yr: number): number => Math.min(1, period_yr / (Math.PI * years));
  const sea = inQuadrature(
    SEASON_M * left(1),
    YEARS_M / Math.sqrt(Math.max(1, years)),
    WEATHER_M * Math.sqrt(WEATHER_DAYS / days),
  );
  const isDiurnal = highs < 1.5 * means.days;
  const range = ((isDiurnal ? NODE_DIURNAL : NODE_SEMIDIURNAL) * left(NODE_YR) * MN_m) / 2;
  const inequality = (by_m: number): number => NODE_DIURNAL * left(NODE_YR) * by_m;
  const [high, low] = [means.MHW_sigma_m, means.MLW_sigma_m];
  // Half as many waters are the higher of their day.
  const half = Math.SQRT2;
  const both = inQuadrature(high, low) / 2;
  const of = (height_m: number, ...sigmas: number[]) => ({ height_m, sigma_m: inQuadrature(sea, ...sigmas) });
  return {
    ok: true,
    levels: {
      MHHW: of(MHHW_m, range, inequality(DHQ_m), half * high),
      MHW: of(MHW_m, range, high),
      MTL: of(MTL_m, both),
      DTL: of(DTL_m, half * both, inequality((DHQ_m + DLQ_m) / 2)),
      MSL: of(meanHeight(parts)),
      MLW: of(MLW_m, range, low),
      MLLW: of(MLLW_m, range, inequality(DLQ_m), half * low),
    },
    days,
    highs,
    lows,
  };
}

/** Over time, not over readings: a gauge may be read more often by day. */
function meanHeight(parts: ReturnType<typeof partsOf>): number {
  let area = 0;
  let time = 0;
  for (const { time_ms, height_m } of parts) {
    for (let i = 1; i < time_ms.length; i++) {
      const step = time_ms[i]! - time_ms[i - 1]!;
      area += (step * (height_m[i]! + height_m[i - 1]!)) / 2;
      time += step;
    }
  }
  return area / time;
}
