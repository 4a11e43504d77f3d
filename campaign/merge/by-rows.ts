/**
 * Copies without a history in common, row by row: by `row_id`, or by the identity that the campaign derives for a row that
 * states none. Rows that are only in the copy come; rows that are only here stay; an empty cell is filled. A cell that
 * says two things stays as it is here and is a conflict. With an ancestor at hand, the base, only what both changed is.
 *
 * No reading is ever deleted or rewritten: where the copy says something else of one, it comes as an amendment when a
 * person chose it, or when only the copy changed it since the base.
 */
import { readColumns, readingOf } from '@stillstand/campaign/document';
import { type Change, type DocRow, withCommas, withPoints } from '@stillstand/campaign/replica';
import {
  capital,
  isTableName,
  placeName,
  rowName,
  schemas,
  type TableName,
} from '@stillstand/campaign/tables';
import type { Copy } from './copy.ts';
import { sayTheSame } from './counts.ts';
import type { MergeNote } from './shape.ts';

type Cells = Readonly<Record<string, string>>;

/** Cells of one row that say one thing here and another in the copy. */
export interface RowDifference {
  readonly table: TableName;
  readonly row_id: string;
  readonly ours: Cells;
  readonly theirs: Cells;
  /** As the base has them; null where there is none. */
  readonly was: Cells | null;
}

export interface RowsMerged {
  /** What comes by itself. */
  readonly changes: readonly Change[];
  /** Readings that only the copy changed since the base: what they say there. */
  readonly amended: readonly RowDifference[];
  readonly differences: readonly RowDifference[];
  readonly notes: readonly MergeNote[];
}

const TABLES = Object.keys(schemas) as TableName[];

export function mergedByRows(ours: Copy, theirs: Copy, base: Copy | null): RowsMerged {
  const changes: Change[] = [];
  const amended: RowDifference[] = [];
  const differences: RowDifference[] = [];
  const notes: MergeNote[] = [];
  for (const table of TABLES) {
    const copied = asWrittenHere(table, ours, theirs);
    const before = base === null ? null : asWrittenHere(table, ours, base);
    const isReadings = schemas[table].readings;
    for (const there of theirs.rows(table)) {
      // An exact copy of a row has no identity, and counts for nothing.
      if (there.row_id === '') continue;
      const { row_id } = there;
      const cells = copied(there.cells);
      const based = base?.row(table, row_id);
      const was = based === undefined ? null : before!(based.cells);
      const gone = isReadings ? undefined : ours.deleted(table, row_id);
      const here = ours.row(table, row_id) ?? gone;
      const isGone =
        ours.row(table, row_id) === undefined && (gone !== undefined || (was !== null && !isReadings));
      if (isGone && sayTheSame(cells, gone?.cells ?? was!)) {
        notes.push({ words: `${capital(rowName(table, cells))} was deleted here and stays deleted.` });
        continue;
      }
      if (isGone)
        notes.push({
          words: `${capital(rowName(table, cells))} was deleted here and changed in the copy: it is restored.`,
        });
      if (ours.row(table, row_id) === undefined)
        changes.push({ kind: 'add', table, row_id, cells: { ...(gone?.cells ?? cells), row_id } });
      if (here === undefined) continue;
      const { comes, differs } = between(here.cells, cells, was, isReadings);
      if (Object.keys(comes).length > 0) {
        const of = pick(here.cells, Object.keys(comes));
        if (isReadings) amended.push({ table, row_id, ours: of, theirs: comes, was });
        else changes.push({ kind: 'edit', table, row_id, before: of, after: comes });
      }
      if (differs.length > 0 && !(isReadings && wasSaid(ours, table, row_id, cells))) {
        const of = (row: Cells): Cells => pick(row, differs);
        differences.push({
          table,
          row_id,
          ours: of(here.cells),
          theirs: of(cells),
          was: was === null ? null : of(was),
        });
      }
    }
    for (const here of base === null ? [] : ours.rows(table)) {
      const based = base!.row(table, here.row_id);
      if (based === undefined || theirs.row(table, here.row_id) !== undefined) continue;
      const name = capital(placeName(table, here.cells));
      if (isReadings) {
        notes.push({ words: `${name} is not in the copy any more. It stays: withdraw it if it was wrong.` });
      } else if (sayTheSame(here.cells, before!(based.cells))) {
        changes.push({ kind: 'delete', table, row_id: here.row_id, cells: here.cells });
      } else notes.push({ words: `${name} was deleted in the copy and changed here: it stays.` });
    }
  }
  return {
    changes,
    amended: amended.filter((each) => !isSaid(ours, each)),
    differences,
    notes: [...notes, ...doubts(ours, theirs)],
  };
}

