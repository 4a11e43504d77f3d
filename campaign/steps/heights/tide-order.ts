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

/** Rounding of what is entered is no wrong order on another datum or against what is computed, m. */
const ROUNDED_M = 0.005;

type Placed = Pick<SiteTideResult['levels'][number], 'level' | 'row_id' | 'elevation_m' | 'basis'>;

/** `tides`: with those that are computed; a stated level is held against them too. */
export function tideOrder(campaign: Campaign, tides: readonly SiteTideResult[]): Problem[] {
  const { problems, complain } = complaints<Row<'tide_levels'>>(
    campaign,
    'tide_levels',
    (row) => `${row.level} at ${row.site}`,
  );
  const stated = campaign.rows.tide_levels;
  const said = new Set<string>();
  const look = (levels: readonly Placed[], slack_m: number): void => {
    for (const order of ORDERS) {
      const there = order.flatMap((name) => levels.find(({ level }) => level === name) ?? []);
      for (const [i, upper] of there.entries()) {
        const lower = there[i - 1];
        if (lower === undefined || lower.elevation_m - upper.elevation_m <= slack_m) continue;
        const one = upper.basis === 'stated' ? upper : lower;
        const row = stated.find(({ row_id }) => row_id === one.row_id);
        if (row === undefined || said.has(row.row_id)) continue;
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
    look(
      rows.map((row) => ({ ...row, basis: 'stated' })),
      0,
    );
  for (const { levels } of tides) look(levels, ROUNDED_M);
  return problems;
}

const plain = ({ elevation_m }: Placed): string => String(Number(elevation_m.toFixed(4))).replace('-', '−');
