/** Errors that dates of holes share, and that these dates move by more than was stated of them. */
import { type Problem, problem } from '@stillstand/campaign/problems';
import type { HoleHistory } from '@stillstand/campaign/results';
import { groupOfDoses } from '@stillstand/science/dating';

/** Beyond so many of its sds an error is named; common practice, no source. */
const SDS = 1;

/** Each error once, whatever holes it is in. */
export function movedErrors(histories: readonly HoleHistory[]): Problem[] {
  const seen = new Set<string>();
  return histories.flatMap(({ hole, shared }) =>
    shared.flatMap(({ group, sigma_yr, shift_yr: { mean, sd }, holes }) => {
      if (seen.has(group)) return [];
      seen.add(group);
      if (!(Math.abs(mean) > SDS * sigma_yr)) return [];
      const doses = groupOfDoses(group);
      const unit = doses === null ? '14C yr' : 'yr';
      const of = [hole, ...holes].join(', ');
      return [
        problem({
          severity: 'warning',
          code: 'shared-error-moved',
          table: 'determinations',
          label: doses ?? group,
          found: `${mean < 0 ? '−' : '+'}${Math.abs(mean).toFixed(0)} ± ${sd.toFixed(0)} ${unit} (1 sigma) from the dates of ${of}`,
          expected: `at most the ${sigma_yr.toFixed(0)} ${unit} (1 sigma) stated of ${doses === null ? 'this reservoir offset' : 'this systematic error'}`,
          fix: `Ages of ${of} have it so. Check ${doses === null ? 'which water the shells lived in, and its offset' : 'what was measured together, and its systematic error'}.`,
        }),
      ];
    }),
  );
}
