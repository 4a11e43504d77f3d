/** Without a history in common: rows that say one thing here and another in the copy, as conflicts. */
import {
  capital,
  columnName,
  labelColumn,
  linksOf,
  placeName,
  schemas,
  type TableName,
} from '@stillstand/campaign/tables';
import { alsoIn } from './also-in.ts';
import type { RowDifference } from './by-rows.ts';
import { LATER, type Meeting, type Question } from './meeting.ts';
import type { ConflictSide, MergeConflict } from './shape.ts';

/** A choice: what stands here, or what the copy says. */
const HERE = 'ours';
const THERE = 'theirs';

/** Of a reading one conflict, of another row one for each cell; a label and the cells that name it are one. */
export function rowConflicts(meeting: Meeting): Question[] {
  const each = meeting.differences.flatMap((difference) =>
    schemas[difference.table].readings
      ? [difference]
      : Object.keys(difference.ours).map((column) => cellOf(difference, column)),
  );
  const labels = each.filter(({ table, ours }) => Object.hasOwn(ours, labelColumn(table) ?? ''));
  const carriedBy = (difference: RowDifference): RowDifference | undefined =>
    labels.find((label) => label !== difference && follows(meeting, difference, label));
  return each
    .filter((difference) => carriedBy(difference) === undefined)
    .map((difference) => {
      const { table, row_id, theirs } = difference;
      return {
        conflict: conflictOf(
          meeting,
          difference,
          each.filter((other) => carriedBy(other) === difference),
        ),
        decide: (edits, choice) => {
          if (choice === HERE) return;
          if (schemas[table].readings) edits.amend(table, row_id, theirs);
          else edits.editRow(table, row_id, theirs);
        },
      };
    });
}

const cellOf = ({ table, row_id, ours, theirs, was }: RowDifference, column: string): RowDifference => ({
  table,
  row_id,
  ours: { [column]: ours[column]! },
  theirs: { [column]: theirs[column]! },
  was: was === null ? null : { [column]: was[column] ?? '' },
});

/** All that differs is what the row with the label is called. */
function follows(
  { ours }: Meeting,
  { table, row_id, ours: here, theirs: there }: RowDifference,
  label: RowDifference,
): boolean {
  const column = labelColumn(label.table)!;
  const row = ours.row(table, row_id);
  const links = row === undefined ? [] : linksOf(table, (name) => row.cells[name]?.trim() ?? '');
  return Object.keys(here).every(
    (name) =>
      here[name] === label.ours[column] &&
      there[name] === label.theirs[column] &&
      links.some((link) => link.to === label.table && link.label === column && link.column === name),
  );
}

function conflictOf(
  { ours, theirs }: Meeting,
  difference: RowDifference,
  carried: readonly RowDifference[],
): MergeConflict {
  const { table, row_id, was } = difference;
  const columns = Object.keys(difference.ours);
  const called = columns.map((column) => columnName(table, column)).join(', ');
  const said = (cells: Readonly<Record<string, string>>): string =>
    columns.length === 1
      ? cells[columns[0]!]!
      : columns.map((column) => `${columnName(table, column)} ${cells[column] || 'nothing'}`).join(', ');
  const side = (which: 'ours' | 'theirs'): ConflictSide => {
    const value = said(difference[which]);
    const cells = (which === 'ours' ? ours : theirs).row(table, row_id)?.cells ?? {};
    return {
      side: which,
      value,
      words: columns.length === 1 ? `${called} ${value || 'nothing'}` : value,
      by: cells['by']?.trim() ?? '',
      device: cells['device']?.trim() ?? '',
      time: cells['time']?.trim() ?? '',
      reason: '',
    };
  };
  const isReading = schemas[table].readings;
  const [here, there] = [side('ours'), side('theirs')];
  return {
    key: `row ${table} ${row_id} ${columns.join(' ')}`,
    kind: 'row',
    table,
    row_id,
    column: isReading ? '' : columns[0]!,
    name: `${capital(placeName(table, cellsOf(ours, table, row_id)))}: ${called}${alsoIn(carried)}`,
    was: was === null ? '' : said(was),
    sides: [here, there],
    choices: [
      { key: HERE, side: 'ours', words: `Keep ${here.value || 'nothing'}` },
      { key: THERE, side: 'theirs', words: `Keep ${there.value || 'nothing'}` },
      LATER,
    ],
    effect: [],
    until: isReading
      ? 'The reading stays as it is here until this is decided.'
      : `${capital(called)} stays ${here.value || 'empty'} until this is decided.`,
  };
}

const cellsOf = ({ row, deleted }: Meeting['ours'], table: TableName, row_id: string) =>
  (row(table, row_id) ?? deleted(table, row_id))?.cells ?? {};
