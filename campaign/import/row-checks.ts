/** A draft made whole, and what a campaign would say of it. */
import {
  type Column,
  type Fault,
  isNeeded as isNeededIn,
  readCell,
  schemas,
  type TableName,
} from '@stillstand/campaign/tables';
import type { Draft } from './draft.ts';
import type { Mapping } from './mapping.ts';

/** The cells as they would be written, what fills no column of ours in the note. `isFirst`: of its line. */
export function finished(draft: Draft, mapping: Mapping, isFirst: boolean): Record<string, string> {
  const cells: Record<string, string> = {};
  const columns: Readonly<Record<string, Column>> = schemas[draft.table].columns;
  for (const name of Object.keys(columns)) {
    const cell = draft.cells[name]?.trim() ?? '';
    if (cell !== '') cells[name] = cell;
  }
  const rest =
    mapping.keep_rest && isFirst
      ? draft.given.rest.map(({ text, column }) => `${nameOf(column)}: ${text}`)
      : [];
  const note = [cells['note'] ?? '', ...new Set(draft.notes), ...rest]
    .filter((part) => part !== '')
    .join('; ');
  if (note !== '') cells['note'] = note;
  return cells;
}

const nameOf = ({ heading, column }: { heading: string; column: string }): string =>
  heading === '' ? `column ${column}` : heading;

/**
 * What keeps the row from being used. A cell that nothing is computed from is no reason: the campaign keeps it as typed
 * and names it.
 */
export function faultsOf(
  table: TableName,
  cells: Readonly<Record<string, string>>,
): { column: string; fault: Fault }[] {
  const columns = Object.entries<Column>(schemas[table].columns);
  const faults = columns.flatMap(([name, column]) => {
    const cell = cells[name] ?? '';
    if (cell === '')
      return isNeeded(table, name, column, cells) ? [{ column: name, fault: missing(column) }] : [];
    const { value, fault } = readCell(name, column, cell, {});
    return fault === undefined || value !== undefined || column.detail ? [] : [{ column: name, fault }];
  });
  return faults.length > 0 ? faults : endsInOrder(cells);
}

/** A limit has no error of its own, and what was not determined no value. */
function isNeeded(
  table: TableName,
  name: string,
  column: Column,
  cells: Readonly<Record<string, string>>,
): boolean {
  if (name === 'row_id' || name === 'seq' || !isNeededIn(column, (other) => cells[other] ?? '')) return false;
  if (table !== 'determinations') return true;
  const isLimit = (cells['qualifier'] ?? '') !== '';
  if (name === 'error') return !isLimit && cells['status'] !== 'rejected';
  return name !== 'value' || (cells['qualifier'] !== 'not_determined' && cells['status'] !== 'rejected');
}

const missing = ({ about }: Column): Fault => ({
  code: 'missing',
  found: '',
  expected: about,
  fix: 'Choose the column that has it, decide one value for all rows, or fill in the cell.',
});

function endsInOrder(cells: Readonly<Record<string, string>>): { column: string; fault: Fault }[] {
  const metres = (name: string): number | null => {
    const read = readCell(name, LENGTH, cells[name] ?? '', {});
    return typeof read.value === 'number' ? read.value : null;
  };
  for (const [upper, lower] of [
    ['top', 'bottom'],
    ['from', 'to'],
  ] as const) {
    const [a, b] = [metres(upper), metres(lower)];
    if (a === null || b === null || a <= b) continue;
    const fault = {
      code: 'top-below-bottom',
      found: `${upper} ${cells[upper]}, ${lower} ${cells[lower]}`,
      expected: `${lower} at or below ${upper}`,
      fix: `Correct ${upper} or ${lower}, or exchange their columns.`,
    };
    return [{ column: lower, fault }];
  }
  return [];
}

const LENGTH: Column = {
  kind: 'length',
  required: false,
  about: '',
  min_m: Number.NEGATIVE_INFINITY,
  max_m: Number.POSITIVE_INFINITY,
};
