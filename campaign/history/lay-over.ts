/** Lays the tables of a campaign over its history, as one act, where the two differ: the tables are what counts. */
import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex, utf8ToBytes } from '@noble/hashes/utils.js';
import {
  type CampaignDocument,
  type DocumentTable,
  type JsonObject,
  PACKAGE_PATH,
  writeFiles,
} from '@stillstand/campaign/document';
import { type Problem, problem } from '@stillstand/campaign/problems';
import {
  actsOf,
  type Change,
  layForeign,
  layForm,
  layHeadings,
  layPackage,
  listTables,
  make,
  migrated,
  readDocument,
  readTable,
  replaceUnknownTable,
  type TableRead,
  underName,
} from '@stillstand/campaign/replica';
import { isTableName } from '@stillstand/campaign/tables';
import type * as Y from 'yjs';
import { type Outside, outside } from './outside.ts';

type RowIds = ReadonlyMap<string, ReadonlyMap<number, string>>;

export interface LaidOver {
  /** Rows or cells of tables that were edited outside. */
  isEdited: boolean;
  problems: Problem[];
}

/**
 * Lifts `doc`, read from `history`, to the version of `document`, and lays its tables over it. Two devices that open the
 * same files make the very same changes, so that their copies merge with each of them once.
 */
export function laidOver(
  doc: Y.Doc,
  history: Uint8Array,
  document: CampaignDocument,
  row_ids: RowIds,
): LaidOver {
  const files = writeFiles({ ...document, files: new Map() });
  const digest = digestOf(history, files);
  const laid: LaidOver = { isEdited: false, problems: [] };
  underName(doc, digest, () => {
    migrated(doc);
    const before = readDocument(doc);
    const same = new Set(
      [...writeFiles(before)].flatMap(([path, bytes]) => (isEqual(bytes, files.get(path)) ? [path] : [])),
    );
    if (same.size === files.size && before.tables.size === document.tables.size) return;
    const named = newIds(digest);
    const tables = new Map<string, TableRead | null>();
    const read = (name: string): TableRead | null => {
      if (!tables.has(name)) tables.set(name, readTable(doc, name, { layout: '', rows: new WeakMap() }));
      return tables.get(name)!;
    };
    if (!same.has(PACKAGE_PATH) && document.package !== null) {
      layPackage(doc, document);
      listTables(doc, document.tables.keys());
      laid.isEdited = saidBy(before.package) !== saidBy(document.package);
    }
    const changes: Change[] = [];
    for (const [name, table] of document.tables) {
      if (same.has(table.path) && before.tables.get(name)?.path === table.path) continue;
      if (!isTableName(name)) {
        if (isSameTable(before.tables.get(name), table)) continue;
        replaceUnknownTable(doc, name, table);
        listTables(doc, [name]);
        laid.isEdited = true;
        continue;
      }
      const found = outside(name, table, row_ids.get(name) ?? new Map(), read(name), named);
      laid.problems.push(...found.problems);
      changes.push(...found.changes);
      if (layHeadings(doc, name, table) || found.foreign.length > 0) laid.isEdited = true;
      layForeign(doc, name, found.foreign);
      layForm(doc, name, table, isUntouched(found) && isSameTable(before.tables.get(name), table));
    }
    for (const [name, table] of before.tables)
      if (!document.tables.has(name) && table.rows.length > 0) laid.problems.push(tableKept(name, table));
    if (changes.length > 0) laid.isEdited = true;
    const writer = { crew: () => ({ by: '', device: '' }), time: () => '', newRowId: named };
    const forget = (name: string): void => void tables.delete(name);
    make({ doc, acts: actsOf(doc, true), read, forget, writer }, changes, 'outside');
  });
  return laid;
}

/** What a package says besides where its tables lie. */
const saidBy = (described: JsonObject | null): string => JSON.stringify({ ...described, resources: null });

const isUntouched = ({ changes, foreign }: Outside): boolean => changes.length + foreign.length === 0;

/** Headings, cells and lines; not how they are written down. */
function isSameTable(a: DocumentTable | undefined, b: DocumentTable): boolean {
  const said = ({ columns, rows }: DocumentTable): string =>
    JSON.stringify([columns, rows.map(({ cells, line }) => [line, cells])]);
  return a !== undefined && said(a) === said(b);
}

const isEqual = (a: Uint8Array, b: Uint8Array | undefined): boolean =>
  b !== undefined && a.length === b.length && a.every((byte, i) => byte === b[i]);

/** Of all that the changes come from, in hexadecimal. */
function digestOf(history: Uint8Array, files: ReadonlyMap<string, Uint8Array>): string {
  const each = [history, ...files.values()].map((bytes) => bytesToHex(sha256(bytes)));
  return bytesToHex(sha256(utf8ToBytes([...files.keys(), ...each].join('\n'))));
}

/** Identities for what is added, the same on every device. */
function newIds(digest: string): () => string {
  let n = 0;
  return () => `o-${digest.slice(0, 20)}-${n++}`;
}

const tableKept = (name: string, { path, rows }: DocumentTable): Problem =>
  problem({
    severity: 'warning',
    code: 'table-kept',
    table: name,
    found: `no table that can be read in ${path}`,
    expected: `the ${rows.length} rows that the history has`,
    fix: 'They are kept from the history. Delete them on the screen if they are not meant to be there.',
  });
