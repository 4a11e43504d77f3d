/** Of the diagnostics of a result, only whether its numbers can be trusted: in every row, so that none travels without it. */
export const DIAGNOSTICS_ELSEWHERE =
  'whether all have converged is in every row; the diagnostics are in results.json and in the report';

export const CONVERGED_ALONE = {
  rhat_max: DIAGNOSTICS_ELSEWHERE,
  ess_bulk_min: DIAGNOSTICS_ELSEWHERE,
  ess_tail_min: DIAGNOSTICS_ELSEWHERE,
  chains: DIAGNOSTICS_ELSEWHERE,
  draws: DIAGNOSTICS_ELSEWHERE,
  sweeps: DIAGNOSTICS_ELSEWHERE,
  remarks: DIAGNOSTICS_ELSEWHERE,
};
