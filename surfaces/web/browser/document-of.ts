/** A document of rows typed by a test; rows are named by their table and place. */
import { type CampaignDocument, newDocument, withRows } from '@stillstand/campaign/document';

export type Cells = Record<string, string>;

export const documentOf = (
  name: string,
  tables: Readonly<Record<string, readonly Cells[]>>,
): CampaignDocument =>
  Object.entries(tables).reduce(
    (whole, [table, rows]) =>
      withRows(
        whole,
        table,
        rows.map((row, i) => ({ row_id: `${table}${i}`, ...row })),
      ),
    newDocument(name),
  );
