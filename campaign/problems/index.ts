/**
 * Problems are data: what is wrong, where, what was expected and how to mend it. Nothing in Stillstand throws for
 * bad input; the parts that do not depend on it are still computed.
 */

/**
 * - `danger`: someone can be hurt or gear lost; the reading is kept and computed with.
 * - `error`: the cell or row cannot be used; what depends on it is not computed.
 * - `warning`: used, but unsafe or suspicious.
 * - `note`: used as stated here; nothing need be done.
 */
export type Severity = 'danger' | 'error' | 'warning' | 'note';

export interface Problem {
  severity: Severity;
  /** Stable kebab-case name of the kind of problem, e.g. `unknown-column`; tests and help hang on it. */
  code: string;
  /** Table the problem is in; `datapackage` for the package itself. */
  table: string;
  /** `row_id` of the row, where the problem is in a row. */
  row_id: string | null;
  /** Line in the file as a spreadsheet numbers it (heading = 1), where known. */
  line: number | null;
  /** Label a person knows the row by (`H3`, `H3 seq 12`), where known. */
  label: string | null;
  column: string | null;
  /** What came, as typed (shortened past 80 characters). */
  found: string;
  expected: string;
  mend: string;
}

/** The gravest first. */
export const SEVERITIES: readonly Severity[] = ['danger', 'error', 'warning', 'note'];

/** A problem with its absent places filled with null and its quotation shortened to 80 characters. */
export function problem(
  parts: Pick<Problem, 'severity' | 'code' | 'table' | 'found' | 'expected' | 'mend'> &
    Partial<Pick<Problem, 'row_id' | 'line' | 'label' | 'column'>>,
): Problem {
  return {
    severity: parts.severity,
    code: parts.code,
    table: parts.table,
    row_id: parts.row_id ?? null,
    line: parts.line ?? null,
    label: parts.label ?? null,
    column: parts.column ?? null,
    found: shortened(parts.found),
    expected: parts.expected,
    mend: parts.mend,
  };
}

/** The most serious first, otherwise in the order they were found. */
export function bySeverity(problems: readonly Problem[]): Problem[] {
  return [...problems].sort((a, b) => SEVERITIES.indexOf(a.severity) - SEVERITIES.indexOf(b.severity));
}

/** True where nothing is an error or a danger. */
export function isFine(problems: readonly Problem[]): boolean {
  return problems.every((p) => p.severity !== 'error' && p.severity !== 'danger');
}

/** One line a person can act on: place, what came, what was expected, the mend. */
export function problemLine(p: Problem): string {
  const place = [p.table, p.line === null ? null : `line ${p.line}`, p.label, p.column]
    .filter((part) => part !== null && part !== '')
    .join(', ');
  return `${p.severity}: ${place}: found ${p.found === '' ? 'nothing' : `“${p.found}”`}; expected ${p.expected}. ${p.mend}`;
}

function shortened(text: string): string {
  return text.length > 80 ? `${text.slice(0, 79)}…` : text;
}
