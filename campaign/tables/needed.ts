/** Whether a row may leave a cell blank. */
import { plainWord } from './cell.ts';
import type { Column } from './column.ts';

/** Whether a row cannot be used without that cell; `textOf` gives the other cells of the row as typed. */
export const isNeeded = ({ required, unless }: Column, textOf: (column: string) => string): boolean =>
  required ||
  (unless !== undefined &&
    !Object.entries(unless).some(([column, words]) => {
      const typed = plainWord(textOf(column));
      return typed !== '' && (words.length === 0 || words.includes(typed));
    }));
