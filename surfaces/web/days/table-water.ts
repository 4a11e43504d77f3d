/** Lines of a tide table: as typed, as read, and what is said of them. */
export const TABLE_ENTRIES = ['date', 'time', 'height'] as const;
export type TableEntry = (typeof TABLE_ENTRIES)[number];
/** As typed; a line without a date is of the day of the line above, or of the next one where its clock has run back. */
export type TableCells = Readonly<Record<TableEntry, string>>;

export interface TableWater {
  /** Place of its line among those given. */
  line: number;
  time_ms: number;
  /** Above the zero of the table. */
  height_m: number;
  /** As the line says (HW, LW), else by its neighbours; null for a single one. */
  kind: 'high' | 'low' | null;
}

/** An error: the cell cannot be read, and its line is no water. A question: it is used as it is typed. */
export interface TableSays {
  line: number;
  entry: TableEntry;
  severity: 'error' | 'question';
  words: string;
}

export const inOrder = (waters: readonly TableWater[]): TableWater[] =>
  [...waters].sort((a, b) => a.time_ms - b.time_ms);
