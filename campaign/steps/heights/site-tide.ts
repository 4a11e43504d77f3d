/**
 * The tide at a site on one zero of heights: from its tidal constants, and from waters of an official table that were
 * written down. For looking ahead to a field day; no result of the computation hangs on it.
 */
import type { Campaign } from '@stillstand/campaign/document';
import { momentOf } from '@stillstand/campaign/tables';
import { inQuadrature } from '@stillstand/science/base';
import { ASSUMED_TIDE_LEVEL_SIGMA_M } from '@stillstand/science/points';
import { shiftBetween } from '@stillstand/science/survey';
import type { Tide } from '@stillstand/science/tide';

interface Level {
  height_m: number;
  sigma_m: number;
}

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
  /** A height on `from` and its 1 sigma, on the datum wanted; null where no step leads there. */
  const onDatum = (from: string | null, height_m: number, sigma_m: number | null): Level | null => {
    const step = from === null ? { shift_m: 0, sigma_m: 0 } : shiftBetween(shifts, from, datum);
    return step === null
      ? null
      : { height_m: height_m + step.shift_m, sigma_m: inQuadrature(sigma_m ?? 0, step.sigma_m) };
  };
  const zeroOf = (gauge: string): Level | null => {
    const row = rows.gauges.find((g) => g.gauge === gauge);
    return row === undefined || row.zero_elevation_m === null
      ? null
      : onDatum(row.datum, row.zero_elevation_m, row.sigma_m);
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
  let mean: Level | null = null;
  if (gauge !== undefined && Z0 !== undefined) {
    const zero = zeroOf(gauge);
    if (zero === null) needs.push(`the zero of gauge ${gauge} on ${datum}`);
    else {
      mean = {
        height_m: zero.height_m + Z0.amplitude_m,
        sigma_m: inQuadrature(zero.sigma_m, Z0.amplitude_sigma_m ?? 0),
      };
    }
  } else if (level !== undefined) {
    // As for the points and levels that stand on it.
    mean = onDatum(level.datum, level.elevation_m, level.sigma_m ?? ASSUMED_TIDE_LEVEL_SIGMA_M);
  } else if (rows.datums.find((row) => row.datum === datum)?.kind === 'mean_sea_level') {
    mean = { height_m: 0, sigma_m: 0 };
  }
  if (gauge === undefined) needs.push('tidal constants of a gauge at the site');
  else if (mean === null && needs.length === 0)
    needs.push(`mean sea level (MSL) on ${datum}, among the tide levels`);

  // One water of each moment, the one written last.
  const at = new Map<number, SiteTide['waters'][number]>();
  for (const { gauge, flag, time, height_m } of rows.gauge_readings) {
    if (!flag?.startsWith(TIDE_TABLE_FLAG) || !isHere(gauge) || time === null) continue;
    const zero = zeroOf(gauge);
    const time_ms = momentOf(time);
    if (zero !== null && time_ms !== null)
      at.set(time_ms, { gauge, time_ms, height_m: height_m + zero.height_m });
  }
  const waters = [...at.values()].sort((a, b) => a.time_ms - b.time_ms);

  return {
    predicted:
      gauge === undefined || mean === null
        ? null
        : {
            gauge,
            tide: {
              mean_m: mean.height_m,
              mean_sigma_m: mean.sigma_m,
              constants: ofGauge.filter((row) => !isMean(row)),
            },
            constituents: ofGauge.filter((row) => !isMean(row)).map((row) => row.constituent),
          },
    waters,
    needs,
  };
}
