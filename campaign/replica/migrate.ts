/**
 * A campaign kept by an older Stillstand is migrated to the version this one writes when it is opened: the migrated content
 * is one more change behind the old ones, so that the old stays until the new is on the device. What a newer one wrote
 * is opened to be read only.
 */
import type { CampaignDocument, DocumentTable } from '@stillstand/campaign/document';
import type { Problem } from '@stillstand/campaign/problems';
import { migrate } from '@stillstand/campaign/versions';
import * as Y from 'yjs';
import { columnCalled, parts, ROW_ID, whole } from './layout.ts';
import { readDocument, readPackage, readTable } from './read.ts';
import { noteEdit } from './write.ts';

export interface Migrated {
  /** What it took, to be kept; null where nothing had to change. */
  update: Uint8Array | null;
  read_only: boolean;
  problems: readonly Problem[];
}

/** Lifts the campaign in place. */
export function migrated(doc: Y.Doc): Migrated {
  // Whether anything is to be done stands in the package; the tables of a long campaign take their time.
  const described = { ...readPackage(doc, new Map()), tables: new Map(), files: new Map() };
  const { document, read_only, problems } = migrate(described);
  if (document === described) return { update: null, read_only, problems };
  const before = readDocument(doc);
  const { document: after } = migrate(before);
  const state = Y.encodeStateVector(doc);
  layOver(doc, before, after);
  return { update: Y.encodeStateAsUpdate(doc, state), read_only, problems };
}

/**
 * Lays what a migration made of a document over the one that was read from `doc`; what is the same object in both stays
 * untouched. Two devices migrate without knowing of each other: so the migration writes cells by the identity of their row,
 * under what people edit before or after, and never takes a row out or puts one in. A step that would is refused with a
 * RangeError: nothing could keep its rows from standing twice, or an edit made elsewhere from being lost.
 */
export function layOver(doc: Y.Doc, before: CampaignDocument, after: CampaignDocument): void {
  const changed = [...after.tables].filter(([name, table]) => table !== before.tables.get(name));
  for (const [name, table] of changed) {
    const rows = before.tables.get(name)?.rows.length ?? 0;
    if (table.rows.length !== rows)
      throw new RangeError(
        `migrate: ${name} had ${rows} rows and has ${table.rows.length}; expected the same`,
      );
  }
  for (const name of before.tables.keys())
    if (!after.tables.has(name))
      throw new RangeError(`migrate: ${name} is gone; expected every table to stay`);
  doc.transact(() => {
    const campaign = whole(doc);
    if (after.package !== before.package) {
      campaign.set('package_edited', 'yes');
      if (after.package === null) campaign.delete('package');
      else campaign.set('package', JSON.stringify(after.package));
    }
    for (const [name, table] of changed) layTable(doc, name, before.tables.get(name), table);
    if (after.tables.size > before.tables.size) campaign.set('tables', [...after.tables.keys()]);
  });
}

function layTable(doc: Y.Doc, name: string, before: DocumentTable | undefined, after: DocumentTable): void {
  const { columns, about, migrated: laid } = parts(doc, name);
  if (!about.has('form')) about.set('form', { path: after.path, dialect: { ...after.dialect }, width: 0 });
  noteEdit(about, columns, name, after.columns);
  const was = new Map(before?.columns.map((heading, i) => [columnCalled(name, heading), i]));
  const known = readTable(doc, name, { layout: '', rows: new WeakMap() })?.rows ?? [];
  for (const [at, { cells }] of after.rows.entries()) {
    const { row_id } = known[at]!;
    const old = before!.rows[at]!.cells;
    const other = after.columns.flatMap((heading, i): [string, string][] => {
      const column = columnCalled(name, heading);
      const cell = cells[i] ?? '';
      return column === ROW_ID || cell === (old[was.get(column) ?? -1] ?? '') ? [] : [[column, cell]];
    });
    // Of exact copies of a row only the first has an identity, and only that one counts.
    if (other.length > 0 && row_id !== '')
      laid.set(row_id, { ...laid.get(row_id), ...Object.fromEntries(other) });
  }
}
