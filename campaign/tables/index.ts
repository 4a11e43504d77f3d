/** What the tables of a campaign are: columns, kinds, row types. */
export type { Column, Columns, TideLevelName, TideWord } from './column.ts';
export { TIDE_LEVELS } from './column.ts';
export { type Row, schemas, type TableName } from './schemas.ts';
