/**
 * A problem as the app and the day sheet say it: its place by the hole, the kind of reading and the clock, never by the
 * names that tables and columns have in the files. Who has the files in hand reads `problemLine` instead.
 */
import type { Problem } from '@stillstand/campaign/problems';
import {
  capital,
  choiceName,
  columnName,
  isChoice,
  isTableName,
  placeName,
  settingName,
  tableWords,
} from '@stillstand/campaign/tables';
import type { TypedTables } from './dependents.ts';

export interface ProblemWords {
  /** "Hole T2, drive at 10:42: stick-up after". */
  place: string;
  /** Empty where a cell is blank. */
  found: string;
  expected: string;
  fix: string;
}

export function problemWords(problem: Problem, rowsOf: TypedTables): ProblemWords {
  const { table, column, found, expected, fix } = problem;
  // A setting is nothing but its value.
  const named =
    column === null || table === 'settings' ? '' : isTableName(table) ? columnName(table, column) : column;
  const isChosen = isTableName(table) && column !== null && isChoice(table, column);
  const place = [placeOf(problem, rowsOf), named].filter(Boolean).join(': ');
  return { place: capital(place), found: isChosen ? choiceName(found) : found, expected, fix };
}

function placeOf({ table, row_id, label }: Problem, rowsOf: TypedTables): string {
  if (table === 'datapackage') return 'the campaign’s files';
  if (!isTableName(table)) return table;
  const rows = rowsOf(table);
  const row = row_id === null ? undefined : rows.find((each) => each.row_id === row_id);
  if (row !== undefined) {
    return placeName(
      table,
      row.cells,
      rows.map(({ cells }) => cells),
    );
  }
  if (label === null) return tableWords(table);
  // A setting that nobody has made yet.
  return table === 'settings' ? `setting “${settingName(label)}”` : `${tableWords(table)}, ${label}`;
}
