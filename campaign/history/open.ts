/**
 * A campaign that was read from its tables, as a Yjs document: from the history that lies next to them, where that is
 * theirs, so that copies of the campaign merge; else from the tables alone.
 */
import { type CampaignDocument, HISTORY_PATH, rowIds } from '@stillstand/campaign/document';
import { type Problem, problem } from '@stillstand/campaign/problems';
import { fill, readDocument } from '@stillstand/campaign/replica';
import { migrate, type Opened } from '@stillstand/campaign/versions';
import * as Y from 'yjs';
import { docOfHistory, MOST_HISTORY_BYTES } from './history-file.ts';
import { laidOver } from './lay-over.ts';

export interface Replica {
  doc: Y.Doc;
  /** What `doc` says, with the files that lie next to the tables; the history is among them only where it must stay as it is. */
  document: CampaignDocument;
  /** Of the history: `newer`, `other` (of another campaign) and `damaged` were not used; the tables alone were. */
  history: 'none' | 'as it is' | 'edited outside' | 'damaged' | 'newer' | 'other';
  problems: Problem[];
}

/** Identities of rows by table and line, as `rowIds` gives them. */
type RowIds = ReadonlyMap<string, ReadonlyMap<number, string>>;

/** Never throws; a history that cannot be used is named. */
export function replicaOf(
  { document: opened, read_only }: Pick<Opened, 'document' | 'read_only'>,
  row_ids: RowIds,
): Replica {
  const files = new Map(opened.files);
  const bytes = files.get(HISTORY_PATH);
  // What cannot be written here leaves as it came.
  if (!read_only) files.delete(HISTORY_PATH);
  const document = { ...opened, files };
  const fromTables = (history: Replica['history'], problems: Problem[] = []): Replica => {
    const doc = new Y.Doc();
    fill(doc, document, row_ids);
    return { doc, document, history, problems };
  };
  if (bytes === undefined) return fromTables('none');
  // Of tables that cannot be understood nobody can say whether they are what the history says.
  if (read_only)
    return fromTables('newer', [unused('the history of a campaign that cannot be written', TAKEN_LATER)]);
  const doc = docOfHistory(bytes);
  if (doc === 'newer')
    return fromTables('newer', [unused('a history kept by a newer Stillstand', OPEN_WITH_NEWER)]);
  if (doc === 'too large') return fromTables('damaged', [historyTooLarge(bytes.length)]);
  if (doc === 'damaged') return fromTables('damaged', [unused('a history that cannot be read', GET_AGAIN)]);
  try {
    const written = readDocument(doc);
    if (migrate({ ...written, tables: new Map() }).read_only)
      return fromTables('newer', [unused('a history kept by a newer Stillstand', OPEN_WITH_NEWER)]);
    if (isOther(written, document, row_ids))
      return fromTables('other', [unused('the history of another campaign', TAKE_OUT)]);
    const { isEdited, problems } = laidOver(doc, bytes, document, row_ids);
    return {
      doc,
      document: { ...readDocument(doc), files },
      history: isEdited ? 'edited outside' : 'as it is',
      problems,
    };
  } catch {
    return fromTables('damaged', [unused('a history that cannot be read', GET_AGAIN)]);
  }
}

/** By the identity that the packages state; where one states none, by rows that both have. */
function isOther(a: CampaignDocument, b: CampaignDocument, row_ids: RowIds): boolean {
  const id = ({ package: described }: CampaignDocument): unknown => described?.['id'] ?? null;
  if (id(a) !== null && id(b) !== null) return id(a) !== id(b);
  const rows = (of: RowIds): string[] =>
    [...of].flatMap(([table, lines]) => [...lines.values()].map((row_id) => `${table} ${row_id}`));
  const known = new Set(rows(rowIds(a)));
  const here = rows(row_ids);
  return known.size > 0 && here.length > 0 && !here.some((row) => known.has(row));
}

const MIB = 1_048_576;
const GET_AGAIN = 'To merge copies by their history, get the file again.';
const OPEN_WITH_NEWER = 'Keep the file, and open it with the newer Stillstand that wrote it.';
const TAKE_OUT = `Put the ${HISTORY_PATH} of this campaign there, or delete it.`;
const TAKEN_LATER = 'It is used once the campaign can be written.';

/** Of a history that is left unread. */
export const historyTooLarge = (bytes: number): Problem =>
  unused(`a history of ${Math.ceil(bytes / MIB)} MiB`, GET_AGAIN);

const unused = (found: string, action: string): Problem =>
  problem({
    severity: 'warning',
    code: 'history-unused',
    table: 'datapackage',
    found: `${HISTORY_PATH}: ${found}`,
    expected: `the history of this campaign, at most ${MOST_HISTORY_BYTES / MIB} MiB`,
    fix: `The campaign is opened from its tables alone. ${action}`,
  });
