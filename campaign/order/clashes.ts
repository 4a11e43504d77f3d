/** Readings whose order nobody knows: by what orders they may have come, what that changes, and what settles it. */
import { type CampaignDocument, withNewNames } from '@stillstand/campaign/document';
import { type HoleState, type RowSource, rowsOfDocument } from '@stillstand/campaign/holes';
import { rowAsTyped, type TableName } from '@stillstand/campaign/tables';
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
    return contests.map((contest) => clashOf(series, contest, numbers, source));
  });
}

const sideOf = ({ first_id }: Placed, ours: ReadonlySet<string>, theirs: ReadonlySet<string>): OrderSide =>
  ours.has(first_id) ? 'ours' : theirs.has(first_id) ? 'theirs' : 'both';

function clashOf(series: Series, contest: Contest, numbers: NumbersOf, source: RowSource): OrderClash {
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
      const typed = rowAsTyped(table, cells, othersOf(source, table, series));
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

/** Rows of the series, from which the name of one must distinguish it. */
const othersOf = (source: RowSource, table: TableName, { kind, name }: Series) =>
  source.rows(table).flatMap(({ cells }) => (cells[kind]?.trim() === name ? [cells] : []));
