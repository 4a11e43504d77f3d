/** Values that are only a limit, and rows that were rejected: what they may lack, and how the cell is read. */
import { plainWord, readLimit } from '@stillstand/campaign/tables';
import type { Draft, RowFault, TableFrame } from './draft.ts';

/** What a row says of itself before its cells are read. */
export interface Standing {
  /** As it stands in its own column, or in the value: "> 48000". */
  qualifier: string | null;
  isRejected: boolean;
}

export function standingOf(frame: TableFrame, textOf: (column: string) => string): Standing {
  const has = (name: string): boolean => frame.columns.some((column) => column.name === name);
  if (!has('qualifier'))
    return { qualifier: null, isRejected: has('status') && isRejectedWord(textOf('status')) };
  const typed = plainWord(textOf('qualifier'));
  return {
    qualifier: typed === '' ? (readLimit(textOf('value'))?.qualifier ?? null) : typed,
    isRejected: has('status') && isRejectedWord(textOf('status')),
  };
}

const isRejectedWord = (text: string): boolean => plainWord(text) === 'rejected';

/** The number in a cell that states a limit with it; the cell as it is elsewhere. */
export function withoutLimit(name: string, text: string, { qualifier }: Standing): string {
  return name === 'value' && qualifier !== null ? (readLimit(text)?.value ?? text) : text;
}

/** Whether a row may leave a required cell blank: a limit has no error, what was not determined no value. */
export function mayLack(name: string, { qualifier, isRejected }: Standing): boolean {
  if (isRejected) return name !== 'row_id';
  return qualifier !== null && (name === 'error' || (name === 'value' && qualifier === 'not_determined'));
}

/**
 * Nothing is computed from a rejected row that would be missed: what is wrong with it is worth a note and no more. The
 * row is still kept, with its reason.
 */
export const faultOf = ({ values }: Draft, fault: RowFault): RowFault =>
  values['status'] === 'rejected' && (fault.severity === 'error' || fault.severity === 'warning')
    ? { ...fault, severity: 'note' }
    : fault;
