/** One hole's pages of the field book: every reading gets its number and its time. */
import type { TableName } from '@stillstand/campaign/tables';
import { type Cells, type Clock, type Sheets, tick } from './sheet.ts';

type ReadingTable =
  | 'ground_levels'
  | 'string_items'
  | 'drives'
  | 'soundings'
  | 'water_added'
  | 'runs'
  | 'pieces'
  | 'pushes'
  | 'sections';

export interface FieldBook {
  hole: string;
  /** Writes a reading `minutes` after the last and gives its row_id. */
  read<T extends ReadingTable & TableName>(table: T, by: string, minutes: number, cells: Cells<T>): string;
  /** On to another day; the clock starts in the morning. */
  nextDay(day: string): void;
  minute(): number;
}

export function openBook(sheets: Sheets, hole: string, day: string, device: string): FieldBook {
  let seq = 0;
  const clock: Clock = { day, minute: 7 * 60 + 40 };
  return {
    hole,
    read(table, by, minutes, cells) {
      seq += 1;
      const common = { hole, seq, time: tick(clock, minutes), by, device };
      return sheets.write(table, { ...common, ...cells } as Cells<typeof table>);
    },
    nextDay(next) {
      clock.day = next;
      clock.minute = 7 * 60 + 20;
    },
    minute: () => clock.minute,
  };
}
