/**
 * The one rule of amendments, for parsing, screens and commands alike. Readings are never changed: a later row names
 * the row it amends and replaces it, withdraws it or moves it to another place in its series. Amendments can be amended:
 * replacing a replacement puts the last one in the place of the reading; withdrawing an amendment undoes it. The rule
 * knows rows by their identity only, neither their lines nor their clocks, so that two devices that exchanged their rows
 * agree.
 *
 * What a reading says and where it is are two questions. Moves answer the second, whatever row of the reading they name,
 * and rival each other only: a reading that was moved and corrected is both, and comes back to its place when it is
 * restored. Replacements answer the first, whatever row they name.
 *
 * Amendments in force that come to different things are a conflict: nothing is in force until a person decides, neither
 * the first nor the last, nor the reading as written, which somebody has said is wrong. Amendments that say the same in
 * every cell are none: two people corrected one slip, and there is nothing to decide. Of moves to different places none
 * is used until a person decides: the reading is used where it was before them.
 */
import {
  isUndone,
  type Layer,
  layer,
  outcomesOf,
  rivalsOver,
  undisputed,
  withdrawals,
} from './amendment-layer.ts';

/** How the rule reads a row. */
export interface AmendmentCells<R> {
  row_id(row: R): string;
  /** What it amends; empty for a reading as first written. */
  amends(row: R): string;
  /** What an amendment does; a replacement where that is not said. */
  kind(row: R): 'replace' | 'withdraw' | 'move';
  /** What the row says, whoever wrote it: one of two rows that say the same is enough. Asked for rivals only. */
  says(row: R): string;
  /** The number of its place; null where it states none that can be read. */
  seq(row: R): number | null;
  /** The hole, loop, gauge and day it is of, each empty where it states none. */
  series(row: R): readonly string[];
}

/** Where a reading is in its series. */
interface Place<R> {
  /** The row whose `seq` counts: the reading, the row in force where that is of another series, or a move of it. */
  readonly by: R;
  /** Rows that give it different places, until a person decides: `by` is where it was before. Empty where none do. */
  readonly between: readonly R[];
  /** Moves in force and what amends them: withdrawn one by one in this order, the reading is where it was written. */
  readonly amendments: readonly R[];
  /** Moves that nobody withdrew and that cannot be followed: to no number, or to another hole, loop, gauge or day. */
  readonly idle: readonly R[];
  /** Every row that was ever written about it. */
  readonly rows: readonly R[];
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
  /** Amendments in force: withdrawn one by one in this order, the reading stands as first written. No moves. */
  readonly amendments: readonly R[];
  readonly place: Place<R>;
  /** Every row that was ever written about it, each behind what it amends. */
  readonly rows: readonly R[];
}

export interface Readings<R> {
  /** In the order of the rows first written; rows in a circle behind the others. */
  readonly all: readonly Reading<R>[];
  /** The reading that a row belongs to, as written or as an amendment. */
  readonly of: ReadonlyMap<string, Reading<R>>;
}

/** The rows of one table, each reading with its amendments. Of rows that share an identity the first counts. */
export function readingsOf<R>(rows: readonly R[], cells: AmendmentCells<R>): Readings<R> {
  const byId = new Map<string, R>();
  for (const row of rows) if (!byId.has(cells.row_id(row))) byId.set(cells.row_id(row), row);
  const amendedBy = new Map<R, R[]>();
  const firsts: R[] = [];
  for (const row of byId.values()) {
    const target = cells.amends(row) === '' ? undefined : byId.get(cells.amends(row));
    if (target === undefined) {
      firsts.push(row);
      continue;
    }
    const others = amendedBy.get(target);
    if (others === undefined) amendedBy.set(target, [row]);
    else others.push(row);
  }
  const all: Reading<R>[] = [];
  const of = new Map<string, Reading<R>>();
  const take = (reading: Reading<R>): void => {
    all.push(reading);
    for (const member of reading.rows) of.set(cells.row_id(member), reading);
  };
  for (const row of firsts) {
    // It amends what is not there; or it withdraws or moves and does not say what.
    const isAstray = cells.amends(row) !== '' || cells.kind(row) !== 'replace';
    take(isAstray ? unamended(row, 'astray') : readingFrom(row, amendedBy, cells));
  }
  // What amends a row that is itself astray, and what goes round in a circle.
  for (const row of byId.values()) if (!of.has(cells.row_id(row))) take(unamended(row, 'astray'));
  return { all, of };
}

const unamended = <R>(first: R, state: 'written' | 'astray'): Reading<R> => ({
  first,
  state,
  now: state === 'written' ? first : null,
  history: [first],
  between: [],
  amendments: [],
  place: { by: first, between: [], amendments: [], idle: [], rows: [] },
  rows: [first],
});

