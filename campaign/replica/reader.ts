/** The document of a Yjs document as it is now, each table read again only when something of it changed. */
import { type CampaignDocument, tableCalled } from '@stillstand/campaign/document';
import type * as Y from 'yjs';
import { readDocument, readTable, type TableMemory, type TableRead } from './read.ts';

export interface Reader {
  /** Null where there is no table of that name. The same object until something of it changes. */
  read(table: string): TableRead | null;
  /** The same object until something changes. */
  document(): CampaignDocument;
  /** The table is read again when it is asked for next: inside a transaction, whose end is not yet heard of. */
  forget(table: string): void;
}

/** `changed` is called after each transaction that changed anything. */
export function reader(doc: Y.Doc, changed: () => void = () => undefined): Reader {
  const memories = new Map<string, TableMemory>();
  const reads = new Map<string, TableRead | null>();
  let snapshot: CampaignDocument | null = null;
  doc.on('afterTransaction', (transaction: Y.Transaction) => {
    if (transaction.changed.size === 0) return;
    const types: ReadonlyMap<unknown, unknown> = transaction.changedParentTypes;
    for (const [name, shared] of doc.share) if (types.has(shared)) reads.delete(tableOf(name));
    snapshot = null;
    changed();
  });
  const read = (name: string): TableRead | null => {
    const known = reads.get(name);
    if (known !== undefined) return known;
    const memory = memories.get(name) ?? { layout: '', rows: new WeakMap() };
    memories.set(name, memory);
    const found = readTable(doc, name, memory);
    reads.set(name, found);
    return found;
  };
  return {
    read,
    document: () => {
      snapshot ??= readDocument(doc, read);
      return snapshot;
    },
    forget: (table) => {
      reads.delete(table);
      snapshot = null;
    },
  };
}

/** "rows:holes" belongs to holes; a list keeps the first name of its table. */
const tableOf = (sharedName: string): string => tableCalled(sharedName.slice(sharedName.indexOf(':') + 1));
