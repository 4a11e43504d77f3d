/**
 * What a person does to an open campaign. Every act is a list of changes that is looked at before it is made: all of it
 * happens or none, nothing that others depend on goes, and what was refused says why. Readings are appended for good;
 * acts on everything else can be undone and redone, each by the window it was done in. Past 250
 * lines because every act goes through the same two stacks and the same look.
 */
import { readingOf, toAmend, toDecide, toMove, toRestore, toWithdraw } from '@stillstand/campaign/document';
import type { TableName } from '@stillstand/campaign/tables';
import { type Acts, alike, type How } from './acts.ts';
import { type Change, changed, changeWords, inverse, isChangedSince } from './changes.ts';
import { withCommas } from './decimal-signs.ts';
import { guarded, whyKept } from './guard.ts';
import { type DocRow, isReadings } from './layout.ts';
import { type MadeIn, make } from './make.ts';
import { nextSeq } from './new-reading.ts';
import { rowsOnce } from './once.ts';
import { repair } from './repair.ts';

/** Cells as typed, by column. */
export type Cells = Readonly<Record<string, string>>;

/** What was done or refused, to be shown. */
export interface News {
  readonly words: string;
  readonly isRefusal: boolean;
}

/** Origin of the changes made here. */
const HERE = Symbol('this window');

interface Step {
  changes: readonly Change[];
  words: string;
}

interface Edited extends MadeIn {
  /** The history of `doc`. */
  acts: Acts;
  /** Throws where nothing may be written. */
  demandWritable(): void;
  tell(): void;
}

