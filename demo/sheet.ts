/** The sheets people fill in: rows of text per table, lengths as they are typed, times with their offset. */

import type { schemas, TableName } from '@stillstand/campaign/tables';
import { FOOT_M, INCH_M, power, type RandomStream } from '@stillstand/science/base';

type ColumnName<T extends TableName> = keyof (typeof schemas)[T]['columns'] & string;
export type Cells<T extends TableName> = { [Name in ColumnName<T>]?: string | number | boolean | undefined };

/** A row as written: empty cells are left out. */
type SheetRow = { [Name in { [T in TableName]: ColumnName<T> }[TableName]]?: string };

export interface Sheets {
  rows: Map<TableName, SheetRow[]>;
  /** Writes a row and gives its row_id. */
  write<T extends TableName>(table: T, cells: Cells<T>): string;
}

/** Empty sheets whose row ids are drawn from `stream`. */
export function emptySheets(stream: RandomStream): Sheets {
  const rows = new Map<TableName, SheetRow[]>();
  return {
    rows,
    write(table, cells) {
      const row_id = opaqueId(stream);
      const row: SheetRow = { row_id };
      for (const [column, cell] of Object.entries(cells)) {
        if (cell !== undefined && cell !== '') row[column as keyof SheetRow] = String(cell);
      }
      const sheet = rows.get(table);
      if (sheet === undefined) rows.set(table, [row]);
      else sheet.push(row);
      return row_id;
    },
  };
}

/** No vowels, so that no word comes about. */
const ID_LETTERS = '23456789bcdfghjkmnpqrstvwxz';

function opaqueId(stream: RandomStream): string {
  let id = '';
  for (let i = 0; i < 10; i++) id += ID_LETTERS[stream.integer(ID_LETTERS.length)];
  return id;
}

/** "3.05 m" */
export const metres = (length_m: number, decimals = 2): string => `${plain(length_m, decimals)} m`;

/** "305 cm" */
export const centimetres = (length_m: number): string => `${plain(length_m * 100, 0)} cm`;

/** "9 ft 11 1/2 in", to the nearest 1/`parts` inch; minus in front of the whole. */
export function feet(length_m: number, parts: 2 | 4 = 4): string {
  const steps = Math.round((Math.abs(length_m) / INCH_M) * parts);
  const ft = Math.floor(steps / (12 * parts));
  const inches = Math.floor((steps % (12 * parts)) / parts);
  let numerator = steps % parts;
  let denominator: number = parts;
  if (numerator === 2 && denominator === 4) {
    numerator = 1;
    denominator = 2;
  }
  const words = [];
  if (ft > 0) words.push(`${ft} ft`);
  if (numerator > 0) words.push(`${inches > 0 ? `${inches} ` : ''}${numerator}/${denominator} in`);
  else if (inches > 0 || ft === 0) words.push(`${inches} in`);
  return `${length_m < 0 && steps > 0 ? '-' : ''}${words.join(' ')}`;
}

/** Length that `feet` writes, metres. */
export const feetValue = (length_m: number, parts: 2 | 4 = 4): number =>
  (Math.round((length_m / FOOT_M) * 12 * parts) / (12 * parts)) * FOOT_M;

/** A number to so many decimals, without a negative zero. */
export function plain(value: number, decimals: number): string {
  const scale = power(10, decimals);
  const rounded = Math.round(value * scale) / scale;
  return (rounded === 0 ? 0 : rounded).toFixed(decimals);
}

/** A field clock: a day of the campaign and minutes past midnight, local time eight hours behind UTC. */
export interface Clock {
  day: string;
  minute: number;
}

/** Moves the clock on and tells the time, ISO 8601 with offset. */
export function tick(clock: Clock, minutes: number): string {
  clock.minute += minutes;
  const minute = Math.floor(clock.minute);
  const two = (n: number) => String(n).padStart(2, '0');
  return `${clock.day}T${two(Math.floor(minute / 60))}:${two(minute % 60)}:00-08:00`;
}
