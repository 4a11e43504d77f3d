/** A sheet of a laboratory's table as it came: lines of cells. */
export interface TheirLine {
  /** As a spreadsheet numbers it. */
  line: number;
  cells: string[];
}

export interface TheirSheet {
  name: string;
  lines: TheirLine[];
}
