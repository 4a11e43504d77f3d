/**
 * What somebody did to the tables outside, in a spreadsheet or by the command line, as changes to the rows of the history.
 * Readings are never rewritten: one that says something else is amended, and one that is gone stays, and is named.
 */
import type { DocumentTable } from '@stillstand/campaign/document';
import { type Problem, problem } from '@stillstand/campaign/problems';
import type { Change, DocRow, TableRead } from '@stillstand/campaign/replica';
import {
  columnName,
  countedRows,
  plainHeading,
  rowName,
  schemas,
  type TableName,
} from '@stillstand/campaign/tables';
import { type FileRow, rowsOfFile } from './file-rows.ts';

export interface Outside {
  changes: Change[];
  /** Of readings, cells in columns that are none of ours: they are no part of the reading, and follow the file. */
  foreign: { row_id: string; cells: Record<string, string> }[];
  problems: Problem[];
}

export function outside(
  name: TableName,
  table: DocumentTable,
  ids: ReadonlyMap<number, string>,
  known: TableRead | null,
  newRowId: () => string,
): Outside {
  const found: Outside = { changes: [], foreign: [], problems: [] };
  if (hasColumnTwice(name, table)) {
    found.problems.push(tableUnread(name, table));
    return found;
  }
  const { readings } = schemas[name];
  const rows = rowsOfFile(name, table, ids, known);
  const { columns } = rows;
  found.problems.push(
    ...lostColumns(name, columns, known),
    ...rows.unread.slice(0, NAMED).map((row) => rowUnread(name, row.line, row.cells)),
  );
  for (const { was, now } of rows.known) {
    const edited = editedCells(columns, was, now);
    if (edited.length === 0) continue;
    if (readings) amend(name, was, now, edited, newRowId, found);
    else found.changes.push(edit(name, was, edited));
  }
  for (const { was, now } of rows.back) {
    const edited = editedCells(columns, was, now);
    found.changes.push({ kind: 'add', table: name, row_id: was.row_id, cells: was.cells });
    if (edited.length > 0) found.changes.push(edit(name, was, edited));
  }
  for (const { row_id, cells } of rows.added)
    found.changes.push({ kind: 'add', table: name, row_id, cells: { ...filled(cells), row_id } });
  if (rows.gone.length === 0) return found;
  if (readings) found.problems.push(readingsGone(name, rows.gone));
  // A row that cannot be read may be the one that seems gone.
  else if (rows.unread.length === 0)
    for (const { row_id, cells } of rows.gone)
      found.changes.push({ kind: 'delete', table: name, row_id, cells });
  return found;
}

function hasColumnTwice(name: TableName, { columns }: DocumentTable): boolean {
  const ours = columns.map(plainHeading).filter((column) => Object.hasOwn(schemas[name].columns, column));
  return new Set(ours).size < ours.length;
}

type Edited = [column: string, cell: string][];

const editedCells = (columns: readonly string[], was: DocRow, now: FileRow): Edited =>
  columns.flatMap((column): Edited => {
    const cell = now.cells[column] ?? '';
    return cell === (was.cells[column] ?? '') ? [] : [[column, cell]];
  });

const edit = (table: TableName, { row_id, cells }: DocRow, edited: Edited): Change => ({
  kind: 'edit',
  table,
  row_id,
  before: Object.fromEntries(edited.map(([column]) => [column, cells[column] ?? ''])),
  after: Object.fromEntries(edited),
});

const filled = (cells: DocRow['cells']): Record<string, string> =>
  Object.fromEntries(Object.entries(cells).filter(([, cell]) => cell !== ''));

function amend(
  table: TableName,
  was: DocRow,
  now: FileRow,
  edited: Edited,
  newRowId: () => string,
  { changes, foreign, problems }: Outside,
): void {
  const isOurs = (column: string): boolean => Object.hasOwn(schemas[table].columns, column);
  const others = edited.filter(([column]) => !isOurs(column));
  if (others.length > 0) foreign.push({ row_id: was.row_id, cells: Object.fromEntries(others) });
  const own = edited.filter(([column]) => isOurs(column));
  if (own.length === 0) return;
  const isWithdrawal = (was.cells['amend_kind']?.trim() ?? '') === 'withdraw';
  if (isWithdrawal || own.some(([column]) => column === 'amends' || column === 'amend_kind')) {
    problems.push(amendmentChanged(table, was, now));
    return;
  }
  // Who read it stands in the row that is replaced; who edited the file is not known.
  const { by: _, device: __, ...cells } = filled(now.cells);
  const row_id = newRowId();
  const reason = { amend_reason: cells['amend_reason'] ?? 'edited outside Stillstand' };
  const added = { ...cells, ...reason, row_id, amends: was.row_id, amend_kind: 'replace' };
  changes.push({ kind: 'add', table, row_id, cells: added });
}

/** Of one kind so many are named. */
const NAMED = 20;

function readingsGone(table: TableName, gone: readonly DocRow[]): Problem {
  const [first, ...others] = gone;
  const more = others.length === 0 ? '' : ` and ${others.length} more`;
  return problem({
    severity: 'warning',
    code: 'reading-deleted-outside',
    table,
    row_id: first!.row_id,
    found: `no ${rowName(table, first!.cells)}${more} in the file`,
    expected: `all ${countedRows(table, gone.length)} that the history has`,
    fix: 'Readings are never deleted: they are kept. Withdraw those that do not count.',
  });
}

const amendmentChanged = (table: TableName, was: DocRow, { line }: FileRow): Problem =>
  problem({
    severity: 'warning',
    code: 'amendment-changed-outside',
    table,
    row_id: was.row_id,
    line,
    found: 'an amendment that says something else than when it was written',
    expected: 'amendments as they were written',
    fix: 'It is kept as it was. Amend the reading, or withdraw it.',
  });

const rowUnread = (table: TableName, line: number, cells: readonly string[]): Problem =>
  problem({
    severity: 'warning',
    code: 'row-not-taken',
    table,
    line,
    found: cells.join(' | '),
    expected: 'one value for each heading',
    fix: 'Correct the row in its file and open the campaign again. Until then the rows of the history are used.',
  });

const tableUnread = (table: TableName, { path, columns }: DocumentTable): Problem =>
  problem({
    severity: 'error',
    code: 'table-not-taken',
    table,
    found: `${path} with the headings ${columns.join(', ')}`,
    expected: 'the headings of this table, each once',
    fix: 'Correct the file and open the campaign again. Until then the rows of the history are used.',
  });

/** Columns of the history in which something is written and that the file has not. */
function lostColumns(table: TableName, columns: readonly string[], known: TableRead | null): Problem[] {
  const inFile = new Set(columns);
  const lost = new Set(
    known?.rows.flatMap(({ cells }) =>
      Object.keys(cells).filter(
        (column) => column !== 'row_id' && !inFile.has(column) && cells[column] !== '',
      ),
    ),
  );
  return [...lost].slice(0, NAMED).map((column) =>
    problem({
      severity: 'warning',
      code: 'column-kept',
      table,
      column,
      found: `no heading of the ${columnName(table, column)} in the file`,
      expected: 'the headings that the history has',
      fix: 'Its values are kept from the history. Delete them on the screen if they are not meant to be there.',
    }),
  );
}
