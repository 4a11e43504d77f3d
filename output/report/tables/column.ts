/** Columns of a CSV table: cells of text, of numbers and of yes or no, each with the words that explain it. */

import { type CsvColumn, noFormula } from '@stillstand/output/spreadsheet';
import { written } from '@stillstand/output/words';

export interface Column<Row> extends CsvColumn<Row> {
  /** What it is, with its unit. */
  about: string;
  /** The field of the described entry that it shows; null for a column that is not of the entry itself. */
  field: string | null;
  /** Its cells are numbers or empty. */
  isNumber: boolean;
}

interface Head {
  heading: string;
  about: string;
  field?: string | null;
}

export type Decimals<Row> = number | ((row: Row) => number);

export const textColumn = <Row>(
  { heading, about, field = null }: Head,
  value: (row: Row) => string | null,
): Column<Row> => ({
  heading,
  about,
  field,
  isNumber: false,
  cell: (row) => noFormula(value(row) ?? ''),
});

export const numberColumn = <Row>(
  { heading, about, field = null }: Head,
  decimals: Decimals<Row>,
  value: (row: Row) => number | null,
): Column<Row> => ({
  heading,
  about,
  field,
  isNumber: true,
  cell: (row) => written(value(row), typeof decimals === 'number' ? decimals : decimals(row)),
});

export const yesNoColumn = <Row>(head: Head, value: (row: Row) => boolean | null): Column<Row> =>
  textColumn(head, (row) => {
    const is = value(row);
    return is === null ? null : is ? 'yes' : 'no';
  });
