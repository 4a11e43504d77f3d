/**
 * Two windows or devices each do what is right by what they know, and what they do meets: a hole deleted here while a
 * reading was written there. Whoever sees both puts it right, by the same rule and with the same outcome: what is named
 * is restored, and what was named by a former label is named by the present one.
 */
import { toRestore, typedReadings, type Unresolved, unresolved } from '@stillstand/campaign/document';
import {
  capital,
  type Link,
  linksOf,
  namedColumns,
  rowName,
  schemas,
  type TableName,
} from '@stillstand/campaign/tables';
import type { Change } from './changes.ts';
import type { DocRow } from './layout.ts';
import type { Writer } from './new-reading.ts';
import type { TableRead } from './read.ts';

type Rows = (table: TableName) => readonly DocRow[];

export interface Repaired {
  changes: Change[];
  /** What happened, for the person who deleted or renamed it. */
  words: string;
}

/**
 * Null where nothing is to be put right, which costs nothing while no row was ever deleted or renamed. `among`: the rows
 * that are new; all of them where it is null.
 */
export function repair(
  rows: Rows,
  read: (table: TableName) => TableRead | null,
  among: ReadonlySet<string> | null,
  newRowId: Writer['newRowId'],
): Repaired | null {
  const mayBeLost = (table: TableName): boolean => {
    const known = read(table);
    if (known === null) return false;
    if (schemas[table].readings) return known.rows.some((row) => cell(row, 'amends') !== '');
    return known.deleted.length > 0 || known.former.length > 0;
  };
  if (!NAMED.some(mayBeLost)) return null;
  const changes = new Map<string, Change>();
  const words = new Set<string>();
  for (const { table, row_id, column, to } of unresolved(rows, among)) {
    const naming = namingOf(rows, { table, row_id, column, to });
    const found = naming === null ? null : meant(rows, read, naming, newRowId);
    if (naming === null || found === null) continue;
    const { by, link } = naming;
    const name = capital(rowName(to, found.was));
    if (found.now !== null) {
      words.add(`${name} is now ${rowName(to, found.now)}, in ${rowName(table, by.cells)} too.`);
      changes.set(`${table} ${row_id}`, renamed(table, by, link, found.now, newRowId));
    } else {
      words.add(`${name} was removed while it was used elsewhere. It has been restored.`);
      for (const change of found.restoring) changes.set(`${to} ${amendedOr(change)}`, change);
    }
  }
  return changes.size === 0 ? null : { changes: [...changes.values()], words: [...words].join(' ') };
}

const NAMED = (Object.keys(schemas) as TableName[]).filter((table) => namedColumns(table).size > 0);

/** A row is restored once, a reading by one withdrawal of each row, however many rows name it. */
const amendedOr = (change: Change): string =>
  (change.kind === 'add' ? change.cells['amends'] : undefined) ?? change.row_id;

type CellsOf = DocRow['cells'];
/** What is meant: under another name now, or removed and to be restored. */
type Found =
  | { row_id: string; was: CellsOf; now: CellsOf }
  | { row_id: string; was: CellsOf; now: null; restoring: Change[] };

/** A row, and the link by which it names another. */
interface Naming {
  by: DocRow;
  link: Link;
}

function namingOf(rows: Rows, { table, row_id, column, to }: Unresolved): Naming | null {
  const by = rows(table).find((each) => each.row_id === row_id);
  const links = by === undefined ? [] : linksOf(table, (name) => cell(by, name));
  const link = links.find((each) => each.column === column && each.to === to);
  return by === undefined || link === undefined ? null : { by, link };
}

const meant = (
  rows: Rows,
  read: (table: TableName) => TableRead | null,
  { by, link }: Naming,
  newRowId: Writer['newRowId'],
): Found | null =>
  schemas[link.to].readings
    ? readingNamed(rows(link.to), by, link, newRowId)
    : rowNamed(rows(link.to), read(link.to), by, link);

