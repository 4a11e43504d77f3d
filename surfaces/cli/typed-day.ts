/** A day as it is typed on the command line. */
import { isIsoDate } from '@stillstand/campaign/tables';
import { WrongUse } from './command.ts';

/**
 * The same, where it is a day that exists: nothing is overdue on 31 February. `option`: the one it is typed after.
 * @throws WrongUse
 */
export function typedDay(text: string, option?: string): string {
  if (isIsoDate(text)) return text;
  throw new WrongUse(
    `${option === undefined ? 'Found' : `--${option}: found`} “${text}”, expected a date that exists, year first: 2024-03-05`,
  );
}
