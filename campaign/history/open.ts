/**
 * A campaign that was read from its tables, as a Yjs document: from the history that lies next to them, where that is
 * theirs, so that copies of the campaign merge; else from the tables alone.
 */
import type { CampaignDocument } from '@stillstand/campaign/document';
import { type Problem, problem } from '@stillstand/campaign/problems';
import { fill, isKnownLayout, migrated, readDocument } from '@stillstand/campaign/replica';
import type { Opened } from '@stillstand/campaign/versions';
import * as Y from 'yjs';
import { HISTORY_PATH } from './history-file.ts';

export interface Replica {
  doc: Y.Doc;
  /** What `doc` says, with the files that lie next to the tables; the history is not among them. */
  document: CampaignDocument;
  /** Of the history: `newer`, `other` (of another campaign) and `damaged` were not used; the tables alone were. */
  history: 'none' | 'as it is' | 'edited outside' | 'damaged' | 'newer' | 'other';
  problems: Problem[];
}

/** Identities of rows by table and line, as `rowIds` gives them. */
type RowIds = ReadonlyMap<string, ReadonlyMap<number, string>>;

/** Never throws. */
export function replicaOf(opened: Pick<Opened, 'document' | 'read_only'>, row_ids: RowIds): Replica {
  const files = new Map(opened.document.files);
  const bytes = files.get(HISTORY_PATH);
  files.delete(HISTORY_PATH);
  const document = { ...opened.document, files };
  const fromTables = (history: Replica['history'], problems: Problem[] = []): Replica => {
    const doc = new Y.Doc();
    fill(doc, document, row_ids);
    return { doc, document, history, problems };
  };
  if (bytes === undefined) return fromTables('none');
  const doc = new Y.Doc();
  try {
    Y.applyUpdateV2(doc, bytes);
    if (!isKnownLayout(doc)) return fromTables('newer');
    migrated(doc);
    const read = readDocument(doc);
    return { doc, document: { ...read, files }, history: 'as it is', problems: [] };
  } catch {
    return fromTables('damaged', [unreadable()]);
  }
}

const unreadable = (): Problem =>
  problem({
    severity: 'warning',
    code: 'history-damaged',
    table: 'datapackage',
    found: `${HISTORY_PATH}, which cannot be read`,
    expected: 'the history of this campaign',
    fix: 'The tables are read without it. To merge copies with their history, get the file again.',
  });
