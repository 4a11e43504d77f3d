/**
 * The one rule of amendments, for parsing, screens and commands alike. Readings are never changed: a later row names
 * the row it amends and replaces or withdraws it. Amendments can be amended: replacing a replacement puts the last one
 * in the place of the reading; withdrawing an amendment undoes it. The rule knows rows by their identity only, neither
 * their lines nor their clocks, so that two devices that exchanged their rows agree.
 *
 * Amendments in force that come to different things are a conflict: nothing is in force until a person decides, neither
 * the first nor the last, nor the reading as written, which somebody has said is wrong. Amendments that say the same in
 * every cell are none: two people corrected one slip, and there is nothing to decide.
 *
 * A few lines past 250: the rule, and the two ways rows are given to it.
 */
import { plainWord, schemas, type TableName } from '@stillstand/campaign/tables';

/** How the rule reads a row. */
export interface AmendmentCells<R> {
  row_id(row: R): string;
  /** What it amends; empty for a reading as first written. */
  amends(row: R): string;
  withdraws(row: R): boolean;
  /** What the row says, whoever wrote it: one of two rows that say the same is enough. Asked for rivals only. */
  says(row: R): string;
}

/** A reading with all that was ever written about it. */
export interface Reading<R> {
  /** As first written. */
  readonly first: R;
  /** `astray`: the row amends no row there is, or rows amend each other in a circle; it is no reading. */
  readonly state: 'written' | 'replaced' | 'withdrawn' | 'conflict' | 'astray';
  /** The row in force; null where there is none: withdrawn, astray, or in conflict. */
  readonly now: R | null;
  /** From `first` to the row in force or to the withdrawal; in a conflict, as far as it is undisputed. */
  readonly history: readonly R[];
  /** In a conflict, what it may come to, in the order of the rows (twelve at most); null is the reading withdrawn. */
  readonly between: readonly (R | null)[];
  /** Amendments in force: withdrawn one by one in this order, the reading stands as first written. */
  readonly amendments: readonly R[];
  /** Every row that was ever written about it, each behind what it amends. */
  readonly rows: readonly R[];
}

export interface Readings<R> {
  /** In the order of the rows first written. */
  readonly all: readonly Reading<R>[];
  /** The reading that a row belongs to, as written or as an amendment. */
  readonly of: ReadonlyMap<string, Reading<R>>;
}

/** Of the alternatives of one conflict, so many are listed. */
const LISTED = 12;

/**
 * Everything a row may come to, whichever rival is withdrawn wherever amendments rival each other; one thing where
 * nothing is in dispute.
 */
interface Outcomes<R> {
  /** Not in force: withdrawn. */
  gone: boolean;
  /** It withdraws what it amends. */
  withdraws: boolean;
  /** It, or a row in its place; of rows that say the same one. */
  rows: R[];
}

const isGone = ({ gone, withdraws, rows }: Outcomes<unknown>): boolean =>
  gone && !withdraws && rows.length === 0;

/** The rows of one table, each reading with its amendments. Of rows that share an identity the first counts. */
export function readingsOf<R>(rows: readonly R[], cells: AmendmentCells<R>): Readings<R> {
  const byId = new Map<string, R>();
  for (const row of rows) if (!byId.has(cells.row_id(row))) byId.set(cells.row_id(row), row);
  const amendedBy = new Map<R, R[]>();
  const targetOf = new Map<R, R>();
  for (const row of byId.values()) {
    const target = byId.get(cells.amends(row));
    if (cells.amends(row) === '' || target === undefined) continue;
    targetOf.set(row, target);
    const others = amendedBy.get(target);
    if (others === undefined) amendedBy.set(target, [row]);
    else others.push(row);
  }
  const tree: Tree<R> = { cells, amendedBy, targetOf, outcomes: new Map() };
  judge(byId.values(), tree);

  const all: Reading<R>[] = [];
  const of = new Map<string, Reading<R>>();
  for (const row of byId.values()) {
    if (targetOf.has(row) && tree.outcomes.has(row)) continue;
    // It amends what is not there, or a row in a circle; or it withdraws and does not say what.
    const isAstray = cells.amends(row) !== '' || cells.withdraws(row);
    const reading = isAstray ? astray(row) : readingFrom(row, tree);
    all.push(reading);
    for (const member of reading.rows) of.set(cells.row_id(member), reading);
  }
  // What amends a row that is itself astray.
  for (const row of byId.values()) {
    if (of.has(cells.row_id(row))) continue;
    const reading = astray(row);
    all.push(reading);
    of.set(cells.row_id(row), reading);
  }
  return { all, of };
}

interface Tree<R> {
  cells: AmendmentCells<R>;
  amendedBy: ReadonlyMap<R, readonly R[]>;
  targetOf: ReadonlyMap<R, R>;
  /** Rows in or above a circle have none. */
  outcomes: Map<R, Outcomes<R>>;
}

const astray = <R>(first: R): Reading<R> => ({
  first,
  state: 'astray',
  now: null,
  history: [first],
  between: [],
  amendments: [],
  rows: [first],
});

/** Outcomes of every row, amendments before what they amend. */
function judge<R>(rows: Iterable<R>, tree: Tree<R>): void {
  const { amendedBy, targetOf, outcomes } = tree;
  const pending = new Map<R, number>();
  for (const [target, by] of amendedBy) pending.set(target, by.length);
  const ready = [...rows].filter((row) => !pending.has(row));
  for (let i = 0; i < ready.length; i++) {
    const row = ready[i]!;
    outcomes.set(row, outcomesOf(row, tree));
    const target = targetOf.get(row);
    if (target === undefined) continue;
    const left = pending.get(target)! - 1;
    pending.set(target, left);
    if (left === 0) ready.push(target);
  }
}