function readingFrom<R>(
  first: R,
  amendedBy: ReadonlyMap<R, readonly R[]>,
  cells: AmendmentCells<R>,
): Reading<R> {
  if (!amendedBy.has(first)) return unamended(first, 'written');
  const { rows, said, moves } = sortedOut(first, amendedBy, cells);
  const reading = { ...whatItSays(first, said, cells), rows };
  return { ...reading, place: whereItIs(first, reading.now, moves, cells) };
}

/** Every row about a reading, and which of the two questions each answers. */
function sortedOut<R>(first: R, amendedBy: ReadonlyMap<R, readonly R[]>, cells: AmendmentCells<R>) {
  const rows = [first];
  const said: [R, R][] = [];
  const moves: [R, R][] = [];
  const isOfPlace = new Set<R>();
  for (let i = 0; i < rows.length; i++) {
    const target = rows[i]!;
    const targetIsOfPlace = isOfPlace.has(target);
    for (const by of amendedBy.get(target) ?? []) {
      rows.push(by);
      const kind = cells.kind(by);
      const isMove = kind === 'move' || (kind === 'withdraw' && targetIsOfPlace);
      if (isMove) isOfPlace.add(by);
      // A move of a correction moves the reading, and a correction of a move corrects it.
      (isMove ? moves : said).push([by, isMove === targetIsOfPlace ? target : first]);
    }
  }
  return { rows, said, moves };
}

function whatItSays<R>(
  first: R,
  amendments: readonly [R, R][],
  cells: AmendmentCells<R>,
): Omit<Reading<R>, 'place' | 'rows'> {
  const { row_id, says } = cells;
  const tree = layer(first, amendments, {
    row_id,
    says,
    withdraws: (row) => cells.kind(row) === 'withdraw',
    isIdle: () => false,
  });
  const { gone, rows: outcomes } = outcomesOf(first, tree);
  const of = { first, amendments: withdrawals(first, tree) };
  if (outcomes.length + (gone ? 1 : 0) > 1) {
    const between = gone ? [...outcomes, null] : outcomes;
    return { ...of, state: 'conflict', now: null, history: undisputed(first, tree), between };
  }
  const [now] = outcomes;
  if (now === undefined) {
    const by = rivalsOver(first, tree).reduce((a, b) => (row_id(b) < row_id(a) ? b : a));
    return { ...of, state: 'withdrawn', now: null, history: [first, by], between: [] };
  }
  const history = [now];
  for (let at = now; at !== first; history.push(at)) at = tree.targetOf.get(at)!;
  history.reverse();
  return { ...of, state: now === first ? 'written' : 'replaced', now, history, between: [] };
}

/**
 * A replacement is where the reading was, whatever `seq` it was given, while it is of the same series; in another it has
 * the place it is given there. A move within the series it is in now puts it elsewhere.
 */
function whereItIs<R>(
  first: R,
  now: R | null,
  amendments: readonly [R, R][],
  cells: AmendmentCells<R>,
): Place<R> {
  const { row_id, kind, seq } = cells;
  const isOfSeries = now === null || isSameSeries(now, first, cells);
  const unmoved = now !== null && (!isOfSeries || seq(first) === null) ? now : first;
  if (amendments.length === 0) return { by: unmoved, between: [], amendments: [], idle: [], rows: [] };
  const isIdle = (row: R): boolean =>
    kind(row) === 'move' && (seq(row) === null || isElsewhere(row, isOfSeries ? first : now, cells));
  const tree: Layer<R> = layer(first, amendments, {
    row_id,
    says: (row) => String(seq(row === first ? unmoved : row)),
    withdraws: (row) => kind(row) === 'withdraw',
    isIdle,
  });
  const { rows: outcomes } = outcomesOf(first, tree);
  const by = outcomes.length === 1 ? outcomes[0]! : asBefore(undisputed(first, tree), tree);
  const rowOf = (row: R): R => (row === first ? unmoved : row);
  const rows = amendments.map(([row]) => row);
  return {
    by: rowOf(by),
    between: outcomes.length > 1 ? outcomes.map(rowOf) : [],
    amendments: withdrawals(first, tree),
    idle: rows.filter((row) => isIdle(row) && !isUndone(row, tree)),
    rows,
  };
}

/** What a history without rivals comes to: a withdrawal takes what it withdraws with it. */
function asBefore<R>(history: readonly R[], { withdraws, isIdle }: Layer<R>): R {
  let at = history.length - 1;
  while (withdraws(history[at]!) || isIdle(history[at]!)) at -= withdraws(history[at]!) ? 2 : 1;
  return history[at]!;
}

/** A row that states no series at all is of that of the reading it amends. */
const isSameSeries = <R>(row: R, first: R, { series }: AmendmentCells<R>): boolean => {
  const [own, other] = [series(row), series(first)];
  return own.every((name) => name === '') || own.every((name, i) => name === other[i]);
};

const isElsewhere = <R>(move: R, reading: R, { series }: AmendmentCells<R>): boolean => {
  const own = series(reading);
  return series(move).some((name, i) => name !== '' && name !== own[i]);
};
