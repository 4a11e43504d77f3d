/** What a campaign already holds, for a table that is to be added to it. */
import { type CampaignDocument, withNewNames } from '@stillstand/campaign/document';
import {
  bareUnit,
  isTableName,
  parseLength,
  plainHeading,
  type TableName,
} from '@stillstand/campaign/tables';

export type Cells = Readonly<Record<string, string>>;

export interface Here {
  /** Identity of the campaign; null where it states none. */
  id: string | null;
  /** Rows by column, with the names of today. */
  rows(table: TableName): readonly Cells[];
  /** A length as it is typed there, metres; null where it is none. */
  metres(table: TableName, text: string): number | null;
}

export function hereOf(given: CampaignDocument): Here {
  const document = withNewNames(given);
  const known = new Map<TableName, readonly Cells[]>();
  const read = (name: TableName): readonly Cells[] => {
    const table = document.tables.get(name);
    if (table === undefined || !isTableName(name)) return [];
    const headings = table.columns.map(plainHeading);
    return table.rows.map(({ cells }) =>
      Object.fromEntries(headings.map((heading, i) => [heading, cells[i]?.trim() ?? ''])),
    );
  };
  const rows = (name: TableName): readonly Cells[] => {
    if (!known.has(name)) known.set(name, read(name));
    return known.get(name)!;
  };
  const unit = bareUnit(rows('settings').find((row) => row['name'] === 'length_unit')?.['value']);
  const id = document.package?.['id'];
  return {
    id: typeof id === 'string' ? id : null,
    rows,
    metres: (name, text) => {
      const decimal_comma = document.tables.get(name)?.dialect.decimal_comma ?? false;
      const length = parseLength(text, { unit, decimal_comma });
      return length.ok ? length.metres : null;
    },
  };
}
