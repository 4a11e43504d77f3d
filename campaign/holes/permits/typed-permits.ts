/** The permits of a campaign as it is typed, so that Plan and Drill answer at once. */
import type { Campaign } from '@stillstand/campaign/document';
import { partReader } from '../part-reader.ts';
import type { RowSource } from '../row-source.ts';
import { closingDemands, type PermitDemand, permitConditions } from './demands.ts';
import { type PermitState, permitsOf } from './permits.ts';

const read = partReader(['sites', 'permits']);

/** The reader leaves out what a hole may have wrong; its site is what permits go by. */
function tablesOf(source: RowSource): Pick<Campaign, 'rows' | 'skipped_rows'> {
  const { rows, skipped_rows } = read(source);
  const sites = new Map(source.rows('holes').map(({ row_id, cells }) => [row_id, cells['site']?.trim()]));
  const holes = rows.holes.map((hole) => ({ ...hole, site: sites.get(hole.row_id) || null }));
  return { rows: { ...rows, holes }, skipped_rows };
}

/** Every permit and what is missing on this day, `2024-03-05`; the gravest first. */
export const permitsNow = (source: RowSource, date: string): PermitState[] =>
  permitsOf(tablesOf(source), date);

/** Conditions while drilling, of every site. */
export const conditionsNow = (source: RowSource): PermitDemand[] =>
  permitConditions(tablesOf(source).rows.permits);

/** What the permits demand when this hole is ended. */
export function closingOf(source: RowSource, hole: string): PermitDemand[] {
  const { rows } = tablesOf(source);
  return closingDemands(rows.permits, rows.holes.find((row) => row.hole === hole)?.site ?? null);
}
