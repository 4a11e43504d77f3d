/**
 * The gear list as the crew keeps it: computed lines, amounts of their own, lines of their own, and what is packed for
 * which day. Nothing that was entered is refused: what looks wrong is named.
 */

import type { TypedRow } from '@stillstand/campaign/document';
import { columnName, readCell, schemas } from '@stillstand/campaign/tables';
import type { GearLine } from './gear-list.ts';

export interface PackingLine {
  /** Of a computed line its stable name; null for one of the crew's own. */
  line: string | null;
  item: string;
  unit: string;
  computed: GearLine | null;
  /** What is taken: the crew's own amount, else the computed one; null where neither is known. */
  amount: number | null;
  isOwnAmount: boolean;
  isPacked: boolean;
  /** So much is missing of it; 0: enough; null: what is at hand is not recorded. */
  short: number | null;
  /** What looks wrong about the crew's own amount, in sentences. */
  doubts: string[];
  /** Its row in the table `packing`; null where the crew changed nothing. */
  row_id: string | null;
}

/** More than so many times the computed amount is more likely a slip or another unit; our choice. */
const FAR_TOO_MUCH = 5;

/** Computed lines in their order, then the crew's own; ticks are those of this day, `2024-03-05`. */
export function packingList(
  lines: readonly GearLine[],
  rows: readonly TypedRow[],
  date: string,
): PackingLine[] {
  const cell = (row: TypedRow | undefined, column: string): string => row?.cells[column]?.trim() ?? '';
  const rowOf = new Map(rows.map((row) => [cell(row, 'line'), row]));
  const isComputed = new Set(lines.map(({ line }) => line));
  const own = rows.filter((row) => !isComputed.has(cell(row, 'line')));
  return [
    ...lines.map((line) => lineOf(line, rowOf.get(line.line))),
    // A tick alone, on a line that no hole needs any more, is no line.
    ...own
      .filter((row) => cell(row, 'line') === '' || cell(row, 'amount') !== '')
      .map((row) => lineOf(null, row)),
  ];

  function lineOf(computed: GearLine | null, row: TypedRow | undefined): PackingLine {
    const typed = readAmount(cell(row, 'amount'));
    const unit = cell(row, 'unit') || (computed?.unit ?? '');
    const amount = typed.amount ?? computed?.amount ?? null;
    const hand = computed?.atHand.amount ?? null;
    return {
      line: computed === null ? null : computed.line,
      item: computed?.item ?? cell(row, 'item'),
      unit,
      computed,
      amount,
      isOwnAmount: typed.amount !== null,
      isPacked: date !== '' && cell(row, 'packed') === date,
      short:
        hand === null || amount === null || isOtherUnit(computed, unit) ? null : Math.max(0, amount - hand),
      doubts: [...typed.doubts, ...(typed.amount === null ? [] : doubtsOf(typed.amount, unit, computed))],
      row_id: row?.row_id ?? null,
    };
  }
}

const isOtherUnit = (computed: GearLine | null, unit: string): boolean =>
  computed !== null && unit.toLowerCase() !== computed.unit.toLowerCase();

function readAmount(typed: string): { amount: number | null; doubts: string[] } {
  if (typed === '') return { amount: null, doubts: [] };
  const { value, fault } = readCell(columnName('packing', 'amount'), schemas.packing.columns.amount, typed, {
    decimal_comma: /^\d+,\d+$/.test(typed),
  });
  if (typeof value === 'number') return { amount: value, doubts: [] };
  return { amount: null, doubts: [`Found “${typed}”; expected ${fault!.expected}. ${fault!.fix}`] };
}

function doubtsOf(amount: number, unit: string, computed: GearLine | null): string[] {
  if (computed === null) return [];
  const said = (value: number, of: string): string => [value, of].filter((part) => part !== '').join(' ');
  if (isOtherUnit(computed, unit))
    return [
      `Found “${said(amount, unit)}”; expected ${computed.unit === '' ? 'a number of pieces' : computed.unit}. Check unit and amount.`,
    ];
  const { amount: usual } = computed;
  if (usual === null) return [];
  if (amount > FAR_TOO_MUCH * usual && usual > 0)
    return [
      `${said(amount, unit)} is more than ${FAR_TOO_MUCH} times the ${said(usual, unit)} computed. Check unit and amount.`,
    ];
  return amount < usual ? [`Less than the ${said(usual, unit)} computed.`] : [];
}
