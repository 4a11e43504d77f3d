/** Tide levels of a site in the wrong order: one of them is mistyped, and every point at the site depends on them. */
import type { Campaign } from '@stillstand/campaign/document';
import type { Problem } from '@stillstand/campaign/problems';
import type { SiteTideResult } from '@stillstand/campaign/results';
import type { Row } from '@stillstand/campaign/tables';
import { complaints } from '../complaint.ts';

/** Each from the lowest up, by their definitions (NOAA 2000, NOS CO-OPS 1; spring and neap levels of the Admiralty). */
const ORDERS = [
  ['LAT', 'MLWS', 'MLW', 'MLWN', 'MTL', 'MHWN', 'MHW', 'MHWS', 'HAT'],
  ['LAT', 'MLLW', 'MLW'],
  ['MHW', 'MHHW', 'HAT'],
  ['MLW', 'MSL', 'MHW'],
  ['MLLW', 'DTL', 'MHHW'],
] as const;

/** Rounding of what is entered is no wrong order, m. */
const ROUNDED_M = 0.005;

interface Placed {
  level: string;
  row_id: string;
  elevation_m: number;
  isStated: boolean;
}

/** `tides`: with those that are computed; a stated level is held against them too. */
export function tideOrder(campaign: Campaign, tides: readonly SiteTideResult[]): Problem[] {
  const { problems, complain } = complaints<Row<'tide_levels'>>(
    campaign,
    'tide_levels',
    (row) => `${row.level} at ${row.site}`,
  );
  const stated = campaign.rows.tide_levels;
  const said = new Set<string>();
  const look = (levels: readonly Placed[]): void => {
    for (const order of ORDERS) {
      const there = order.flatMap((name) => levels.find(({ level }) => level === name) ?? []);
      for (const [i, upper] of there.entries()) {
        const lower = there[i - 1];
        if (lower === undefined || upper.elevation_m >= lower.elevation_m) continue;
        const one = upper.isStated ? upper : lower;
        const row = stated.find(({ row_id }) => row_id === one.row_id);
        if (row === undefined || said.has(row.row_id)) continue;
        if (!(upper.isStated && lower.isStated) && lower.elevation_m - upper.elevation_m < ROUNDED_M)
          continue;
        said.add(row.row_id);
        const [other, word] = one === upper ? [lower, 'below'] : [upper, 'above'];
        complain(
          row,
          'tide-levels-out-of-order',
          'elevation_m',
          `${one.level} at ${plain(one)} m, ${word} ${other.level} at ${plain(other)} m`,
          `${upper.level} above ${lower.level}`,
          'Check both in their source and correct the wrong one. Points use them as entered until then.',
          'warning',
        );
      }
    }
  };
  for (const rows of Map.groupBy(stated, (row) => `${row.site} on ${row.datum}`).values())
    look(rows.map(({ level, row_id, elevation_m }) => ({ level, row_id, elevation_m, isStated: true })));
  for (const { levels } of tides)
    look(
      levels.map(({ level, row_id, elevation_m, basis }) => ({
        level,
        row_id,
        elevation_m,
        isStated: basis === 'stated',
      })),
    );
  return problems;
}

const plain = ({ elevation_m }: Placed): string => String(Number(elevation_m.toFixed(4))).replace('-', '−');
