/** A sheet of somebody's table as it came: lines of cells, as text. */
export interface TheirLine {
  /** As a spreadsheet numbers it. */
  readonly line: number;
  readonly cells: readonly string[];
}

export interface TheirSheet {
  readonly name: string;
  /** Lines in which something stands, in their order. */
  readonly lines: readonly TheirLine[];
}

/** A file as it was read. */
export interface Theirs {
  /** What it is called. */
  readonly name: string;
  readonly sheets: readonly TheirSheet[];
}
