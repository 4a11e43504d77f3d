/** What somebody decides about a table before it is imported: plain data, kept as JSON. */

/** What a table is about, in the order in which a campaign is filled. */
export const KINDS = [
  'cores',
  'tide-levels',
  'levelling',
  'pushes',
  'layers',
  'samples',
  'calibration-curves',
  'age-densities',
  'dates',
  'measurements',
  'lead-profiles',
  'points',
  'published-points',
] as const;
export type Kind = (typeof KINDS)[number];

/** One column of theirs. */
export interface MappedColumn {
  /** As a spreadsheet names it: A, B … AA. */
  column: string;
  /** Their heading, for people: the column is found by its letter. */
  heading: string;
  /** The column of ours it fills (`targetsOf` lists them); null: kept in the note. */
  to: string | null;
  /** Unit of its numbers that carry none; null where there is none or it is not known. */
  unit: string | null;
  /** How many sigma an error is stated at. */
  sigma?: 1 | 2;
  /** What is measured, where each column is a property, a layer or a tide level. */
  property?: string;
  /** Below this it is not detected, in the column's unit, where a cell says no more than that. */
  limit?: string;
}

/** Our word for one of theirs in a column of ours; theirs where none is given. */
export function wordFor({ words }: Pick<Mapping, 'words'>, to: string, theirs: string): string {
  const of = Object.hasOwn(words, to) ? words[to]! : {};
  return Object.hasOwn(of, theirs) ? of[theirs]! : theirs;
}

export interface Mapping {
  as: Kind;
  sheet: string;
  /** Lines that hold the headings, joined downwards. */
  headings: number[];
  /** Line that holds the units; null for none. */
  units: number | null;
  /** The last line of the headings and what belongs to them: rows begin below it. */
  begin_below: number;
  /** Numbers are written 3,05. */
  decimal_comma: boolean;
  columns: MappedColumn[];
  /** By column of ours: what it is in every row whose own cell is empty. */
  fixed: Record<string, string>;
  /** By column of ours: their words for which another is written. */
  words: Record<string, Record<string, string>>;
  /** Lines left out because somebody said so. */
  leave_out: number[];
  /** A core that is named once is meant in the lines below it that name none. */
  fill_down: boolean;
  /** Their columns that fill none of ours go into the note. */
  keep_rest: boolean;
  /** How far a depth may differ from that of a sample it is of, a length with its unit. */
  same_depth: string;
}
