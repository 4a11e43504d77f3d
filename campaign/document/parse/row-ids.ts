/** The identity the campaign will know every row by, for whoever edits rows that do not state one. */
import { isTableName, plainHeading, schemas, type TableName } from '@stillstand/campaign/tables';
import type { CampaignDocument } from '../document.ts';
import { withNewNames } from '../old-names.ts';
import { FRAMES } from './draft.ts';
import { readHeading } from './heading.ts';
import { identify } from './identity.ts';
import { ProblemList } from './problem-list.ts';
import { readRows } from './rows.ts';

type RowIds = ReadonlyMap<TableName, ReadonlyMap<number, string>>;

/** `row_id` by table and line, as `parseCampaign` gives it; exact copies of a row have none. Never throws. */
export function rowIds(given: CampaignDocument): RowIds {
  const document = withNewNames(given);
  return statedIds(document) ?? derivedIds(document);
}

/** Where every row states an identity of its own, as in every campaign the app wrote, nothing else of it is read. */
function statedIds(document: CampaignDocument): RowIds | null {
  const ids = new Map<TableName, Map<number, string>>();
  const taken = new Set<string>();
  let count = 0;
  for (const [name, { columns, rows }] of document.tables) {
    if (!isTableName(name) || rows.length === 0) continue;
    const at = columns.findIndex((heading) => plainHeading(heading) === 'row_id');
    if (at === -1) return null;
    const own = new Map<number, string>();
    for (const { cells, line } of rows) {
      const id = (cells[at] ?? '').trim().normalize('NFC');
      if (id === '') return null;
      own.set(line, id);
      taken.add(id);
      count++;
    }
    ids.set(name, own);
  }
  return taken.size === count ? ids : null;
}

/** The same for any document: from what each row says, where it states none or another row states it too. */
export function derivedIds(document: CampaignDocument): RowIds {
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
