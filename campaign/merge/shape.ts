/** What a merge is planned from and comes to. Plain data but for the Yjs documents: it crosses to a worker and back. */
import type { How } from '@stillstand/campaign/replica';
import type { TableName } from '@stillstand/campaign/tables';
import type * as Y from 'yjs';

/** One copy of a campaign. Nothing of it is changed. */
export interface MergeSide {
  readonly doc: Y.Doc;
  /** Photos and other files next to the tables, by path: their sizes in bytes. */
  readonly files: ReadonlyMap<string, number>;
}

/** An act that only one of the copies has. */
export interface StrandAct {
  readonly id: string;
  /** ISO 8601 by the clock of the device that wrote it: clocks differ, the order of the list does not. */
  readonly time: string;
  readonly by: string;
  readonly device: string;
  readonly how: How;
  /** How many rows it added, edited or deleted. */
  readonly rows: number;
  /** "add drive at 10:42 of T2", "edit unit 4 of T1 (top)". */
  readonly words: string;
}

/** Rows of one table, and of one hole where they are of one. An amendment changes the reading it amends. */
export interface TableCount {
  readonly table: TableName;
  readonly hole: string | null;
  readonly added: number;
  readonly changed: number;
  readonly deleted: number;
  /** The first few of them, in words. */
  readonly names: readonly string[];
}

export type Side = 'ours' | 'theirs' | 'both';

/** What one of the copies says in a conflict. */
export interface ConflictSide {
  readonly side: Side;
  /** As typed; empty where the cell was emptied or the reading withdrawn. */
  readonly value: string;
  /** The value with what it is of, to be read alone: "cable at the collar 15.25 m", "withdrawn". */
  readonly words: string;
  readonly by: string;
  readonly device: string;
  readonly time: string;
  /** Why, as far as somebody said. */
  readonly reason: string;
}

export interface ConflictChoice {
  /** `later` leaves the conflict open. */
  readonly key: string;
  /** Whose it is; null for one that is neither's: the reading as first written, later. */
  readonly side: Side | null;
  /** On a key: "Keep 15.25 m". */
  readonly words: string;
}

export interface MergeConflict {
  /** The same whoever merges; a decision names it. */
  readonly key: string;
  /**
   * `amendment`: a reading that was amended in two ways. `cell`: a cell of another row that was set to two values.
   * `order`: readings that hold one place of a series, or one that was moved to two. `row`: without a history in common, a row that says two things.
   */
  readonly kind: 'amendment' | 'cell' | 'order' | 'row';
  readonly table: TableName;
  readonly row_id: string;
  /** Of a cell; empty for a whole row or reading. */
  readonly column: string;
  /** "T2, run R13: cable at the collar". */
  readonly name: string;
  /** What stood there before both, in words; empty where that is not known or nothing did. */
  readonly was: string;
  readonly sides: readonly ConflictSide[];
  /** The last is always `later`. */
  readonly choices: readonly ConflictChoice[];
  /** Numbers that differ between the choices, the first few in words, where that is known. */
  readonly effect: readonly string[];
  /** What counts until it is decided. */
  readonly until: string;
}

export interface MergeNote {
  readonly words: string;
}

export interface MergePlan {
  readonly relation: 'same' | 'theirs ahead' | 'ours ahead' | 'both changed';
  /** Whether the copies have a history in common, or are merged by the identities of their rows. */
  readonly by: 'history' | 'rows';
  /** The last act that both know; null where there is none. */
  readonly since: { readonly time: string } | null;
  /** Acts that only one of the copies has, in their order. */
  readonly ours: readonly StrandAct[];
  readonly theirs: readonly StrandAct[];
  /** What the merge does to the rows here. */
  readonly came: readonly TableCount[];
  /** What the copy has not got. */
  readonly only_here: readonly TableCount[];
  /** Rows that say the same in both copies. */
  readonly same_rows: number;
  /** Rows that something is to be decided about. */
  readonly different: number;
  readonly conflicts: readonly MergeConflict[];
  /** What the merge does by itself. */
  readonly notes: readonly MergeNote[];
  readonly files: {
    /** Paths that come from the copy, and their bytes together. */
    readonly come: readonly string[];
    readonly bytes: number;
    readonly only_here: number;
    /** Named in rows and in neither copy. */
    readonly missing: readonly string[];
  };
}

/** The key of a choice by the key of its conflict; a conflict that is not in it stays open. */
export type Decisions = ReadonlyMap<string, string>;