/** Cells that come by themselves, and columns that say two things. */
function between(here: Cells, there: Cells, was: Cells | null, isReading: boolean) {
  const comes: Record<string, string> = {};
  const differs: string[] = [];
  for (const column of new Set([...Object.keys(here), ...Object.keys(there)])) {
    const [ours, theirs] = [here[column]?.trim() ?? '', there[column]?.trim() ?? ''];
    if (column === 'row_id' || ours === theirs) continue;
    const old = was === null ? null : (was[column]?.trim() ?? '');
    if (old === theirs) continue;
    if (old === ours) comes[column] = theirs;
    else if (theirs === '' && old === null) continue;
    else if (ours === '' && !isReading) comes[column] = theirs;
    else differs.push(column);
  }
  return { comes, differs };
}

const pick = (cells: Cells, columns: readonly string[]): Cells =>
  Object.fromEntries(columns.map((column) => [column, cells[column]?.trim() ?? '']));

/** The reading here was written or amended so before: it is known what the copy says, and what became of it. */
function wasSaid(ours: Copy, table: TableName, row_id: string, cells: Cells): boolean {
  const columns = readColumns(table);
  const rows: readonly DocRow[] = readingOf(table, ours.rows(table), row_id)?.rows ?? [];
  return rows.some(
    (row) =>
      row.cells['amend_kind']?.trim() !== 'withdraw' &&
      columns.every(
        (column) =>
          column === 'seq' ||
          column === 'time' ||
          column.startsWith('amend') ||
          (row.cells[column]?.trim() ?? '') === (cells[column]?.trim() ?? ''),
      ),
  );
}

const isSaid = (ours: Copy, { table, row_id, theirs }: RowDifference): boolean =>
  wasSaid(ours, table, row_id, { ...ours.row(table, row_id)?.cells, ...theirs });

/** Numbers of the other copy with the decimal sign of the table here. */
function asWrittenHere(table: TableName, ours: Copy, other: Copy): (cells: Cells) => Cells {
  const isComma = (copy: Copy): boolean => copy.read(table)?.table.dialect.decimal_comma === true;
  if (isComma(ours) === isComma(other)) return (cells) => cells;
  return (cells) => (isComma(ours) ? withCommas : withPoints)(table, cells);
}

/** What the rules cannot see. */
function doubts(ours: Copy, theirs: Copy): MergeNote[] {
  const unit = (copy: Copy): string =>
    copy
      .rows('settings')
      .find(({ cells }) => cells['name']?.trim() === 'length_unit')
      ?.cells['value']?.trim() ?? '';
  const [here, there] = [unit(ours), unit(theirs)];
  const known = ours.document().tables;
  const said = (rows: readonly { cells: readonly string[] }[] = []): string =>
    JSON.stringify(rows.map(({ cells }) => cells));
  const others = [...theirs.document().tables].filter(
    ([table, { rows }]) =>
      !isTableName(table) && rows.length > 0 && said(rows) !== said(known.get(table)?.rows),
  );
  return [
    ...(here === there
      ? []
      : [
          {
            words: `Lengths typed without a unit are in ${there || 'no unit'} in the copy and in ${here || 'no unit'} here. Check those that come.`,
          },
        ]),
    ...others.map(([table]) => ({
      words: `${table} of the copy is no table of ours: its rows have no identity and stay in the copy.`,
    })),
  ];
}
