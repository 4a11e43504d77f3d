/** Readings whose order nobody knows: by what orders they may have come, what that changes, and what settles it. */
import { type CampaignDocument, withNewNames } from '@stillstand/campaign/document';
import { type HoleState, type RowSource, rowsOfDocument } from '@stillstand/campaign/holes';
import { clockOf, dateOf, rowAsTyped, type TableName } from '@stillstand/campaign/tables';
import { differences } from './differences.ts';
import { lastSaid, type NumbersOf, numbersIn, numbersOfHole } from './numbers.ts';
import { movesFor } from './places.ts';
import { type Placed, type Series, seriesIn } from './series.ts';
import { type Contest, contestsIn, type OrderSide, ordersOf, type Sided } from './strands.ts';

export type { OrderSide } from './strands.ts';

export interface OrderClash {
  readonly series: Series;
  /** In their present order. `row_id` is the reading as first written. */
  readonly readings: readonly {
    readonly table: TableName;
    readonly row_id: string;
    /** What it is, what it says and who read it. */
    readonly words: string;
    readonly side: OrderSide;
    readonly seq: number;
    readonly time: string | null;
  }[];
  /**
   * By the clock; ours first; theirs first. Of readings of one side, as they are and the other way round. The moves make
   * the order last; none where it is the present one and each reading has a place of its own.
   */
  readonly choices: readonly {
    readonly key: 'clock' | 'ours' | 'theirs';
    readonly order: readonly string[];
    readonly moves: readonly { readonly table: TableName; readonly row_id: string; readonly seq: number }[];
  }[];
  /** What the orders give differently, the first few, in words; empty: the order does not matter. */
  readonly differs: readonly string[];
}

/**
 * The clashes of a document, `ours` and `theirs` being the rows that only one of two copies had. Pure, never throws; the
 * same on both devices but for the sides. Nothing is computed where nothing clashes.
 */
export const clashesIn = (
  document: CampaignDocument,
  ours: ReadonlySet<string>,
  theirs: ReadonlySet<string>,
): OrderClash[] => clashesAmong(rowsOfDocument(withNewNames(document)), ours, theirs);

/** The same of rows wherever they are kept; of the hole at hand only, where one is given. */
export function clashesAmong(
  source: RowSource,
  ours: ReadonlySet<string>,
  theirs: ReadonlySet<string>,
  atHand: HoleState | null = null,
): OrderClash[] {
  const only: Series | null = atHand === null ? null : { kind: 'hole', name: atHand.row.hole };
  return seriesIn(source, only).flatMap(({ series, readings }) => {
    const sided = readings.map((reading): Sided => ({ ...reading, side: sideOf(reading, ours, theirs) }));
    const contests = contestsIn(sided);
    if (contests.length === 0) return [];
    const numbers = atHand === null ? numbersIn(source, series) : numbersOfHole(atHand);
    const others = othersIn(source, series);
    return contests.map((contest) => clashOf(series, contest, numbers, others));
  });
}

const sideOf = ({ first_id }: Placed, ours: ReadonlySet<string>, theirs: ReadonlySet<string>): OrderSide =>
  ours.has(first_id) ? 'ours' : theirs.has(first_id) ? 'theirs' : 'both';

function clashOf(
  series: Series,
  contest: Contest,
  numbers: NumbersOf,
  others: ReturnType<typeof othersIn>,
): OrderClash {
  const orders = Object.entries(ordersOf(contest)) as ['clock' | 'ours' | 'theirs', Sided[]][];
  const choices = orders.map(([key, order]) => {
    const moves = movesFor(order, contest.low, contest.high);
    const seqs = new Map(moves.map(({ reading, seq }) => [reading.row_id, seq]));
    return { key, order, moves, gives: new Map([...numbers(seqs), ...lastSaid(order)]) };
  });
  return {
    series,
    readings: contest.readings.map((reading) => {
      const { table, first_id, side, seq, time, cells } = reading;
      const by = cells['by']?.trim() ?? '';
      const typed = rowAsTyped(table, cells, others(table, cells));
      return { table, row_id: first_id, words: by === '' ? typed : `${typed}, by ${by}`, side, seq, time };
    }),
    choices: choices.map(({ key, order, moves }) => ({
      key,
      order: order.map(({ first_id }) => first_id),
      moves: moves.map(({ reading, seq }) => ({ table: reading.table, row_id: reading.first_id, seq })),
    })),
    differs: differences(choices.map(({ gives }) => gives)),
  };
}

type Cells = Readonly<Record<string, string>>;

/**
 * Rows of the series from which the name of one must distinguish it: those of its minute, and one of every day. Each table
 * is looked through once, as a name is wanted for each of thousands of readings.
 */
function othersIn(
  source: RowSource,
  { kind, name }: Series,
): (table: TableName, cells: Cells) => readonly Cells[] {
  const dayOf = ({ time }: Cells): string => dateOf(time?.trim()) ?? '';
  const minuteOf = (cells: Cells): string => `${dayOf(cells)} ${clockOf(cells['time']?.trim())}`;
  const known = new Map<TableName, { days: Cells[]; minutes: Map<string, Cells[]> }>();
  return (table, cells) => {
    let found = known.get(table);
    if (found === undefined) {
      const rows = source.rows(table).flatMap((row) => (row.cells[kind]?.trim() === name ? [row.cells] : []));
      const days = [...new Map(rows.map((row) => [dayOf(row), row])).values()];
      found = { days, minutes: Map.groupBy(rows, minuteOf) };
      known.set(table, found);
    }
    return [...new Set([...(found.minutes.get(minuteOf(cells)) ?? []), ...found.days])];
  };
}
