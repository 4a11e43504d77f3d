/** Problems of the rows of one table, each with its line and label. */
import type { Campaign } from '@stillstand/campaign/document';
import { type Problem, problem, type Severity } from '@stillstand/campaign/problems';

export type Complain<R> = (
  row: R,
  code: string,
  column: string,
  found: string,
  expected: string,
  fix: string,
  severity?: Severity,
) => void;

/** Collects problems into `problems`, an error unless something else is said. */
export function complaints<R extends { row_id: string }>(
  campaign: Campaign,
  table: string,
  label: (row: R) => string,
): { problems: Problem[]; complain: Complain<R> } {
  const problems: Problem[] = [];
  const complain: Complain<R> = (row, code, column, found, expected, fix, severity = 'error') => {
    const line = campaign.lines.get(row.row_id) ?? null;
    problems.push(
      problem({
        severity,
        code,
        table,
        row_id: row.row_id,
        line,
        label: label(row),
        column,
        found,
        expected,
        fix,
      }),
    );
  };
  return { problems, complain };
}
