/** What the tables of a campaign are: columns, kinds, row types, and how a cell of each kind is read. */

export { type CellValue, choiceFault, plainHeading, plainWord, readCell } from './cell.ts';
export { isChoice } from './choice-column.ts';
export type { Column, Columns, TideLevelName, TideWord } from './column.ts';
export { TIDE_LEVELS } from './column.ts';
export { choiceName, columnName, settingName } from './column-name.ts';
export type { Fault } from './fault.ts';
export { isColumnForLater, isRecordOnly, isTableForLater } from './for-later.ts';
export { clockOf, dateOf, daysBetween, isIsoDate, momentOf } from './iso-time.ts';
export { type LabelCodeRead, type Labelled, labelCode, readLabelCode } from './label-code.ts';
export {
  BARE_UNITS,
  bareUnit,
  type LengthOptions,
  type LengthUnit,
  type ParsedLength,
  parseLength,
} from './length.ts';
export { type Limit, readLimit } from './limit.ts';
export { type Link, linksOf, namedColumns, namingTables } from './links.ts';
export { listed } from './listed.ts';
export { nearest } from './near.ts';
export { isNeeded } from './needed.ts';
export { rowAsTyped } from './row-as-typed.ts';
export { capital, countedRows, countedTables, placeName, rowName, tableWords } from './row-name.ts';
export { asNamed, sameName } from './same-name.ts';
export { isTableName, PUBLISHED_CURVES, type Row, schemas, type TableName } from './schemas.ts';
export { looksLikeDate } from './spreadsheet-date.ts';
export { labelColumn, type TableSchema, tableSchema } from './table-schema.ts';
export { parseTideWord } from './tide-word.ts';
