/**
 * Amendments of one reading that answer one question (what it says; where it is), each upon what it amends: what they
 * come to, whichever rival is withdrawn wherever some rival each other.
 */

interface LayerCells<R> {
  row_id(row: R): string;
  /** Rivals that say the same are none. */
  says(row: R): string;
  withdraws(row: R): boolean;
  /** Cannot be followed: it is as if it were withdrawn. */
  isIdle(row: R): boolean;
}

export interface Layer<R> extends LayerCells<R> {
  readonly amendedBy: ReadonlyMap<R, readonly R[]>;
  readonly targetOf: ReadonlyMap<R, R>;
  readonly outcomes: ReadonlyMap<R, Outcomes<R>>;
}

/** Everything a row may come to; one thing where nothing is in dispute. */
interface Outcomes<R> {
  /** Not in force: withdrawn. */
  gone: boolean;
  /** It withdraws what it amends. */
  withdraws: boolean;
  /** It, or a row in its place; of rows that say the same one. */
  rows: R[];
}

/** Of the alternatives of one conflict, so many are listed. */
const LISTED = 12;

/** A reading and the amendments, each with what it amends and behind it. */
export function layer<R>(first: R, amendments: readonly [R, R][], cells: LayerCells<R>): Layer<R> {
  const amendedBy = new Map<R, R[]>();
  for (const [row, target] of amendments) {
    const others = amendedBy.get(target);
    if (others === undefined) amendedBy.set(target, [row]);
    else others.push(row);
  }
  const outcomes = new Map<R, Outcomes<R>>();
  const found: Layer<R> = { ...cells, amendedBy, targetOf: new Map(amendments), outcomes };
  // Amendments before what they amend.
  for (const [row] of amendments.toReversed()) outcomes.set(row, judged(row, found));
  outcomes.set(first, judged(first, found));
  return found;
}

export const outcomesOf = <R>(row: R, { outcomes }: Layer<R>): Outcomes<R> => outcomes.get(row)!;

const isGone = ({ gone, withdraws, rows }: Outcomes<unknown>): boolean =>
  gone && !withdraws && rows.length === 0;

/** Amendments of a row that are in force, or would be after some decision. */
export const rivalsOver = <R>(row: R, { amendedBy, outcomes }: Layer<R>): R[] =>
  (amendedBy.get(row) ?? []).filter((by) => !isGone(outcomes.get(by)!));

/** Something else is in its place, or it is withdrawn. */
export const isUndone = <R>(row: R, of: Layer<R>): boolean => rivalsOver(row, of).length > 0;

function judged<R>(row: R, of: Layer<R>): Outcomes<R> {
  const found: Outcomes<R> = { gone: false, withdraws: false, rows: [] };
  let mayStand = true;
  for (const by of rivalsOver(row, of)) {
    const theirs = of.outcomes.get(by)!;
    if (!theirs.gone) mayStand = false;
    if (theirs.withdraws) found.gone = true;
    for (const outcome of theirs.rows) addRow(found.rows, outcome, of);
  }
  if (!mayStand) return found;
  if (of.withdraws(row)) found.withdraws = true;
  else if (of.isIdle(row)) found.gone = true;
  else addRow(found.rows, row, of);
  return found;
}

/** Of rows that say the same one is kept, which one not depending on the order of the rows. */
function addRow<R>(rows: R[], row: R, { says, row_id }: LayerCells<R>): void {
  const same = rows.length === 0 ? -1 : rows.findIndex((other) => says(other) === says(row));
  if (same === -1) {
    if (rows.length < LISTED) rows.push(row);
  } else if (row_id(row) < row_id(rows[same]!)) rows[same] = row;
}

/** From a row through its amendments, as far as none rival each other. */
export function undisputed<R>(first: R, of: Layer<R>): R[] {
  const history = [first];
  for (let rivals = rivalsOver(first, of); rivals.length === 1; rivals = rivalsOver(rivals[0]!, of)) {
    history.push(rivals[0]!);
  }
  return history;
}

/** The amendments in force below a row, each behind what amends it. */
export function withdrawals<R>(first: R, of: Layer<R>): R[] {
  const found: R[] = [];
  const stack = rivalsOver(first, of);
  for (let row = stack.pop(); row !== undefined; row = stack.pop()) {
    found.push(row);
    for (const by of rivalsOver(row, of)) stack.push(by);
  }
  return found.reverse();
}
