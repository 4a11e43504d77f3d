/** A table: which entry of the results it lists, its rows, its columns, and what of the entry it leaves out. */
import { curveLookedAt, fromEachCurve, type Results } from '@stillstand/campaign/results';
import { csv, xlsx } from '@stillstand/output/spreadsheet';
import type { RecordShape, ShapeFields, ShapeValue } from '@stillstand/science/shape';
import { type Column, textColumn } from './column.ts';
import { columnsOf, type Plan } from './described.ts';

/** Whatever its rows are. */
export interface ResultTable {
  file: string;
  /** The entry of the results it lists, as docs/results.md names it. */
  entry: string;
  about: string;
  /** Names of the entry's fields. */
  fields: readonly string[];
  /** Field → why it has no column. */
  leftOut: Readonly<Record<string, string>>;
  /** Without results those that every campaign has, and one of each that depend on what a campaign has. */
  columns(results: Results | null): readonly Pick<Column<never>, 'heading' | 'about' | 'field'>[];
  csv(results: Results): string;
  /** The same cells, row by row. */
  sheet(results: Results): Sheet;
  /** The same as a workbook of one sheet, named as the file is. */
  xlsx(results: Results): Uint8Array;
}

/** Text of a cell as CSV has it; a number, or empty, where its column is one of numbers. */
interface Sheet {
  columns: readonly Pick<Column<never>, 'heading' | 'about' | 'isNumber'>[];
  rows: readonly (readonly string[])[];
}

interface TablePlan<Fields extends ShapeFields, Row> {
  file: string;
  entry: string;
  about: string;
  shape: RecordShape<Fields, boolean>;
  rows: (results: Results) => readonly Row[];
  read: (row: Row) => ShapeValue<RecordShape<Fields, false>> | null;
  /** Before all others. */
  first?: readonly Column<Row>[];
  leftOut?: Plan<Fields, Row>['leftOut'];
  plan?:
    | Omit<Plan<Fields, Row>, 'leftOut'>
    | ((results: Results | null) => Omit<Plan<Fields, Row>, 'leftOut'>);
  /** After all others. */
  last?: readonly Column<Row>[];
}

export const table = <Fields extends ShapeFields, Row>(of: TablePlan<Fields, Row>): ResultTable =>
  listing(of, (results) => columnsFor(of, results), of.rows);

/** The same of every curve of the campaign, that of the report first; the curve is named before all else. */
export const ofEachCurve = <Fields extends ShapeFields, Row>(of: TablePlan<Fields, Row>): ResultTable =>
  listing(
    of,
    (results): Column<OfCurve<Row>>[] => [
      textColumn(
        { heading: 'curve', about: 'name of the curve; main is that of the report' },
        (row) => row.curve,
      ),
      ...columnsFor(of, results).map((column) => ({
        ...column,
        cell: ({ row }: OfCurve<Row>) => column.cell(row),
      })),
    ],
    (results) =>
      fromEachCurve(results).flatMap((seen) =>
        of.rows(seen).map((row) => ({ curve: curveLookedAt(seen), row })),
      ),
  );

interface OfCurve<Row> {
  curve: string | null;
  row: Row;
}

function columnsFor<Fields extends ShapeFields, Row>(
  { shape, read, first = [], leftOut = {}, plan = {}, last = [] }: TablePlan<Fields, Row>,
  results: Results | null,
): Column<Row>[] {
  return [
    ...first,
    ...columnsOf(shape, read, { ...(typeof plan === 'function' ? plan(results) : plan), leftOut }),
    ...last,
  ];
}

function listing<Fields extends ShapeFields, Own, Row>(
  { file, entry, about, shape, leftOut = {} }: TablePlan<Fields, Own>,
  columns: (results: Results | null) => Column<Row>[],
  rows: (results: Results) => readonly Row[],
): ResultTable {
  const sheet = (results: Results): Sheet => {
    const own = columns(results);
    return { columns: own, rows: rows(results).map((row) => own.map((column) => column.cell(row))) };
  };
  return {
    file,
    entry,
    about,
    fields: Object.keys(shape.fields),
    leftOut: leftOut as Readonly<Record<string, string>>,
    columns,
    csv: (results) => csv(columns(results), rows(results)),
    sheet,
    xlsx: (results) => {
      const { columns: own, rows: cells } = sheet(results);
      return xlsx(file.replace(/\.csv$/, ''), own, cells);
    },
  };
}

export const itself = <Row>(row: Row): Row => row;
