/** The readings of a gauge as a record that can be analysed: those in force that have a time and no flag. */
import type { Campaign } from '@stillstand/campaign/document';
import { momentOf, type Row } from '@stillstand/campaign/tables';
import type { TidalConstant } from '@stillstand/science/tide';

export interface GaugeRecord {
  gauge: string;
  /** UTC, in order. */
  time_ms: Float64Array;
  /** Above the zero of the gauge. */
  height_m: Float64Array;
  /** The rows, in that order. */
  rows: readonly Row<'gauge_readings'>[];
}

/** Of every gauge that has some; one reading of each moment. */
export function gaugeRecords(campaign: Campaign): GaugeRecord[] {
  const of = Map.groupBy(
    campaign.rows.gauge_readings.filter(({ flag, time }) => flag === null && time !== null),
    (row) => row.gauge,
  );
  return [...of].map(([gauge, rows]) => {
    const at = new Map(rows.map((row) => [momentOf(row.time!) ?? Number.NaN, row]));
    const times = [...at.keys()].filter(Number.isFinite).sort((a, b) => a - b);
    const inOrder = times.map((time) => at.get(time)!);
    return {
      gauge,
      time_ms: Float64Array.from(times),
      height_m: Float64Array.from(inOrder, ({ height_m }) => height_m),
      rows: inOrder,
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
