/** The identity the campaign will know every row by, for whoever edits rows that do not state one. */
import { schemas, type TableName } from '@stillstand/campaign/tables';
import type { CampaignDocument } from '../document.ts';
import { withNewNames } from '../old-names.ts';
import { FRAMES } from './draft.ts';
import { readHeading } from './heading.ts';
import { identify } from './identity.ts';
import { ProblemList } from './problem-list.ts';
import { readRows } from './rows.ts';

/** `row_id` by table and line, as `parseCampaign` gives it; exact copies of a row have none. Never throws. */
export function rowIds(given: CampaignDocument): ReadonlyMap<TableName, ReadonlyMap<number, string>> {
  const document = withNewNames(given);
  const unread = new ProblemList();
  const drafts = (Object.keys(schemas) as TableName[]).flatMap((name) => {
    const table = document.tables.get(name);
    if (table === undefined) return [];
    const frame = FRAMES.get(name)!;
    return readRows(table, frame, readHeading(table, frame, unread), {});
  });
  const ids = new Map<TableName, Map<number, string>>();
  for (const { table, line, row_id } of identify(drafts)) {
    if (!ids.has(table)) ids.set(table, new Map());
    ids.get(table)!.set(line, row_id);
  }
  return ids;
}
