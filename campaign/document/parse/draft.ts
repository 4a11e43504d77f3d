/** A row on its way from cells to campaign: its values as far as they could be read, and what was wrong with it. */

import type { Severity } from '@stillstand/campaign/problems';
import {
  type CellValue,
  type Column,
  type Fault,
  labelColumn,
  plainWord,
  rowName,
  schemas,
  type TableName,
} from '@stillstand/campaign/tables';
import { firstColumn, firstWord } from '../old-names.ts';

export interface RowFault extends Fault {
  severity: Severity;
  column: string | null;
}

/** By field name, lengths as `NAME_m`; null where blank or unreadable. Those named here matter to the reading itself. */
interface DraftValues {
  [field: string]: CellValue | null | undefined;
  row_id?: CellValue | null;
  seq?: CellValue | null;
  hole?: CellValue | null;
  loop?: CellValue | null;
  gauge?: CellValue | null;
  date?: CellValue | null;
  amends?: CellValue | null;
  amend_kind?: CellValue | null;
  time?: CellValue | null;
  basis?: CellValue | null;
}

export interface Draft {
  readonly table: TableName;
  readonly line: number;
  row_id: string;
  readonly values: DraftValues;
  /** As typed, with the headings they stand under, for the row's identity. */
  readonly cells: readonly string[];
  readonly order: readonly HeadedCell[];
  faults: RowFault[];
  usable: boolean;
}

/** A heading and where its cells stand. */
export interface HeadedCell {
  /** First name of the column, and its name today. */
  readonly heading: string;
  readonly called: string;
  readonly position: number;
}

interface FrameColumn {
  readonly name: string;
  /** Name of its value: `NAME_m` for a length. */
  readonly field: string;
  readonly column: Column;
}

/** What the rows of one table have in common. */
export interface TableFrame {
  readonly name: TableName;
  readonly columns: readonly FrameColumn[];
  /** Upper and lower end, where a row has them. */
  readonly ends: readonly [string, string] | null;
  /** Every field, null. */
  readonly blank: Readonly<DraftValues>;
  readonly label: string | null;
  readonly scope: readonly string[];
  readonly isReadings: boolean;
}

export const FRAMES: ReadonlyMap<TableName, TableFrame> = new Map(
  (Object.keys(schemas) as TableName[]).map((name) => [name, frame(name)]),
);

function frame(name: TableName): TableFrame {
  const columns = Object.entries<Column>(schemas[name].columns).map(([column, description]) => ({
    name: column,
    field: description.kind === 'length' ? `${column}_m` : column,
    column: description,
  }));
  const has = (...names: string[]): boolean =>
    names.every((column) => Object.hasOwn(schemas[name].columns, column));
  return {
    name,
    columns,
    ends: has('top', 'bottom') ? ['top', 'bottom'] : name === 'pushes' ? ['from', 'to'] : null,
    blank: Object.fromEntries(columns.map(({ field }) => [field, null])),
    label: labelColumn(name),
    scope: schemas[name].scope,
    isReadings: schemas[name].readings,
  };
}

/**
 * Headings in alphabetical order with the place of their cells; row_id left out. By their first names: an id that was
 * derived from what a row says stays when a column gets another name.
 */
export function headedCells(table: TableName, columns: readonly string[]): HeadedCell[] {
  return columns
    .map((column, position) => {
      const called = plainWord(column);
      return { heading: firstColumn(table, called), called, position };
    })
    .filter(({ heading }) => heading !== 'row_id')
    .sort((a, b) => (a.heading < b.heading ? -1 : a.heading > b.heading ? 1 : a.position - b.position));
}

/** What the row says, whatever the order of its columns and whatever its id. */
export function whatItSays({ table, cells, order }: Draft): string {
  let said = '';
  for (const { heading, called, position } of order) {
    const cell = cells[position]?.trim() ?? '';
    if (cell !== '') said += `${heading}\u0000${firstWord(table, called, cell)}\u0001`;
  }
  return said;
}

/** Separates parts of a key; cannot be typed into a cell. */
const SEPARATOR = '\u0000';

/** A label within its scope, as a key; null where one of them is missing. */
export function labelKey(scope: readonly string[], column: string, values: Draft['values']): string | null {
  let key = '';
  for (const part of scope) {
    const value = values[part];
    if (value === null || value === undefined) return null;
    key += `${value}${SEPARATOR}`;
  }
  const label = values[column];
  return label === null || label === undefined ? null : key + label;
}

/** What a person knows the row by: "H3", "H3 R7", "H3 number 12". */
export function rowLabel(draft: Draft): string | null {
  const { label, scope, isReadings } = FRAMES.get(draft.table)!;
  const { values } = draft;
  const whole = label === null ? null : labelKey(scope, label, values);
  if (whole !== null) return whole.replaceAll(SEPARATOR, ' ');
  if (!isReadings) return null;
  const series = values.hole ?? values.loop ?? values.gauge ?? values.date;
  const seq = values.seq;
  if (series === null || series === undefined) return null;
  return seq === null || seq === undefined ? String(series) : `${series} number ${seq}`;
}

/** What a person calls the row: "drive at 10:42 of T2". */
export const saidOf = ({ table, cells, order }: Draft): string =>
  rowName(table, Object.fromEntries(order.map(({ called, position }) => [called, cells[position] ?? ''])));

/** Sets a row aside with the reason. */
export function refuse(draft: Draft, column: string | null, fault: Fault): void {
  draft.faults.push({ ...fault, severity: 'error', column });
  draft.usable = false;
}
