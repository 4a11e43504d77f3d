/** A table: which entry of the results it lists, its rows, its columns, and what of the entry it leaves out. */
import type { Results } from '@stillstand/campaign/results';
import type { RecordShape, ShapeFields, ShapeValue } from '@stillstand/science/shape';
import { csv } from '../csv.ts';
import type { Column } from './column.ts';
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
}

export function table<Fields extends ShapeFields, Row>(of: {
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
}): ResultTable {
  const { file, entry, about, shape, rows, read, first = [], leftOut = {}, plan = {}, last = [] } = of;
  const columns = (results: Results | null): Column<Row>[] => [
    ...first,
    ...columnsOf(shape, read, { ...(typeof plan === 'function' ? plan(results) : plan), leftOut }),
    ...last,
  ];
  return {
    file,
    entry,
    about,
    fields: Object.keys(shape.fields),
    leftOut: leftOut as Readonly<Record<string, string>>,
    columns,
    csv: (results) => csv(columns(results), rows(results)),
  };
}

export const itself = <Row>(row: Row): Row => row;
