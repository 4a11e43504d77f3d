/** Readings of a hole whose amendments differ, so that none is used: where each stands and what it says. */
import { readColumns } from '@stillstand/campaign/document';
import { RIG_TABLES } from '@stillstand/campaign/holes';
import type { RigHole } from './open-hole.ts';

interface Disputed {
  seq: number;
  table: string;
  line: number | null;
  /** What it may come to, in the columns that differ; a line of null is the reading withdrawn. */
  between: { line: number | null; cells: Record<string, string> }[];
}

/** In the order of `seq`; a reading that may be of this hole or of another is among them. */
export function disputedOf({ campaign, document, name }: RigHole): Disputed[] {
  const found = campaign.conflicts.flatMap(({ table, row_id, between }): Disputed[] => {
    if (!(RIG_TABLES as readonly string[]).includes(table)) return [];
    const { columns = [], rows = [] } = document.tables.get(table) ?? {};
    const cellsOf = (id: string): Map<string, string> => {
      const row = rows.find((r) => r.line === campaign.lines.get(id));
      return new Map(columns.map((column, i) => [column, (row?.cells[i] ?? '').trim()]));
    };
    const first = cellsOf(row_id);
    const rivals = between.filter((id) => id !== null).map((id) => ({ id, cells: cellsOf(id) }));
    if (![first, ...rivals.map(({ cells }) => cells)].some((cells) => cells.get('hole') === name)) return [];
    const differ = readColumns(table).filter(
      (column) => column !== 'seq' && rivals.some(({ cells }) => cells.get(column) !== first.get(column)),
    );
    const said = rivals.map(({ id, cells }) => ({
      line: campaign.lines.get(id) ?? null,
      cells: Object.fromEntries(differ.map((column) => [column, cells.get(column) ?? ''])),
    }));
    return [
      {
        seq: campaign.skipped_rows.find((row) => row.row_id === row_id)?.seq ?? Number(first.get('seq')),
        table,
        line: campaign.lines.get(row_id) ?? null,
        between: between.includes(null) ? [...said, { line: null, cells: {} }] : said,
      },
    ];
  });
  return found.sort((a, b) => a.seq - b.seq);
}

export function disputedWords({ seq, table, line, between }: Disputed): string {
  const rivals = between.map((rival) => {
    if (rival.line === null) return 'withdrawn';
    const cells = Object.entries(rival.cells).map(
      ([column, text]) => `${column} ${text === '' ? 'nothing' : `“${text}”`}`,
    );
    return `${cells.join(', ')} (line ${rival.line})`;
  });
  return `${String(seq).padStart(4)}  not used, ${table} line ${line}: its amendments differ, ${rivals.join(' or ')}`;
}
