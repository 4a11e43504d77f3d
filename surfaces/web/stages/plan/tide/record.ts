/** The readings of a gauge as a record that can be analysed: standing, timed, without doubt flagged. */
import type { Campaign } from '@stillstand/campaign/document';
import { momentOf } from '@stillstand/campaign/tables';
import type { TidalConstant } from '@stillstand/science/tide';

export interface GaugeRecord {
  gauge: string;
  time_ms: Float64Array;
  height_m: Float64Array;
}

/** Of every gauge that has some; one reading of each moment. */
export function gaugeRecords(campaign: Campaign): GaugeRecord[] {
  const of = Map.groupBy(
    campaign.rows.gauge_readings.filter(({ flag, time }) => flag === null && time !== null),
    (row) => row.gauge,
  );
  return [...of].map(([gauge, rows]) => {
    const at = new Map(rows.map(({ time, height_m }) => [momentOf(time!) ?? Number.NaN, height_m]));
    const times = [...at.keys()].filter(Number.isFinite).sort((a, b) => a - b);
    return {
      gauge,
      time_ms: Float64Array.from(times),
      height_m: Float64Array.from(times, (time) => at.get(time)!),
    };
  });
}

/** Other gauges that have constants, whose ratios may be expected at this one. */
export function referencesFor(
  campaign: Campaign,
  gauge: string,
): { gauge: string; constants: readonly TidalConstant[] }[] {
  const of = Map.groupBy(
    campaign.rows.constituents.filter((row) => row.gauge !== gauge),
    (row) => row.gauge,
  );
  return [...of].map(([named, constants]) => ({ gauge: named, constants }));
}
