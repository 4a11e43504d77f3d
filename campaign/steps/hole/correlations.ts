/** Contacts correlated between holes: each found among the units that were computed, or the problem that keeps it out. */
import type { Campaign } from '@stillstand/campaign/document';
import { correlatedUnit } from '@stillstand/campaign/holes';
import type { Problem } from '@stillstand/campaign/problems';
import type { CorrelationResult, HoleResult } from '@stillstand/campaign/results';
import type { Row } from '@stillstand/campaign/tables';
import { complaints } from '../complaint.ts';

type CorrelationRow = Row<'correlations'>;

/** In the order of their table; those that nobody has accepted, or that were refused, are left out. */
export function correlations(
  campaign: Campaign,
  holes: readonly HoleResult[],
): { made: CorrelationResult[]; problems: Problem[] } {
  const { problems, complain } = complaints<CorrelationRow>(
    campaign,
    'correlations',
    ({ hole_a, hole_b }) => `${hole_a} and ${hole_b}`,
  );
  const pieces = campaign.rows.units.map(({ row_id, hole, unit }) => ({ row_id, hole, unit: unit ?? '' }));

  const found = (row: CorrelationRow, side: 'a' | 'b') => {
    const [hole, named] = [row[`hole_${side}`], row[`unit_${side}`]];
    const { label, unit } = correlatedUnit(named, hole, pieces, holes);
    if (unit !== null) return unit;
    const isDescribed = pieces.some((piece) => piece.hole === hole && piece.unit === label);
    complain(
      row,
      'correlation-not-placed',
      `unit_${side}`,
      isDescribed ? `unit ${label} of ${hole}, which has no depth` : `${named}, no unit of ${hole}`,
      isDescribed
        ? `a unit of ${hole} with a depth`
        : `the label of a unit of ${hole}, or the identity of a row of it`,
      `${isDescribed ? 'Complete the unit' : 'Correct the unit or delete the correlation'}. Until then the correlation is not drawn.`,
    );
    return null;
  };

  const made = campaign.rows.correlations.flatMap((row): CorrelationResult[] => {
    const { row_id, hole_a, hole_b, confidence } = row;
    if (row.status !== null && row.status !== 'accepted') return [];
    if (hole_a === hole_b) {
      complain(
        row,
        'correlation-in-one-hole',
        'hole_b',
        `${hole_b} on both sides`,
        'two holes',
        'Name the other hole or delete the correlation. Until then it is not drawn.',
      );
      return [];
    }
    const [a, b] = [found(row, 'a'), found(row, 'b')];
    if (a === null || b === null) return [];
    return [
      {
        row_id,
        hole_a,
        unit_a: a.unit,
        unit_a_row_id: a.row_id,
        hole_b,
        unit_b: b.unit,
        unit_b_row_id: b.row_id,
        confidence,
      },
    ];
  });
  return { made, problems };
}
