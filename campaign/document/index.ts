/** The document of a campaign: bytes to cells and back without loss, and cells to the validated campaign. */
export {
  type Choice,
  choicesOf,
  readingOf,
  toAmend,
  toDecide,
  toMove,
  toRestore,
  toWithdraw,
  wordings,
} from './amending.ts';
export { readCells, rowDoubt } from './cells.ts';
export { changedSince, checksums } from './checksums.ts';
export { concatenated } from './concatenated.ts';
export { readCsv } from './csv.ts';
export { dependents, type RowRef, type TypedTables, type Unresolved, unresolved } from './dependents.ts';
export {
  type CampaignDocument,
  type Cells,
  type Dialect,
  DOCUMENT_VERSION,
  type DocumentRow,
  type DocumentTable,
  HISTORY_PATH,
  isJsonObject,
  type Json,
  type JsonObject,
  PACKAGE_PATH,
  rowsOf,
  withRows,
} from './document.ts';
export { decode } from './encoding.ts';
export { isTablePath, readFiles, writeFiles } from './files.ts';
export { firstNameOf, newColumn, renamedColumns, tableCalled, withNewNames } from './old-names.ts';
export { newDocument, newPackage, resource } from './package.ts';
export type { Reading } from './parse/amendments.ts';
export type { Amendment, Campaign, SkippedRow } from './parse/campaign.ts';
export { compareReadings, type InOrder } from './parse/order.ts';
export { parseCampaign } from './parse/parse.ts';
export { rowIds } from './parse/row-ids.ts';
export {
  readColumns,
  rowsInForce,
  SERIES,
  type TypedRow,
  typedReadings,
  typedSeq,
} from './parse/typed-readings.ts';
export { unsafePath } from './path.ts';
export { leftOutList, leftOutPaths, PHOTOS_LEFT_OUT } from './photos-left-out.ts';
export { type ProblemWords, problemWords } from './problem-words.ts';
export { type TypedCells, typedCells } from './typed-cells.ts';
export {
  filesOfZip,
  PACKED_CAMPAIGN,
  PACKED_CHECKSUMS,
  readZip,
  writeZip,
  zipBlob,
  zipChunks,
  zipOf,
} from './zip.ts';