/** Amendments of a row that are in force, or would be after some decision. */
const rivalsOver = <R>(row: R, { amendedBy, outcomes }: Tree<R>): R[] =>
  (amendedBy.get(row) ?? []).filter((by) => !isGone(outcomes.get(by)!));

function outcomesOf<R>(row: R, tree: Tree<R>): Outcomes<R> {
  const found: Outcomes<R> = { gone: false, withdraws: false, rows: [] };
  let mayStand = true;
  for (const by of rivalsOver(row, tree)) {
    const theirs = tree.outcomes.get(by)!;
    if (!theirs.gone) mayStand = false;
    if (theirs.withdraws) found.gone = true;
    for (const outcome of theirs.rows) addRow(found.rows, outcome, tree.cells);
  }
  if (!mayStand) return found;
  if (tree.cells.withdraws(row)) found.withdraws = true;
  else addRow(found.rows, row, tree.cells);
  return found;
}

/** Of rows that say the same one is kept, which one not depending on the order of the rows. */
function addRow<R>(rows: R[], row: R, { says, row_id }: AmendmentCells<R>): void {
  const same = rows.length === 0 ? -1 : rows.findIndex((other) => says(other) === says(row));
  if (same === -1) {
    if (rows.length < LISTED) rows.push(row);
  } else if (row_id(row) < row_id(rows[same]!)) rows[same] = row;
}

function readingFrom<R>(first: R, tree: Tree<R>): Reading<R> {
  const { gone, rows: outcomes } = tree.outcomes.get(first)!;
  const of = { first, amendments: withdrawals(first, tree), rows: membersOf(first, tree.amendedBy) };
  if (outcomes.length + (gone ? 1 : 0) > 1) {
    const between = gone ? [...outcomes, null] : outcomes;
    return { ...of, state: 'conflict', now: null, history: undisputed(first, tree), between };
  }
  const [now] = outcomes;
  if (now === undefined) {
    const { row_id } = tree.cells;
    const by = rivalsOver(first, tree).reduce((a, b) => (row_id(b) < row_id(a) ? b : a));
    return { ...of, state: 'withdrawn', now: null, history: [first, by], between: [] };
  }
  const history = [now];
  for (let at = now; at !== first; history.push(at)) at = tree.targetOf.get(at)!;
  history.reverse();
  return { ...of, state: now === first ? 'written' : 'replaced', now, history, between: [] };
}

function undisputed<R>(first: R, tree: Tree<R>): R[] {
  const history = [first];
  for (let rivals = rivalsOver(first, tree); rivals.length === 1; rivals = rivalsOver(rivals[0]!, tree)) {
    history.push(rivals[0]!);
  }
  return history;
}

/** The amendments in force below a row, each behind what amends it. */
function withdrawals<R>(first: R, tree: Tree<R>): R[] {
  const found: R[] = [];
  const stack = rivalsOver(first, tree);
  for (let row = stack.pop(); row !== undefined; row = stack.pop()) {
    found.push(row);
    for (const by of rivalsOver(row, tree)) stack.push(by);
  }
  return found.reverse();
}

function membersOf<R>(first: R, amendedBy: ReadonlyMap<R, readonly R[]>): R[] {
  const members = [first];
  for (let i = 0; i < members.length; i++) {
    for (const by of amendedBy.get(members[i]!) ?? []) members.push(by);
  }
  return members;
}

/** A row as it was typed: cells by column of its table. */
export interface TypedRow {
  readonly row_id: string;
  readonly cells: Readonly<Record<string, string>>;
}

/** Columns that say who wrote a row and what it amends, not what was read. */
const WHO = new Set(['row_id', 'by', 'device', 'note', 'amends', 'amend_kind']);

/** Columns in which two amendments must agree to be no conflict. */
export const readColumns = (table: TableName): string[] =>
  Object.keys(schemas[table].columns).filter((column) => !WHO.has(column));

const known = new WeakMap<readonly TypedRow[], Readings<TypedRow>>();

/** The readings of a table as screens and commands have it; the same rows give the same object. */
export function typedReadings<R extends TypedRow>(table: TableName, rows: readonly R[]): Readings<R> {
  const before = known.get(rows);
  // The rows are those it was made of.
  if (before !== undefined) return before as Readings<R>;
  const columns = readColumns(table);
  const cell = (row: R, column: string): string => row.cells[column]?.trim() ?? '';
  const found = readingsOf(rows, {
    row_id: (row) => row.row_id.normalize('NFC'),
    amends: (row) => cell(row, 'amends').normalize('NFC'),
    withdraws: (row) => plainWord(cell(row, 'amend_kind')) === 'withdraw',
    says: (row) => columns.map((column) => cell(row, column)).join('\u0000'),
  });
  known.set(rows, found);
  return found;
}

/** What orders readings: those of one hole, loop, gauge or day are one series, whatever table they are in. */
const SERIES = ['hole', 'loop', 'gauge', 'date'] as const;

/** The rows in force, in the order of the readings, each in the place of the reading it is of. */
export const rowsInForce = <R extends TypedRow>(table: TableName, rows: readonly R[]): R[] =>
  typedReadings(table, rows).all.flatMap(({ now, first }) => (now === null ? [] : [inPlace(now, first)]));

/** A replacement has the `seq` of the reading, whatever it was given, while it is of the same series. */
function inPlace<R extends TypedRow>(now: R, first: R): R {
  const cell = (row: R, column: string): string => row.cells[column]?.trim() ?? '';
  if (cell(now, 'seq') === cell(first, 'seq') || cell(first, 'seq') === '') return now;
  if (SERIES.some((column) => cell(now, column) !== cell(first, column))) return now;
  return { ...now, cells: { ...now.cells, seq: cell(first, 'seq') } };
}
