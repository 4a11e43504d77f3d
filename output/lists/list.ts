/** A list that goes with things: lines above it, columns, and a row for each thing; the same for CSV, workbook and page. */
import { csv, noFormula, xlsx } from '@stillstand/output/spreadsheet';

export interface ListColumn {
  heading: string;
  /** Its cells are numbers as CSV has them, or empty. */
  isNumber: boolean;
  /** On the page it is one line of the cell that has this heading; without it a cell of its own. */
  within?: string;
  /** Left blank to be filled in. */
  isToFillIn?: boolean;
}

export interface List {
  title: string;
  /** Name and words: "From", "A. Bearer". */
  head: readonly (readonly [name: string, words: string])[];
  /** Sentences below that. */
  notes: readonly string[];
  columns: readonly ListColumn[];
  rows: readonly ListRow[];
}

export interface ListRow {
  /** One for each column. */
  cells: readonly string[];
  /** What a camera reads; null for none. */
  code: string | null;
}

/** Above the headings, a cell a line: a reader that looks for headings finds no heading in them. */
const linesAbove = ({ title, head, notes }: List): string[] =>
  [title, ...head.map(([name, words]) => `${name}: ${words}`), ...notes].map((line) =>
    line.replace(/\s+/g, ' ').trim(),
  );

export function listCsv(list: List): string {
  const above = linesAbove(list).map((line) => csv([{ heading: line, cell: () => '' }], []));
  const columns = list.columns.map(({ heading, isNumber }, i) => ({
    heading,
    cell: ({ cells }: ListRow): string => (isNumber ? cells[i]! : noFormula(cells[i]!)),
  }));
  return `${above.join('')}${csv(columns, list.rows)}`;
}

/** Names of sheets are short and have no signs. */
export const listXlsx = (list: List): Uint8Array =>
  xlsx(
    list.title.replace(/[:\\/?*[\]]/g, ' ').slice(0, 31),
    list.columns,
    list.rows.map(({ cells }) => cells),
    linesAbove(list),
  );
