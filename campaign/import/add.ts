/** Adds what was proposed to a document: one edit, and what was there stays as it is. */
import {
  type CampaignDocument,
  type DocumentTable,
  newDocument,
  resource,
  withNewNames,
  withRows,
} from '@stillstand/campaign/document';
import { type Column, plainHeading, schemas, type TableName } from '@stillstand/campaign/tables';
import type { Proposal, ProposedRow } from './proposal.ts';

/** The document with all rows of the proposal behind those of each table. */
export function withProposal(given: CampaignDocument, { rows }: Proposal): CampaignDocument {
  let document = withNewNames(given);
  for (const [name, own] of Map.groupBy(rows, ({ table }) => table)) {
    const before = document.tables.get(name);
    const table = withRowsBehind(name, before ?? emptyTable(name), own);
    document = { ...document, tables: new Map(document.tables).set(name, table) };
    if (before === undefined) document = listed(document, name, table.path);
  }
  return document;
}

const emptyTable = (name: TableName): DocumentTable => withRows(newDocument(''), name, []).tables.get(name)!;

/** A table the campaign did not have is described in its package, where there is one with a list of tables. */
function listed(document: CampaignDocument, name: TableName, path: string): CampaignDocument {
  const resources = document.package?.['resources'];
  if (document.package === null || !Array.isArray(resources)) return document;
  return { ...document, package: { ...document.package, resources: [...resources, resource(name, path)] } };
}

function withRowsBehind(name: TableName, table: DocumentTable, rows: readonly ProposedRow[]): DocumentTable {
  const { decimal_comma } = table.dialect;
  const headings = [...table.columns];
  const at = new Map(headings.map((heading, i) => [plainHeading(heading), i]));
  for (const { cells } of rows) {
    for (const column of Object.keys(cells)) {
      if (at.has(column)) continue;
      at.set(column, headings.length);
      headings.push(column);
    }
  }
  const last = table.rows.at(-1)?.line ?? 1;
  const added = rows.map(({ cells }, i) => {
    const written = new Array<string>(headings.length).fill('');
    for (const [column, cell] of Object.entries(cells)) {
      written[at.get(column)!] = decimal_comma ? withComma(name, column, cell) : cell;
    }
    return { cells: written, line: last + 1 + i };
  });
  // A row that is shorter than the headings it was written under stays so: new columns are behind all of them.
  const widened = table.rows.map((row) =>
    headings.length > table.columns.length && row.cells.length === table.columns.length
      ? { ...row, cells: [...row.cells, ...new Array<string>(headings.length - row.cells.length).fill('')] }
      : row,
  );
  return { ...table, columns: headings, rows: [...widened, ...added] };
}

/** As numbers are written in a table with decimal commas. */
function withComma(name: TableName, column: string, cell: string): string {
  const { kind } = (schemas[name].columns as Readonly<Record<string, Column>>)[column]!;
  return kind === 'number' || kind === 'length' || kind === 'tide'
    ? cell.replace(/(\d)\.(\d)/, '$1,$2')
    : cell;
}
