/**
 * Problems while they are gathered. Of one kind in one column of one table the first fifty are listed and the others
 * counted: a person mends a column, not its ten-thousandth cell.
 */
import { type Problem, problem, type Severity } from '@stillstand/campaign/problems';
import type { Fault } from '@stillstand/campaign/tables';
import { type Draft, type RowFault, rowLabel } from './draft.ts';

const LISTED = 50;

interface Kind {
  count: number;
  severity: Severity;
  code: string;
  table: string;
  column: string | null;
}

export class ProblemList {
  readonly problems: Problem[] = [];
  readonly #kinds = new Map<string, Kind>();

  /** A problem of a whole table, or of one of its columns. */
  table(severity: Severity, table: string, fault: Fault, column: string | null = null): void {
    if (this.#counts(severity, fault.code, table, column)) {
      this.problems.push(problem({ ...fault, severity, table, column }));
    }
  }

  /** A problem of one row. */
  row(draft: Draft, { severity, column, ...fault }: RowFault): void {
    if (!this.#counts(severity, fault.code, draft.table, column)) return;
    this.problems.push(
      problem({
        ...fault,
        severity,
        table: draft.table,
        row_id: draft.row_id,
        line: draft.line,
        label: rowLabel(draft),
        column,
      }),
    );
  }

  /** Everything gathered, with one more problem for each kind of which not all are listed. */
  done(): Problem[] {
    for (const { count, severity, code, table, column } of this.#kinds.values()) {
      if (count <= LISTED) continue;
      const found = `${count - LISTED} more of them`;
      const expected = `as said of the ${LISTED} listed`;
      const fix = 'Correct them all at once where they have one cause.';
      this.problems.push(problem({ severity, code, table, column, found, expected, fix }));
    }
    return this.problems;
  }

  #counts(severity: Severity, code: string, table: string, column: string | null): boolean {
    const key = `${table}|${code}|${column}`;
    const kind = this.#kinds.get(key);
    if (kind === undefined) this.#kinds.set(key, { count: 1, severity, code, table, column });
    else kind.count++;
    return (kind?.count ?? 1) <= LISTED;
  }
}
