/** Correlations that are proposed and that no person has decided: a decision counts at once, before anything is computed. */
import type { ProposalResult, Results } from '@stillstand/campaign/results';
import { isBetween, type Place, type Tied } from './tie.ts';

export interface Proposed {
  /** Of the two contacts. */
  id: string;
  a: Place;
  b: Place;
  result: ProposalResult;
}

export const proposedOf = (
  { correlation_proposals }: Pick<Results, 'correlation_proposals'>,
  ties: readonly Tied[],
): Proposed[] =>
  correlation_proposals.flatMap((result): Proposed[] => {
    const a = { hole: result.hole_a, row_id: result.unit_a_row_id, label: result.unit_a };
    const b = { hole: result.hole_b, row_id: result.unit_b_row_id, label: result.unit_b };
    if (ties.some((tie) => isDecided(tie) && isBetween(tie, a, b))) return [];
    return [{ id: JSON.stringify([a.row_id, b.row_id]), a, b, result }];
  });

const isDecided = ({ isAccepted, isRefused }: Tied): boolean => isAccepted || isRefused;

/** What the row of a decision says. */
export const decision = ({ a, b }: Proposed, isAccepted: boolean): Record<string, string> => ({
  hole_a: a.hole,
  unit_a: a.row_id ?? a.label,
  hole_b: b.hole,
  unit_b: b.row_id ?? b.label,
  ...(isAccepted ? { confidence: 'probable', status: 'accepted' } : { status: 'refused' }),
});

/** Where the next best alignment puts the two units. */
export function nextBest({ a, b, result: { next_of_a, next_of_b } }: Proposed): string {
  if (next_of_a === null && next_of_b === null) return 'Next best: a layer missing in each hole.';
  const of = (place: Place, other: Place, unit: string | null): string =>
    `${place.hole} unit ${place.label} with ${unit === null ? `no layer of ${other.hole}` : `${other.hole} unit ${unit}`}`;
  return `Next best: ${of(a, b, next_of_a)}; ${of(b, a, next_of_b)}.`;
}
