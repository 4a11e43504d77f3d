/** Tide levels of a site that stand in the wrong order: one of them is mistyped, and every point hangs on them. */
import type { Campaign } from '@stillstand/campaign/document';
import type { Problem } from '@stillstand/campaign/problems';
import type { Row } from '@stillstand/campaign/tables';
import { complaints } from '../complaint.ts';

/** Each from the lowest up, by their definitions (NOAA 2000, NOS CO-OPS 1; spring and neap levels of the Admiralty). */
const ORDERS = [
  ['LAT', 'MLWS', 'MLW', 'MLWN', 'MTL', 'MHWN', 'MHW', 'MHWS', 'HAT'],
  ['LAT', 'MLLW', 'MLW'],
  ['MHW', 'MHHW', 'HAT'],
  ['MLW', 'MSL', 'MHW'],
] as const;

export function tideOrder(campaign: Campaign): Problem[] {
  const { problems, complain } = complaints<Row<'tide_levels'>>(
    campaign,
    'tide_levels',
    (row) => `${row.level} at ${row.site}`,
  );
  const said = new Set<string>();
  for (const rows of Map.groupBy(
    campaign.rows.tide_levels,
    (row) => `${row.site} on ${row.datum}`,
  ).values()) {
    for (const order of ORDERS) {
      const there = order.flatMap((level) => rows.find((row) => row.level === level) ?? []);
      for (const [i, upper] of there.entries()) {
        const lower = there[i - 1];
        if (lower === undefined || upper.elevation_m >= lower.elevation_m || said.has(upper.row_id)) continue;
        said.add(upper.row_id);
        complain(
          upper,
          'tide-levels-out-of-order',
          'elevation_m',
          `${upper.level} at ${upper.elevation_m} m, below ${lower.level} at ${lower.elevation_m} m`,
          `${upper.level} above ${lower.level}`,
          'Look at both in the source; points take them as they stand.',
          'warning',
        );
      }
    }
  }
  return problems;
}
