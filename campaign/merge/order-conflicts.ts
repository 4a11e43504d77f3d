/**
 * Readings that were written here and in the copy into one series, neither knowing of the other's. Where their order
 * changes a number a person is asked; where it changes none they are put in the order of their clocks.
 */
import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex, utf8ToBytes } from '@noble/hashes/utils.js';
import { readingOf, toMove, typedReadings } from '@stillstand/campaign/document';
import { clashesIn, type OrderClash } from '@stillstand/campaign/order';
import { type Change, withCommas } from '@stillstand/campaign/replica';
import { capital, placeName, rowName, schemas, type TableName } from '@stillstand/campaign/tables';
import type { Copy } from './copy.ts';
import { bySide, LATER, type Meeting, type Question, sidesOf } from './meeting.ts';
import type { ConflictChoice, ConflictSide, MergeConflict } from './shape.ts';

const READINGS = (Object.keys(schemas) as TableName[]).filter((table) => schemas[table].readings);

/** Clashes that the merge makes: among readings of the copy and readings that are here. */
export function clashesOf({ ours, theirs, merged }: Meeting): OrderClash[] {
  const only = (copy: Copy, other: Copy): ReadonlySet<string> =>
    new Set(
      READINGS.flatMap((table) =>
        copy.rows(table).flatMap(({ row_id }) => (other.row(table, row_id) === undefined ? [row_id] : [])),
      ),
    );
  const there = only(theirs, ours);
  if (there.size === 0) return [];
  return clashesIn(merged.document(), only(ours, theirs), there).filter(
    ({ readings }) =>
      readings.some(({ side }) => side === 'theirs') && readings.some(({ side }) => side !== 'theirs'),
  );
}

export const orderConflicts = (meeting: Meeting, clashes: readonly OrderClash[]): Question[] =>
  clashes
    .filter(({ differs }) => differs.length > 0)
    .map((clash) => ({
      conflict: conflictOf(meeting, clash),
      decide: (edits, key) => {
        const { moves } = clash.choices.find((choice) => choice.key === key)!;
        edits.together(() => {
          for (const { table, row_id, seq } of moves) edits.move(table, row_id, seq);
        });
      },
    }));

/**
 * The moves where the order changes nothing. Two devices that merge each other's copies at once write the very same rows
 * under the same identities, without a hand or a time: they are one row each.
 */
export const movesByClock = ({ merged }: Meeting, clashes: readonly OrderClash[]): Change[] =>
  clashes
    .filter(({ differs }) => differs.length === 0)
    .flatMap(({ choices }) => choices.find(({ key }) => key === 'clock')!.moves)
    .flatMap(({ table, row_id, seq }) => {
      const reading = readingOf(table, merged.rows(table), row_id)!;
      return toMove(table, reading, String(seq)).flatMap((cells): Change[] => {
        const isComma = merged.read(table)?.table.dialect.decimal_comma === true;
        const said = { ...(isComma ? withCommas(table, cells) : cells), amend_reason: BY_CLOCK };
        const id = `m-${digest([table, ...Object.entries(said).sort().flat()])}`;
        return merged.row(table, id) === undefined
          ? [{ kind: 'add', table, row_id: id, cells: { ...said, row_id: id } }]
          : [];
      });
    });

const BY_CLOCK = 'placed by the clock where two copies met';

/** 80 bits, as in identities that the campaign derives. */
const digest = (words: readonly string[]): string =>
  bytesToHex(sha256(utf8ToBytes(JSON.stringify(words)))).slice(0, 20);

function conflictOf({ merged }: Meeting, { series, readings, choices, differs }: OrderClash): MergeConflict {
  const [first] = readings;
  const cellsOf = (row_id: string): Readonly<Record<string, string>> => {
    const { table } = readings.find((reading) => reading.row_id === row_id)!;
    return merged.row(table, row_id)?.cells ?? {};
  };
  const isPair = readings.length === 2;
  const orders = choices.filter(
    ({ order }, i) => choices.findLastIndex((other) => other.order.join() === order.join()) === i,
  );
  return {
    key: `order ${series.kind} ${series.name} ${digest(readings.map(({ row_id }) => row_id).sort())}`,
    kind: 'order',
    table: first!.table,
    row_id: first!.row_id,
    column: 'seq',
    name: `${capital(series.kind)} ${series.name}: ${isPair ? 'two readings hold one place' : `${readings.length} readings hold the same places`}`,
    was: '',
    sides: readings
      .map(({ row_id, side, words, time }): ConflictSide => {
        const { by = '', device = '' } = cellsOf(row_id);
        return { side, value: words, words, by, device, time: time ?? '', reason: '' };
      })
      .sort(bySide),
    choices: [
      ...orders.map(({ key, order }): ConflictChoice => {
        const { table } = readings.find(({ row_id }) => row_id === order[0])!;
        return {
          key,
          side: key === 'clock' ? null : key,
          words: isPair ? `Keep both, ${rowName(table, cellsOf(order[0]!))} first` : BY_SIDE[key],
        };
      }),
      LATER,
    ],
    effect: differs,
    until: 'They keep their numbers until this is decided.',
  };
}

const BY_SIDE = {
  clock: 'Order by clock',
  ours: 'Put readings here first',
  theirs: 'Put readings of the copy first',
};

/** Readings that were moved here and in the copy to different places. */
export const placeConflicts = (meeting: Meeting): Question[] =>
  READINGS.flatMap((table) =>
    typedReadings(table, meeting.merged.rows(table)).all.flatMap(({ first, place }): Question[] => {
      const { between, by } = place;
      const there = readingOf(table, meeting.ours.rows(table), first.row_id)?.place.between ?? [];
      const ids = (rows: readonly { row_id: string }[]): string =>
        JSON.stringify(rows.map(({ row_id }) => row_id).sort());
      if (between.length === 0 || ids(between) === ids(there)) return [];
      const whose = sidesOf(meeting, between, (copy, row) => copy.row(table, row.row_id) !== undefined);
      const seqOf = ({ cells }: { cells: Readonly<Record<string, string>> }): string =>
        cells['seq']?.trim() ?? '';
      const sides = between
        .map((row): ConflictSide => {
          const { by: who = '', device = '', time = '', amend_reason: reason = '' } = row.cells;
          const value = seqOf(row);
          return { side: whose.get(row)!, value, words: `number ${value}`, by: who, device, time, reason };
        })
        .sort(bySide);
      const places = [...Map.groupBy(sides, ({ value }) => value)];
      return [
        {
          conflict: {
            key: `place ${table} ${first.row_id}`,
            kind: 'order',
            table,
            row_id: first.row_id,
            column: 'seq',
            name: `${capital(placeName(table, first.cells))}: moved to two places`,
            was: seqOf(by),
            sides,
            choices: [
              ...places.map(([value, [one]]) => ({
                key: value,
                side: one!.side,
                words: `Keep number ${value}`,
              })),
              LATER,
            ],
            effect: [],
            until: `It stays number ${seqOf(by)} until this is decided.`,
          },
          decide: (edits, seq) => edits.move(table, first.row_id, Number(seq.replace(',', '.'))),
        },
      ];
    }),
  );
