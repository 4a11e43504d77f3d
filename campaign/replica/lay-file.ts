/** What a file says besides the cells of rows, laid over the document: the package, and how tables are written down. */
import { type CampaignDocument, type DocumentTable, tableCalled } from '@stillstand/campaign/document';
import type * as Y from 'yjs';
import { headsOf } from './fill.ts';
import { columnCalled, parts, ROW_ID, type StoredForm, whole } from './layout.ts';
import { noteEdit } from './write.ts';

/** The package as the file has it, in the very bytes of the file; the caller makes the transaction. */
export function layPackage(doc: Y.Doc, { package: described, source }: CampaignDocument): void {
  if (described === null) return;
  const campaign = whole(doc);
  campaign.set('package', JSON.stringify(described));
  if (source !== null) campaign.set('package_bytes', source.bytes);
  if (source !== null && source.package === described) campaign.delete('package_edited');
  else campaign.set('package_edited', 'yes');
}

/** Tables that the package lists, and those of no name of ours, are in the document whether they have rows or not. */
export function listTables(doc: Y.Doc, names: Iterable<string>): void {
  const listed = ((whole(doc).get('tables') as string[] | undefined) ?? []).map(tableCalled);
  const added = [...names].filter((name) => !listed.includes(name));
  if (added.length > 0) whole(doc).set('tables', [...listed, ...added]);
}

/**
 * The file's own path and way of writing. `isSame`: it says what the document says, line by line; a table that nobody
 * edited then is written back as the very bytes of this file.
 */
export function layForm(doc: Y.Doc, name: string, table: DocumentTable, isSame: boolean): void {
  const { about } = parts(doc, name);
  const before = about.get('form') as StoredForm | undefined;
  const { path, dialect, source } = table;
  if (isSame && source !== null && about.has('bytes') && about.get('edited') !== true)
    about.set('bytes', source.bytes);
  const form = { path, dialect: { ...dialect }, width: before?.width ?? 0 };
  // Cells of rows are kept in the writing they were first read in.
  if (before !== undefined && before.dialect.decimal_comma !== dialect.decimal_comma) return;
  if (JSON.stringify(before) !== JSON.stringify(form)) about.set('form', form);
}

/** Headings that the file has and the document has not; true where there were any. */
export function layHeadings(doc: Y.Doc, name: string, { columns: headings }: DocumentTable): boolean {
  const { about, columns } = parts(doc, name);
  const known = new Set(columns.toArray().map(([id]) => columnCalled(name, id)));
  const added = headsOf(name, headings).flatMap(([id]) => (known.has(id) || id === ROW_ID ? [] : [id]));
  if (columns.length === 0 || added.length === 0) return false;
  noteEdit(about, columns, name, added);
  return true;
}

/** Cells in columns that are none of ours, by row. */
export function layForeign(
  doc: Y.Doc,
  name: string,
  rows: readonly { row_id: string; cells: Readonly<Record<string, string>> }[],
): void {
  const { migrated } = parts(doc, name);
  for (const { row_id, cells } of rows) migrated.set(row_id, { ...migrated.get(row_id), ...cells });
}
