/** A campaign folder as files, to a document and back. Pure: where the files come from is the caller's business. */
import { type Problem, problem } from '@stillstand/campaign/problems';
import { isTableName, plainWord } from '@stillstand/campaign/tables';
import { readTable, tableBytes } from './cells.ts';
import {
  type CampaignDocument,
  type DocumentTable,
  isJsonObject,
  type JsonObject,
  PACKAGE_PATH,
} from './document.ts';
import { packageText } from './package-text.ts';
import { unsafePath } from './path.ts';

/**
 * Reads the files of a campaign. Tables are the CSV files the package lists, and those that stand beside it; anything
 * else is kept as bytes. Never throws; whatever cannot be read is kept and named. `notFiles` holds, by path, what
 * stands under the name of a table and is no file ("a folder", "a symbolic link"): it is named for what it is.
 */
export function readFiles(
  files: ReadonlyMap<string, Uint8Array>,
  notFiles: ReadonlyMap<string, string> = new Map(),
): { document: CampaignDocument; problems: Problem[] } {
  const problems: Problem[] = [];
  const unread = new Map<string, string>();
  const rest = new Map<string, Uint8Array>();
  for (const [path, bytes] of files) {
    const why = unsafePath(path);
    if (why === null) rest.set(path, bytes);
    else problems.push(unsafe(path, why));
  }

  const packageBytes = rest.get(PACKAGE_PATH);
  rest.delete(PACKAGE_PATH);
  const description = packageBytes === undefined ? null : readPackage(packageBytes, problems);

  for (const [path, what] of notFiles) {
    const table = isTablePath(path) ? tableName(path) : 'datapackage';
    problems.push(notAFile(table, path, what));
    unread.set(table, path);
  }

  const claims = [...listedTables(description, rest, notFiles, problems), ...tablesBeside(rest)];
  const tables = new Map<string, DocumentTable>();
  for (const { name, path } of claims) {
    const bytes = rest.get(path);
    if (bytes === undefined) continue;
    if (tables.has(name)) {
      problems.push(tableTwice(name, tables.get(name)!.path, path));
      continue;
    }
    const read = readTable(name, bytes);
    problems.push(...read.problems);
    if (read.cells === null) {
      unread.set(name, path);
      continue;
    }
    rest.delete(path);
    tables.set(name, { path, ...read.cells, source: { ...read.cells, bytes } });
  }

  if (packageBytes === undefined) problems.push(tables.size === 0 ? noCampaign(rest) : noPackage(tables));
  const source = packageBytes === undefined ? null : { package: description, bytes: packageBytes };
  return { document: { package: description, tables, files: rest, source, unread }, problems };
}

/** The files of a document. What was not edited since it was read comes out as the very bytes that went in. */
export function writeFiles(document: CampaignDocument): Map<string, Uint8Array> {
  const files = new Map<string, Uint8Array>();
  const { source } = document;
  if (source !== null && source.package === document.package) files.set(PACKAGE_PATH, source.bytes);
  else if (document.package !== null) {
    files.set(PACKAGE_PATH, new TextEncoder().encode(packageText(document.package)));
  }
  for (const table of document.tables.values()) {
    files.set(table.path, isAsRead(table) ? table.source!.bytes : tableBytes(table));
  }
  for (const [path, bytes] of document.files) files.set(path, bytes);
  return files;
}

/** True while the cells are the ones that were read. */
function isAsRead({ columns, rows, dialect, source }: DocumentTable): boolean {
  return source !== null && source.columns === columns && source.rows === rows && source.dialect === dialect;
}

function readPackage(bytes: Uint8Array, problems: Problem[]): JsonObject | null {
  let found: string;
  try {
    const parsed: unknown = JSON.parse(new TextDecoder('utf-8', { fatal: true }).decode(bytes));
    if (isJsonObject(parsed)) return parsed;
    found = JSON.stringify(parsed).slice(0, 80);
  } catch (error) {
    found = error instanceof Error ? error.message : 'bytes that are not UTF-8';
  }
  problems.push(
    problem({
      severity: 'error',
      code: 'package-unreadable',
      table: 'datapackage',
      found,
      expected: 'a description of the campaign (datapackage.json) that is a JSON object',
      fix: 'Correct the file, or delete it: tables are then found by their file names. It is kept as it is.',
    }),
  );
  return null;
}

