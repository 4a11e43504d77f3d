/** `datapackage.json`: a Frictionless Data Package with a Table Schema for every table and our document version. */
import {
  isColumnForLater,
  isTableForLater,
  plainWord,
  schemas,
  type TableName,
  tableSchema,
} from '@stillstand/campaign/tables';
import {
  type CampaignDocument,
  DOCUMENT_VERSION,
  type DocumentTable,
  type Json,
  type JsonObject,
  PLAIN_DIALECT,
} from './document.ts';

const TABLE_NAMES = Object.keys(schemas) as TableName[];

/**
 * An empty campaign: every table with its headings, and the package that describes them. `id` is random, so that what
 * campaigns share by name, such as an error, is told apart between them.
 */
export function newDocument(name: string, id?: string): CampaignDocument {
  const tables = new Map<string, DocumentTable>(
    TABLE_NAMES.filter((table) => !isTableForLater(table)).map((table) => [
      table,
      {
        path: `${table}.csv`,
        columns: Object.keys(schemas[table].columns).filter((column) => !isColumnForLater(table, column)),
        rows: [],
        dialect: PLAIN_DIALECT,
        source: null,
      },
    ]),
  );
  return { package: newPackage(name, tables, id), tables, files: new Map(), source: null };
}

/** A package that lists these tables. Its name is the title in letters that addresses allow. */
export function newPackage(
  title: string,
  tables: ReadonlyMap<string, DocumentTable>,
  id?: string,
): JsonObject {
  return {
    profile: 'data-package',
    ...(id === undefined ? {} : { id }),
    name: packageName(title),
    title,
    stillstand: { version: DOCUMENT_VERSION },
    resources: [...tables].map(([name, { path }]) => resource(name, path)),
  };
}

/** The entry of one table in the package. */
export function resource(name: string, path: string): JsonObject {
  const plain = { name: packageName(name), path, format: 'csv', mediatype: 'text/csv', encoding: 'utf-8' };
  if (!Object.hasOwn(schemas, name)) return plain;
  const table = name as TableName;
  return {
    ...plain,
    profile: 'tabular-data-resource',
    title: schemas[table].about,
    schema: tableSchema(table) as unknown as Json,
  };
}

/** Data Package names are lower-case letters, digits, `.`, `-` and `_`. */
function packageName(title: string): string {
  const letters = plainWord(title.normalize('NFKD'))
    .replace(/[^a-z0-9._-]+/g, '')
    .slice(0, 100);
  return letters === '' ? 'campaign' : letters;
}
