/**
 * What a row of one table names in others: the references of the schema, the run or push that depths are measured in,
 * and texts that may name a row. The one source of who depends on whom.
 */
import type { Column, Named } from './column.ts';
import { isTableName, schemas, type TableName } from './schemas.ts';
import { labelColumn } from './table-schema.ts';

export interface Link {
  /** Column here that names the row. */
  readonly column: string;
  readonly to: TableName;
  /** Column there that is named. */
  readonly label: string;
  /** Columns there and here in which both rows must agree: the scope of the label. */
  readonly scope: readonly (readonly [there: string, here: string])[];
  /** The row is used without it. */
  readonly detail: boolean;
  /** Not to be left blank. */
  readonly needed: boolean;
  /** A row that names nothing by it cannot be used; otherwise the text may mean something else. */
  readonly firm: boolean;
  readonly where: Named['where'];
}

const FIXED: ReadonlyMap<TableName, readonly Link[]> = new Map(
  (Object.keys(schemas) as TableName[]).map((table) => [table, fixedLinks(table)]),
);

function fixedLinks(table: TableName): Link[] {
  const columns: [string, Column][] = Object.entries(schemas[table].columns);
  return columns.flatMap(([column, description]): Link[] => {
    if (description.kind === 'reference' && isTableName(description.to)) {
      return [firmLink(column, description.to, description.detail ?? false, false)];
    }
    const names = 'names' in description ? description.names : undefined;
    if (names === undefined || !isTableName(names.table)) return [];
    const link = {
      column,
      to: names.table,
      label: names.column ?? labelColumn(names.table)!,
      scope: Object.entries(names.scope ?? {}),
      detail: true,
      needed: false,
      firm: false,
      where: names.where,
    };
    return names.byRow === true ? [link, { ...link, label: 'row_id' }] : [link];
  });
}

function firmLink(column: string, to: TableName, detail: boolean, needed: boolean): Link {
  const scope: readonly string[] = schemas[to].scope;
  return {
    column,
    to,
    label: labelColumn(to)!,
    scope: scope.map((name) => [name, name]),
    detail,
    needed,
    firm: true,
    where: undefined,
  };
}

const BY_BASIS: Readonly<Record<string, TableName>> = { run: 'runs', push: 'pushes' };

/** The links of a row, of which `cell` gives the text of a column. */
export function linksOf(table: TableName, cell: (column: string) => string): readonly Link[] {
  const fixed = FIXED.get(table)!;
  const links = fixed.some(({ where }) => where !== undefined)
    ? fixed.filter(({ where }) => where === undefined || cell(where[0]) === where[1])
    : fixed;
  if (!Object.hasOwn(schemas[table].columns, 'depth_basis')) return links;
  const to = BY_BASIS[cell('depth_basis')];
  return to === undefined ? links : [...links, firmLink('run', to, table === 'photos', true)];
}

/** Tables whose rows may name rows of this one. */
export const namingTables = (to: TableName): readonly TableName[] =>
  (Object.keys(schemas) as TableName[]).filter(
    (from) =>
      FIXED.get(from)!.some((link) => link.to === to) ||
      (Object.hasOwn(schemas[from].columns, 'depth_basis') && Object.values(BY_BASIS).includes(to)),
  );

/** Columns by which rows of a table are named from elsewhere. */
export const namedColumns = (table: TableName): ReadonlySet<string> => NAMED.get(table) ?? NONE;

const NONE: ReadonlySet<string> = new Set();
const NAMED: ReadonlyMap<TableName, ReadonlySet<string>> = namedByTable();

function namedByTable(): Map<TableName, Set<string>> {
  const named = new Map<TableName, Set<string>>();
  const add = ({ to, label, scope }: Link): void => {
    if (!named.has(to)) named.set(to, new Set());
    for (const column of [label, ...scope.map(([there]) => there)]) named.get(to)!.add(column);
  };
  for (const links of FIXED.values()) links.forEach(add);
  for (const to of Object.values(BY_BASIS)) add(firmLink('run', to, false, true));
  return named;
}
