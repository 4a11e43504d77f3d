/** One copy of the campaign as it is read for a merge. */
import type { CampaignDocument } from '@stillstand/campaign/document';
import {
  type Acts,
  actsOf,
  type DocRow,
  readDocument,
  readTable,
  type TableRead,
} from '@stillstand/campaign/replica';
import type { TableName } from '@stillstand/campaign/tables';
import * as Y from 'yjs';

export interface Copy {
  readonly doc: Y.Doc;
  readonly acts: Acts;
  /** Whether it has the act. */
  knows(act: string): boolean;
  read(table: string): TableRead | null;
  rows(table: TableName): readonly DocRow[];
  /** A row that is there. */
  row(table: TableName, row_id: string): DocRow | undefined;
  /** A row that was deleted, as it last was. */
  deleted(table: TableName, row_id: string): DocRow | undefined;
  document(): CampaignDocument;
}

/** Read once: what is written into `doc` afterwards is not in it. */
export function copyOf(doc: Y.Doc): Copy {
  const read = once((table: string) => readTable(doc, table, { layout: '', rows: new WeakMap() }));
  const byId = once((table: TableName) => identified(read(table)?.rows ?? []));
  const deletedById = once((table: TableName) =>
    identified((read(table)?.deleted ?? []).map(({ row }) => row)),
  );
  const acts = actsOf(doc, true);
  let ids: ReadonlySet<string> | null = null;
  return {
    doc,
    acts,
    knows: (act) => {
      ids ??= new Set(acts.all().map(({ id }) => id));
      return ids.has(act);
    },
    read,
    rows: (table) => read(table)?.rows ?? [],
    row: (table, row_id) => byId(table).get(row_id),
    deleted: (table, row_id) => deletedById(table).get(row_id),
    document: () => readDocument(doc, read),
  };
}

/** Whether both began as one: some of what is in one was written by the same hand at the same time as what is in the other. */
export function haveHistoryInCommon(ours: Y.Doc, theirs: Y.Doc): boolean {
  const known = Y.decodeStateVector(Y.encodeStateVector(ours));
  return [...Y.decodeStateVector(Y.encodeStateVector(theirs)).keys()].some((client) => known.has(client));
}

/** Whether both hold the same changes, deletions too. */
export const holdTheSame = (a: Y.Doc, b: Y.Doc): boolean => Y.equalSnapshots(Y.snapshot(a), Y.snapshot(b));

const identified = (rows: readonly DocRow[]): ReadonlyMap<string, DocRow> =>
  new Map(rows.toReversed().map((row) => [row.row_id, row]));

function once<K, V>(make: (key: K) => V): (key: K) => V {
  const made = new Map<K, V>();
  return (key) => {
    if (!made.has(key)) made.set(key, make(key));
    return made.get(key)!;
  };
}
