/**
 * Contacts correlated between holes: each found among the units that were computed, or the problem that keeps it out; and
 * what cannot be so among those that were found. They are drawn all the same: a person has said so.
 */
import type { Campaign } from '@stillstand/campaign/document';
import { correlatedUnit } from '@stillstand/campaign/holes';
import type { Problem } from '@stillstand/campaign/problems';
import type { CorrelationResult, HoleResult, HorizonResult } from '@stillstand/campaign/results';
import { asNamed, type Row, sameName } from '@stillstand/campaign/tables';
import { complaints } from '../complaint.ts';
import type { PlacedDate } from './compared-column.ts';
import { complainOfAges, complainOfCrossing, complainOfDecisions } from './correlation-doubts.ts';
import type { FoundCorrelation } from './found-correlation.ts';
import { horizons } from './horizons.ts';

type CorrelationRow = Row<'correlations'>;

export interface Correlations {
  /** In the order of their table; those that nobody has accepted, or that were refused, are left out. */
  made: CorrelationResult[];
  horizons: HorizonResult[];
  /** Accepted and refused. */
  decided: FoundCorrelation[];
  problems: Problem[];
}

/** @param dates accepted dates of samples with a depth, by hole */
export function correlations(
  campaign: Campaign,
  holes: readonly HoleResult[],
  dates: ReadonlyMap<string, readonly PlacedDate[]>,
  years_per_m: number,
): Correlations {
  const { problems, complain } = complaints<CorrelationRow>(
    campaign,
    'correlations',
    ({ hole_a, hole_b }) => `${hole_a} and ${hole_b}`,
  );
  const pieces = campaign.rows.units.map(({ row_id, hole, unit }) => ({ row_id, hole, unit: unit ?? '' }));

  const found = (row: CorrelationRow, side: 'a' | 'b') => {
    const [hole, named] = [row[`hole_${side}`], row[`unit_${side}`]];
    const { label, unit } = correlatedUnit(named, hole, pieces, holes);
    // A refused one that names nothing (any more) keeps nothing out.
    if (unit !== null || row.status === 'refused') return unit;
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

  const decided = campaign.rows.correlations.flatMap((row): FoundCorrelation[] => {
    const { hole_a, hole_b } = row;
    if (row.status === 'proposed') return [];
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
    return [{ row, isAccepted: row.status !== 'refused', hole_a, hole_b, a, b, horizon: row.horizon }];
  });
  const accepted = decided.filter(({ isAccepted }) => isAccepted);
  complainOfDecisions(decided, complain);
  complainOfCrossing(accepted, complain);
  complainOfAges(accepted, dates, years_per_m, complain);
  const named = horizons(accepted, holes);
  for (const { names, twice_in, rows } of named) {
    const [name, ...others] = names;
    const other = rows.find(({ horizon }) => sameName(horizon) === others[0]?.toLowerCase());
    if (other !== undefined)
      complain(
        other.row,
        'horizon-two-names',
        'horizon',
        `${others.join(', ')}, tied to ${name}`,
        'one name for contacts that are tied together',
        `Choose one of the names, or delete the correlation that ties the two. Until then the horizon is called ${name}.`,
        'warning',
      );
    else if (twice_in.length > 0)
      complain(
        rows.at(-1)!.row,
        'horizon-twice-in-hole',
        'horizon',
        `${name} at two contacts of ${twice_in.join(', ')}`,
        'one contact of a hole for a horizon',
        'Give one of the two another name, or delete a correlation. Until then both are listed.',
        'warning',
      );
  }
  const made = accepted.map(({ row, hole_a, a, hole_b, b, horizon }) => ({
    row_id: row.row_id,
    hole_a,
    unit_a: a.unit,
    unit_a_row_id: a.row_id,
    hole_b,
    unit_b: b.unit,
    unit_b_row_id: b.row_id,
    confidence: row.confidence,
    horizon: asNamed(horizon) === '' ? null : asNamed(horizon),
  }));
  return { made, horizons: named.map(({ horizon }) => horizon), decided, problems };
}
