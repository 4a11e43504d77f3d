/** What a document says, read and validated: the input of every computation. Immutable. */
import type { Row, TableName } from '@stillstand/campaign/tables';

export interface Campaign {
  /** Random, told apart from every other; null where the package states none. */
  readonly id: string | null;
  readonly name: string;
  /**
   * The usable rows of every table, in the order of their lines; readings in the order of `compareReadings`. Amendments
   * are applied: a replacement is used in the place of what it replaces, a withdrawn reading is gone, a moved one has
   * the `seq` it was moved to.
   * References and labels are those people wrote; every reference names a usable row.
   */
  readonly rows: { readonly [T in TableName]: readonly Row<T>[] };
  /** Amendments that were applied, `row_id` being the row amended. */
  readonly amendments: readonly Amendment[];
  /** Readings whose amendments differ; they are among `skipped_rows` until a person decides. */
  readonly conflicts: readonly AmendmentConflict[];
  /**
   * Rows that would count but cannot be used; a problem says why. What depends on them must not be computed as if
   * they were not there: a joint set aside makes its string unknown from that `seq` on.
   */
  readonly skipped_rows: readonly SkippedRow[];
  /** `row_id` to line of its file as a spreadsheet numbers it; every row, used or not. */
  readonly lines: ReadonlyMap<string, number>;
  /** The table `settings`, name to value. */
  readonly settings: ReadonlyMap<string, string>;
}

export interface Amendment {
  readonly table: TableName;
  /** The row amended; of a move the reading as first written. */
  readonly row_id: string;
  readonly by_row_id: string;
  readonly kind: 'replace' | 'withdraw' | 'move';
}

export interface AmendmentConflict {
  readonly table: TableName;
  /** The reading as first written. */
  readonly row_id: string;
  /** Rows it may come to; null is the reading withdrawn. */
  readonly between: readonly (string | null)[];
}

export interface SkippedRow {
  readonly table: TableName;
  readonly row_id: string;
  readonly line: number;
  /** It, or a row it refers to, cannot be used; or its amendments differ. */
  readonly why: 'unreadable' | 'conflict';
  /**
   * The words and choices in it that can be read, by field; of a reading in conflict those that every amendment gives
   * alike which does not withdraw it.
   */
  readonly agreed: Readonly<Record<string, string | boolean>>;
  /** One of the amendments in conflict withdraws it. */
  readonly mayBeWithdrawn: boolean;
  /** Label of the row, or of the hole it is a reading of, where they could be read. */
  readonly label: string | null;
  readonly hole: string | null;
  /** The level loop it is a sight of. */
  readonly loop: string | null;
  readonly seq: number | null;
}
