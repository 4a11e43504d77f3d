/** The rows of a table as its file has them, each with the row of the history that it is. */
import { type Dialect, type DocumentRow, type DocumentTable, rowDoubt } from '@stillstand/campaign/document';
import { type DocRow, headsOf, type TableRead } from '@stillstand/campaign/replica';
import { schemas, type TableName } from '@stillstand/campaign/tables';

const ROW_ID = 'row_id';

export interface FileRow {
  row_id: string;
  line: number;
  /** By column, in the writing of the history: 3.05 where the file has 3,05 and the history does not. */
  cells: Readonly<Record<string, string>>;
}

export interface FileRows {
  /** Columns that the file has, without the identity. */
  columns: readonly string[];
  /** Rows of the history, as they were and as the file has them. */
  known: readonly { was: DocRow; now: FileRow }[];
  /** Rows that the history marks as deleted and the file has. */
  back: readonly { was: DocRow; now: FileRow }[];
  added: readonly FileRow[];
  /** Rows of the history that the file has not. */
  gone: readonly DocRow[];
  /** Rows that cannot be read, and that the history has not either. */
  unread: readonly DocumentRow[];
}

/** `ids`: identities by line, as `rowIds` gives them. */
export function rowsOfFile(
  name: TableName,
  table: DocumentTable,
  ids: ReadonlyMap<number, string>,
  known: TableRead | null,
): FileRows {
  const heads = headsOf(name, table.columns).map(([id]) => id);
  const written = writtenAs(name, table.dialect, known?.table.dialect);
  const cellsOf = (row: DocumentRow): Record<string, string> =>
    Object.fromEntries(heads.map((id, i) => [id, written(id, row.cells[i] ?? '')]));
  const isRead = (row: DocumentRow): boolean => rowDoubt(table.columns, row)?.severity !== 'error';
  const all = table.rows.filter(isRead).map((row) => ({ row, line: row.line, cells: cellsOf(row) }));
  const here = firstById(known?.rows ?? []);
  const deleted = firstById((known?.deleted ?? []).map(({ row }) => row));

  // A row that was copied has the identity of the first: the one that says the same keeps it.
  const stated = Map.groupBy(all, ({ cells }) => cells[ROW_ID]?.trim() ?? '');
  const claimed = new Map<(typeof all)[number], string>();
  for (const [row_id, rows] of stated) {
    const was = here.get(row_id) ?? deleted.get(row_id);
    if (row_id === '' || was === undefined) continue;
    claimed.set(rows.find(({ cells }) => isAlike(was.cells, cells, 1)) ?? rows[0]!, row_id);
  }
  const read: FileRow[] = [];
  const rest = table.rows.filter((row) => !isRead(row));
  const taken = new Set(claimed.values());
  const unstated = new Set<FileRow>();
  for (const each of all) {
    const own = claimed.get(each);
    const row_id = own ?? ids.get(each.line);
    if (row_id === undefined || (own === undefined && taken.has(row_id))) rest.push(each.row);
    else {
      const row: FileRow = { row_id, line: each.line, cells: each.cells };
      read.push(row);
      if (own === undefined && (each.cells[ROW_ID] ?? '').trim() === '') unstated.add(row);
    }
  }
  const moved = sameByPlace(known?.rows ?? [], read, here, unstated);
  const rows = read.map((row) => ({ ...row, row_id: moved.get(row) ?? row.row_id }));
  const inFile = new Set(rows.map(({ row_id }) => row_id));
  const said = new Set(
    [...table.rows.filter((row) => !rest.includes(row)), ...(known?.table.rows ?? [])].map(text),
  );
  const pairs = (of: ReadonlyMap<string, DocRow>) =>
    rows.flatMap((now) => (of.has(now.row_id) ? [{ was: of.get(now.row_id)!, now }] : []));
  return {
    columns: [...new Set(heads)].filter((id) => id !== ROW_ID),
    known: pairs(here),
    back: pairs(deleted).filter(({ now }) => !here.has(now.row_id)),
    added: rows.filter(({ row_id }) => !here.has(row_id) && !deleted.has(row_id)),
    gone: [...here.values()].filter(({ row_id }) => !inFile.has(row_id)),
    // Exact copies of a row hold nothing of their own.
    unread: rest.filter((row) => !said.has(text(row))),
  };
}

const text = ({ cells }: DocumentRow): string => JSON.stringify(cells).replace(/(,"")+\]$/, ']');

function firstById(rows: readonly DocRow[]): Map<string, DocRow> {
  const first = new Map<string, DocRow>();
  for (const row of rows) if (row.row_id !== '' && !first.has(row.row_id)) first.set(row.row_id, row);
  return first;
}

/**
 * Rows that state no identity have one made of what they say, and another once a cell is edited: such a row is the one
 * that was in its place, between neighbours that are still there, where at least half of its cells say the same.
 */
function sameByPlace(
  before: readonly DocRow[],
  now: readonly FileRow[],
  here: ReadonlyMap<string, DocRow>,
  unstated: ReadonlySet<FileRow>,
): Map<FileRow, string> {
  const places = new Map(before.map(({ row_id }, place) => [row_id, place]));
  const inFile = new Set(now.map(({ row_id }) => row_id));
  const found = new Map<FileRow, string>();
  let last = -1;
  let open: FileRow[] = [];
  const close = (next: number): void => {
    let at = last + 1;
    for (const row of open) {
      for (let place = at; place < Math.min(next, at + LOOKED_AT); place++) {
        const { row_id, cells } = before[place]!;
        if (row_id === '' || inFile.has(row_id) || !isAlike(cells, row.cells, 0.5)) continue;
        found.set(row, row_id);
        at = place + 1;
        break;
      }
    }
    open = [];
  };
  for (const row of now) {
    const place = here.has(row.row_id) ? places.get(row.row_id)! : -1;
    if (place > last) {
      close(place);
      last = place;
    } else if (place === -1 && unstated.has(row)) open.push(row);
  }
  close(before.length);
  return found;
}

/** A row is looked for among so many. */
const LOOKED_AT = 200;

/** Whether that part of the cells with something in them says the same. */
function isAlike(before: DocRow['cells'], now: DocRow['cells'], part: number): boolean {
  const said = Object.entries(before).filter(([column, cell]) => column !== ROW_ID && cell !== '');
  return said.filter(([column, cell]) => now[column] === cell).length >= part * said.length;
}

/** Numbers of the file as the history writes them. */
function writtenAs(
  name: TableName,
  file: Dialect,
  history: Dialect | undefined,
): (column: string, cell: string) => string {
  if (history === undefined || file.decimal_comma === history.decimal_comma) return (_, cell) => cell;
  const columns: Readonly<Record<string, { kind: string }>> = schemas[name].columns;
  const [from, to] = file.decimal_comma ? [/(\d?),(\d)/g, '$1.$2'] : [/(\d?)\.(\d)/g, '$1,$2'];
  return (column, cell) =>
    /^(?:number|length|tide)$/.test(columns[column]?.kind ?? '') ? cell.replace(from, to) : cell;
}
