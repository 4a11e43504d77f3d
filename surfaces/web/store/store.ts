/** What a screen may do with an open campaign. The document is the only thing saved; nothing computed is written back. */
import type { CampaignDocument } from '@stillstand/campaign/document';
import type { Problem } from '@stillstand/campaign/problems';
import type { Act, CellConflict, Cells, CellsOf, DocRow, News } from '@stillstand/campaign/replica';
import type { SettingName } from '@stillstand/campaign/settings';
import type { TableName } from '@stillstand/campaign/tables';
import type { Merged } from './merge-records.ts';

/** What an open campaign is an earlier state of. */
interface Earlier {
  /** Identity of the campaign on this device. */
  readonly campaign: string;
  /** The last act that it knows; null: it is as it was before the first. */
  readonly act: Act | null;
  /** Acts since. */
  readonly later: number;
}

/** A copy that was packed and is not yet anywhere else. */
export interface Copy {
  zip: Blob;
  /** Marks the campaign as kept elsewhere, as it was when the copy was packed. */
  wasKept(): Promise<void>;
}

export interface Store {
  readonly id: string;
  /** Written by a newer Stillstand, or not readable whole: it is shown as far as it goes and never written. */
  readonly readOnly: boolean;
  /** What this is an earlier state of: read only, and kept nowhere. Null for a campaign as it is. */
  readonly earlier: Earlier | null;
  /** What was wrong with the file the campaign was opened from. */
  readonly openingProblems: readonly Problem[];

  /** The document now; the same object until something changes. Photos and other files are kept apart: see `file`. */
  document(): CampaignDocument;
  /** Every row of a table in its order, amended and withdrawn readings too. */
  rows(table: TableName): readonly DocRow[];
  /** The campaign's name: its setting, else the title of the package. */
  name(): string;
  /** Hears of every change, whoever made it, and of `saved`. Returns how to stop. */
  subscribe(listener: () => void): () => void;
  /** Counts up with every change that `subscribe` tells of. */
  version(): number;

  /**
   * Appends a reading. `row_id`, `seq` (the next in its hole, loop or gauge), `time` (now, with its offset), `by` and
   * `device` are filled in where they are not given. Returns its row_id.
   */
  addReading(table: TableName, cells: Cells): string;
  /**
   * A later row in force instead of the reading, with some cells changed; both stay. `row_id` is any row of the reading.
   * Returns the new row's id; null where it was refused, which `news` says.
   */
  amend(table: TableName, row_id: string, cells: Cells): string | null;
  /** Later rows that withdraw the reading and all its amendments; everything stays. Null where it was refused. */
  withdraw(table: TableName, row_id: string): string | null;
  /** A withdrawn reading as it was before. Null where it was refused. */
  restore(table: TableName, row_id: string): string | null;
  /**
   * A later row that gives the reading another `seq` in its series; nothing else of it changes. `row_id` is any row of
   * the reading. Moving again, or back, is the way to undo it. Null where it was refused.
   */
  move(table: TableName, row_id: string, seq: number): string | null;
  /** Ends a conflict of amendments by one of the reading's rows, or by its withdrawal (null). Null where refused. */
  decide(table: TableName, row_id: string, choice: string | null): string | null;

  /** What was done to the campaign, by whom and when; the same object until one is added. */
  acts(): readonly Act[];
  /** Acts of others since the campaign was opened here: from another device, another window, or a copy. */
  arrived(): ReadonlySet<string>;
  /** Cells of a row by its identity, of a deleted row too: acts name rows that may be gone. */
  cellsOf: CellsOf;
  /** The campaign as it was right after an act; null: before the first. */
  documentAfter(act: string | null): CampaignDocument;
  /** Cells that two devices set to different things, neither knowing of the other. */
  conflicts(): readonly CellConflict[];
  /** Ends the conflict of a cell by one of its values, or by another. False where it was refused, which `news` says. */
  settle(table: TableName, row_id: string, column: string, value: string): boolean;

  /** Adds a row of an interpretation. Like `editRow` and `removeRow`, throws a RangeError for a table of readings. */
  addRow(table: TableName, cells: Cells): string;
  /** A changed label is changed in the rows that name it. False where it was refused, which `news` says. */
  editRow(table: TableName, row_id: string, cells: Cells): boolean;
  /** False where other rows depend on it, which `news` says. */
  removeRow(table: TableName, row_id: string): boolean;
  /** Why a row cannot be deleted, in words; null where it can. */
  whyKept(table: TableName, row_id: string): string | null;
  /** Several edits as one: all of them or none, one step of undo, one telling. False where they were refused. */
  together(edits: () => void): boolean;
  undo(): void;
  redo(): void;
  /** What undo takes back, as "add hole H3"; null where there is nothing. Readings are never undone. */
  undoes(): string | null;
  redoes(): string | null;
  /** What was last undone, refused or put right, to be shown; null after the next act. */
  news(): News | null;
  forgetNews(): void;
  /** Says what was done, or why it was refused, until the next act. */
  say(words: string, isRefusal?: boolean): void;

  setting(name: SettingName): string | null;
  /** An empty value removes the setting, so that its default holds. */
  setSetting(name: SettingName, value: string): void;

  /** Keeps a photo or other file under the hash of its content; resolves with its path when the device has it. */
  addFile(bytes: Uint8Array, type: string): Promise<string>;
  file(path: string): Promise<Blob | null>;
  filePaths(): Promise<string[]>;
  /** In bytes, by path. */
  fileSizes(): Promise<ReadonlyMap<string, number>>;

  /** The Yjs document as it is now, as one update: to be held against a copy of it. */
  state(): Uint8Array;
  /**
   * Merges a copy in: all of it and its new files, or nothing. Undo takes it back as one step, as long as nothing was
   * written since. Rejects where the device refuses it.
   */
  merge(merged: Merged): Promise<void>;
  /** Set once the campaign was put back to what it was before a merge: it is to be opened again, and this to be said. */
  readonly isOver: string | null;

  /** `saved` once the device has every change; `failed` while it refuses one (`failure` says why; it is tried again). */
  readonly saved: 'saved' | 'saving' | 'failed';
  readonly failure: string | null;
  /** Identities of rows that are shown and not yet on the device. */
  readonly unsaved: ReadonlySet<string>;
  /** Photos that this device has, bytes by path. */
  photoSizes(): Promise<ReadonlyMap<string, number>>;
  /** Everything as one zip, but for the files to `leave`, which it names (photos-left-out.txt). */
  pack(leave?: ReadonlySet<string>): Promise<Copy>;
  /** The document with its history behind its tables, as it is saved. */
  asSaved(): CampaignDocument;
  /** Everything as one zip, the same the command line reads. Marks the campaign as kept elsewhere. */
  exportZip(): Promise<Blob>;
  /** Changes since the last export, and when that was. */
  keptElsewhere(): { changes: number; exported_ms: number | null };
  /** Writes what is waiting and lets the campaign go; what the device refuses goes on being tried. */
  close(): Promise<void>;
}
