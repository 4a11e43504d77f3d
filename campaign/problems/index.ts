/**
 * Problems are data: what is wrong, where, what was expected and how to fix it. Nothing in Stillstand throws for
 * bad input; the parts that do not depend on it are still computed.
 */
import { type Problem, SEVERITIES } from './shape.ts';

export { type Problem, problemShape, SEVERITIES, type Severity } from './shape.ts';

/** A problem with its absent places filled with null and its quotation shortened to 80 characters. */
export function problem(
  parts: Pick<Problem, 'severity' | 'code' | 'table' | 'found' | 'expected' | 'fix'> &
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
    fix: parts.fix,
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

/** One line a person can act on: place, what came, what was expected, the fix. */
export function problemLine(p: Problem): string {
  const place = [p.table, p.line === null ? null : `line ${p.line}`, p.label, p.column]
    .filter((part) => part !== null && part !== '')
    .join(', ');
  return `${p.severity}: ${place}: found ${p.found === '' ? 'nothing' : `“${p.found}”`}; expected ${p.expected}. ${p.fix}`;
}

function shortened(text: string): string {
  return text.length > 80 ? `${text.slice(0, 79)}…` : text;
}
