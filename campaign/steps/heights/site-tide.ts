/**
 * The tide at a site on one zero of heights: from its tidal constants, and from waters of an official table that were
 * written down. For looking ahead to a field day; no result of the computation hangs on it.
 */
import type { Campaign } from '@stillstand/campaign/document';
import { momentOf } from '@stillstand/campaign/tables';
import { shiftBetween } from '@stillstand/science/survey';
import type { Tide } from '@stillstand/science/tide';

/** Begins the flag of a gauge reading that is a high or low water of an official table, not seen on a gauge. */
export const TIDE_TABLE_FLAG = 'tide table';

export interface SiteTide {
  /** From constituents; null without them, or without a mean level. */
  predicted: { gauge: string; tide: Tide; constituents: string[] } | null;
  /** Waters of official tables in order of time; empty without. */
  waters: { gauge: string; time_ms: number; height_m: number }[];
  /** What keeps a prediction from being made, in words; empty where there is one. */
  needs: string[];
}

/**
 * `datum`: label of the zero heights are wanted on. The mean water level is the constituent Z0 (height above the gauge's
 * zero) where there is one, else the site's tide level MSL, else 0 on a datum that is mean sea level itself.
 */
export function siteTide(campaign: Campaign, site: string | null, datum: string): SiteTide {
  const { rows } = campaign;
  const shifts = rows.datum_shifts.map((step) => ({ ...step, sigma_m: step.sigma_m ?? 0 }));
  /** What to add to a height on `from`; null where no step leads there. */
  const shift = (from: string | null): number | null =>
    from === null ? 0 : (shiftBetween(shifts, from, datum)?.shift_m ?? null);
  const zeroOf = (gauge: string): number | null => {
    const row = rows.gauges.find((g) => g.gauge === gauge);
    if (row === undefined || row.zero_elevation_m === null) return null;
    const step = shift(row.datum);
    return step === null ? null : row.zero_elevation_m + step;
  };
  const isHere = (gauge: string): boolean => {
    const of = rows.gauges.find((g) => g.gauge === gauge)?.site ?? null;
    return of === null || site === null || of === site;
  };
  const needs: string[] = [];

  const constants = rows.constituents.filter(({ gauge }) => isHere(gauge));
  const gauge = constants[0]?.gauge;
  const ofGauge = constants.filter((row) => row.gauge === gauge);
  const isMean = ({ constituent }: { constituent: string }): boolean =>
    constituent.trim().toUpperCase() === 'Z0';
  const Z0 = ofGauge.find(isMean);
  const level = rows.tide_levels.find((row) => row.level === 'MSL' && (site === null || row.site === site));
  let mean_m: number | null = null;
  if (gauge !== undefined && Z0 !== undefined) {
    const zero = zeroOf(gauge);
    if (zero === null) needs.push(`the zero of gauge ${gauge} on ${datum}`);
    else mean_m = zero + Z0.amplitude_m;
  } else if (level !== undefined) {
    const step = shift(level.datum);
    if (step !== null) mean_m = level.elevation_m + step;
  } else if (rows.datums.find((row) => row.datum === datum)?.kind === 'mean_sea_level') mean_m = 0;
  if (gauge === undefined) needs.push('tidal constants of a gauge at the site');
  else if (mean_m === null && needs.length === 0)
    needs.push(`mean sea level (MSL) on ${datum}, among the tide levels`);

  // One water of each moment, the one written last.
  const at = new Map<number, SiteTide['waters'][number]>();
  for (const { gauge, flag, time, height_m } of rows.gauge_readings) {
    if (!flag?.startsWith(TIDE_TABLE_FLAG) || !isHere(gauge) || time === null) continue;
    const zero = zeroOf(gauge);
    const time_ms = momentOf(time);
    if (zero !== null && time_ms !== null) at.set(time_ms, { gauge, time_ms, height_m: height_m + zero });
  }
  const waters = [...at.values()].sort((a, b) => a.time_ms - b.time_ms);

  return {
    predicted:
      gauge === undefined || mean_m === null
        ? null
        : {
            gauge,
            tide: { mean_m, constants: ofGauge.filter((row) => !isMean(row)) },
            constituents: ofGauge.filter((row) => !isMean(row)).map((row) => row.constituent),
          },
    waters,
    needs,
  };
}
