/** Which columns hold a word of a list, and not what somebody typed. */
import type { Column } from './column.ts';
import { schemas, type TableName } from './schemas.ts';

/** False for a column that the table has not. */
export const isChoice = (table: TableName, column: string): boolean =>
  (schemas[table].columns as Readonly<Record<string, Column>>)[column]?.kind === 'choice';