export function editing({ doc, acts, read, forget, demandWritable, tell, writer }: Edited) {
  const done: Step[] = [];
  let undone: Step[] = [];
  let news: News | null = null;
  /** Changes of the acts that `together` makes one; null outside of it. */
  let gathered: Change[] | null = null;
  /** Rows of the changes that are being made. */
  let touched: readonly string[] = [];

  const kept = (table: TableName): readonly DocRow[] => read(table)?.rows ?? [];
  const rows = (table: TableName): readonly DocRow[] =>
    gathered === null ? kept(table) : changed(kept(table), table, gathered);
  const find = (table: TableName, row_id: string): DocRow | undefined =>
    rows(table).find((row) => row.row_id === row_id);
  const say = (words: string, isRefusal = false): void => {
    news = { words, isRefusal };
    tell();
  };
  const refuse = (words: string): false => {
    say(words, true);
    return false;
  };

  const makeAll = (changes: readonly Change[], how: How): void => {
    touched = changes.map(({ row_id }) => row_id);
    make({ doc, acts, read, forget, writer }, changes, how, HERE);
  };
  /** Puts right what two windows did by halves; `among` the rows that are new, null for all. */
  const repaired = (among: ReadonlySet<string> | null): void => {
    let words = '';
    if (among === null) rowsOnce({ doc, acts, read, forget, writer }, HERE);
    // What is restored may itself name what is to be restored.
    for (
      let round = 0, found = repair(kept, read, among, writer.newRowId);
      found !== null && round < 9;
      round++
    ) {
      makeAll(found.changes, 'repaired');
      words = `${words} ${found.words}`.trim();
      found = repair(kept, read, among === null ? null : new Set([...among, ...touched]), writer.newRowId);
    }
    if (words !== '') say(words);
  };

  /** Makes the changes as one act; false where it was refused, which has been said then. */
  const act = (asked: readonly Change[], how: How = 'done'): boolean => {
    if (gathered !== null) {
      gathered.push(...asked);
      return true;
    }
    if (asked.length === 0) return true;
    const looked = guarded(kept, read, asked, false);
    if ('refused' in looked) return refuse(looked.refused);
    const { changes } = looked;
    const step = changes.filter(({ table }) => !isReadings(table));
    const words = changeWords(step, (change) =>
      change.kind === 'edit' ? (find(change.table, change.row_id)?.cells ?? {}) : change.cells,
    );
    makeAll(changes, how);
    news = null;
    if (step.length > 0) {
      done.push({ changes: step, words });
      undone = [];
    }
    repaired(new Set(touched));
    tell();
    return true;
  };
  /** Takes the last step of one stack back and lays it on the other. */
  const turn = (from: Step[], to: Step[], back: boolean): void => {
    demandWritable();
    const step = from.pop();
    if (step === undefined) return;
    const changes = back ? inverse(step.changes) : step.changes;
    const verb = back ? 'undone' : 'redone';
    const looked = isChangedSince(kept, changes) ? null : guarded(kept, read, changes, true);
    if (looked === null) {
      refuse(`Not ${verb}: ${step.words}. It was changed in another window since.`);
    } else if ('refused' in looked) refuse(`Not ${verb}: ${step.words}. ${looked.refused}`);
    else {
      makeAll(looked.changes, verb);
      to.push(step);
      repaired(new Set(touched));
      say(`${back ? 'Undone' : 'Redone'}: ${step.words}.`);
    }
  };

  const demandRow = (table: TableName): void => {
    demandWritable();
    if (isReadings(table)) throw new RangeError(`${table} holds readings: they are amended, never edited`);
  };
  const demandReadings = (table: TableName): void => {
    demandWritable();
    if (!isReadings(table)) throw new RangeError(`${table} holds no readings: use addRow`);
  };
  /** In a table whose numbers are written 3,05, what is entered here must be too. */
  const asTableWrites = (table: TableName, cells: Cells): Cells =>
    read(table)?.table.dialect.decimal_comma === true ? withCommas(table, cells) : cells;
  /** Readings as they are appended, all of one moment; null where that was refused. */
  const write = (table: TableName, readings: readonly Cells[]): string | null => {
    const who = writer.crew();
    const time = writer.time();
    const changes = readings.map((cells): Change => {
      const given = Object.fromEntries(Object.entries(cells).filter(([, cell]) => cell !== ''));
      const row_id = given['row_id'] ?? writer.newRowId();
      return {
        kind: 'add',
        table,
        row_id,
        cells: {
          seq: given['seq'] ?? nextSeq(cells, rows),
          time,
          ...(who.by === '' ? {} : { by: who.by }),
          ...(who.device === '' ? {} : { device: who.device }),
          ...asTableWrites(table, given),
          // A replacement is by whoever writes it; the row it replaces says who read.
          ...(given['amend_kind'] === 'replace' && who.by !== '' ? who : {}),
          row_id,
        },
      };
    });
    return act(changes) ? changes.at(-1)!.row_id : null;
  };
  /** Appends the rows an act on a reading takes; null where there is no such reading or the act was refused. */
  const onReading = (
    table: TableName,
    row_id: string,
    rowsOf: (reading: NonNullable<ReturnType<typeof readingOf>>) => readonly Cells[] | string,
  ): string | null => {
    demandReadings(table);
    const reading = readingOf(table, rows(table), row_id);
    const wanted = reading === null ? 'This reading is not here any more.' : rowsOf(reading);
    if (typeof wanted !== 'string') return write(table, wanted);
    refuse(wanted);
    return null;
  };

  return {
    rows,
    repaired,
    /** Rows of the changes being made, while they are made. */
    touched: () => touched,
    news: () => news,
    say,
    /** How many acts undo can take back. */
    steps: () => done.length,
    addReading: (table: TableName, cells: Cells): string => {
      demandReadings(table);
      // A reading that amends nothing is never refused.
      return write(table, [cells])!;
    },
    amend: (table: TableName, row_id: string, cells: Cells): string | null =>
      onReading(table, row_id, (reading) => {
        if (reading.state === 'conflict') return 'It has amendments that differ: choose one of them first.';
        if (reading.state === 'astray') return 'It amends no reading there is: correct that in its file.';
        return (
          toAmend(table, reading, cells) ??
          'Its amendments differ once it is restored: restore it, then choose one of them.'
        );
      }),
    withdraw: (table: TableName, row_id: string): string | null =>
      onReading(table, row_id, (reading) =>
        reading.state === 'withdrawn' ? 'This reading is withdrawn already.' : toWithdraw(reading),
      ),
    restore: (table: TableName, row_id: string): string | null =>
      onReading(table, row_id, (reading) =>
        reading.state === 'withdrawn' ? toRestore(reading) : 'This reading is not withdrawn.',
      ),
    move: (table: TableName, row_id: string, seq: number): string | null =>
      onReading(table, row_id, (reading) => {
        if (reading.state === 'astray') return 'It amends no reading there is: correct that in its file.';
        const moving = toMove(table, reading, String(seq));
        return moving.length > 0 ? moving : 'This reading is in that place already.';
      }),
    decide: (table: TableName, row_id: string, choice: string | null): string | null =>
      onReading(table, row_id, (reading) => {
        const chosen = reading.rows.find((row) => row.row_id === choice) ?? null;
        if (reading.state !== 'conflict')
          return 'There is nothing to choose any more: it was decided elsewhere.';
        return choice !== null && chosen === null
          ? 'That amendment is not here any more.'
          : toDecide(reading, chosen);
      }),
    addRow: (table: TableName, cells: Cells): string => {
      demandRow(table);
      const given = Object.fromEntries(Object.entries(cells).filter(([, cell]) => cell !== ''));
      const row_id = given['row_id'] ?? writer.newRowId();
      act([{ kind: 'add', table, row_id, cells: { ...asTableWrites(table, given), row_id } }]);
      return row_id;
    },
    editRow: (table: TableName, row_id: string, cells: Cells): boolean => {
      demandRow(table);
      const before = find(table, row_id)?.cells;
      if (before === undefined)
        return refuse('This row is not here any more: it was deleted in another window.');
      const edits = Object.entries(asTableWrites(table, cells)).filter(
        ([column, cell]) => (before[column] ?? '') !== cell,
      );
      if (edits.length === 0) return true;
      const was = Object.fromEntries(edits.map(([column]) => [column, before[column] ?? '']));
      return act([{ kind: 'edit', table, row_id, before: was, after: Object.fromEntries(edits) }]);
    },
    /** Ends the conflict of a cell that two devices set; what other cells say by the same two acts follows. */
    settle: (table: TableName, row_id: string, column: string, value: string): boolean => {
      demandRow(table);
      const found = alike(acts.conflicts()).find((group) =>
        group.some((each) => each.table === table && each.row_id === row_id && each.column === column),
      );
      if (found === undefined)
        return refuse('There is nothing to choose any more: it was decided elsewhere.');
      return act(
        found.flatMap((each): Change[] => {
          const cells = find(each.table, each.row_id)?.cells;
          if (cells === undefined || isReadings(each.table)) return [];
          const was = cells[each.column] ?? '';
          return [
            {
              kind: 'edit',
              table: each.table,
              row_id: each.row_id,
              before: { [each.column]: was },
              after: { [each.column]: value },
            },
          ];
        }),
        'settled',
      );
    },
    removeRow: (table: TableName, row_id: string): boolean => {
      demandRow(table);
      const row = find(table, row_id);
      return row === undefined || act([{ kind: 'delete', table, row_id, cells: row.cells }]);
    },
    whyKept: (table: TableName, row_id: string): string | null => whyKept(rows, read, table, row_id),
    together: (edits: () => void): boolean => {
      demandWritable();
      if (gathered !== null) {
        edits();
        return true;
      }
      gathered = [];
      let changes: readonly Change[] = [];
      try {
        edits();
        changes = gathered;
      } finally {
        gathered = null;
      }
      return act(changes);
    },
    undo: (): void => turn(done, undone, true),
    redo: (): void => turn(undone, done, false),
    undoes: (): string | null => done.at(-1)?.words ?? null,
    redoes: (): string | null => undone.at(-1)?.words ?? null,
    forgetNews: (): void => {
      if (news === null) return;
      news = null;
      tell();
    },
  };
}
