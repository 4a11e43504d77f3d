/** How contacts run between holes, as a person says: each row found among the contacts of its line. */
import type { Campaign } from '@stillstand/campaign/document';
import { correlatedUnit } from '@stillstand/campaign/holes';
import type { CorrelationResult } from '@stillstand/campaign/results';
import { type Row, sameName } from '@stillstand/campaign/tables';
import type { SectionBoundary } from '@stillstand/science/correlate';
import type { HoleOnLine } from './placed.ts';

export type BoundaryRow = Row<'section_boundaries'>;

export const boundariesOf = (
  campaign: Campaign,
  line: string,
  holes: readonly HoleOnLine[],
  correlations: readonly CorrelationResult[],
): SectionBoundary[] => {
  const pieces = campaign.rows.units.map(({ row_id, hole, unit }) => ({ row_id, hole, unit: unit ?? '' }));
  const results = holes.map(({ hole }) => hole);
  const names = new Set(correlations.map(({ horizon }) => sameName(horizon)));
  return campaign.rows.section_boundaries
    .filter((row) => row.line === line)
    .map(({ row_id, horizon, hole_a, hole_b, ending, at_fraction, lift_m }) => {
      const isNamed = names.has(sameName(horizon));
      const { unit } = isNamed ? { unit: null } : correlatedUnit(horizon, hole_a, pieces, results);
      return {
        row_id,
        horizon: unit?.row_id ?? horizon,
        hole_a,
        hole_b,
        ending: ending ?? 'continuous',
        at_fraction,
        lift_m,
      };
    });
};
