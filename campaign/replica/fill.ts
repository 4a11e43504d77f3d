/**
 * A document put into a Yjs document. Yjs knows every change by the client that made it and by its number there; filling
 * is done by a client named after what is filled in. So one file opened on two devices gives the same changes under the
 * same names, and the two copies merge into one campaign, each row once. Anything else, a file with one cell edited,
 * gives other names: such campaigns are never taken for each other.
 */

import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex, utf8ToBytes } from '@noble/hashes/utils.js';
import type { CampaignDocument, DocumentTable } from '@stillstand/campaign/document';
import * as Y from 'yjs';
import {
  columnCalled,
  isReadings,
  LAYOUT,
  parts,
  ROW_ID,
  type StoredForm,
  type StoredRow,
  whole,
} from './layout.ts';

/** What is filled in, as plain values in the order in which it is written. */
interface Content {
  whole: (readonly [string, string | number | Uint8Array | string[]])[];
  tables: {
    name: string;
    about: (readonly [string, StoredForm | Uint8Array | true])[];
    columns: [string, string][];
    rows: StoredRow[];
  }[];
}

/**
 * Puts a document into an empty Yjs document. `row_ids` are the identities of rows whose cells do not state one (table,
 * then line). The same document gives the same update, byte for byte; what is done to `doc` afterwards is done under
 * its own client, as random as Yjs made it.
 */
export function fill(
  doc: Y.Doc,
  from: CampaignDocument,
  row_ids: ReadonlyMap<string, ReadonlyMap<number, string>> = new Map(),
): void {
  if (doc.store.clients.size > 0) throw new RangeError('fill: the Yjs document is not empty');
  const content = contentOf(from, row_ids);
  underName(doc, digestOf(content), () => write(doc, content));
}

/**
 * Changes made by a client named after what they come from, `digest` in 13 hexadecimal digits or more: whoever makes the
 * same changes for the same reason makes them under the same names.
 */
export function underName(doc: Y.Doc, digest: string, change: () => void): void {
  const own = doc.clientID;
  doc.clientID = clientOf(digest);
  try {
    doc.transact(change);
  } finally {
    doc.clientID = own;
  }
}

/** 2³²: Yjs names a client by chance with a number below it. */
const BY_CHANCE = 0x1_0000_0000;

/** At least 2³² and below 2⁵³. Two contents share a name once in 2⁵² pairs. */
const clientOf = (digest: string): number => BY_CHANCE + Number.parseInt(digest.slice(0, 13), 16);

function digestOf(content: Content): string {
  const digests = (_: string, value: unknown): unknown =>
    value instanceof Uint8Array ? { sha256: bytesToHex(sha256(value)) } : value;
  return bytesToHex(sha256(utf8ToBytes(JSON.stringify(content, digests))));
}

function write(doc: Y.Doc, content: Content): void {
  for (const [key, value] of content.whole) whole(doc).set(key, value);
  for (const table of content.tables) writeTable(doc, table);
}

function writeTable(doc: Y.Doc, table: Content['tables'][number]): void {
  const { rows, columns, about } = parts(doc, table.name);
  for (const [key, value] of table.about) about.set(key, value);
  columns.push(table.columns);
  rows.push(isReadings(table.name) ? table.rows : table.rows.map((row) => new Y.Map(Object.entries(row))));
}

/** Puts a table of no name of ours in the place of what stands there; the caller makes the transaction. */
export function replaceUnknownTable(doc: Y.Doc, name: string, table: DocumentTable): void {
  const { rows, columns } = parts(doc, name);
  rows.delete(0, rows.length);
  columns.delete(0, columns.length);
  writeTable(doc, tableContent(name, table, undefined));
}

function contentOf(
  from: CampaignDocument,
  row_ids: ReadonlyMap<string, ReadonlyMap<number, string>>,
): Content {
  const content: Content = {
    whole: [
      ['layout', LAYOUT],
      ['tables', [...from.tables.keys()]],
    ],
    tables: [...from.tables].map(([name, table]) => tableContent(name, table, row_ids.get(name))),
  };
  if (from.package !== null) content.whole.push(['package', JSON.stringify(from.package)]);
  if (from.source !== null) content.whole.push(['package_bytes', from.source.bytes]);
  if (from.source !== null && from.source.package !== from.package)
    content.whole.push(['package_edited', 'yes']);
  return content;
}

function tableContent(
  name: string,
  table: DocumentTable,
  row_ids: ReadonlyMap<number, string> | undefined,
): Content['tables'][number] {
  const { source } = table;
  const about: [string, StoredForm | Uint8Array | true][] = [
    ['form', { path: table.path, dialect: { ...table.dialect }, width: table.columns.length }],
  ];
  if (source !== null) about.push(['bytes', source.bytes]);
  if (source?.rows !== table.rows || source.columns !== table.columns) about.push(['edited', true]);
  const column = table.columns.indexOf(ROW_ID);
  const rows = table.rows.map((row): StoredRow => {
    const id = row_ids?.get(row.line);
    return {
      c: [...row.cells],
      l: row.line,
      ...(row.stray_quote ? { q: true } : {}),
      ...(id === undefined || id === row.cells[column]?.trim() ? {} : { i: id }),
    };
  });
  return { name, about, columns: headsOf(name, table.columns), rows };
}

/** Headings with their ids: the column of ours that the heading means, unless that is empty or stands twice. */
export function headsOf(table: string, columns: readonly string[]): [string, string][] {
  const taken = new Set<string>();
  return columns.map((heading, i) => {
    const id = columnCalled(table, heading);
    if (id === '' || taken.has(id)) return [`${id}#${i}`, heading];
    taken.add(id);
    return [id, heading];
  });
}
