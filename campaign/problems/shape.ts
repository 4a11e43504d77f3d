/** A problem as data, described once. */
import { number, orNull, record, type ShapeValue, text, word } from '@stillstand/science/shape';

/**
 * - `danger`: someone can be hurt or gear lost; the reading is kept and computed with.
 * - `error`: the cell or row cannot be used; what depends on it is not computed.
 * - `warning`: used, but unsafe or suspicious.
 * - `note`: used as it is; no action needed.
 *
 * The most serious first.
 */
export const SEVERITIES = ['danger', 'error', 'warning', 'note'] as const;
export type Severity = (typeof SEVERITIES)[number];

export const problemShape = record('what is wrong, where, what was expected, how to fix it', {
  severity: word(
    'danger: someone can be hurt; error: not used; warning: used but doubtful; note',
    SEVERITIES,
  ),
  code: text('kind of problem, kebab-case, stable'),
  table: text('table it is in'),
  row_id: orNull(text('identity of the table row it comes from')),
  line: orNull(number('line in the file as a spreadsheet numbers it, heading = 1', 'line')),
  label: orNull(text('label a person knows the row by')),
  column: orNull(text('column it is in')),
  found: text('what came, as typed, shortened past 80 characters'),
  expected: text('what was expected'),
  fix: text('how to fix it'),
});
export type Problem = ShapeValue<typeof problemShape>;