interface Claim {
  name: string;
  path: string;
}

/** Tables the package lists. */
function listedTables(
  description: JsonObject | null,
  files: ReadonlyMap<string, Uint8Array>,
  notFiles: ReadonlyMap<string, string>,
  problems: Problem[],
): Claim[] {
  const { resources } = description ?? {};
  if (!Array.isArray(resources)) return [];
  const claims: Claim[] = [];
  for (const entry of resources as unknown[]) {
    if (!isJsonObject(entry)) continue;
    const { name, path } = entry as { name?: unknown; path?: unknown };
    if (typeof path !== 'string' || !isTablePath(path)) continue;
    const why = unsafePath(path);
    if (why !== null) problems.push(unsafe(path, why));
    else if (files.has(path)) claims.push({ name: tableName(typeof name === 'string' ? name : path), path });
    else if (notFiles.has(path)) continue;
    else if (path.includes('/') || !hasOtherSpelling(path, files)) problems.push(fileMissing(path));
  }
  return claims;
}

/** CSV files that stand beside the package, by their names. */
function tablesBeside(files: ReadonlyMap<string, Uint8Array>): Claim[] {
  return [...files.keys()]
    .filter((path) => !path.includes('/') && isTablePath(path))
    .map((path) => ({ name: tableName(path), path }));
}

/** True for the path of a table. */
export const isTablePath = (path: string): boolean => /\.(?:csv|tsv)$/i.test(path);

/** "Holes.csv" and "tide levels.csv" are the tables holes and tide_levels; other names stay as they are. */
function tableName(path: string): string {
  const base = path.slice(path.lastIndexOf('/') + 1).replace(/\.(?:csv|tsv)$/i, '');
  return isTableName(plainWord(base)) ? plainWord(base) : base;
}

const hasOtherSpelling = (path: string, files: ReadonlyMap<string, Uint8Array>): boolean =>
  [...files.keys()].some((other) => other.toLowerCase() === path.toLowerCase());

function unsafe(path: string, why: string): Problem {
  return problem({
    severity: 'error',
    code: 'unsafe-path',
    table: 'datapackage',
    found: path,
    expected: `a path inside the campaign; ${why}`,
    fix: 'Give the file a plain name inside the campaign. It is left out.',
  });
}

function notAFile(table: string, path: string, what: string): Problem {
  return problem({
    severity: 'error',
    code: 'not-a-file',
    table,
    found: `${path}, ${what}`,
    expected: 'a file',
    fix: 'Put the file itself under that name. Until then it is not read.',
  });
}

function fileMissing(path: string): Problem {
  return problem({
    severity: 'warning',
    code: 'missing-file',
    table: 'datapackage',
    found: `${path} in the list of tables`,
    expected: 'a file of that name in the campaign',
    fix: 'Put the table back, or delete it from datapackage.json.',
  });
}

function tableTwice(name: string, first: string, second: string): Problem {
  return problem({
    severity: 'error',
    code: 'table-twice',
    table: name,
    found: `${first} and ${second}`,
    expected: 'one file for each table',
    fix: 'Put the rows of the second into the first. Until then only the first is read.',
  });
}

function noPackage(tables: ReadonlyMap<string, DocumentTable>): Problem {
  return problem({
    severity: 'warning',
    code: 'no-package',
    table: 'datapackage',
    found: `${tables.size} ${tables.size === 1 ? 'table' : 'tables'} without datapackage.json`,
    expected: 'datapackage.json with the tables',
    fix: 'No action needed: tables are known by their file names, and the file is made when the campaign is saved.',
  });
}

function noCampaign(files: ReadonlyMap<string, Uint8Array>): Problem {
  return problem({
    severity: 'error',
    code: 'no-campaign',
    table: 'datapackage',
    found: files.size === 0 ? 'no files' : `${files.size} files, none of them a table that can be read`,
    expected: 'datapackage.json and tables (CSV)',
    fix: 'Check that this is the right folder, or start a new campaign.',
  });
}