/** What a cell that names nothing meant is known: it will be put right. */
export function isMeant(rows: Rows, read: (table: TableName) => TableRead | null, ref: Unresolved): boolean {
  const naming = namingOf(rows, ref);
  // Only whether there is one is asked: no row is made.
  return naming !== null && meant(rows, read, naming, () => '') !== null;
}

function rowNamed(rows: readonly DocRow[], known: TableRead | null, by: DocRow, link: Link): Found | null {
  const deleted = known?.deleted.map(({ row }) => row) ?? [];
  const restored = (row: DocRow): Found => {
    const { row_id, cells } = row;
    return { row_id, was: cells, now: null, restoring: [{ kind: 'add', table: link.to, row_id, cells }] };
  };
  const named = smallest(deleted.filter((row) => isNamed(row.cells, by, link)));
  if (named !== null) return restored(named);
  const formerlyNamed = (among: readonly DocRow[]): Found[] =>
    (known?.former ?? []).flatMap((old): Found[] => {
      const row = old.column === link.label ? among.find((each) => each.row_id === old.row_id) : undefined;
      const was = { ...row?.cells, [old.column]: old.cell };
      return row !== undefined && isNamed(was, by, link) ? [{ row_id: row.row_id, was, now: row.cells }] : [];
    });
  const renamed = smallest(formerlyNamed(rows));
  if (renamed !== null) return renamed;
  // Renamed and then deleted: once it is restored, its present name follows.
  const gone = smallest(formerlyNamed(deleted));
  return gone === null ? null : restored(deleted.find(({ row_id }) => row_id === gone.row_id)!);
}

/** A reading's rows say what it was called. */
function readingNamed(
  rows: readonly DocRow[],
  by: DocRow,
  link: Link,
  newRowId: Writer['newRowId'],
): Found | null {
  const found = typedReadings(link.to, rows).all.flatMap((reading): Found[] => {
    const was = reading.rows.find((row) => isNamed(row.cells, by, link))?.cells;
    if (was === undefined || reading.state === 'astray') return [];
    const { row_id } = reading.first;
    if (reading.now !== null) return [{ row_id, was, now: reading.now.cells }];
    const restoring = toRestore(reading).map((cells): Change => {
      const id = newRowId();
      return { kind: 'add', table: link.to, row_id: id, cells: { ...cells, row_id: id } };
    });
    return [{ row_id, was, now: null, restoring }];
  });
  return smallest(found);
}

/** The row that names, with the present name. A reading is amended: two devices that both do it say the same. */
function renamed(
  table: TableName,
  by: DocRow,
  { column, label, scope }: Link,
  now: CellsOf,
  newRowId: Writer['newRowId'],
): Change {
  const after = Object.fromEntries(
    [[label, column] as const, ...scope].map(([there, here]) => [here, now[there]?.trim() ?? '']),
  );
  const before = Object.fromEntries(Object.keys(after).map((name) => [name, by.cells[name] ?? '']));
  if (!schemas[table].readings) return { kind: 'edit', table, row_id: by.row_id, before, after };
  const { row_id: _, amends: __, amend_kind: ___, ...kept } = by.cells;
  const row_id = newRowId();
  const cells = { ...kept, ...after, row_id, amends: by.row_id, amend_kind: 'replace' };
  return { kind: 'add', table, row_id, cells };
}

const cell = ({ cells }: DocRow, column: string): string => cells[column]?.trim() ?? '';

function isNamed(cells: CellsOf, by: DocRow, { column, label, scope }: Link): boolean {
  const said = (name: string): string => cells[name]?.trim() ?? '';
  return said(label) === cell(by, column) && scope.every(([there, here]) => said(there) === cell(by, here));
}

/** The same on every device, whatever the order in which it came to know the rows. */
const smallest = <R extends { row_id: string }>(rows: readonly R[] | undefined): R | null =>
  rows?.reduce<R | null>((a, b) => (a === null || b.row_id < a.row_id ? b : a), null) ?? null;
